"""Compare a planned course with the time for which it was tracked."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from vorlib.aircraft.wind import Wind, wind_triangle
from vorlib.core.angles import (
    difference_deg,
    format_direction,
    format_tenths,
    mean_direction_deg,
    reciprocal_deg,
)
from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.core.words import spoken_time
from vorlib.debrief.findings import Passage, Phase
from vorlib.debrief.recorded import HeadingSource, RecordedDebrief
from vorlib.debrief.report.compared import Compared, more, turned
from vorlib.earth.geodesic import Position, inverse
from vorlib.vor.receiver import Flag

__all__ = [
    "HeldCourse",
    "course_rows",
    "directions",
    "holding",
    "off_s",
    "over_field",
    "times",
]

OVER_NM = 1.0  # within this an airfield counts as flown over


class HeldCourse(NamedTuple):
    """The compass heading that holds a course in the forecast wind, and the groundspeed."""

    heading_deg: float
    groundspeed_kt: float


def holding(
    debrief: RecordedDebrief, phase: Phase, wind: Wind | None, true_airspeed_kt: float | None
) -> HeldCourse | None:
    """Return the heading and groundspeed for a course in the forecast wind; None if not known."""
    if wind is None or true_airspeed_kt is None:
        return None
    part = _part(debrief, phase)
    declination = debrief.seen.tuned[int(np.argmax(part))].declination_deg
    course = phase.course_deg + declination
    try:
        hold = wind_triangle(course, true_airspeed_kt, wind.from_deg, wind.speed_kt)
    except ValueError:  # no heading holds a course in such a wind
        return None
    true_heading, heading = debrief.flight.true_heading_deg, debrief.seen.heading_deg
    variation = float(np.mean(difference_deg(true_heading[part], heading[part])))
    return HeldCourse(float(hold.heading_deg) - variation, float(hold.groundspeed_kt))


def _part(debrief: RecordedDebrief, phase: Phase) -> np.ndarray:
    time_s = debrief.seen.time_s
    part: np.ndarray = (time_s >= phase.begin_s) & (time_s <= phase.end_s)
    return part


def course_rows(
    debrief: RecordedDebrief, phase: Phase, name: str, course_deg: float, hold: HeldCourse | None
) -> Iterator[Compared]:
    """Yield radial, heading, groundspeed and time of a course, as planned and as tracked."""
    seen, part = debrief.seen, _part(debrief, phase)
    radial = float(reciprocal_deg(course_deg)) if phase.flag == Flag.TO else course_deg
    off = float(difference_deg(phase.mean_radial_deg, radial))
    held = format_tenths(phase.mean_radial_deg)
    yield Compared(f"{name}, radial", format_direction(radial), held, more(off, "degrees", 1))
    if hold is None:
        return
    if debrief.heading is not HeadingSource.TRACK:
        flown = float(mean_direction_deg(seen.heading_deg[part]))
        yield directions(f"{name}, heading", hold.heading_deg, flown)
    nm = abs(float(np.diff(seen.distance_nm[part][[0, -1]])[0]))
    flown_s = phase.end_s - phase.begin_s
    planned_s = nm / hold.groundspeed_kt * SECONDS_PER_HOUR
    flown_kt = nm / flown_s * SECONDS_PER_HOUR
    yield Compared(
        f"{name}, groundspeed",
        f"{hold.groundspeed_kt:.0f} kt",
        f"{flown_kt:.0f} kt",
        more(round(flown_kt) - round(hold.groundspeed_kt), "kt"),
    )
    yield times(f"{name}, time for {nm:.1f} NM", planned_s, flown_s)


def directions(what: str, planned_deg: float, flown_deg: float) -> Compared:
    """Return two directions, and the difference of their rounded values."""
    apart = float(difference_deg(round(flown_deg), round(planned_deg)))
    return Compared(what, format_direction(planned_deg), format_direction(flown_deg), turned(apart))


def times(what: str, planned_s: float, flown_s: float) -> Compared:
    """Return two times, and the difference of their rounded values."""
    late = more(round(flown_s) - round(planned_s), "s")
    return Compared(what, spoken_time(planned_s), spoken_time(flown_s), late)


def off_s(debrief: RecordedDebrief, passed: Passage) -> float:
    """Return for how many seconds the flag read OFF over a station."""
    seen = debrief.seen
    first = int(np.searchsorted(seen.time_s, passed.time_s))
    off = first
    while off > 0 and seen.flag[off - 1] == Flag.OFF:
        off -= 1
    return float(seen.time_s[first] - seen.time_s[off])


def over_field(debrief: RecordedDebrief, there: Position) -> int | None:
    """Return the index of the moment nearest to a field; None if it was not flown over."""
    place = debrief.flight.position
    away = inverse(there.lat_deg, there.lon_deg, place.lat_deg, place.lon_deg).distance_nm
    away = np.where(debrief.air.away & (debrief.selection >= 0), away, np.inf)
    nearest = int(np.argmin(away))
    return nearest if away[nearest] <= OVER_NM else None
