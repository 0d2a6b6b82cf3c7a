"""Plan an intercept, and fly it with a pilot who looks at nothing but the panel."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import NamedTuple

from vorlib.aircraft.flight import Aircraft, start
from vorlib.aircraft.turns import bank_for_rate_deg, turn_rate_deg_s
from vorlib.aircraft.wind import Wind
from vorlib.core.angles import difference_deg
from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.exhibits.replay.replay import Replay
from vorlib.procedures.flying import fly
from vorlib.procedures.intercept import Intercept, plan_intercept
from vorlib.procedures.panel import Passed
from vorlib.procedures.pilots import Intercepting
from vorlib.stations.archipelago import STATIONS

__all__ = ["InterceptCase", "InterceptPilot", "fly_intercept"]

AFTER_S, SHORTEST_S = 180.0, 40.0  # flown on after the course is met
SHORT_NM = 2.0  # of the station a flight inbound ends
LONGEST_S = 1500.0
LOOKS_PER_S = 2.0


@dataclass(frozen=True)
class InterceptCase:
    """The set-up of an intercept: the start, the course to meet and how, and the air."""

    station: str
    radial_deg: float
    distance_nm: float
    altitude_ft: float
    course_deg: float
    inbound: bool
    angle_deg: float
    lead: bool
    wind_from_deg: float
    wind_kt: float
    airspeed_kt: float


class InterceptPilot(NamedTuple):
    """A plan and its flight, or why there is none."""

    plan: Intercept | None
    replay: Replay | None
    problem: str


@lru_cache(maxsize=32)
def fly_intercept(case: InterceptCase) -> InterceptPilot:
    """Plan the intercept and fly it, on the intercept heading from the beginning."""
    tuned, aircraft = STATIONS[case.station], Aircraft(case.airspeed_kt)
    wind = Wind(case.wind_from_deg + tuned.declination_deg, case.wind_kt)
    place = tuned.position_on(case.radial_deg, case.distance_nm, case.altitude_ft)
    begin = start(place, 360.0)
    try:
        plan = plan_intercept(
            tuned,
            begin,
            aircraft,
            case.course_deg,
            inbound=case.inbound,
            angle_deg=case.angle_deg,
            wind=wind,
        )
    except ValueError as error:
        words = str(error)
        return InterceptPilot(None, None, f"{words[0].upper()}{words[1:]}.")
    bank_deg = min(aircraft.bank_limit_deg, float(bank_for_rate_deg(case.airspeed_kt)))
    after_s = AFTER_S
    if case.inbound:
        short_nm = plan.distance_nm - SHORT_NM
        after_s = max(SHORTEST_S, short_nm / case.airspeed_kt * SECONDS_PER_HOUR)
    seconds = min(plan.minutes * 60.0 + min(after_s, AFTER_S), LONGEST_S)
    flown = fly(
        Intercepting(
            plan.heading_deg,
            float(turn_rate_deg_s(case.airspeed_kt, bank_deg)),
            case.lead,
            float(difference_deg(plan.hold_heading_deg, plan.course_deg)),
        ),
        aircraft,
        replace(begin, true_heading_deg=plan.heading_deg + tuned.declination_deg),
        tuned,
        case.course_deg,
        seconds,
        wind=wind,
        until=Passed(0.0) if case.inbound else None,
        looks_per_s=LOOKS_PER_S,
    )
    return InterceptPilot(plan, Replay(tuned, flown), "")
