"""Time and distance to a station from a change of bearing: the rules of thumb and the truth.

The rules hold in calm air, for small changes, and for an aircraft that begins with the station on
its wing tip, abeam. `timed_runs` flies the same runs, wind and turn included, and so tells how
wrong they are.
"""

import numpy as np
from numpy.typing import ArrayLike

from vorlib.core.arguments import ArgumentError, FloatArray, finite, first, positive
from vorlib.core.scalars import namespace

RULE_MINUTES = 60.0  # minutes to the station = 60 x minutes flown / degrees changed


def time_to_station_min(minutes: ArrayLike, bearing_change_deg: ArrayLike) -> FloatArray:
    """Return minutes to the station by the wing-tip rule: 60 x minutes / degrees.

    Parameters
    ----------
    minutes
        Flown while the bearing changed, more than 0.
    bearing_change_deg
        Degrees it changed, either way, more than 0 and less than 180.

    Notes
    -----
    PHAK (FAA-H-8083-25), navigation chapter, time and distance check: 10 degrees in 75 seconds is
    7.5 minutes.

    >>> float(time_to_station_min(1.25, 10))
    7.5
    """
    flown = positive("minutes", minutes, "min")
    return RULE_MINUTES * flown / checked_change_deg(bearing_change_deg)


def distance_to_station_nm(
    true_airspeed_kt: ArrayLike, minutes: ArrayLike, bearing_change_deg: ArrayLike
) -> FloatArray:
    """Return NM to the station by the wing-tip rule: airspeed x minutes / degrees.

    >>> float(distance_to_station_nm(120, 1.25, 10))
    15.0
    """
    speed = positive("true_airspeed_kt", true_airspeed_kt, "kt")
    return speed / 60.0 * time_to_station_min(minutes, bearing_change_deg)


def isosceles_time_to_station_min(minutes: ArrayLike) -> FloatArray:
    """Return minutes to the station when the relative bearing has doubled: the minutes flown.

    The turn onto the station then closes an isosceles triangle; exact in calm air.
    """
    return positive("minutes", minutes, "min")


def exact_abeam_distance_nm(run_nm: ArrayLike, bearing_change_deg: ArrayLike) -> FloatArray:
    """Return NM to the station from where it was abeam, after a straight run past it.

    >>> round(float(exact_abeam_distance_nm(2.5, 10)), 3)
    14.178
    """
    run, change = (
        positive("run_nm", run_nm, "NM"),
        checked_change_deg(bearing_change_deg, limit_deg=90.0),
    )
    m = namespace(run, change)
    distance: FloatArray = run / m.tan(m.radians(change))
    return distance


def exact_end_distance_nm(run_nm: ArrayLike, bearing_change_deg: ArrayLike) -> FloatArray:
    """Return NM to the station from the end of a straight run that began abeam.

    >>> round(float(exact_end_distance_nm(2.5, 10)), 3)
    14.397
    """
    run, change = (
        positive("run_nm", run_nm, "NM"),
        checked_change_deg(bearing_change_deg, limit_deg=90.0),
    )
    m = namespace(run, change)
    distance: FloatArray = run / m.sin(m.radians(change))
    return distance


def checked_change_deg(bearing_change_deg: ArrayLike, limit_deg: float = 180.0) -> FloatArray:
    """Return a change of bearing without its sign; ValueError unless it is in (0, limit_deg)."""
    change = abs(finite("bearing_change_deg", bearing_change_deg))
    wrong = (change <= 0.0) | (change >= limit_deg)
    if np.any(wrong):
        raise ArgumentError(
            f"bearing_change_deg must be more than 0 and less than {limit_deg:g} degrees, got "
            f"{first(change, wrong)}",
            argument="bearing_change_deg",
        )
    return change
