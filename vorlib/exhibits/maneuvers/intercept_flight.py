"""An intercept as planned, flown by a pilot who looks at nothing but the panel."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from vorlib.aircraft.flight import Aircraft, start
from vorlib.aircraft.turns import bank_for_rate_deg, turn_rate_deg_s
from vorlib.aircraft.wind import Wind
from vorlib.core.angles import difference_deg
from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.exhibits.base.replay import Replay
from vorlib.procedures.intercept import Intercept, plan_intercept
from vorlib.procedures.pilots import Command, Intercepting, Panel, Pilot, fly
from vorlib.procedures.tracking import Bracket
from vorlib.stations.archipelago import STATIONS
from vorlib.vor.receiver import Flag

__all__ = ["InterceptPilot", "fly_intercept"]

AFTER_S, SHORTEST_S = 180.0, 40.0  # flown on after the course is met
SHORT_NM = 2.0  # of the station a flight inbound ends
LONGEST_S = 1500.0
LOOKS_PER_S = 2.0


class InterceptPilot(NamedTuple):
    """A plan and its flight, or why there is none."""

    plan: Intercept | None
    replay: Replay | None
    problem: str


@lru_cache(maxsize=32)
def fly_intercept(
    station: str,
    radial_deg: float,
    distance_nm: float,
    altitude_ft: float,
    course_deg: float,
    inbound: bool,
    angle_deg: float,
    lead: bool,
    wind_from_deg: float,
    wind_kt: float,
    airspeed_kt: float,
) -> InterceptPilot:
    """Plan the intercept and fly it, on the intercept heading from the beginning."""
    tuned, aircraft = STATIONS[station], Aircraft(airspeed_kt)
    wind = Wind(wind_from_deg + tuned.declination_deg, wind_kt)
    begin = start(tuned.position_on(radial_deg, distance_nm, altitude_ft), 360.0)
    try:
        plan = plan_intercept(
            tuned, begin, aircraft, course_deg, inbound=inbound, angle_deg=angle_deg, wind=wind
        )
    except ValueError as error:
        words = str(error)
        return InterceptPilot(None, None, f"{words[0].upper()}{words[1:]}.")
    bank_deg = min(aircraft.bank_limit_deg, float(bank_for_rate_deg(airspeed_kt)))
    rate_deg_s = float(turn_rate_deg_s(airspeed_kt, bank_deg))
    after_s = AFTER_S
    if inbound:
        after_s = max(SHORTEST_S, (plan.distance_nm - SHORT_NM) / airspeed_kt * SECONDS_PER_HOUR)
    seconds = min(plan.minutes * 60.0 + min(after_s, AFTER_S), LONGEST_S)
    flown = fly(
        _pilot(plan, rate_deg_s, lead),
        aircraft,
        replace(begin, true_heading_deg=plan.heading_deg + tuned.declination_deg),
        tuned,
        course_deg,
        seconds,
        wind=wind,
        until=_passed if inbound else None,
        looks_per_s=LOOKS_PER_S,
    )
    return InterceptPilot(plan, Replay(tuned, flown), "")


def _pilot(plan: Intercept, rate_deg_s: float, lead: bool) -> Pilot:
    """Return a pilot who flies the plan: once on the course, with the heading that holds it."""
    pilot = Intercepting(plan.heading_deg, rate_deg_s, lead)
    held_deg = float(difference_deg(plan.hold_heading_deg, plan.course_deg))

    def look(panel: Panel) -> Command:
        command = pilot(panel)
        if pilot.established is not None and pilot.established.bracket is None:
            pilot.established.bracket = Bracket(plan.course_deg, held_deg)
        return command

    return look


def _passed(panel: Panel) -> bool:
    return panel.flag is Flag.FROM and panel.time_s > 0.0
