"""The search for habits in a flight whose station and course are known as they were set."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from vorlib.aircraft.ground_track import BoolArray, IntArray, runs
from vorlib.core.angles import difference_deg, mean_direction_deg
from vorlib.debrief.findings import CROSSED_DOTS, Found, WrongTurn
from vorlib.debrief.habits.kinds import (
    FixPassed,
    FlownThrough,
    Homed,
    NotIdentified,
    ReverseFollowed,
)
from vorlib.debrief.indicator_history import DRIFT_DEG, ESTABLISHED_DOTS, IndicatorHistory
from vorlib.vor.receiver import DEG_PER_DOT, Flag

__all__ = ["habits", "homing"]

# What counts; all of it chosen for teaching.
LARGEST_STEP_DEG, LONGEST_REST_S = 15.0, 180.0  # from one re-centering of the ring to the next
LEAST_STEPS, SHORTEST_HOMING_S = 4, 60.0
RECENTERED_DOTS, NOSE_DEG = 1.5, 30.0  # near the middle, and the nose near the ring, while homing
FLOWN_ON_S = 60.0  # flown on through a course for so long without turning onto it
STEEP_DEG = 60.0  # a steeper crossing may only have been for a bearing
AT_A_FIX_DEG = 30.0  # a radial crossed at more than this is met as a fix
LATE_S, LONGEST_LATE_S, FIX_TURN_DEG = 15.0, 600.0, 15.0  # a turn at a fix: when, and how far
SAME_DEG = 5.0  # two courses no further apart are one
SHORTEST_USE_S = 60.0  # for which a station is tuned before its ident is missed


def homing(seen: IndicatorHistory) -> BoolArray:
    """Return at which moments the pilot was homing."""
    homed = np.zeros(seen.time_s.size, dtype=bool)
    for begin, end, _ in _homing_spans(seen):
        homed[begin:end] = True
    return homed


def habits(
    seen: IndicatorHistory,
    homed: BoolArray,
    wrong_turns: Sequence[WrongTurn],
    identified: BoolArray | None,
) -> tuple[Found, ...]:
    """Return the habits that a flight shows.

    Parameters
    ----------
    seen
        The flight.
    homed
        As `homing` returns it.
    wrong_turns
        The turns away from the course line.
    identified
        Whether the ident of the station tuned had been taken; None where that is not known.
    """
    return (
        *_homed(seen),
        *_reverse_followed(seen, wrong_turns),
        *_flown_through(seen, homed),
        *_fixes_passed(seen),
        *(() if identified is None else _not_identified(seen, identified)),
    )


def _homing_spans(seen: IndicatorHistory) -> Iterator[tuple[int, int, int]]:
    """Yield where each time of homing begins and ends, and how often the ring was re-centered."""
    spans = runs(seen.selection)
    first, steps = 0, 0
    for i in range(1, len(spans) + 1):
        if i < len(spans) and _is_recentering(seen, spans[i - 1], spans[i]):
            steps += 1
            continue
        begin, end = spans[first][0], spans[i - 1][1]
        lasted_s = seen.time_s[end - 1] - seen.time_s[begin]
        if steps >= LEAST_STEPS and lasted_s >= SHORTEST_HOMING_S:
            yield begin, end, steps
        first, steps = i, 0


def _is_recentering(seen: IndicatorHistory, before: tuple[int, int], now: tuple[int, int]) -> bool:
    """Return whether a selection only re-centers a needle that was near the middle."""
    last, begin, end = before[1] - 1, *now
    step_deg = abs(float(difference_deg(seen.course_deg[begin], seen.course_deg[last])))
    nose_deg = abs(difference_deg(seen.heading_deg[begin:end], seen.course_deg[begin]))
    return bool(
        seen.tuned_number[last] == seen.tuned_number[begin]
        and seen.segment[last] == seen.segment[begin]
        and seen.flag[last] == seen.flag[begin] == Flag.TO
        and step_deg <= LARGEST_STEP_DEG
        and abs(seen.dots[last]) <= LARGEST_STEP_DEG / DEG_PER_DOT
        and abs(seen.dots[begin]) <= RECENTERED_DOTS
        and np.median(nose_deg) <= NOSE_DEG
        and seen.time_s[begin] - seen.time_s[before[0]] <= LONGEST_REST_S
    )


def _homed(seen: IndicatorHistory) -> Iterator[Homed]:
    for begin, end, times in _homing_spans(seen):
        yield Homed(
            seen.tuned[begin].name,
            float(seen.time_s[begin]),
            float(seen.time_s[end - 1]),
            times,
            (float(seen.course_deg[begin]), float(seen.course_deg[end - 1])),
        )


def _reverse_followed(
    seen: IndicatorHistory, wrong_turns: Sequence[WrongTurn]
) -> Iterator[ReverseFollowed]:
    turns = np.array([turn.time_s for turn in wrong_turns if turn.reverse_sensing])
    against = abs(difference_deg(seen.heading_deg, seen.course_deg)) > 90.0
    against &= seen.flag != Flag.OFF
    for begin, end in runs(np.where(against, seen.selection, -1)):
        begin_s, end_s = float(seen.time_s[begin]), float(seen.time_s[end - 1])
        times = int(np.sum((turns >= begin_s) & (turns <= end_s)))
        if against[begin] and times:
            nose_deg = float(mean_direction_deg(seen.heading_deg[begin:end]))
            yield ReverseFollowed(nose_deg, float(seen.course_deg[begin]), begin_s, end_s, times)


def _crossed(seen: IndicatorHistory, begin: int, end: int) -> IntArray:
    """Return the moments of a run at which the needle comes to the other side."""
    off = begin + np.flatnonzero(
        (abs(seen.dots[begin:end]) > CROSSED_DOTS) & (seen.flag[begin:end] != Flag.OFF)
    )
    same = (np.diff(off) > 0) & (seen.flag[off[1:]] == seen.flag[off[:-1]])
    crossed: IntArray = off[1:][(np.diff(np.sign(seen.dots[off])) != 0) & same]
    return crossed


def _flown_through(seen: IndicatorHistory, homed: BoolArray) -> Iterator[FlownThrough]:
    off = abs(seen.deviation_deg)
    for begin, end in runs(seen.attempt):
        for met in _crossed(seen, begin, end)[:1].tolist():
            angle = float(seen.line_angle_deg[met])
            flown_on = seen.time_s[end - 1] - seen.time_s[met] >= FLOWN_ON_S
            beyond = off[met:end].max() > ESTABLISHED_DOTS * DEG_PER_DOT
            turned = np.any(seen.turned_onto[begin:end])
            wanted = DRIFT_DEG < angle <= STEEP_DEG and not homed[met]
            if wanted and flown_on and beyond and not turned:
                name, course_deg = seen.tuned[met].name, float(seen.course_deg[met])
                yield FlownThrough(name, course_deg, float(seen.time_s[met]), angle)


def _fixes_passed(seen: IndicatorHistory) -> Iterator[FixPassed]:
    spans = runs(seen.selection)
    for i, (begin, end) in enumerate(spans[:-1]):
        for met in _crossed(seen, begin, end)[:1].tolist():
            if seen.line_angle_deg[met] < AT_A_FIX_DEG or not _leads_on(seen, met, spans[i + 1]):
                continue
            turned = abs(difference_deg(seen.heading_deg[met:], seen.heading_deg[met]))
            late = np.flatnonzero(turned >= FIX_TURN_DEG)
            late_s = float(seen.time_s[met + late[0]] - seen.time_s[met]) if late.size else np.inf
            if LATE_S <= late_s <= LONGEST_LATE_S:
                radial_deg = _radial_deg(seen, met)
                past = abs(float(difference_deg(seen.radial_deg[met + late[0]], radial_deg)))
                name, met_s = seen.tuned[met].name, float(seen.time_s[met])
                yield FixPassed(name, radial_deg, met_s, late_s, past)


def _radial_deg(seen: IndicatorHistory, at: int) -> float:
    """Return the radial that is selected."""
    return float(seen.course_deg[at]) + 180.0 * bool(seen.flag[at] == Flag.TO)


def _leads_on(seen: IndicatorHistory, met: int, later: tuple[int, int]) -> bool:
    """Return whether the next selection leads along the radial that was met, in or out."""
    apart = abs(float(difference_deg(seen.course_deg[later[0]], seen.course_deg[met])))
    same = seen.tuned_number[later[0]] == seen.tuned_number[met]
    return bool(same and min(apart, 180.0 - apart) <= SAME_DEG)


def _not_identified(seen: IndicatorHistory, identified: BoolArray) -> Iterator[NotIdentified]:
    for begin, end in runs(seen.tuned_number):
        begin_s, end_s = float(seen.time_s[begin]), float(seen.time_s[end - 1])
        if end_s - begin_s >= SHORTEST_USE_S and not identified[begin:end].any():
            yield NotIdentified(seen.tuned[begin].name, begin_s, end_s)
