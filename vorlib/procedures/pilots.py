"""Pilots: small rules that fly by the instrument alone, so that a habit shows.

A pilot looks at a `Panel` ten times a second and answers with a `Command`. Each says as well of
many looks at once which of them change nothing.
"""

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import ClassVar

import numpy as np

from vorlib.aircraft.turns import STANDARD_RATE_DEG_S
from vorlib.core.angles import difference_deg, wrap_360
from vorlib.core.arguments import BoolArray, FloatArray
from vorlib.procedures.panel import OFF, TO, Command, Panel, Panels, first_true
from vorlib.procedures.tracking import Bracket
from vorlib.vor.receiver import DEG_PER_DOT, DOTS_FULL_SCALE


@lru_cache(maxsize=256)
def _toward(heading_deg: float, course_deg: float) -> Command:
    """Return the command to fly a heading; a pilot gives the same one look after look."""
    return Command(float(wrap_360(heading_deg)), course_deg)


@lru_cache(maxsize=256)
def _lead_s(heading_deg: float, course_deg: float, rate_deg_s: float) -> float:
    """Return how long before the needle centers a turn onto the course must begin."""
    angle = abs(float(difference_deg(heading_deg, course_deg)))
    return math.degrees(math.tan(math.radians(min(angle, 170.0) / 2.0))) / rate_deg_s


