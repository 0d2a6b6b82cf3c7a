"""Plan an intercept, and fly it with a pilot who looks at nothing but the panel."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import NamedTuple

from vorlib.aircraft.flight import Aircraft, FlightState, start
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

__all__ = ["InterceptCase", "InterceptPlan", "fly_case", "plan_case"]

AFTER_S, SHORTEST_S = 180.0, 40.0  # flown on after the course is met
SHORT_NM = 2.0  # of the station a flight inbound ends
LONGEST_S = 1500.0
LOOKS_PER_S = 2.0


@dataclass(frozen=True)
class InterceptCase:
    """The set-up of an intercept: the start, the course to meet at which angle, and the air."""

    station: str
    radial_deg: float
    distance_nm: float
    altitude_ft: float
    course_deg: float
    inbound: bool
    angle_deg: float
    wind_from_deg: float
    wind_kt: float
    airspeed_kt: float


class InterceptPlan(NamedTuple):
    """A plan, or why there is none."""

    plan: Intercept | None
    problem: str


@lru_cache(maxsize=8)
def plan_case(case: InterceptCase) -> InterceptPlan:
    """Plan the intercept."""
    tuned = STATIONS[case.station]
    try:
        plan = plan_intercept(
            tuned,
            _begin(case),
            Aircraft(case.airspeed_kt),
            case.course_deg,
            inbound=case.inbound,
            angle_deg=case.angle_deg,
            wind=_wind(case),
        )
    except ValueError as error:
        words = str(error)
        return InterceptPlan(None, f"{words[0].upper()}{words[1:]}.")
    return InterceptPlan(plan, "")


@lru_cache(maxsize=8)
def fly_case(case: InterceptCase, lead: bool) -> Replay | None:
    """Fly the plan, on the intercept heading from the beginning; None without a plan.

    With *lead* the turn onto the course is led, else it begins when the needle centers.
    """
    plan = plan_case(case).plan
    if plan is None:
        return None
    tuned, aircraft = STATIONS[case.station], Aircraft(case.airspeed_kt)
    bank_deg = min(aircraft.bank_limit_deg, float(bank_for_rate_deg(case.airspeed_kt)))
    after_s = AFTER_S
    if case.inbound:
        short_nm = plan.distance_nm - SHORT_NM
        after_s = max(SHORTEST_S, short_nm / case.airspeed_kt * SECONDS_PER_HOUR)
    flown = fly(
        Intercepting(
            plan.heading_deg,
            float(turn_rate_deg_s(case.airspeed_kt, bank_deg)),
            lead,
            float(difference_deg(plan.hold_heading_deg, plan.course_deg)),
        ),
        aircraft,
        replace(_begin(case), true_heading_deg=plan.heading_deg + tuned.declination_deg),
        tuned,
        case.course_deg,
        min(plan.minutes * 60.0 + min(after_s, AFTER_S), LONGEST_S),
        wind=_wind(case),
        until=Passed(0.0) if case.inbound else None,
        looks_per_s=LOOKS_PER_S,
    )
    return Replay(tuned, flown)


def _begin(case: InterceptCase) -> FlightState:
    place = STATIONS[case.station].position_on(case.radial_deg, case.distance_nm, case.altitude_ft)
    return start(place, 360.0)


def _wind(case: InterceptCase) -> Wind:
    return Wind(case.wind_from_deg + STATIONS[case.station].declination_deg, case.wind_kt)
