"""What was being done at each moment of a flight: intercepting, tracking, passing, turning."""

from __future__ import annotations

from collections.abc import Iterator
from enum import IntEnum
from typing import NamedTuple

import numpy as np

from vorlib.aircraft.ground_track import BoolArray, IntArray, runs
from vorlib.core.angles import difference_deg
from vorlib.debrief.airborne import Airborne
from vorlib.debrief.analysis import OVERSHOT_S
from vorlib.debrief.findings import SHORTEST_PHASE_S
from vorlib.debrief.indicator_history import IndicatorHistory
from vorlib.debrief.summary import Debrief
from vorlib.vor.receiver import Flag

__all__ = ["FlightPhase", "Span", "phases_at", "spans"]

# Rate and size of a turn, chosen so that the corrections of tracking are not turns.
TURNING_DEG_S, LEAST_TURN_DEG = 1.0, 30.0
CLOSING_DEG = 5.0  # a track at such an angle to the course line closes on it


class FlightPhase(IntEnum):
    """What is being done; `str` gives the word for it."""

    OTHER = 0
    INTERCEPTING = 1
    TRACKING = 2
    PASSAGE = 3
    TURN = 4
    CIRCUIT = 5
    GROUND = 6

    def __str__(self) -> str:
        return "on the ground" if self is FlightPhase.GROUND else self.name.lower()


class Span(NamedTuple):
    """A time of doing one thing with one selection: from the index `begin` to just before `end`."""

    phase: FlightPhase
    begin: int
    end: int


def phases_at(seen: IndicatorHistory, found: Debrief, air: Airborne | None = None) -> IntArray:
    """Return what is being done at each moment, as an integer array of `FlightPhase`.

    Where two hold at once, passage goes before tracking, tracking before intercepting and that
    before a turn: the turn onto a course is the end of its interception. With `air` given, the
    ground and circuits are nothing else.
    """
    phase = np.full(seen.time_s.size, int(FlightPhase.OTHER))
    turning = _turning(seen)
    phase[turning] = FlightPhase.TURN
    for begin, end in _interceptions(seen, found, turning):
        phase[begin:end] = FlightPhase.INTERCEPTING
    for begin, end in runs(np.where(seen.tracking, seen.leg, -1)):
        if seen.tracking[begin] and seen.time_s[end - 1] - seen.time_s[begin] >= SHORTEST_PHASE_S:
            phase[begin:end] = FlightPhase.TRACKING
    for passed in found.passages:
        end = int(np.searchsorted(seen.time_s, passed.time_s))
        begin = end
        while begin > 0 and seen.flag[begin - 1] == Flag.OFF:
            begin -= 1
        phase[begin : end + 1] = FlightPhase.PASSAGE
    if air is not None:
        phase[air.circuit] = FlightPhase.CIRCUIT
        phase[~air.flying] = FlightPhase.GROUND
    return phase


def spans(phase: IntArray, seen: IndicatorHistory) -> tuple[Span, ...]:
    """Return the flight as spans of doing one thing with one selection in one segment."""
    both = phase + (max(FlightPhase) + 1) * seen.selection
    return tuple(Span(FlightPhase(int(phase[a])), a, b) for a, b in runs(both))


def _turning(seen: IndicatorHistory) -> BoolArray:
    """Return True during turns by the track."""
    turning = np.zeros(seen.time_s.size, dtype=bool)
    if seen.time_s.size < 2:
        return turning
    track = np.unwrap(seen.track_deg, period=360.0)
    rate = np.diff(track) / np.diff(seen.time_s)
    rate[np.diff(seen.segment) > 0] = 0.0
    side = np.where(abs(rate) >= TURNING_DEG_S, np.sign(rate), 0.0)
    for begin, end in runs(side):
        if side[begin] and abs(track[end] - track[begin]) >= LEAST_TURN_DEG:
            turning[begin : end + 1] = True
    return turning


def _interceptions(
    seen: IndicatorHistory, found: Debrief, turning: BoolArray
) -> Iterator[tuple[int, int]]:
    """Where each intercept begins, when the track first closes on the line, and where it ends."""
    sine = np.sin(np.radians(difference_deg(seen.track_deg, seen.course_deg)))
    closing = sine * np.sign(seen.deviation_deg) > np.sin(np.radians(CLOSING_DEG))
    for met in found.intercepts:
        at = int(np.searchsorted(seen.time_s, met.time_s))
        same = seen.attempt == seen.attempt[at]
        first, settled = int(np.argmax(same)), np.flatnonzero(same & seen.tracking)
        last = int(settled[0]) if settled.size else at + 1
        at = min(at, last)
        late = max(first, int(np.searchsorted(seen.time_s, seen.time_s[at] - OVERSHOT_S)))
        across = np.sign(seen.deviation_deg[late:at]) != np.sign(seen.deviation_deg[at])
        if across.any():  # the line was crossed: back to before that
            at = late + int(np.flatnonzero(across)[-1])
        before = closing[first:at]
        begin = first + (before.size - int(np.argmin(before[::-1])) if not before.all() else 0)
        if turning[begin]:  # onto the heading that intercepts
            onto = begin + int(np.argmin(np.append(turning[begin:at], False)))
            begin = onto if onto < at else begin
        yield begin, last
