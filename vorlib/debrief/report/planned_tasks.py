"""Compare the tasks of a lesson card with the flight: fill each blank from the track."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from vorlib.briefing.card import Seen
from vorlib.briefing.legs import CardLeg
from vorlib.briefing.outbound import Halfway
from vorlib.core.angles import difference_deg, format_direction, format_tenths, mean_direction_deg
from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.debrief.findings import Intercepted, Passage, Phase
from vorlib.debrief.phases import FlightPhase
from vorlib.debrief.recorded import HeadingSource, RecordedDebrief
from vorlib.debrief.report.compared import Compared, more
from vorlib.debrief.report.planned_course import (
    HeldCourse,
    course_rows,
    directions,
    off_s,
    over_field,
    times,
)
from vorlib.vor.receiver import Flag

__all__ = ["flown_leg", "flown_passage", "leg_rows"]

SAME_COURSE_DEG = 10.0  # a course within this of the card's counts as the card's
LEAST_HELD_S = 15.0  # a heading held for less does not count
NOT_FLOWN = "not flown"


def flown_leg(leg: CardLeg, phases: list[Phase]) -> Phase | None:
    """Return the first of the phases, in order of time, that tracked a course of the card."""
    flag = Flag.TO if leg.inbound else Flag.FROM
    return next(
        (
            phase
            for phase in phases
            if phase.station_name == leg.station.name
            and phase.flag == flag
            and abs(float(difference_deg(phase.course_deg, leg.course_deg))) <= SAME_COURSE_DEG
        ),
        None,
    )


def flown_passage(debrief: RecordedDebrief, leg: CardLeg, phase: Phase | None) -> Passage | None:
    """Return the station passage at the end of a course of the card."""
    if phase is None or not leg.passage_title:
        return None
    after = (one for one in debrief.found.passages if one.time_s >= phase.begin_s)
    return next((one for one in after if one.station_name == leg.station.name), None)


def leg_rows(debrief: RecordedDebrief, leg: CardLeg, phase: Phase | None) -> Iterator[Compared]:
    """Yield the blanks of a task of the card, filled in from the track."""
    name = f"{leg.title}: {leg.station.name}"
    if phase is None:
        course, heading = format_direction(leg.course_deg), format_direction(leg.heading_deg)
        way = "TO" if leg.inbound else "FROM"
        yield Compared(name, f"{course} {way}, heading {heading}", NOT_FLOWN, "")
    else:
        yield directions(f"{name}, course selected", leg.course_deg, phase.course_deg)
        flown = _intercept_heading_deg(debrief, phase)
        if leg.intercept_deg is not None and flown is not None:
            yield directions(f"{name}, heading to the line", leg.intercept_deg, flown)
        hold = HeldCourse(leg.heading_deg, leg.groundspeed_kt)
        yield from course_rows(debrief, phase, name, leg.course_deg, hold)
        yield from _arrival(debrief, leg, phase)
    if leg.passage_title:
        yield from _passage_rows(debrief, leg, phase)
    if leg.check is not None and leg.check.other is not None:
        yield _check(debrief, leg, leg.check, leg.check.other, phase)


def _met(debrief: RecordedDebrief, phase: Phase) -> Intercepted | None:
    """Return the intercept that led to a phase of tracking; None without one."""
    met = [
        one
        for one in debrief.found.intercepts
        if one.station_name == phase.station_name
        and one.course_deg == phase.course_deg
        and one.time_s <= phase.end_s
    ]
    return met[-1] if met else None


def _passage_rows(
    debrief: RecordedDebrief, leg: CardLeg, phase: Phase | None
) -> Iterator[Compared]:
    name = f"{leg.passage_title}: {leg.station.name}"
    passed = flown_passage(debrief, leg, phase)
    planned = f"{leg.off_s:.0f} s across the middle"
    if phase is None or passed is None:
        yield Compared(f"{name}, OFF", planned, NOT_FLOWN, "")
        return
    if (met := _met(debrief, phase)) is not None:
        planned_s = leg.distance_nm / leg.groundspeed_kt * SECONDS_PER_HOUR
        yield times(f"{name}, time from the line", planned_s, passed.nearest_s - met.time_s)
    flown_s = off_s(debrief, passed)
    flown = f"{flown_s:.0f} s" if passed.overhead else f"abeam, {passed.distance_nm:.1f} NM"
    late = more(round(flown_s) - round(leg.off_s), "s") if passed.overhead else ""
    yield Compared(f"{name}, OFF", planned, flown, late)


def _intercept_heading_deg(debrief: RecordedDebrief, phase: Phase) -> float | None:
    """Return the heading held toward the course line; None if none was held or it is not known."""
    seen, met = debrief.seen, _met(debrief, phase)
    if met is None or debrief.heading is HeadingSource.TRACK:
        return None
    at = int(np.searchsorted(seen.time_s, met.time_s))
    begins = [
        span.begin
        for span in debrief.spans
        if span.phase == FlightPhase.INTERCEPTING
        and span.begin < at
        and seen.attempt[span.begin] == seen.attempt[at]
    ]
    if not begins or seen.time_s[at] - seen.time_s[begins[-1]] < LEAST_HELD_S:
        return None
    begin = begins[-1]
    heading = seen.heading_deg[begin:at]
    about = float(mean_direction_deg(heading))
    return about + float(np.median(difference_deg(heading, about)))


def _arrival(debrief: RecordedDebrief, leg: CardLeg, phase: Phase) -> Iterator[Compared]:
    """Yield the time from the station to the field."""
    if leg.field is None or (over := over_field(debrief, leg.field.position)) is None:
        return
    left = [
        one.nearest_s
        for one in debrief.found.passages
        if one.station_name == phase.station_name and one.nearest_s <= phase.begin_s
    ]
    arrived_s = float(debrief.seen.time_s[over])
    if left and arrived_s > phase.begin_s:
        planned_s = leg.distance_nm / leg.groundspeed_kt * SECONDS_PER_HOUR
        what = f"{leg.title}: from {leg.station.name} to {leg.field.name}"
        yield times(what, planned_s, arrived_s - left[-1])


def _check(
    debrief: RecordedDebrief, leg: CardLeg, way: Halfway, other: Seen, phase: Phase | None
) -> Compared:
    """Return the radial of the second station halfway."""
    halfway_nm = way.seen.distance_nm / 2.0
    name = f"{leg.check_title}: {halfway_nm:.1f} NM out, radial of {other.station.name}"
    planned = format_direction(other.radial_deg)
    place, seen = debrief.flight.position, debrief.seen
    far = leg.station.distance_nm(place) >= halfway_nm
    outward = debrief.air.away & far & ~np.concatenate([[True], far[:-1]])
    there = np.flatnonzero(outward)
    if phase is None or not there.size:
        return Compared(name, planned, NOT_FLOWN, "")
    apart_s = abs(seen.time_s[there] - np.clip(seen.time_s[there], phase.begin_s, phase.end_s))
    place_at = there[np.argmin(apart_s)]  # nearest in time to when the course was tracked
    radial = float(other.station.radial_deg(place)[place_at])
    off = more(float(difference_deg(radial, other.radial_deg)), "degrees", 1)
    return Compared(name, planned, format_tenths(radial), off)
