"""Compare a lesson's plan with the flight: fill in the card's blanks from the track."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from vorlib.aircraft.wind import Wind
from vorlib.briefing.card import lesson_card
from vorlib.briefing.facts import lesson_code
from vorlib.briefing.legs import card_legs
from vorlib.briefing.lesson import Lesson
from vorlib.core.angles import difference_deg, format_direction, format_tenths
from vorlib.core.arguments import within
from vorlib.core.limits import FASTEST_KT, HIGHEST_FT, LOWEST_PLANNED_FT, SLOWEST_KT
from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.core.words import spoken_time
from vorlib.debrief.findings import Passage, Phase
from vorlib.debrief.recorded import RecordedDebrief
from vorlib.debrief.report.compared import Compared, more, turned
from vorlib.debrief.report.planned_course import course_rows, holding, off_s, over_field
from vorlib.debrief.report.planned_tasks import flown_leg, flown_passage, leg_rows
from vorlib.earth.geodesic import Position
from vorlib.stations import ListedStation, StationList
from vorlib.stations.archipelago import STATIONS, Airfield
from vorlib.vor.coverage import cone_radius_nm
from vorlib.vor.receiver import Flag

__all__ = ["Compared", "Plan", "planned_against_flown"]

SAME_PLACE_NM = 0.01


@dataclass(frozen=True)
class Plan:
    """A lesson's plan; a value is None if it was not planned.

    Attributes
    ----------
    wind
        The forecast wind, true.
    altitude_ft, true_airspeed_kt
        The altitude above the sea, and the true airspeed.
    fields
        The airfields to fly over.
    lesson
        The lesson of a lesson card, whose tasks were to be flown.
    """

    wind: Wind | None = None
    altitude_ft: float | None = None
    true_airspeed_kt: float | None = None
    fields: tuple[Airfield, ...] = ()
    lesson: Lesson | None = None

    def __post_init__(self) -> None:
        if self.altitude_ft is not None:
            within("altitude_ft", self.altitude_ft, LOWEST_PLANNED_FT, HIGHEST_FT, "ft")
        if self.true_airspeed_kt is not None:
            within("true_airspeed_kt", self.true_airspeed_kt, SLOWEST_KT, FASTEST_KT, "kt")

    def on_card(self, lesson: Lesson) -> Plan:
        """Return the plan of a lesson card, with the values of this plan in place of the card's."""
        aircraft = lesson.aircraft
        if self.true_airspeed_kt is not None:
            aircraft = replace(aircraft, true_airspeed_kt=self.true_airspeed_kt)
        planned = replace(
            lesson,
            wind=self.wind or lesson.wind,
            altitude_ft=self.altitude_ft or lesson.altitude_ft,
            aircraft=aircraft,
        )
        return Plan(
            wind=planned.wind,
            altitude_ft=planned.altitude_ft,
            true_airspeed_kt=aircraft.true_airspeed_kt,
            fields=self.fields or lesson.fields,
            lesson=planned,
        )

    @property
    def stations(self) -> StationList | None:
        """The stations of the card; None without a card, or if they are those of the islands."""
        if self.lesson is None or all(_is_in_the_islands(one) for one in self.lesson.stations):
            return None
        return StationList(self.name, self.lesson.stations)

    @property
    def name(self) -> str:
        """The card's code and day, in words; empty without a card."""
        if self.lesson is None:
            return ""
        return f"lesson card {lesson_code(self.lesson)} for {self.lesson.on}"


def _is_in_the_islands(listed: ListedStation) -> bool:
    one, place = STATIONS.get(listed.station.ident), listed.station.position
    return one is not None and float(one.distance_nm(place)) < SAME_PLACE_NM


