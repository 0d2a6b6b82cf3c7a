"""An error budget: what station, receiver and reading may add up to, and what that is in miles.

For training on the ground, not for planning the protection of a route.
"""

import math
from dataclasses import dataclass
from typing import overload

import numpy as np
from numpy.typing import ArrayLike

from vorlib.core.arguments import FloatArray, not_negative, within


@dataclass(frozen=True)
class ErrorBudget:
    """Errors that may come together, each either way, in degrees.

    Parameters
    ----------
    station_deg
        Of the station and the sky round it.
    receiver_deg
        Of the receiver and its indicator.
    reading_deg
        Of the pilot, who reads and holds the needle: pilotage, or flight technical error.
    monitor_deg
        By which the station may change before its monitor shuts it down.

    Raises
    ------
    ValueError
        If an error is negative or not finite.
    """

    station_deg: float
    receiver_deg: float
    reading_deg: float
    monitor_deg: float = 0.0

    def __post_init__(self) -> None:
        for name, value in vars(self).items():
            not_negative(name, value, "degrees")

    @property
    def worst_case_deg(self) -> float:
        """All errors at their greatest and all to the same side: their sum."""
        return self.station_deg + self.receiver_deg + self.reading_deg + self.monitor_deg

    @property
    def root_sum_square_deg(self) -> float:
        """Independent errors together: the root of the sum of their squares.

        Source: ICAO Annex 10, volume I, attachment C 3.7.3 (read in a copy).
        """
        parts = (self.station_deg, self.receiver_deg, self.reading_deg, self.monitor_deg)
        return math.sqrt(sum(part * part for part in parts))


# ICAO Doc 8168, volume II, part II, section 3, chapter 1, appendix B (read in a copy of 2006):
# ground system, receiver, flight technical error and monitor, each at 95 %.
ROUTE_BUDGET = ErrorBudget(3.5, 2.7, 3.5, 1.0)


@overload
def half_width_nm(error_deg: float, distance_nm: float) -> float: ...
@overload
def half_width_nm(error_deg: ArrayLike, distance_nm: ArrayLike) -> FloatArray: ...
def half_width_nm(error_deg: ArrayLike, distance_nm: ArrayLike) -> float | FloatArray:
    """Return how far to either side of the radial an error reaches: distance x tan(error).

    Parameters
    ----------
    error_deg
        0 to 89 degrees.
    distance_nm
        From the station, 0 or more.

    >>> round(float(half_width_nm(ROUTE_BUDGET.root_sum_square_deg, 49.8)), 2)
    4.99
    """
    error = within("error_deg", error_deg, 0.0, 89.0, "degrees")
    width: FloatArray = not_negative("distance_nm", distance_nm, "NM") * np.tan(np.radians(error))
    return width
