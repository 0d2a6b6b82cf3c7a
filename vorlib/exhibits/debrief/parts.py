"""The parts of a debriefed flight that the exhibit shows: phases and the strip."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from vorlib.core.angles import format_direction
from vorlib.debrief.findings import LIMIT_SHARE
from vorlib.debrief.phases import FlightPhase
from vorlib.debrief.recorded import RecordedDebrief
from vorlib.debrief.report.in_order import Finding
from vorlib.views.flight.timeline_scene import Bar, Mark, TimelineScene
from vorlib.vor.receiver import DOTS_FULL_SCALE, Flag

__all__ = ["PhasePart", "phases_of", "strip_of"]


class PhasePart(NamedTuple):
    """A time of doing one thing, with what it is called."""

    words: str
    begin_s: float
    end_s: float


def phases_of(debrief: RecordedDebrief) -> tuple[PhasePart, ...]:
    """Return what was done, one thing after the other."""
    return tuple(_phases(debrief))


def _phases(debrief: RecordedDebrief) -> Iterator[PhasePart]:
    seen = debrief.seen
    for span in debrief.spans:
        if span.phase == FlightPhase.OTHER:
            continue
        flag = Flag(int(seen.flag[span.begin]))
        way = {Flag.TO: " inbound", Flag.FROM: " outbound", Flag.OFF: ""}[flag]
        course = format_direction(float(seen.course_deg[span.begin]))
        words = f"{span.phase}, {seen.tuned[span.begin].ident} {course}"
        if span.phase == FlightPhase.TRACKING:
            words += way
        last = min(span.end, seen.time_s.size) - 1
        yield PhasePart(words, float(seen.time_s[span.begin]), float(seen.time_s[last]))


def strip_of(debrief: RecordedDebrief, findings: Sequence[Finding]) -> TimelineScene:
    """Return the flight against time, its findings numbered."""
    seen = debrief.seen
    time_s, end_s = seen.time_s, float(seen.time_s[-1])
    begins = [max(0.0, one.time_s) for one in debrief.selections]
    selections = [
        Bar(
            f"{one.station.ident} {format_direction(one.course_deg)}",
            begin,
            min(following, one.until_s, end_s),
        )
        for one, begin, following in zip(
            debrief.selections, begins, [*begins[1:], end_s], strict=True
        )
        if begin < end_s and one.until_s > 0.0
    ]
    phases = [
        Bar(str(span.phase), float(time_s[span.begin]), _end_s(debrief, span.end))
        for span in debrief.spans
    ]
    return TimelineScene(
        time_s,
        seen.dots,
        np.where(debrief.selection < 0, -1, seen.flag),
        seen.segment,
        tuple(selections),
        tuple(phases),
        tuple(Mark(one.number, one.time_s) for one in findings),
        LIMIT_SHARE * DOTS_FULL_SCALE,
    )


def _end_s(debrief: RecordedDebrief, end: int) -> float:
    """When a span ends: as the next begins, but with its own segment of the recording."""
    seen = debrief.seen
    whole = end < seen.time_s.size and seen.segment[end] == seen.segment[end - 1]
    return float(seen.time_s[end if whole else end - 1])
