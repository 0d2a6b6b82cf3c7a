"""A flight by hand as one frozen state: an aircraft in the air, what is set, what was flown.

The hand is one more pilot: what it commands goes through the same bank and the same aircraft as
the pilots of `vorlib.procedures.pilots`, ten looks a second, whatever the pace at which time is
told.
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

LOOK_S = 0.1  # as often as the pilots of vorlib.procedures.pilots look
LOOKS_PER_MARK = 10  # one moment a second is kept
LONGEST_S = 3 * 3600.0
MOST_TRACK_POINTS = 200
STEEPEST_DEG = 20.0  # the aircraft's limit


class Logged(NamedTuple):
    """One moment kept of a flight: the aircraft, what is tuned and selected, the ident taken."""

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
        Told the present state; it may look at anything there but the past.
    """

    words: str
    done: Callable[[HandFlightState], bool]


# The changes that put the aircraft back to the start, as if nothing had been flown.
AT_START = {"now": None, "held_bank_deg": 0.0, "kept": (), "tasks_done": 0, "debriefed": 0}


@dataclass(frozen=True)
class HandFlightState:
    """An aircraft flown by hand.

    Attributes
    ----------
    station, course_deg
        Ident of the station tuned, and the course selected.
    by_bank
        Whether the hand sets the bank, positive right; otherwise the heading to turn to.
    wanted_heading_deg, wanted_bank_deg
        What it has set.
    start_station, start_radial_deg, start_distance_nm, altitude_ft
        Where the flight begins, and how high it is flown.
    true_airspeed_kt, wind_from_deg, wind_kt
        Airspeed and wind; the wind's direction is magnetic.
    show_wind, show_plan, range_nm
        What of it is shown, and how far the map reaches.
    speed
        Seconds of flight in one second.
    heard, silent
        Ident of the station identified, and of one listened to in vain; both are empty when
        another was tuned since.
    tasks, tasks_done
        What is to be done one after the other, and how many are.
    debriefed
        How many of the moments kept the debrief shown tells of; 0 for none shown.
    now
        The aircraft; None while it is at the start.
    held_bank_deg
        The bank commanded at the last look.
    kept
        The moments kept, one a second; none before the first step.
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
        """How the aircraft flies."""
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
        """The moments kept, from the start on."""
        return self.kept or (self.logged(self.moment),)

    def logged(self, now: flight.FlightState) -> Logged:
        """Return a moment to keep, with what is set and heard."""
        return Logged(now, self.station, self.course_deg, self.heard == self.station)

    @property
    def variation_deg(self) -> float:
        """Variation of the compass, positive east: that of the day where the flight begins."""
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
        """Whether the flight has lasted as long as one may."""
        return self.moment.time_s >= LONGEST_S

    @property
    def task(self) -> FlightTask | None:
        """What is to be done now, or None."""
        return self.tasks[self.tasks_done] if self.tasks_done < len(self.tasks) else None

    @cached_property
    def track(self) -> Positions:
        """Where the aircraft has been, thinned."""
        stride = 1
        while len(self.log) > stride * MOST_TRACK_POINTS:
            stride *= 2
        states = [*(logged.now for logged in self.log[::stride]), self.moment]
        lat, lon = np.array([(s.lat_deg, s.lon_deg) for s in states]).T
        return Position(lat, lon, self.altitude_ft)

    def bank_deg(self, now: flight.FlightState) -> float:
        """Return the bank that the hand asks for."""
        if self.by_bank:
            return self.wanted_bank_deg
        wanted = self.wanted_heading_deg + self.variation_deg
        return bank_toward(float(difference_deg(wanted, now.true_heading_deg)), self.aircraft)


@lru_cache
def _variation_deg(ident: str) -> float:
    return float(variation_deg(STATIONS[ident].position, TODAY))


def flown(state: HandFlightState, seconds: float) -> HandFlightState:
    """Return the state some seconds later; the same however the seconds are dealt out."""
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
    """Return how many tasks are done, counting those that are done now."""
    done = state.tasks_done
    while done < len(state.tasks) and state.tasks[done].done(state):
        done += 1
    return done
