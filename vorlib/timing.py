"""Time and distance to a station from a change of bearing: the rules of thumb and the truth.

The rules hold in calm air, for small changes, and for an aircraft that begins with the station on
its wing tip, abeam. `timed_run` flies the same run, wind and turn included, and so tells how wrong
they are.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike

from vorlib.angles import difference_deg, wrap_360
from vorlib.checks import FloatArray, finite, first, positive
from vorlib.flight import Aircraft, State, advance, start
from vorlib.plain import namespace
from vorlib.station import Station
from vorlib.turns import bank_for_rate_deg, turn_rate_deg_s
from vorlib.units import SECONDS_PER_HOUR
from vorlib.wind import CALM, Wind, track, wind_triangle

RULE_MINUTES = 60.0  # minutes to the station = 60 x minutes flown / degrees changed
LONGEST_RUN_S = 2.0 * SECONDS_PER_HOUR


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
    return RULE_MINUTES * flown / _change(bearing_change_deg)


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
    run, change = positive("run_nm", run_nm, "NM"), _change(bearing_change_deg, limit_deg=90.0)
    m = namespace(run, change)
    distance: FloatArray = run / m.tan(m.radians(change))
    return distance


def exact_end_distance_nm(run_nm: ArrayLike, bearing_change_deg: ArrayLike) -> FloatArray:
    """Return NM to the station from the end of a straight run that began abeam.

    >>> round(float(exact_end_distance_nm(2.5, 10)), 3)
    14.397
    """
    run, change = positive("run_nm", run_nm, "NM"), _change(bearing_change_deg, limit_deg=90.0)
    m = namespace(run, change)
    distance: FloatArray = run / m.sin(m.radians(change))
    return distance


@dataclass(frozen=True)
class TimedRun:
    """A run timed past a station, then flown to it.

    Attributes
    ----------
    run_min
        Minutes until the bearing had changed.
    rule_min, rule_nm
        What the wing-tip rule answers.
    actual_min, actual_nm
        Minutes from the end of the run to the station, the turn included, and NM to it then.
    """

    run_min: float
    rule_min: float
    rule_nm: float
    actual_min: float
    actual_nm: float

    @property
    def error_percent(self) -> float:
        """How much too long the rule's time is, in percent of the actual time."""
        return 100.0 * (self.rule_min / self.actual_min - 1.0)


def timed_run(
    station: Station,
    abeam_nm: float,
    bearing_change_deg: float,
    aircraft: Aircraft,
    wind: Wind = CALM,
    true_heading_deg: float = 360.0,
) -> TimedRun:
    """Fly a run with the station off the left wing until its bearing has changed, then to it.

    Parameters
    ----------
    station
        The station.
    abeam_nm
        Distance at which the station is on the wing tip, more than 0.
    bearing_change_deg
        Change at which the run ends, more than 0, less than 180.
    aircraft, wind, true_heading_deg
        How it flies, the true wind, and the true heading of the run.

    Raises
    ------
    ValueError
        If the wind lets the bearing never change so far, or the station never be reached.
    """
    change = float(_change(bearing_change_deg))
    distance = float(positive("abeam_nm", abeam_nm, "NM"))
    off_right = true_heading_deg + 90.0 - station.declination_deg
    begin = start(station.position_on(off_right, distance), true_heading_deg)
    first_azimuth = float(station.true_azimuth_deg(begin.position))

    def changed(state: State) -> float:
        return abs(float(difference_deg(station.true_azimuth_deg(state.position), first_azimuth)))

    run_s = _when(lambda s: changed(advance(begin, aircraft, s, 0.0, wind)) - change)
    end = advance(begin, aircraft, run_s, 0.0, wind)
    speed = aircraft.true_airspeed_kt
    home_min = _minutes_home(station, end, aircraft, wind)
    return TimedRun(
        run_min=run_s / 60.0,
        rule_min=float(time_to_station_min(run_s / 60.0, change)),
        rule_nm=float(distance_to_station_nm(speed, run_s / 60.0, change)),
        actual_min=home_min,
        actual_nm=float(station.distance_nm(end.position)),
    )


def _minutes_home(station: Station, state: State, aircraft: Aircraft, wind: Wind) -> float:
    """Turn at standard rate onto the heading that leads to the station, then fly it."""
    speed = aircraft.true_airspeed_kt
    bank = min(aircraft.bank_limit_deg, float(bank_for_rate_deg(speed)))
    rate = float(turn_rate_deg_s(speed, bank))
    quick = replace(aircraft, roll_rate_deg_s=90.0)
    course = float(wrap_360(station.true_azimuth_deg(state.position) + 180.0))
    for _ in range(20):  # the turn moves the aircraft, which moves the course: settles fast
        heading = float(wind_triangle(course, speed, wind.from_deg, wind.speed_kt).heading_deg)
        turn = float(difference_deg(heading, state.true_heading_deg))
        turned = advance(state, quick, abs(turn) / rate, math.copysign(bank, turn), wind)
        line = station.inverse(turned.position)
        onward = float(wrap_360(line.true_azimuth_end_deg + 180.0))
        if abs(float(difference_deg(onward, course))) < 1e-6:
            break
        course = onward
    groundspeed = float(track(heading, speed, wind).groundspeed_kt)
    return abs(turn) / rate / 60.0 + float(line.distance_nm) / groundspeed * 60.0


def _when(past: Callable[[float], float], step_s: float = 5.0) -> float:
    """Seconds until a value that starts below zero reaches it."""
    after = step_s
    while past(after) < 0.0:
        after += step_s
        if after > LONGEST_RUN_S:
            raise ValueError("the bearing does not change so far: the wind holds the aircraft")
    low, high = after - step_s, after
    while high - low > 1e-6:
        middle = (low + high) / 2.0
        low, high = (middle, high) if past(middle) < 0.0 else (low, middle)
    return high


def _change(bearing_change_deg: ArrayLike, limit_deg: float = 180.0) -> FloatArray:
    change = abs(finite("bearing_change_deg", bearing_change_deg))
    wrong = (change <= 0.0) | (change >= limit_deg)
    if np.any(wrong):
        raise ValueError(
            f"bearing_change_deg must be more than 0 and less than {limit_deg:g} degrees, got "
            f"{first(change, wrong)}"
        )
    return change
