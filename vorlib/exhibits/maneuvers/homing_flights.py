"""Two flights to a station, homing and tracking, and what became of them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from vorlib.aircraft.flight import Aircraft, start
from vorlib.aircraft.wind import Wind, wind_triangle
from vorlib.core.angles import difference_deg, reciprocal_deg
from vorlib.exhibits.maneuvers.tracking_flight import LOOKS_PER_S
from vorlib.exhibits.replay.replay import Replay, off_line_nm
from vorlib.procedures.flying import fly
from vorlib.procedures.panel import Passed
from vorlib.procedures.pilots import Tracking
from vorlib.procedures.pursuit import fly_homing
from vorlib.procedures.tracking import Bracket
from vorlib.stations.archipelago import STATIONS

__all__ = ["FlightOutcome", "HomingCase", "both_flights", "outcome"]

ARRIVED_NM = 0.5
LONGEST_S = 2400.0


@dataclass(frozen=True)
class HomingCase:
    """The set-up of the two flights: where they start, and the air they fly in."""

    station: str
    radial_deg: float
    distance_nm: float
    altitude_ft: float
    airspeed_kt: float
    wind_from_deg: float
    wind_kt: float


@lru_cache(maxsize=8)
def both_flights(case: HomingCase) -> tuple[Replay, Replay]:
    """Fly both pilots straight for the station until they have passed it."""
    tuned, course_deg = STATIONS[case.station], float(reciprocal_deg(case.radial_deg))
    here = tuned.position_on(case.radial_deg, case.distance_nm, case.altitude_ft)
    begin = start(here, course_deg + tuned.declination_deg)
    try:
        into_wind = wind_triangle(course_deg, case.airspeed_kt, case.wind_from_deg, case.wind_kt)
        held_deg = float(into_wind.correction_deg)
    except ValueError:  # no heading holds the course: a pilot can but search for one
        held_deg = 0.0

    aircraft = Aircraft(case.airspeed_kt)
    wind = Wind(case.wind_from_deg + tuned.declination_deg, case.wind_kt)
    home = fly_homing(aircraft, begin, tuned, course_deg, LONGEST_S, wind, LOOKS_PER_S)
    held = fly(
        Tracking(Bracket(course_deg, held_deg)),
        aircraft,
        begin,
        tuned,
        course_deg,
        LONGEST_S,
        wind=wind,
        until=Passed(),
        looks_per_s=LOOKS_PER_S,
    )
    return Replay(tuned, home), Replay(tuned, held)


class FlightOutcome(NamedTuple):
    """What became of a flight to the station.

    The heading and how far it has turned are those of arrival; `held_deg` is the heading off the
    course for most of the way, positive right.
    """

    arrived: bool
    minutes: float
    off_nm: float
    turned_deg: float
    heading_deg: float
    held_deg: float


def outcome(replay: Replay, radial_deg: float) -> FlightOutcome:
    """Return how a flight straight along a radial to the station went.

    Up to where it came nearest to the station; off the radial and turned positive right, as seen
    by someone flying to the station.
    """
    nearest = int(np.argmin(replay.distance_nm))
    off = -off_line_nm(replay.flown.reading, radial_deg)[: nearest + 1]
    heading, course_deg = float(replay.heading_deg[nearest]), reciprocal_deg(radial_deg)
    return FlightOutcome(
        bool(replay.distance_nm[nearest] <= ARRIVED_NM),
        float(replay.flown.flight.time_s[nearest]) / 60.0,
        float(off[np.argmax(np.abs(off))]),
        float(difference_deg(heading, course_deg)),
        heading,
        float(np.median(difference_deg(replay.heading_deg[: nearest + 1], course_deg))),
    )
