"""Pilots: small rules that fly by the instrument and nothing else, so that a habit can be seen.

A pilot looks at a `Panel` ten times a second and answers with a `Command`. It knows the heading,
the selected course, needle and flag, as a pilot does, and neither position, wind nor distance.
"""

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache, partial
from itertools import repeat
from typing import NamedTuple

import numpy as np

from vorlib.aircraft.flight import (
    Aircraft,
    Flight,
    FlightState,
    advance,
    record_rows,
    row_of,
)
from vorlib.aircraft.stretch import stretch
from vorlib.aircraft.turns import STANDARD_RATE_DEG_S, bank_for_rate_deg
from vorlib.aircraft.wind import CALM, Wind, WindLayers
from vorlib.core.angles import difference_deg, wrap_360
from vorlib.core.arguments import FloatArray, positive
from vorlib.earth.geodesic import Position
from vorlib.procedures.tracking import Bracket
from vorlib.vor.receiver import DEG_PER_DOT, DOTS_FULL_SCALE, Flag, Readings, Receiver
from vorlib.vor.station import Station

# Bank for each degree the heading is off: rolls out of a turn without overshoot.
BANK_PER_DEG = 5.0

# Looks worked out together while a command stands: so many at first, then twice as many each time.
FEWEST_AHEAD = 128

FLAGS = {int(flag): flag for flag in Flag}


class Panel(NamedTuple):
    """What a pilot sees: time, magnetic heading, selected course, needle in dots, flag."""

    time_s: float
    heading_deg: float
    course_deg: float
    dots: float
    flag: Flag


class Command(NamedTuple):
    """What a pilot does: the magnetic heading to fly and the course to select."""

    heading_deg: float
    course_deg: float


Pilot = Callable[[Panel], Command]


@lru_cache(maxsize=256)
def _toward(heading_deg: float, course_deg: float) -> Command:
    """Return the command to fly a heading; a pilot gives the same one look after look."""
    return Command(float(wrap_360(heading_deg)), course_deg)


@lru_cache(maxsize=256)
def _lead_s(heading_deg: float, course_deg: float, rate_deg_s: float) -> float:
    """Return how long before the needle centres a turn onto the course must begin."""
    angle = abs(float(difference_deg(heading_deg, course_deg)))
    return math.degrees(math.tan(math.radians(min(angle, 170.0) / 2.0))) / rate_deg_s


@dataclass
class Homing:
    """Re-centres the needle with TO all the time and points the nose at that course.

    Once the flag is no longer TO it holds the last heading: the station is passed.
    """

    def __call__(self, panel: Panel) -> Command:
        """Turn the course selector until the needle is centred, then fly the course."""
        if panel.flag is not Flag.TO:
            return Command(panel.heading_deg, panel.course_deg)
        course = float(wrap_360(panel.course_deg + panel.dots * DEG_PER_DOT))
        return Command(course, course)


@dataclass
class Tracking:
    """Holds the selected course by bracketing, and does not chase the needle near the station.

    A needle that hurries says that the station is near: until it is slow and on its scale again,
    and with the flag OFF, the pilot holds the heading that has held the course so far.

    Attributes
    ----------
    bracket
        The search for the heading, as far as it has come.
    """

    bracket: Bracket | None = None
    _before: Panel | None = None
    _hurried: bool = False
    _command: Command | None = None

    HURRY_DOTS_S = 0.07  # a correction of 20 degrees at 100 kt within about 4 NM

    def __call__(self, panel: Panel) -> Command:
        """Correct toward the needle, or hold what has been found."""
        bracket = before = self.bracket or Bracket(panel.course_deg)
        if panel.course_deg != bracket.course_deg:
            bracket = replace(bracket, course_deg=panel.course_deg)
            self._before = None
        self._watch(panel)
        if self._hurried:
            bracket = replace(bracket, toward=0) if bracket.toward else bracket
        elif panel.flag is not Flag.OFF:
            bracket = bracket.look(panel.dots)
        if self._command is None or bracket is not before:
            self._command = Command(bracket.heading_deg, panel.course_deg)
        self.bracket = bracket
        return self._command

    def _watch(self, panel: Panel) -> None:
        before, self._before = self._before, panel
        if panel.flag is Flag.OFF:
            self._before = None
        elif before is not None and panel.time_s > before.time_s:
            rate = abs(panel.dots - before.dots) / (panel.time_s - before.time_s)
            pegged = abs(panel.dots) >= DOTS_FULL_SCALE
            self._hurried = rate > self.HURRY_DOTS_S or (self._hurried and pegged)


