"""The route of the lesson about a whole flight: its plan, its tasks, and pilots that fly it.

It leads over Quillon to a fix, then over Tessarin to Tessarin Landing. The wind differs a little
from the forecast.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from typing import Any

from vorlib.aircraft.flight import Aircraft
from vorlib.aircraft.wind import Wind
from vorlib.core.angles import format_direction, wrap_360
from vorlib.earth.geodesic import Position
from vorlib.earth.variation import variation_deg
from vorlib.exhibits.base.registry import offered
from vorlib.exhibits.flown_by_hand import tasks
from vorlib.exhibits.flown_by_hand.debrief import held_heading_deg
from vorlib.exhibits.flown_by_hand.exhibit import flight
from vorlib.exhibits.flown_by_hand.flight_exhibit import FlightExhibit
from vorlib.exhibits.flown_by_hand.hand_flight import HandFlightState, flown
from vorlib.procedures.fixing import fix_from_radials
from vorlib.procedures.flight_plan import FlightPlan, PlannedLeg
from vorlib.procedures.intercept import Intercept
from vorlib.procedures.panel import Command, Panel, Pilot
from vorlib.procedures.pilots import Intercepting
from vorlib.stations.archipelago import AIRFIELDS, STATIONS, TODAY
from vorlib.vor.receiver import Flag

__all__ = [
    "briefing",
    "compared",
    "flight_plan",
    "flown_by_pilots",
    "lead_at_start",
    "lead_at_the_fix",
    "short_leg",
    "whole_flight",
]

FIRST, SECOND, FIELD = "QLN", "TSX", "9TES"
START_RADIAL_DEG, START_NM, START_HEADING_DEG, ALTITUDE_FT = 235.0, 18.0, 40.0, 5500.0
IN_DEG, OUT_DEG, FIX_RADIAL_DEG, ON_DEG, LAST_DEG = 40.0, 90.0, 205.0, 25.0, 67.0
FORECAST_DEG, FORECAST_KT = 300.0, 12.0  # magnetic, at the first station
WIND_DEG, WIND_KT = 325.0, 18.0
START: dict[str, Any] = {
    "start_station": FIRST,
    "start_radial_deg": START_RADIAL_DEG,
    "start_distance_nm": START_NM,
    "altitude_ft": ALTITUDE_FT,
    "wanted_heading_deg": START_HEADING_DEG,
    "course_deg": 360.0,
    "wind_from_deg": WIND_DEG,
    "wind_kt": WIND_KT,
    "range_nm": 50.0,
}
CROSS_CHECK_NM = 10.0  # from the first station, outbound
BEFORE_THE_FIX_NM = 18.0  # where on the leg the turn is planned
LOOK_S = 1.0
HELD_S = 60.0  # how long the pilots spend on the cross-check
CUT_DEG = 45.0  # intercept angle of the pilots after a station


@offered
@cache
def flight_plan() -> FlightPlan:
    """Return the plan of the route in the forecast wind, from the first intercept on."""
    first, second = STATIONS[FIRST], STATIONS[SECOND]
    variation = float(variation_deg(first.position, TODAY))
    fix = fix_from_radials([(first, OUT_DEG), (second, FIX_RADIAL_DEG)])
    landing = AIRFIELDS[FIELD]
    inbound = PlannedLeg(f"to {first.name}", first, IN_DEG, True, _start(), first.position)
    wind = Wind(FORECAST_DEG + variation, FORECAST_KT)
    plan = FlightPlan((inbound,), Aircraft(), ALTITUDE_FT, wind, variation)
    met = first.position_on(IN_DEG + 180.0, plan.lead(inbound, _start()).distance_nm)
    legs = (
        replace(inbound, begin=met),
        PlannedLeg("out to the fix", first, OUT_DEG, False, first.position, fix),
        PlannedLeg(f"to {second.name}", second, ON_DEG, True, fix, second.position),
        PlannedLeg(
            f"to {landing.name}", second, LAST_DEG, False, second.position, landing.position
        ),
    )
    return replace(plan, legs=legs)


def _start() -> Position:
    return STATIONS[FIRST].position_on(START_RADIAL_DEG, START_NM)


@offered
def briefing() -> str:
    """Return the plan as a card in plain text, with the two turns that need a lead."""
    plan = flight_plan()
    leads = (plan.legs[0], lead_at_start()), (plan.legs[2], lead_at_the_fix())
    return "\n".join([plan.card, "", *(plan.lead_words(*lead) for lead in leads), _cross_check()])


def _cross_check() -> str:
    """Return the cross-check as a line: the radial of the second station on the way to the fix."""
    first, second = STATIONS[FIRST], STATIONS[SECOND]
    radial_deg = float(second.radial_deg(first.position_on(OUT_DEG, CROSS_CHECK_NM, ALTITUDE_FT)))
    return (
        f"Cross-check on {format_direction(OUT_DEG)}, {CROSS_CHECK_NM:g} NM from {first.name}: "
        f"{second.name} {format_direction(radial_deg)} with FROM."
    )


def lead_at_start() -> Intercept:
    """Return the intercept of the first course in the forecast wind."""
    plan = flight_plan()
    return plan.lead(plan.legs[0], _start())


@offered
def lead_at_the_fix() -> Intercept:
    """Return the intercept at the fix of the course to the second station, in the forecast wind."""
    plan = flight_plan()
    outbound, onward = plan.legs[1:3]
    before = outbound.station.position_on(OUT_DEG, BEFORE_THE_FIX_NM)
    return plan.lead(onward, before, plan.expected(outbound).heading_deg)


@offered
def short_leg() -> FlightExhibit:
    """Return a short leg to practice first: over Quillon and ten miles beyond, in calm air."""
    todo = [tasks.identify(FIRST), tasks.intercept(FIRST, IN_DEG), tasks.pass_over(FIRST, IN_DEG)]
    return flight(
        FIRST,
        tasks=todo,
        start_radial_deg=230.0,
        start_distance_nm=8.0,
        altitude_ft=ALTITUDE_FT,
        wanted_heading_deg=60.0,
        course_deg=IN_DEG,
        wind_kt=0.0,
        range_nm=12.5,
    )


@offered
def whole_flight() -> FlightExhibit:
    """Return the whole route to fly by hand; another station is tuned at the start."""
    todo = [
        tasks.tune(FIRST),
        tasks.identify(FIRST),
        tasks.orient(FIRST),
        tasks.intercept(FIRST, IN_DEG),
        tasks.track_in(FIRST, IN_DEG, 4.0),
        tasks.pass_over(FIRST, IN_DEG),
        tasks.track_out(FIRST, OUT_DEG, CROSS_CHECK_NM),
        tasks.tune(SECOND),
        tasks.identify(SECOND),
        tasks.orient(SECOND),
        tasks.track_out(FIRST, OUT_DEG, 20.0),
        tasks.meet_radial(SECOND, FIX_RADIAL_DEG),
        tasks.intercept(SECOND, ON_DEG),
        tasks.track_in(SECOND, ON_DEG, 4.0),
        tasks.pass_over(SECOND, ON_DEG),
        tasks.track_out(SECOND, LAST_DEG, 10.0),
        tasks.arrive(FIELD, 1.0),
    ]
    return flight("HTX", tasks=todo, **START)


@offered
def flown_by_pilots() -> FlightExhibit:
    """Return the whole route as flown to its end by the pilots of `vorlib.procedures.pilots`."""
    exhibit = whole_flight()
    state = _changed(exhibit.state, station=FIRST, heard=FIRST)
    state = _changed(state, course_deg=float(wrap_360(round(float(state.reading.radial_deg)))))
    state = _changed(state, course_deg=IN_DEG)
    inbound = Intercepting(lead_at_start().heading_deg)
    state = _guided(state, inbound, _passed)
    state = _changed(state, course_deg=OUT_DEG)
    outbound = Intercepting(OUT_DEG + CUT_DEG)
    state = _guided(state, outbound, _out(11.0))
    # there is one receiver: hold the heading while the other station is tuned
    state = _changed(state, station=SECOND, heard=SECOND)
    state = _changed(state, course_deg=float(wrap_360(round(float(state.reading.radial_deg)))))
    state = _changed(flown(state, HELD_S), station=FIRST, course_deg=OUT_DEG, heard=FIRST)
    state = _guided(state, outbound, _out(21.0))
    state = _changed(state, station=SECOND, heard=SECOND, course_deg=FIX_RADIAL_DEG)
    state = _guided(state, _hold, _centered)
    onward = Intercepting(state.wanted_heading_deg)
    state = _guided(_changed(state, course_deg=ON_DEG), onward, _passed)
    state = _changed(state, course_deg=LAST_DEG)
    state = _guided(state, Intercepting(LAST_DEG + CUT_DEG), lambda now: now.task is None)
    exhibit.take_up(replace(state, heard=""))  # a page must not play an ident unasked
    return exhibit


def _guided(
    state: HandFlightState, pilot: Pilot, until: Callable[[HandFlightState], bool]
) -> HandFlightState:
    """Let a pilot turn the bug until a condition holds."""
    while not until(state) and not state.over:
        panel = Panel(
            state.moment.time_s,
            state.heading_deg,
            state.course_deg,
            float(state.reading.dots),
            Flag(int(state.reading.flag)),
        )
        heading = pilot(panel).heading_deg
        state = flown(replace(state, wanted_heading_deg=heading), LOOK_S)
    return state


def _changed(state: HandFlightState, **changes: Any) -> HandFlightState:
    """Return a state with some changes, and with the tasks that they complete."""
    return flown(replace(state, **changes), 0.0)


def _hold(panel: Panel) -> Command:
    return Command(panel.heading_deg, panel.course_deg)


def _passed(state: HandFlightState) -> bool:
    return bool(state.reading.flag == Flag.FROM)


def _out(distance_nm: float) -> Callable[[HandFlightState], bool]:
    return lambda state: bool(state.reading.distance_nm >= distance_nm)


def _centered(state: HandFlightState) -> bool:
    return abs(float(state.reading.dots)) < 1.0


@offered
def compared(exhibit: FlightExhibit) -> str:
    """Return the card's headings beside those that held each course in flight, as a table.

    The heading that held a course is the mean over the second half of the last time that it was
    tracked. A course that was never tracked has none.
    """
    rows = [f"{'leg':24}{'card':>6}{'flown':>8}"]
    for leg in flight_plan().legs:
        card = format_direction(flight_plan().expected(leg).heading_deg)
        held = held_heading_deg(exhibit.state, leg.station.name, leg.course_deg)
        rows.append(f"{leg.name:24}{card:>6}{'-' if held is None else format_direction(held):>8}")
    return "\n".join(rows)
