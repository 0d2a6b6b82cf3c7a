"""Timed runs past a station, flown with wind and turn: the truth to compare the rules with."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np

from vorlib.aircraft.flight import Aircraft, FlightState, advance, start
from vorlib.aircraft.turns import bank_for_rate_deg, turn_rate_deg_s
from vorlib.aircraft.wind import CALM, Wind, track, wind_triangle
from vorlib.core.angles import difference_deg, wrap_360
from vorlib.core.arguments import ArgumentError, finite, positive
from vorlib.core.roots import crossing
from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.earth.geodesic import Position, Positions
from vorlib.procedures.timing import (
    checked_change_deg,
    isosceles_time_to_station_min,
    time_to_station_min,
)
from vorlib.vor.station import Station

LONGEST_RUN_S = 2.0 * SECONDS_PER_HOUR
POINTS_IN_TURN = 13  # of the track that is handed on


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
    run_track, home_track
        Places flown over: from begin to end of the run, and from there to the station.
    """

    run_min: float
    rule_min: float
    rule_nm: float
    actual_min: float
    actual_nm: float
    run_track: Positions
    home_track: Positions

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
    change = float(checked_change_deg(bearing_change_deg))
    distance = float(positive("abeam_nm", abeam_nm, "NM"))
    return _flown(station, distance, 90.0, change, aircraft, wind, true_heading_deg, _wing_tip)


def isosceles_run(
    station: Station,
    distance_nm: float,
    relative_bearing_deg: float,
    aircraft: Aircraft,
    wind: Wind = CALM,
    true_heading_deg: float = 360.0,
) -> TimedRun:
    """Fly with the station left of the nose until its relative bearing has doubled, then to it.

    Parameters
    ----------
    station
        The station.
    distance_nm
        Distance to it at the start, more than 0.
    relative_bearing_deg
        How far left of the nose it is then, more than 0, less than 90.
    aircraft, wind, true_heading_deg
        As for `timed_run`.

    Raises
    ------
    ValueError
        As `timed_run`.
    """
    distance = float(positive("distance_nm", distance_nm, "NM"))
    off = float(finite("relative_bearing_deg", relative_bearing_deg))
    if not 0.0 < off < 90.0:
        raise ArgumentError(
            f"relative_bearing_deg must be more than 0 and less than 90 degrees, got {off:g}",
            argument="relative_bearing_deg",
        )
    return _flown(station, distance, off, off, aircraft, wind, true_heading_deg, _isosceles)


Rule: TypeAlias = Callable[[float, float], float]
"""From minutes flown and degrees changed to minutes to the station."""


def _wing_tip(minutes: float, change_deg: float) -> float:
    return float(time_to_station_min(minutes, change_deg))


def _isosceles(minutes: float, change_deg: float) -> float:
    return float(isosceles_time_to_station_min(minutes))


def _flown(
    station: Station,
    distance_nm: float,
    left_deg: float,
    change_deg: float,
    aircraft: Aircraft,
    wind: Wind,
    true_heading_deg: float,
    rule: Rule,
) -> TimedRun:
    """Fly a run that begins with the station some degrees left of the nose, then to it."""
    away = true_heading_deg - left_deg + 180.0 - station.declination_deg
    begin = start(station.position_on(away, distance_nm), true_heading_deg)
    first_azimuth = float(station.true_azimuth_deg(begin.position))

    def changed(state: FlightState) -> float:
        return abs(float(difference_deg(station.true_azimuth_deg(state.position), first_azimuth)))

    run_s = _when(lambda s: changed(advance(begin, aircraft, s, 0.0, wind)) - change_deg)
    end = advance(begin, aircraft, run_s, 0.0, wind)
    home_min, turn = _way_home(station, end, aircraft, wind)
    rule_min = rule(run_s / 60.0, change_deg)
    return TimedRun(
        run_min=run_s / 60.0,
        rule_min=rule_min,
        rule_nm=aircraft.true_airspeed_kt / 60.0 * rule_min,
        actual_min=home_min,
        actual_nm=float(station.distance_nm(end.position)),
        run_track=_places([begin.position, end.position]),
        home_track=_places([*(state.position for state in turn), station.position]),
    )


def _places(positions: list[Position]) -> Positions:
    """Return single places as one array of them, on the ground."""
    return Position(
        np.array([p.lat_deg for p in positions]),
        np.array([p.lon_deg for p in positions]),
    )


def _way_home(
    station: Station, state: FlightState, aircraft: Aircraft, wind: Wind
) -> tuple[float, list[FlightState]]:
    """Turn at standard rate onto the heading that leads to the station, then fly it.

    Returns the minutes that both take, and the states through the turn.
    """
    speed = aircraft.true_airspeed_kt
    bank = min(aircraft.bank_limit_deg, float(bank_for_rate_deg(speed)))
    rate = float(turn_rate_deg_s(speed, bank))
    quick = replace(aircraft, roll_rate_deg_s=90.0)
    course = float(wrap_360(station.true_azimuth_deg(state.position) + 180.0))
    for _ in range(20):  # the turn moves the aircraft, which moves the course: settles fast
        heading = float(wind_triangle(course, speed, wind.from_deg, wind.speed_kt).heading_deg)
        turn = float(difference_deg(heading, state.true_heading_deg))
        bank_deg, turn_s = math.copysign(bank, turn), abs(turn) / rate
        line = station.inverse(advance(state, quick, turn_s, bank_deg, wind).position)
        onward = float(wrap_360(line.true_azimuth_end_deg + 180.0))
        if abs(float(difference_deg(onward, course))) < 1e-6:
            break
        course = onward
    groundspeed = float(track(heading, speed, wind).groundspeed_kt)
    minutes = turn_s / 60.0 + float(line.distance_nm) / groundspeed * 60.0
    states = [state]
    for _ in range(POINTS_IN_TURN - 1):
        states.append(advance(states[-1], quick, turn_s / (POINTS_IN_TURN - 1), bank_deg, wind))
    return minutes, states


def _when(past: Callable[[float], float], step_s: float = 30.0) -> float:
    """Seconds until a value that starts below zero reaches it."""
    after = step_s
    while past(after) < 0.0:
        after += step_s
        if after > LONGEST_RUN_S:
            raise ArgumentError(
                "the bearing never changes that much: the wind holds the aircraft back",
                argument="wind",
            )
    return crossing(past, after - step_s, after, 1e-6)