@dataclass
class Intercepting:
    """Flies a heading toward the selected course, leads the turn, then tracks the course.

    The lead is told from the needle alone: a turn at a steady rate through the angle A of the
    intercept is tangent to the course if it begins tan(A / 2) / rate before the needle would
    centre (half a turn's arc as seen from where its tangents meet).

    Parameters
    ----------
    heading_deg
        Magnetic heading of the intercept, within 90 degrees of the selected course.
    rate_deg_s
        Rate of turn the aircraft flies.
    lead
        False turns only when the needle is centred, as a beginner does.
    hold_deg
        Wind correction with which tracking the course begins, positive right.
    """

    heading_deg: float
    rate_deg_s: float = STANDARD_RATE_DEG_S
    lead: bool = True
    hold_deg: float = 0.0
    established: Tracking | None = None
    turning: bool = False
    _before: Panel | None = None
    _dots_s: float = 0.0

    SMOOTHING_S = 2.0
    ROLLED_OUT_DEG = 1.0

    def __call__(self, panel: Panel) -> Command:
        """Wait for the needle, turn in time, then track."""
        if self.established is not None:
            return self.established(panel)
        self.turning = self.turning or self._time_to_turn(panel)
        if not self.turning:
            return _toward(self.heading_deg, panel.course_deg)
        if abs(float(difference_deg(panel.heading_deg, panel.course_deg))) < self.ROLLED_OUT_DEG:
            self.established = Tracking(Bracket(panel.course_deg, self.hold_deg))
        return Command(panel.course_deg, panel.course_deg)

    def _time_to_turn(self, panel: Panel) -> bool:
        before, self._before = self._before, panel
        if panel.flag is Flag.OFF or abs(panel.dots) >= DOTS_FULL_SCALE:
            self._dots_s = 0.0
            return False
        if before is not None and panel.time_s > before.time_s:
            elapsed = panel.time_s - before.time_s
            rate = (panel.dots - before.dots) / elapsed
            share = min(1.0, elapsed / self.SMOOTHING_S) if self._dots_s else 1.0
            self._dots_s += share * (rate - self._dots_s)
        crossed = before is not None and panel.dots * before.dots <= 0.0
        if not self.lead or crossed:
            return crossed
        if panel.dots * self._dots_s >= 0.0:  # not closing
            return False
        lead_s = _lead_s(self.heading_deg, panel.course_deg, self.rate_deg_s)
        return abs(panel.dots) <= abs(self._dots_s) * lead_s


@dataclass
class Chasing:
    """Chases the needle: a large correction toward it whenever it is off, until it has crossed.

    It never asks which heading holds the course, and so weaves across it, wider in dots the nearer
    the station is.
    """

    correction_deg: float = 40.0

    def __call__(self, panel: Panel) -> Command:
        """Turn well toward the needle."""
        side = (panel.dots > 0.0) - (panel.dots < 0.0)
        return _toward(panel.course_deg + side * self.correction_deg, panel.course_deg)


@dataclass
class Reversed:
    """Steers toward the needle while flying the reciprocal of the selected course.

    With reverse sensing the needle points away from the course line, so each correction leads
    further off.
    """

    correction_deg: float = 20.0
    allowed_dots: float = 0.5

    def __call__(self, panel: Panel) -> Command:
        """Fly the reciprocal, corrected toward the needle."""
        side = (panel.dots > self.allowed_dots) - (panel.dots < -self.allowed_dots)
        return _toward(panel.course_deg + 180.0 + side * self.correction_deg, panel.course_deg)


class Flown(NamedTuple):
    """A flight with the course selected at each moment and what the indicator showed."""

    flight: Flight
    course_deg: FloatArray
    reading: Readings


def bank_toward(heading_error_deg: float, aircraft: Aircraft) -> float:
    """Return the bank that turns onto a heading, at most standard rate and the aircraft's limit.

    Positive right for a heading that is to the right; levels out as the error vanishes.
    """
    return _bank_within(_steepest_deg(aircraft), heading_error_deg)


def _bank_within(limit_deg: float, heading_error_deg: float) -> float:
    bank_deg = BANK_PER_DEG * heading_error_deg
    return limit_deg if bank_deg > limit_deg else -limit_deg if bank_deg < -limit_deg else bank_deg


@lru_cache(maxsize=32)
def _steepest_deg(aircraft: Aircraft) -> float:
    return min(aircraft.bank_limit_deg, float(bank_for_rate_deg(aircraft.true_airspeed_kt)))


def fly(
    pilot: Pilot,
    aircraft: Aircraft,
    state: FlightState,
    station: Station,
    course_deg: float,
    seconds: float,
    *,
    wind: Wind | WindLayers = CALM,
    variation_deg: float | None = None,
    until: Callable[[Panel], bool] | None = None,
    looks_per_s: float = 10.0,
) -> Flown:
    """Let a pilot fly for some time with one station tuned.

    Parameters
    ----------
    pilot
        Called with the panel at every look.
    aircraft, state
        What is flown, and the moment it starts from.
    station, course_deg
        The station tuned and the course selected at first, magnetic.
    seconds
        Longest time to fly, more than 0.
    wind
        True wind, or layers of it.
    variation_deg
        Variation of the compass, positive east; the station's declination if none is given.
    until
        Ends the flight when it says so of the panel.
    looks_per_s
        How often the pilot looks and corrects.
    """
    rows, selected = fly_rows(
        pilot, aircraft, state, station, course_deg, seconds,
        wind=wind, variation_deg=variation_deg, until=until, looks_per_s=looks_per_s,
    )  # fmt: skip
    flight = record_rows(rows, aircraft, wind)
    return Flown(flight, selected, Receiver(selected).read(station, flight.position))


