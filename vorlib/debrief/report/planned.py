"""What was planned for a lesson against what was flown: a card's blanks, filled from the track."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from vorlib.aircraft.wind import Wind, wind_triangle
from vorlib.core.angles import (
    difference_deg,
    format_direction,
    format_tenths,
    mean_direction_deg,
    reciprocal_deg,
    spoken_side,
)
from vorlib.core.arguments import positive
from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.core.words import spoken_degrees, spoken_time
from vorlib.debrief.findings import Passage, Phase
from vorlib.debrief.recorded import RecordedDebrief
from vorlib.earth.geodesic import Position, inverse
from vorlib.stations.archipelago import Airfield
from vorlib.vor.coverage import cone_radius_nm
from vorlib.vor.receiver import Flag

__all__ = ["Compared", "Plan", "planned_against_flown"]

OVER_NM = 1.0  # a field is flown over within this


@dataclass(frozen=True)
class Plan:
    """What a lesson was planned with; what is None was not.

    Attributes
    ----------
    wind
        The forecast wind, true.
    altitude_ft, true_airspeed_kt
        The altitude above the sea, and the true airspeed.
    fields
        The fields that were to be flown over.
    """

    wind: Wind | None = None
    altitude_ft: float | None = None
    true_airspeed_kt: float | None = None
    fields: tuple[Airfield, ...] = ()

    def __post_init__(self) -> None:
        if self.altitude_ft is not None:
            positive("altitude_ft", self.altitude_ft, "ft")
        if self.true_airspeed_kt is not None:
            positive("true_airspeed_kt", self.true_airspeed_kt, "kt")


class Compared(NamedTuple):
    """One thing as it was planned, as it was flown, and the difference, in words."""

    what: str
    planned: str
    flown: str
    difference: str


def planned_against_flown(debrief: RecordedDebrief, plan: Plan) -> tuple[Compared, ...]:
    """Return what was planned against what was flown, in order of the flight.

    Radials come from the courses selected. Headings are by the compass, and like groundspeeds and
    times they are those of the forecast wind and the planned airspeed, if both are given.
    """
    rows = [*_wind(debrief, plan), *_altitude(debrief, plan), *_airspeed(debrief, plan)]
    later = [(one.begin_s, [*_leg(debrief, plan, one)]) for one in debrief.found.phases]
    later += [(one.time_s, [*_cone(debrief, plan, one)]) for one in debrief.found.passages]
    for _, some in sorted(later, key=lambda pair: pair[0]):
        rows += some
    for airfield in plan.fields:
        rows += _over(debrief, airfield)
    return tuple(rows)


def _wind(debrief: RecordedDebrief, plan: Plan) -> Iterator[Compared]:
    if plan.wind is None:
        return
    planned, flown = plan.wind, debrief.wind.wind
    if flown is None:
        yield Compared("wind, true", _blowing(planned), "the track does not tell", "")
        return
    turned = float(difference_deg(flown.from_deg, planned.from_deg))
    more = float(flown.speed_kt) - float(planned.speed_kt)
    yield Compared(
        "wind, true", _blowing(planned), _blowing(flown), f"{_turned(turned)}, {_more(more, 'kt')}"
    )


def _more(amount: float, unit: str, decimals: int = 0) -> str:
    """How much more was flown than was planned, signed; "none" for what rounds to nothing."""
    return f"{amount:+,.{decimals}f} {unit}" if round(amount, decimals) else "none"


def _turned(degrees: float) -> str:
    """By how much a direction was turned, to the right or to the left."""
    return f"{spoken_degrees(degrees)} {spoken_side(degrees)}" if round(degrees) else "none"


def _blowing(wind: Wind) -> str:
    return f"{format_direction(float(wind.from_deg))} at {float(wind.speed_kt):.0f} kt"


def _altitude(debrief: RecordedDebrief, plan: Plan) -> Iterator[Compared]:
    judged = debrief.seen.judged & (debrief.seen.lasting_s > 0.0)
    if plan.altitude_ft is None or not judged.any():
        return
    altitude = np.broadcast_to(debrief.flight.position.altitude_ft, judged.shape)[judged]
    mean = float(np.average(altitude, weights=debrief.seen.lasting_s[judged]))
    low, high = (round(float(edge), -1) for edge in (altitude.min(), altitude.max()))
    yield Compared(
        "altitude while navigating",
        f"{plan.altitude_ft:,.0f} ft",
        f"{mean:,.0f} ft on average, {low:,.0f} to {high:,.0f}",
        _more(mean - plan.altitude_ft, "ft"),
    )


def _airspeed(debrief: RecordedDebrief, plan: Plan) -> Iterator[Compared]:
    flown = debrief.wind.true_airspeed_kt
    if plan.true_airspeed_kt is not None and flown is not None:
        more = _more(flown - plan.true_airspeed_kt, "kt")
        yield Compared("true airspeed", f"{plan.true_airspeed_kt:.0f} kt", f"{flown:.0f} kt", more)


def _leg(debrief: RecordedDebrief, plan: Plan, phase: Phase) -> Iterator[Compared]:
    seen = debrief.seen
    part = (seen.time_s >= phase.begin_s) & (seen.time_s <= phase.end_s)
    inbound = phase.flag == Flag.TO
    radial = float(reciprocal_deg(phase.course_deg)) if inbound else phase.course_deg
    way = "inbound" if inbound else "outbound"
    name = f"{spoken_time(phase.begin_s)}: {phase.station_name} {way}"
    off = float(difference_deg(phase.mean_radial_deg, radial))
    held = format_tenths(phase.mean_radial_deg)
    yield Compared(f"{name}, radial", format_direction(radial), held, _more(off, "degrees", 1))
    if plan.wind is None or plan.true_airspeed_kt is None:
        return
    first = int(np.argmax(part))
    declination = seen.tuned[first].declination_deg
    try:
        hold = wind_triangle(
            phase.course_deg + declination,
            plan.true_airspeed_kt,
            plan.wind.from_deg,
            plan.wind.speed_kt,
        )
    except ValueError:  # no heading holds a course in such a wind
        return
    variation = difference_deg(debrief.flight.true_heading_deg[part], seen.heading_deg[part])
    expected = float(hold.heading_deg) - float(np.mean(variation))
    flown = float(mean_direction_deg(seen.heading_deg[part]))
    turned = _turned(float(difference_deg(flown, expected)))
    if debrief.wind.wind is not None:
        yield Compared(
            f"{name}, heading", format_direction(expected), format_direction(flown), turned
        )
    nm = abs(float(np.diff(seen.distance_nm[part][[0, -1]])[0]))
    yield from _times(name, nm, phase.end_s - phase.begin_s, float(hold.groundspeed_kt))


def _times(name: str, nm: float, flown_s: float, planned_kt: float) -> Iterator[Compared]:
    planned_s = nm / planned_kt * SECONDS_PER_HOUR
    flown_kt = nm / flown_s * SECONDS_PER_HOUR
    yield Compared(
        f"{name}, groundspeed",
        f"{planned_kt:.0f} kt",
        f"{flown_kt:.0f} kt",
        _more(flown_kt - planned_kt, "kt"),
    )
    yield Compared(
        f"{name}, time for {nm:.1f} NM",
        spoken_time(planned_s),
        spoken_time(flown_s),
        _more(flown_s - planned_s, "s"),
    )


def _cone(debrief: RecordedDebrief, plan: Plan, passed: Passage) -> Iterator[Compared]:
    if plan.altitude_ft is None or plan.true_airspeed_kt is None or not passed.overhead:
        return
    seen = debrief.seen
    first = int(np.searchsorted(seen.time_s, passed.time_s))
    off = first
    while off > 0 and seen.flag[off - 1] == Flag.OFF:
        off -= 1
    height_ft = max(0.0, plan.altitude_ft - float(seen.tuned[first].position.altitude_ft))
    planned_s = 2.0 * float(cone_radius_nm(height_ft)) / plan.true_airspeed_kt * SECONDS_PER_HOUR
    flown_s = float(seen.time_s[first] - seen.time_s[off])
    yield Compared(
        f"{spoken_time(passed.time_s)}: OFF over {passed.station_name}",
        f"{planned_s:.0f} s across the middle, in calm air",
        f"{flown_s:.0f} s",
        _more(flown_s - planned_s, "s"),
    )


def _over(debrief: RecordedDebrief, airfield: Airfield) -> Iterator[Compared]:
    """The radial over a field, of the station that was tuned where it was flown over."""
    seen, place, there = debrief.seen, debrief.flight.position, airfield.position
    away = inverse(there.lat_deg, there.lon_deg, place.lat_deg, place.lon_deg).distance_nm
    away = np.where(debrief.air.away & (debrief.selection >= 0), away, np.inf)
    nearest = int(np.argmin(away))
    if away[nearest] > OVER_NM:
        return
    station, radial = seen.tuned[nearest], float(seen.radial_deg[nearest])
    planned = float(station.radial_deg(Position(there.lat_deg, there.lon_deg)))
    yield Compared(
        f"{spoken_time(float(seen.time_s[nearest]))}: over {airfield.name}, radial of "
        f"{station.name}",
        format_tenths(planned),
        format_tenths(radial),
        _more(float(difference_deg(radial, planned)), "degrees", 1),
    )
