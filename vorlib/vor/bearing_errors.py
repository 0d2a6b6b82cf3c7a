"""What makes a received bearing differ from the radial: alignment, receiver, bends, scalloping."""

from dataclasses import dataclass
from typing import Any, overload

import numpy as np
from numpy.typing import ArrayLike

from vorlib.core.angles import fold_180
from vorlib.core.arguments import FloatArray, bounded, finite, not_negative

# Lengths along a radial over which the two kinds of course wandering repeat. Bends are slow enough
# to be followed by an aircraft, scalloping is not; the figures are chosen for teaching.
BEND_LENGTH_NM = 4.0
SCALLOP_LENGTH_NM = 0.3
# Waves around the circle for each, whole numbers so that radial 360 meets radial 001.
BEND_LOBES, SCALLOP_LOBES = 7, 41


@dataclass(frozen=True)
class BearingErrors:
    """Errors of a received bearing, in degrees, positive clockwise; all off by default.

    Parameters
    ----------
    station_deg
        Constant alignment error of the station; about 1 degree is usual: AIM 1-1-3 e 1 (read in a
        copy).
    receiver_deg
        Constant error of the receiver; a check on the ground allows 4 in the United States: 14 CFR
        91.171(b)(1) (read in a copy).
    bends_deg, scalloping_deg
        Greatest size, 0 or more, of slow and of fast wandering of the course.
    seed
        Chooses where the bends and scallops lie; the same seed gives the same sky.
    """

    station_deg: float = 0.0
    receiver_deg: float = 0.0
    bends_deg: float = 0.0
    scalloping_deg: float = 0.0
    seed: int = 0

    def __post_init__(self) -> None:
        bounded("station_deg", self.station_deg, "degrees")
        bounded("receiver_deg", self.receiver_deg, "degrees")
        not_negative("bends_deg", self.bends_deg, "degrees")
        not_negative("scalloping_deg", self.scalloping_deg, "degrees")

    @overload
    def at(self, radial_deg: float, distance_nm: float) -> float: ...
    @overload
    def at(self, radial_deg: ArrayLike, distance_nm: ArrayLike) -> FloatArray: ...
    def at(self, radial_deg: ArrayLike, distance_nm: ArrayLike) -> float | FloatArray:
        """Return the error in degrees of the bearing received on a radial at a distance in NM."""
        radial: Any = np.radians(fold_180(finite("radial_deg", radial_deg)))
        distance: Any = 2.0 * np.pi * not_negative("distance_nm", distance_nm, "NM")
        phase = np.random.default_rng(self.seed).uniform(0.0, 2.0 * np.pi, 2)
        bend = np.sin(distance / BEND_LENGTH_NM + BEND_LOBES * radial + phase[0])
        scallop = np.sin(distance / SCALLOP_LENGTH_NM + SCALLOP_LOBES * radial + phase[1])
        wandering = self.bends_deg * bend + self.scalloping_deg * scallop
        error: FloatArray = self.station_deg + self.receiver_deg + wandering
        return error if error.ndim else float(error)