def planned_against_flown(debrief: RecordedDebrief, plan: Plan) -> tuple[Compared, ...]:
    """Return what was planned against what was flown.

    First come wind, altitude and airspeed; then the tasks of the card, if there is one, in their
    order; then what else was tracked and passed, in order of time. Planned headings are by the
    compass. Headings, groundspeeds and times are planned with the forecast wind and the planned
    airspeed, if both are given.
    """
    rows = [*_wind(debrief, plan), *_altitude(debrief, plan), *_airspeed(debrief, plan)]
    phases, passed = list(debrief.found.phases), list(debrief.found.passages)
    for leg in card_legs(lesson_card(plan.lesson)) if plan.lesson else ():
        phase = flown_leg(leg, phases)
        over = flown_passage(debrief, leg, phase)
        rows += leg_rows(debrief, leg, phase)
        phases = [one for one in phases if one is not phase]
        passed = [one for one in passed if one is not over]
    later = [(one.begin_s, [*_tracked(debrief, plan, one)]) for one in phases]
    later += [(one.time_s, [*_cone(debrief, plan, one)]) for one in passed]
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
    apart = float(difference_deg(round(flown.from_deg), round(planned.from_deg)))
    stronger = more(round(flown.speed_kt) - round(planned.speed_kt), "kt")
    difference = [turned(apart), stronger] if planned.speed_kt and round(apart) else [stronger]
    yield Compared("wind, true", _blowing(planned), _blowing(flown), ", ".join(difference))


def _blowing(wind: Wind) -> str:
    if not wind.speed_kt:
        return "calm"
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
        more(mean - plan.altitude_ft, "ft"),
    )


def _airspeed(debrief: RecordedDebrief, plan: Plan) -> Iterator[Compared]:
    flown = debrief.wind.true_airspeed_kt
    if plan.true_airspeed_kt is not None and flown is not None:
        planned = plan.true_airspeed_kt
        difference = more(round(flown) - round(planned), "kt")
        yield Compared("true airspeed", f"{planned:.0f} kt", f"{flown:.0f} kt", difference)


def _tracked(debrief: RecordedDebrief, plan: Plan, phase: Phase) -> Iterator[Compared]:
    way = "inbound" if phase.flag == Flag.TO else "outbound"
    name = f"{spoken_time(phase.begin_s)}: {phase.station_name} {way}"
    hold = holding(debrief, phase, plan.wind, plan.true_airspeed_kt)
    yield from course_rows(debrief, phase, name, phase.course_deg, hold)


def _cone(debrief: RecordedDebrief, plan: Plan, passed: Passage) -> Iterator[Compared]:
    if plan.altitude_ft is None or plan.true_airspeed_kt is None or not passed.overhead:
        return
    tuned = debrief.seen.tuned[int(np.searchsorted(debrief.seen.time_s, passed.time_s))]
    height_ft = max(0.0, plan.altitude_ft - float(tuned.position.altitude_ft))
    planned_s = 2.0 * float(cone_radius_nm(height_ft)) / plan.true_airspeed_kt * SECONDS_PER_HOUR
    flown_s = off_s(debrief, passed)
    yield Compared(
        f"{spoken_time(passed.time_s)}: OFF over {passed.station_name}",
        f"{planned_s:.0f} s across the middle, in calm air",
        f"{flown_s:.0f} s",
        more(round(flown_s) - round(planned_s), "s"),
    )


def _over(debrief: RecordedDebrief, airfield: Airfield) -> Iterator[Compared]:
    """Yield the radial over a field of the station that was tuned at that time."""
    seen, there = debrief.seen, airfield.position
    if (nearest := over_field(debrief, there)) is None:
        return
    station, radial = seen.tuned[nearest], float(seen.radial_deg[nearest])
    planned = float(station.radial_deg(Position(there.lat_deg, there.lon_deg)))
    yield Compared(
        f"{spoken_time(float(seen.time_s[nearest]))}: over {airfield.name}, radial of "
        f"{station.name}",
        format_tenths(planned),
        format_tenths(radial),
        more(float(difference_deg(radial, planned)), "degrees", 1),
    )