@dataclass
class Homing:
    """Re-centers the needle with TO all the time, and points the nose along that course.

    Once the flag is no longer TO it holds the last heading: the station is passed.
    """

    _held: Command | None = None  # since the flag was last TO

    def __call__(self, panel: Panel) -> Command:
        """Turn the course selector until the needle is centered, then fly the course."""
        if panel.flag is not TO:
            self._held = self._held or Command(panel.heading_deg, panel.course_deg)
            return self._held
        self._held = None
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
        elif panel.flag is not OFF:
            bracket = bracket.look(panel.dots)
        if self._command is None or bracket is not before:
            self._command = Command(bracket.heading_deg, panel.course_deg)
        self.bracket = bracket
        return self._command

    def unmoved(self, panels: Panels, begin: int) -> int:
        """Return the next look that may move the bracket; see `vorlib.procedures.panel.Patient`."""
        bracket, before = self.bracket, self._before
        if bracket is None or self._command is None or panels.course_deg != bracket.course_deg:
            return begin
        time_s, dots = panels.time_s[begin:], panels.dots[begin:]
        received = panels.received[begin:]
        known = received.copy()  # the needle of the look before is, too
        known[0] &= before is not None
        known[1:] &= received[:-1]
        then_s, then = (before.time_s, before.dots) if before else (-math.inf, 0.0)
        rate = abs(_changes(dots, then)) / _changes(time_s, then_s)
        hurries = known & (rate > self.HURRY_DOTS_S)
        calm = known & ~hurries & (abs(dots) < DOTS_FULL_SCALE)
        hurried = _since_last(hurries, calm, self._hurried)
        moving = np.where(hurried, bracket.toward != 0, received & bracket.heeds(dots))
        count = first_true(moving)
        if count:
            self._hurried = bool(hurried[count - 1])
            self._before = panels.at(begin + count - 1) if received[count - 1] else None
        return begin + count

    def _watch(self, panel: Panel) -> None:
        before, self._before = self._before, panel
        if panel.flag is OFF:
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
    center (half a turn's arc as seen from where its tangents meet).

    Parameters
    ----------
    heading_deg
        Magnetic heading of the intercept, within 90 degrees of the selected course.
    rate_deg_s
        Rate of turn the aircraft flies.
    lead
        False turns only when the needle is centered, as a beginner does.
    hold_deg
        Wind correction with which tracking the course begins, positive right.
    """

    heading_deg: float
    rate_deg_s: float = STANDARD_RATE_DEG_S
    lead: bool = True
    hold_deg: float = 0.0
    established: Tracking | None = None
    turning: bool = False
    _before: tuple[float, float] | None = None  # the time and the needle of the last look
    _dots_s: float = 0.0

    SMOOTHING_S = 2.0
    ROLLED_OUT_DEG = 1.0

    def __call__(self, panel: Panel) -> Command:
        """Wait for the needle, turn in time, then track."""
        if self.established is not None:
            return self.established(panel)
        received = panel.flag is not OFF
        self.turning = self.turning or self._time_to_turn(
            panel.time_s, panel.dots, received, panel.course_deg
        )
        if not self.turning:
            return _toward(self.heading_deg, panel.course_deg)
        if abs(float(difference_deg(panel.heading_deg, panel.course_deg))) < self.ROLLED_OUT_DEG:
            self.established = Tracking(Bracket(panel.course_deg, self.hold_deg))
        return Command(panel.course_deg, panel.course_deg)

    def unmoved(self, panels: Panels, begin: int) -> int:
        """Return the next look that may matter; see `vorlib.procedures.panel.Patient`."""
        if self.established is not None:
            return self.established.unmoved(panels, begin)
        if self.turning:
            to_go = abs(difference_deg(panels.heading_deg[begin:], panels.course_deg))
            return begin + first_true(to_go < self.ROLLED_OUT_DEG)
        pegged = abs(panels.dots[begin:]) >= DOTS_FULL_SCALE
        count = first_true(~pegged & panels.received[begin:])
        if count:
            begin += count
            last = panels.at(begin - 1)
            self._before, self._dots_s = (last.time_s, last.dots), 0.0
        columns = panels.time_s[begin:], panels.dots[begin:], panels.received[begin:]
        looks = zip(*(column.tolist() for column in columns), strict=True)
        for look, (time_s, dots, received) in enumerate(looks, begin):
            kept = self._before, self._dots_s
            if self._time_to_turn(time_s, dots, received, panels.course_deg):
                self._before, self._dots_s = kept  # that look is still to come
                return look
        return panels.count

    def _time_to_turn(self, time_s: float, dots: float, received: bool, course_deg: float) -> bool:
        before, self._before = self._before, (time_s, dots)
        if not received or abs(dots) >= DOTS_FULL_SCALE:
            self._dots_s = 0.0
            return False
        if before is None:
            return False
        before_s, before_dots = before
        if time_s > before_s:
            elapsed = time_s - before_s
            rate = (dots - before_dots) / elapsed
            share = min(1.0, elapsed / self.SMOOTHING_S) if self._dots_s else 1.0
            self._dots_s += share * (rate - self._dots_s)
        crossed = dots * before_dots <= 0.0
        if not self.lead or crossed:
            return crossed
        if dots * self._dots_s >= 0.0:  # not closing
            return False
        return abs(dots) <= abs(self._dots_s) * _lead_s(
            self.heading_deg, course_deg, self.rate_deg_s
        )


@dataclass
class _Correcting:
    """Steers toward the needle by one fixed correction whenever it is off."""

    correction_deg: float
    allowed_dots: float
    _way_deg: ClassVar[float] = 0.0  # flown along the selected course, or against it
    _answered: tuple[float, float] | None = None  # the course and the side of the last look

    def __call__(self, panel: Panel) -> Command:
        """Fly the course or its reciprocal, corrected toward the needle."""
        side = (panel.dots > self.allowed_dots) - (panel.dots < -self.allowed_dots)
        self._answered = panel.course_deg, side
        way_deg = panel.course_deg + self._way_deg
        return _toward(way_deg + side * self.correction_deg, panel.course_deg)

    def unmoved(self, panels: Panels, begin: int) -> int:
        """Return the next look with the needle off to another side than at the last."""
        if self._answered is None or self._answered[0] != panels.course_deg:
            return begin
        dots = panels.dots[begin:]
        side = np.sign(np.where(abs(dots) > self.allowed_dots, dots, 0.0))
        return begin + first_true(side != self._answered[1])


@dataclass
class Chasing(_Correcting):
    """Chases the needle: a large correction toward it whenever it is off, until it has crossed.

    It never asks which heading holds the course, and so weaves across it, wider in dots the nearer
    the station is.
    """

    correction_deg: float = 40.0
    allowed_dots: float = 0.0


@dataclass
class Reversed(_Correcting):
    """Steers toward the needle while flying the reciprocal of the selected course.

    With reverse sensing the needle points away from the course line, so each correction leads
    further off.
    """

    correction_deg: float = 20.0
    allowed_dots: float = 0.5
    _way_deg: ClassVar[float] = 180.0


def _changes(values: FloatArray, before: float) -> FloatArray:
    """Return by how much each value differs from the one before it."""
    changes = values.copy()
    changes[0] -= before
    changes[1:] -= values[:-1]
    return changes


def _since_last(begins: BoolArray, ends: BoolArray, before: bool) -> BoolArray:
    """Return at each look whether a state has begun and not yet ended."""
    told = np.where(begins | ends, np.arange(begins.size), -1)
    last = np.maximum.accumulate(told)
    return np.where(last >= 0, begins[last], before)