def fly_rows(
    pilot: Pilot,
    aircraft: Aircraft,
    state: FlightState,
    station: Station,
    course_deg: float,
    seconds: float,
    *,
    wind: Wind | WindLayers = CALM,
    variation_deg: float | None = None,
    until: Callable[[Panel], bool] | None = None,
    looks_per_s: float = 10.0,
) -> tuple[FloatArray, FloatArray]:
    """Fly as `fly` does; return a row for each look, of shape (n, 6), and the courses selected."""
    positive("seconds", seconds, "s")
    step_s = 1.0 / float(positive("looks_per_s", looks_per_s, "looks per second"))
    left = math.ceil(seconds / step_s - 1e-9)
    variation = station.declination_deg if variation_deg is None else variation_deg
    course = _Course(station, variation, aircraft, wind, step_s)
    rows, courses = [np.array([row_of(state)])], [np.array([course_deg])]
    panel, standing, ahead = course.panel(state, course_deg), None, FEWEST_AHEAD
    command = _answer(pilot, panel, until) if left else None
    while command is not None:
        panels: Iterable[Panel]
        if command == standing and course.is_level(state):
            coming, panels = course.foreseen(state, command, min(ahead, left))
            ahead *= 4
        else:
            state, ahead = course.advanced(state, command), FEWEST_AHEAD
            coming, panels = np.array([row_of(state)]), [course.panel(state, command.course_deg)]
        standing, seen = command, 0
        for panel in panels:
            seen += 1
            command = _answer(pilot, panel, until) if seen < left else None
            if command is not standing and command != standing:
                break
        rows.append(coming[:seen])
        courses.append(np.full(seen, standing.course_deg))
        state = FlightState(*[*coming[seen - 1].tolist(), state.climb_ft_min])
        left -= seen
    return np.concatenate(rows), np.concatenate(courses)


def _answer(pilot: Pilot, panel: Panel, until: Callable[[Panel], bool] | None) -> Command | None:
    """Return what the pilot does, None where the flight ends."""
    return None if until is not None and until(panel) else pilot(panel)


class _Course(NamedTuple):
    """What a flight keeps to: the station tuned, the compass, the aircraft, the air, the looks."""

    station: Station
    variation_deg: float
    aircraft: Aircraft
    wind: Wind | WindLayers
    step_s: float

    def is_level(self, state: FlightState) -> bool:
        """Whether the aircraft stays in one wind."""
        return isinstance(self.wind, Wind) and state.climb_ft_min == 0.0

    def panel(self, state: FlightState, course_deg: float) -> Panel:
        """Return what the pilot sees."""
        reading = Receiver(course_deg).read(self.station, state.position)
        heading_deg = float(wrap_360(state.true_heading_deg - self.variation_deg))
        flag = FLAGS[reading.flag]
        return Panel(state.time_s, heading_deg, course_deg, reading.dots, flag)

    def advanced(self, state: FlightState, command: Command) -> FlightState:
        """Return the moment of the next look."""
        wanted_deg = command.heading_deg + self.variation_deg
        error_deg = float(difference_deg(wanted_deg, state.true_heading_deg))
        bank_deg = bank_toward(error_deg, self.aircraft)
        return advance(state, self.aircraft, self.step_s, bank_deg, self.wind)

    def foreseen(
        self, state: FlightState, command: Command, looks: int
    ) -> tuple[FloatArray, Iterator[Panel]]:
        """Return the rows of level flight while a command stands, and their panels."""
        assert isinstance(self.wind, Wind)
        wanted_deg = command.heading_deg + self.variation_deg
        toward = partial(_bank_within, _steepest_deg(self.aircraft))
        lat, lon, heading, bank = stretch(
            state, self.aircraft, wanted_deg, toward, self.step_s, looks, self.wind
        )
        there = Position(lat, lon, state.altitude_ft)
        reading = Receiver(command.course_deg).read(self.station, there)
        compass = wrap_360(heading - self.variation_deg)
        time_s = np.cumsum([state.time_s, *repeat(self.step_s, looks)])[1:]
        flags = map(FLAGS.__getitem__, reading.flag.tolist())
        panels = map(
            Panel, time_s.tolist(), compass.tolist(), repeat(command.course_deg),
            reading.dots.tolist(), flags,
        )  # fmt: skip
        return np.column_stack((time_s, lat, lon, there.altitude_ft, heading, bank)), panels
