"""Two flights of one student side by side, in the same numbers."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from vorlib.core.words import spoken_dots, spoken_time
from vorlib.debrief.amounts import spoken_off
from vorlib.debrief.recorded import RecordedDebrief

__all__ = ["SideBySide", "side_by_side"]

NONE = "none"


class SideBySide(NamedTuple):
    """One thing in words, for the first flight and for the second."""

    what: str
    first: str
    second: str


def side_by_side(first: RecordedDebrief, second: RecordedDebrief) -> tuple[SideBySide, ...]:
    """Return the same numbers of two flights, to compare them."""
    rows = (
        ("in the air", _flown),
        ("wind and airspeed", _wind),
        ("established on a course", _established),
        ("courses tracked", _courses),
        ("off the line while tracking, on average", _mean_off),
        ("off the line while tracking, at most", _most_off),
        ("of tracking within three quarters of full scale", _within),
        ("crossings of the center", lambda one: str(one.found.crossings)),
        ("courses met", _met),
        ("largest overshoot", _overshoot),
        ("turns away from the line", lambda one: str(len(one.found.wrong_turns) or NONE)),
        ("stations passed with the heading held", _passed),
        ("next course selected after a passage", _acted),
    )
    return tuple(SideBySide(what, said(first), said(second)) for what, said in rows)


def _flown(one: RecordedDebrief) -> str:
    return spoken_time(one.found.duration_s)


def _wind(one: RecordedDebrief) -> str:
    wind, airspeed = one.wind.wind, one.wind.true_airspeed_kt
    if wind is None or airspeed is None:
        return "not told by the track"
    return f"{float(wind.from_deg):03.0f} true at {float(wind.speed_kt):.0f} kt, {airspeed:.0f} kt"


def _established(one: RecordedDebrief) -> str:
    found = one.found
    if not found.established_s:
        return NONE
    share = 100.0 * found.outside_two_dots_s / found.established_s
    return f"{spoken_time(found.established_s)}, beyond two dots for {share:.0f} % of it"


def _courses(one: RecordedDebrief) -> str:
    phases = one.found.phases
    return f"{len(phases)}, {spoken_time(sum(_lasted(one)))} in all" if phases else NONE


def _lasted(one: RecordedDebrief) -> list[float]:
    return [phase.end_s - phase.begin_s for phase in one.found.phases]


def _average(one: RecordedDebrief, name: str) -> float:
    values = [getattr(phase, name) for phase in one.found.phases]
    return float(np.average(values, weights=_lasted(one)))


def _mean_off(one: RecordedDebrief) -> str:
    if not one.found.phases:
        return NONE
    return spoken_off(_average(one, "mean_away_deg"), _average(one, "mean_away_nm"))


def _most_off(one: RecordedDebrief) -> str:
    worst = max(one.found.phases, key=lambda phase: phase.largest_off_deg, default=None)
    return spoken_off(worst.largest_off_deg, worst.largest_off_nm) if worst else NONE


def _within(one: RecordedDebrief) -> str:
    return f"{100.0 * _average(one, 'within_limit'):.0f} %" if one.found.phases else NONE


def _met(one: RecordedDebrief) -> str:
    return str(len(one.found.intercepts) or NONE)


def _overshoot(one: RecordedDebrief) -> str:
    worst = max(one.found.intercepts, key=lambda met: met.overshoot_dots, default=None)
    if worst is None or not worst.overshoot_dots:
        return NONE
    return f"{spoken_dots(worst.overshoot_dots)}, {worst.overshoot_nm:.2f} NM"


def _passed(one: RecordedDebrief) -> str:
    passages = one.found.passages
    held = sum(passage.held_heading for passage in passages)
    return f"{held} of {len(passages)}" if passages else NONE


def _acted(one: RecordedDebrief) -> str:
    after = [p.course_changed_s for p in one.found.passages if p.course_changed_s is not None]
    return ", ".join(f"{seconds:.0f} s" for seconds in after) or NONE
