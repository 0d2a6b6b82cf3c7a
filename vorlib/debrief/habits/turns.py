"""The turns of a flight: which of them corrected a deviation, and which led away from the line."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from vorlib.aircraft.ground_track import BoolArray, IntArray, runs
from vorlib.core.angles import difference_deg
from vorlib.core.arguments import FloatArray
from vorlib.debrief.findings import WrongTurn
from vorlib.debrief.indicator_history import CORRECTION_DEG, IndicatorHistory
from vorlib.vor.receiver import DOTS_FULL_SCALE, Flag
from vorlib.vor.sensing import is_reverse_sensing

__all__ = ["LEAST_TURN_DEG", "corrections", "turns", "wrong_turns"]

# What counts, chosen so that a hand's small movements do not.
DUE_DOTS = 0.4  # a correction is due with the needle so far off
LEAST_TURN_DEG, TURNING_DEG_S = 5.0, 0.3
LEADS_AWAY_DEG = 5.0  # after a wrong turn the track leads away from the line by as much
LARGEST_TURN_DEG = 90.0  # a larger turn is not a correction
BEYOND_SHARE = 0.3  # of a turn has to lead away: less is the end of one onto the course


def corrections(seen: IndicatorHistory) -> int:
    """Return how many turns were made on a course when a correction was due, either way."""
    begin, end, _ = turns(seen)
    return int(np.sum(_due(seen, begin, end) & seen.established[begin]))


def _due(seen: IndicatorHistory, begin: IntArray, end: IntArray) -> BoolArray:
    due: BoolArray = (
        (seen.flag[begin] != Flag.OFF)
        & (seen.selection[begin] == seen.selection[end])
        & (abs(seen.dots[begin]) > DUE_DOTS)
        & (abs(seen.dots[begin]) < DOTS_FULL_SCALE)  # a pegged needle asks for no correction
    )
    return due


def wrong_turns(seen: IndicatorHistory) -> Iterator[WrongTurn]:
    """Yield the turns away from the course line while a correction was due."""
    begin, end, turned = turns(seen)
    side = np.sign(seen.deviation_deg[begin])
    course = seen.course_deg[begin]
    heading_before, heading = (_closing(seen.heading_deg[i], course, side) for i in (begin, end))
    track = _closing(seen.track_deg[end], course, side)
    wrong = (
        _due(seen, begin, end)
        & (np.sign(seen.deviation_deg[end]) == side)  # beyond the line the other way is right
        & (heading < heading_before)
        & (heading < -LEADS_AWAY_DEG)
        & (track < -LEADS_AWAY_DEG)
        & (track > -CORRECTION_DEG)
        & (abs(turned) <= LARGEST_TURN_DEG)
        & (np.maximum(heading, track) < -BEYOND_SHARE * abs(turned))
    )
    for i, amount in zip(begin[wrong], turned[wrong], strict=True):
        reverse = is_reverse_sensing(seen.heading_deg[i], seen.course_deg[i], int(seen.flag[i]))
        yield WrongTurn(float(seen.time_s[i]), float(amount), float(seen.dots[i]), bool(reverse))


def turns(seen: IndicatorHistory) -> tuple[IntArray, IntArray, FloatArray]:
    """Return where each turn of some size begins and ends, and how far it goes, positive right."""
    heading = np.unwrap(seen.heading_deg, period=360.0)
    rate = np.diff(heading) / np.diff(seen.time_s)
    direction = np.where(abs(rate) > TURNING_DEG_S, np.sign(rate), 0.0)
    spans = [(a, b) for a, b in runs(direction) if direction[a]]
    begin, end = np.array(spans, dtype=int).reshape(-1, 2).T
    turned = heading[end] - heading[begin]
    large = abs(turned) >= LEAST_TURN_DEG
    return begin[large], end[large], turned[large]


def _closing(direction_deg: FloatArray, course_deg: FloatArray, side: FloatArray) -> FloatArray:
    """Angle at which a direction closes on a course line that lies on a side, -90 to 90."""
    sine = np.sin(np.radians(difference_deg(direction_deg, course_deg)))
    closing: FloatArray = side * np.degrees(np.arcsin(np.clip(sine, -1.0, 1.0)))
    return closing
