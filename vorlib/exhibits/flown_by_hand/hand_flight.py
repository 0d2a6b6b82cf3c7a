"""A flight by hand as one frozen state: the aircraft, its settings, and what was flown.

The learner commands the same model of the aircraft as the pilots of `vorlib.procedures.pilots`, and
the commands are read as often: ten times a second of flight, whatever the speed of the simulation.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from typing import NamedTuple

import numpy as np

from vorlib.aircraft import flight
from vorlib.aircraft.stretch import bank_toward
from vorlib.aircraft.wind import Wind
from vorlib.core.angles import difference_deg, wrap_360
from vorlib.core.arguments import not_negative, within
from vorlib.earth.geodesic import Position, Positions
from vorlib.earth.variation import variation_deg
from vorlib.stations.archipelago import STATIONS, TODAY
from vorlib.vor.receiver import Reading, Receiver
from vorlib.vor.station import Station

__all__ = ["AT_START", "FlightTask", "HandFlightState", "Logged", "flown", "tasks_done"]

LOOK_S = 0.1  # as for the pilots of vorlib.procedures.pilots
LOOKS_PER_MARK = 10  # log one moment a second
LONGEST_S = 3 * 3600.0
MOST_TRACK_POINTS = 200
STEEPEST_DEG = 20.0  # the aircraft's limit


class Logged(NamedTuple):
    """One logged moment: the aircraft, the station tuned, the course, whether it was identified."""

    now: flight.FlightState
    station: str
    course_deg: float
    identified: bool


@dataclass(frozen=True)
class FlightTask:
    """Something to do in flight: the words that ask for it, and when it is done.

    Attributes
    ----------
    words
        What to do, in a short sentence.
    done
        Takes the present state and tells whether it is done; it must not depend on the log.
    """

    words: str
    done: Callable[[HandFlightState], bool]


# The changes that put the aircraft back at the start and clear what was flown.
AT_START = {"now": None, "held_bank_deg": 0.0, "kept": (), "tasks_done": 0, "debriefed": 0}


@dataclass(frozen=True)
class HandFlightState:
    """An aircraft flown by hand.

    Attributes
    ----------
    station, course_deg
        Ident of the station tuned, and the course selected.
    by_bank
        Whether the learner sets the bank; otherwise the heading to turn to.
    wanted_heading_deg, wanted_bank_deg
        Magnetic heading of the bug, and bank asked for, positive right.
    start_station, start_radial_deg, start_distance_nm, altitude_ft
        Where the flight begins, and its altitude.
    true_airspeed_kt, wind_from_deg, wind_kt
        Airspeed and wind; the wind's direction is magnetic.
    show_wind, show_plan, range_nm
        Whether wind and plan view are shown, and the range of the map.
    speed
        Seconds of flight for each second on the clock.
    heard, silent
        Ident of the station identified, and of one that was listened to but not heard; both are
        cleared when another station is tuned.
    tasks, tasks_done
        What to do, in order, and how many of them are done.
    debriefed
        How many logged moments the debrief on show covers; 0 if none is shown.
    now
        The aircraft; None while it is at the start.
    held_bank_deg
        The bank commanded when the controls were last read, positive right.
    kept
        The logged moments, one a second; empty before the first step.
    """

    station: str = "QLN"
    course_deg: float = 40.0
    by_bank: bool = False
    wanted_heading_deg: float = 40.0
    wanted_bank_deg: float = 0.0
    start_station: str = "QLN"
    start_radial_deg: float = 220.0
    start_distance_nm: float = 12.0
    altitude_ft: float = 3500.0
    true_airspeed_kt: float = 100.0
    wind_from_deg: float = 310.0
    wind_kt: float = 15.0
    show_wind: bool = False
    show_plan: bool = True
    range_nm: float = 25.0
    speed: float = 5.0
    heard: str = ""
    silent: str = ""
    tasks: tuple[FlightTask, ...] = ()
    tasks_done: int = 0
    debriefed: int = 0
    now: flight.FlightState | None = None
    held_bank_deg: float = 0.0
    kept: tuple[Logged, ...] = ()

    def __post_init__(self) -> None:
        for ident in (self.station, self.start_station):
            if ident not in STATIONS:
                raise ValueError(f"station must be one of {', '.join(STATIONS)}, got {ident!r}")
        within("wanted_bank_deg", self.wanted_bank_deg, -STEEPEST_DEG, STEEPEST_DEG, "degrees")
        not_negative("wind_kt", self.wind_kt, "kt")

    @property
    def aircraft(self) -> flight.Aircraft:
        """The performance of the aircraft."""
        return flight.Aircraft(self.true_airspeed_kt, STEEPEST_DEG)

    @property
    def tuned(self) -> Station:
        """The station tuned."""
        return STATIONS[self.station]

    @cached_property
    def moment(self) -> flight.FlightState:
        """The aircraft now."""
        if self.now is not None:
            return self.now
        start = STATIONS[self.start_station].position_on(
            self.start_radial_deg, self.start_distance_nm, self.altitude_ft
        )
        return flight.start(start, self.wanted_heading_deg + self.variation_deg)

    @property
    def log(self) -> tuple[Logged, ...]:
        """The logged moments, at least the present one."""
        return self.kept or (self.logged(self.moment),)

    def logged(self, now: flight.FlightState) -> Logged:
        """Return a moment to log, with the present station, course and ident."""
        return Logged(now, self.station, self.course_deg, self.heard == self.station)

    @property
    def variation_deg(self) -> float:
        """Variation at the start station on the day of the lessons, positive east."""
        return _variation_deg(self.start_station)

    @property
    def heading_deg(self) -> float:
        """Magnetic heading."""
        return float(wrap_360(self.moment.true_heading_deg - self.variation_deg))

    @property
    def wind(self) -> Wind:
        """The wind, from true north."""
        return Wind(self.wind_from_deg + self.variation_deg, self.wind_kt)

    @cached_property
    def reading(self) -> Reading:
        """What the indicator shows."""
        return Receiver(self.course_deg).read(self.tuned, self.moment.position)

    @property
    def begun(self) -> bool:
        """Whether the aircraft has left the start."""
        return self.moment.time_s > 0.0

    @property
    def over(self) -> bool:
        """Whether the flight has reached its greatest length."""
        return self.moment.time_s >= LONGEST_S

    @property
    def task(self) -> FlightTask | None:
        """The task that is due, or None."""
        return self.tasks[self.tasks_done] if self.tasks_done < len(self.tasks) else None

    @cached_property
    def track(self) -> Positions:
        """Where the aircraft has been, with fewer points for drawing."""
        stride = 1
        while len(self.log) > stride * MOST_TRACK_POINTS:
            stride *= 2
        states = [*(logged.now for logged in self.log[::stride]), self.moment]
        lat, lon = np.array([(s.lat_deg, s.lon_deg) for s in states]).T
        return Position(lat, lon, self.altitude_ft)

    def bank_deg(self, now: flight.FlightState) -> float:
        """Return the bank that the learner commands, positive right."""
        if self.by_bank:
            return self.wanted_bank_deg
        wanted = self.wanted_heading_deg + self.variation_deg
        return bank_toward(float(difference_deg(wanted, now.true_heading_deg)), self.aircraft)


@lru_cache
def _variation_deg(ident: str) -> float:
    return float(variation_deg(STATIONS[ident].position, TODAY))


def flown(state: HandFlightState, seconds: float) -> HandFlightState:
    """Return the state some seconds later; the result does not depend on the size of the steps."""
    now, held, log = state.moment, state.held_bank_deg, []
    left = min(float(not_negative("seconds", seconds, "s")), LONGEST_S - now.time_s)
    aircraft, wind, done = state.aircraft, state.wind, state.tasks_done
    while left > 1e-9:
        look = math.floor(now.time_s / LOOK_S + 1e-6) + 1
        step_s = min(left, look * LOOK_S - now.time_s)
        now = flight.advance(now, aircraft, step_s, held, wind)
        left -= step_s
        if look * LOOK_S - now.time_s > 1e-6:
            continue
        now = replace(now, time_s=look * LOOK_S)
        held = state.bank_deg(now)
        if look % LOOKS_PER_MARK == 0:
            log.append(state.logged(now))
            done = tasks_done(replace(state, now=now, tasks_done=done))
    later = replace(state, now=now, held_bank_deg=held, kept=(*state.log, *log), tasks_done=done)
    return replace(later, tasks_done=tasks_done(later))


def tasks_done(state: HandFlightState) -> int:
    """Return how many tasks are done, including those that the present state completes."""
    done = state.tasks_done
    while done < len(state.tasks) and state.tasks[done].done(state):
        done += 1
    return done
