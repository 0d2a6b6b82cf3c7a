"""A course flown in an unseen wind: by headings set by hand, or by a pilot with a habit."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import lru_cache
from typing import NamedTuple, TypeAlias

import numpy as np

from vorlib.aircraft.flight import Aircraft, start
from vorlib.aircraft.wind import Wind
from vorlib.core.angles import reciprocal_deg
from vorlib.exhibits.replay.replay import Replay
from vorlib.procedures.flying import fly
from vorlib.procedures.panel import Command, Panel, Panels, Passed, Pilot, first_true
from vorlib.procedures.pilots import Chasing, Tracking
from vorlib.procedures.tracking import Bracket
from vorlib.stations.archipelago import STATIONS

__all__ = [
    "AIRSPEED_KT",
    "BRACKETING",
    "BY_HAND",
    "CHASING",
    "LOOKS_PER_S",
    "Orders",
    "TrackingCase",
    "TrackingPilot",
    "fly_course",
    "heading_at",
    "unseen_wind",
]

BY_HAND, BRACKETING, CHASING = "you", "the bracketing pilot", "the needle-chasing pilot"
AIRSPEED_KT = 100.0
SLOWEST_WIND_KT, FASTEST_WIND_KT = 14, 26
LONGEST_S = 1200.0
LOOKS_PER_S = 1.0  # homing flies as with ten looks a second, to a hundredth of a mile

Orders: TypeAlias = tuple[tuple[float, float], ...]
"""Pairs of a time in seconds and the magnetic heading flown from then on, in order."""


def heading_at(headings: Orders, time_s: float, course_deg: float) -> float:
    """Return the heading set at a time: the course until the first is set."""
    return next((h for since, h in reversed(headings) if since <= time_s), course_deg)


@dataclass
class Noting:
    """A bracketing pilot who keeps each step of the search."""

    pilot: Tracking = field(default_factory=Tracking)
    brackets: list[Bracket] = field(default_factory=list)

    def __call__(self, panel: Panel) -> Command:
        """Fly as the pilot does."""
        command = self.pilot(panel)
        assert self.pilot.bracket is not None
        self.brackets.append(self.pilot.bracket)
        return command

    def unmoved(self, panels: Panels, begin: int) -> int:
        """Return the next look that may matter; see `vorlib.procedures.panel.Patient`."""
        look = self.pilot.unmoved(panels, begin)
        if self.pilot.bracket is not None:
            self.brackets += [self.pilot.bracket] * (look - begin)
        return look


@dataclass
class ByHand:
    """A pilot who flies the headings set by hand."""

    headings: Orders
    course_deg: float
    _next_s: float = -math.inf

    def __call__(self, panel: Panel) -> Command:
        """Fly the heading set last."""
        coming = (since for since, _ in self.headings if since > panel.time_s)
        self._next_s = min(coming, default=math.inf)
        return Command(heading_at(self.headings, panel.time_s, self.course_deg), self.course_deg)

    def unmoved(self, panels: Panels, begin: int) -> int:
        """Return the look at which another heading is set."""
        return begin + first_true(panels.time_s[begin:] >= self._next_s)


class TrackingPilot(NamedTuple):
    """A flight, and the search for the heading at each look of a bracketing pilot."""

    replay: Replay
    brackets: list[Bracket]

    def bracket_at(self, time_s: float) -> Bracket | None:
        """Return how far the search has come at a time; None if there is none."""
        last = len(self.brackets) - 1
        return self.brackets[min(int(time_s * LOOKS_PER_S), last)] if self.brackets else None


@dataclass(frozen=True)
class TrackingCase:
    """The set-up of a flight along a course; the headings are those set by hand."""

    station: str
    course_deg: float
    inbound: bool
    distance_nm: float
    altitude_ft: float
    seed: int
    pilot: str
    headings: Orders


@lru_cache(maxsize=8)
def fly_course(case: TrackingCase) -> TrackingPilot:
    """Let one of the three pilots fly."""
    tuned, wind, noting = STATIONS[case.station], unseen_wind(case.seed), Noting()
    course_deg = case.course_deg
    radial_deg = float(reciprocal_deg(course_deg)) if case.inbound else course_deg

    by_hand = ByHand(case.headings, course_deg)
    pilots: dict[str, Pilot] = {BY_HAND: by_hand, BRACKETING: noting, CHASING: Chasing()}
    flown = fly(
        pilots[case.pilot],
        Aircraft(AIRSPEED_KT),
        start(
            tuned.position_on(radial_deg, case.distance_nm, case.altitude_ft),
            course_deg + tuned.declination_deg,
        ),
        tuned,
        course_deg,
        LONGEST_S,
        wind=Wind(wind.from_deg + tuned.declination_deg, wind.speed_kt),
        until=Passed() if case.inbound else None,
        looks_per_s=LOOKS_PER_S,
    )
    return TrackingPilot(Replay(tuned, flown), noting.brackets)


def unseen_wind(seed: int) -> Wind:
    """Return the wind that a seed decides, from magnetic north."""
    random = np.random.default_rng(seed)
    from_deg = 10.0 * int(random.integers(1, 37))
    return Wind(from_deg, float(random.integers(SLOWEST_WIND_KT, FASTEST_WIND_KT + 1)))
