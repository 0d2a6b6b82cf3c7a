"""An error budget: what station, receiver and reading may add up to, and what that is in miles.

For training on the ground, not for planning the protection of a route.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from vorlib.core.arguments import FloatArray, finite, not_negative, positive, within


@dataclass(frozen=True)
class ErrorBudget:
    """Errors that may come together, each either way, in degrees; numbers or arrays of one shape.

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

    station_deg: ArrayLike
    receiver_deg: ArrayLike
    reading_deg: ArrayLike
    monitor_deg: ArrayLike = 0.0

    def __post_init__(self) -> None:
        for name, value in vars(self).items():
            not_negative(name, value, "degrees")

    @property
    def _parts(self) -> tuple[FloatArray, ...]:
        return tuple(finite(name, value) for name, value in vars(self).items())

    @property
    def worst_case_deg(self) -> FloatArray:
        """All errors at their greatest and all to the same side: their sum."""
        station, receiver, reading, monitor = self._parts
        return station + receiver + reading + monitor

    @property
    def root_sum_square_deg(self) -> FloatArray:
        """Independent errors together: the root of the sum of their squares.

        Source: ICAO Annex 10 volume I, attachment C 3.7.3, in a copy.
        """
        total: FloatArray = np.sqrt(sum(part * part for part in self._parts))
        return total


# ICAO Doc 8168 volume II, II-3-1 appendix B, in a copy that was read once: ground system, receiver,
# flight technical error and monitor, each at 95 %.
ROUTE_BUDGET = ErrorBudget(3.5, 2.7, 3.5, 1.0)

# A learner's budget: a station's alignment (generally 1 degree, AIM 1-1-3 e 1, in a copy), a
# receiver just inside its limit on the ground (14 CFR 91.171(b)(1)), a needle held within a dot
# (chosen for teaching).
LESSON_BUDGET = ErrorBudget(1.0, 4.0, 2.0)


def half_width_nm(error_deg: ArrayLike, distance_nm: ArrayLike) -> FloatArray:
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


def distance_for_half_width_nm(error_deg: ArrayLike, half_width_nm: ArrayLike) -> FloatArray:
    """Return the distance at which an error reaches a half-width: half-width / tan(error).

    Parameters
    ----------
    error_deg
        More than 0, at most 89 degrees.
    half_width_nm
        0 or more.
    """
    error = within("error_deg", positive("error_deg", error_deg, "degrees"), 0.0, 89.0, "degrees")
    width = not_negative("half_width_nm", half_width_nm, "NM")
    distance: FloatArray = width / np.tan(np.radians(error))
    return distance
