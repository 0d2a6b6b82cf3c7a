"""Time and distance to a station from a change of bearing: the rules of thumb and the truth.

The rules hold in calm air, for small changes, and for an aircraft that begins with the station on
its wing tip, abeam. `timed_runs` flies the same runs, wind and turn included, and so tells how
wrong they are.
"""

from typing import overload

import numpy as np
from numpy.typing import ArrayLike

from vorlib.core.arguments import SMALLEST, ArgumentError, FloatArray, finite, first, positive

LARGEST_CHANGE_DEG = 180.0
# Minutes to the station = 60 x minutes flown / degrees changed: Pilot's Handbook (FAA-H-8083-25C),
# chapter 16, time and distance check (read in a copy).
RULE_MINUTES = 60.0


@overload
def time_to_station_min(minutes: float, bearing_change_deg: float) -> float: ...
@overload
def time_to_station_min(minutes: ArrayLike, bearing_change_deg: ArrayLike) -> FloatArray: ...
def time_to_station_min(minutes: ArrayLike, bearing_change_deg: ArrayLike) -> float | FloatArray:
    """Return minutes to the station by the wing-tip rule: 60 x minutes / degrees.

    Parameters
    ----------
    minutes
        Flown while the bearing changed, more than 0.
    bearing_change_deg
        Degrees it changed, either way, more than 0 and less than 180.

    Notes
    -----
    Pilot's Handbook (FAA-H-8083-25C), chapter 16, time and distance check (read in a copy): 10
    degrees in 75 seconds is 7.5 minutes.

    >>> float(time_to_station_min(1.25, 10))
    7.5
    """
    flown = positive("minutes", minutes, "min")
    return RULE_MINUTES * flown / checked_change_deg(bearing_change_deg)


@overload
def distance_to_station_nm(
    true_airspeed_kt: float, minutes: float, bearing_change_deg: float
) -> float: ...
@overload
def distance_to_station_nm(
    true_airspeed_kt: ArrayLike, minutes: ArrayLike, bearing_change_deg: ArrayLike
) -> FloatArray: ...
def distance_to_station_nm(
    true_airspeed_kt: ArrayLike, minutes: ArrayLike, bearing_change_deg: ArrayLike
) -> float | FloatArray:
    """Return NM to the station by the wing-tip rule: airspeed x minutes / degrees.

    >>> float(distance_to_station_nm(120, 1.25, 10))
    15.0
    """
    speed = positive("true_airspeed_kt", true_airspeed_kt, "kt")
    return speed / 60.0 * time_to_station_min(minutes, bearing_change_deg)


@overload
def isosceles_time_to_station_min(minutes: float) -> float: ...
@overload
def isosceles_time_to_station_min(minutes: ArrayLike) -> FloatArray: ...
def isosceles_time_to_station_min(minutes: ArrayLike) -> float | FloatArray:
    """Return minutes to the station when the relative bearing has doubled: the minutes flown.

    The turn onto the station then closes an isosceles triangle; exact in calm air. Common
    practice.
    """
    return positive("minutes", minutes, "min")


@overload
def checked_change_deg(bearing_change_deg: float) -> float: ...
@overload
def checked_change_deg(bearing_change_deg: ArrayLike) -> FloatArray: ...
def checked_change_deg(bearing_change_deg: ArrayLike) -> float | FloatArray:
    """Return a change of bearing without its sign; ValueError unless it is in (0, 180)."""
    change = abs(finite("bearing_change_deg", bearing_change_deg))
    wrong = (change < SMALLEST) | (change >= LARGEST_CHANGE_DEG)
    if np.any(wrong):
        raise ArgumentError(
            f"bearing_change_deg must be more than 0 and less than {LARGEST_CHANGE_DEG:g} degrees, "
            f"got {first(change, wrong)}",
            argument="bearing_change_deg",
        )
    return change
