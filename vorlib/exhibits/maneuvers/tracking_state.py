"""An aircraft that tracks a course in an unseen wind, flown by hand or by a pilot."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from vorlib.aircraft.wind import Wind, WindTriangle
from vorlib.core.angles import reciprocal_deg
from vorlib.exhibits.maneuvers.tracking_flight import (
    AIRSPEED_KT,
    BRACKETING,
    BY_HAND,
    CHASING,
    Orders,
    TrackingCase,
    TrackingPilot,
    fly_course,
    heading_at,
    unseen_wind,
)
from vorlib.exhibits.replay.playback import Played
from vorlib.exhibits.replay.replay import Replay, ReplayMoment
from vorlib.exhibits.scene import at_station
from vorlib.procedures.tracking import Bracket, hold_course

__all__ = ["PILOTS", "TrackingState"]

PILOTS = (BY_HAND, BRACKETING, CHASING)


@dataclass(frozen=True)
class TrackingState(Played, at_station.RoundStation):
    """An aircraft that starts on the selected course, in a wind that is not told.

    Attributes
    ----------
    inbound
        Whether the course leads to the station.
    distance_nm, course_deg
        Where on the course it starts, and the course.
    pilot
        Who flies: "you", by the headings set, "the bracketing pilot" or "the needle-chasing
        pilot".
    headings
        Pairs of a time in seconds and the magnetic heading flown from then on, in order; until
        the first of them the heading is the course.
    seed
        Decides the wind.
    on_map
        Whether the aircraft is seen on the plan view.
    revealed
        Whether the wind is shown.
    """

    distance_nm: float = 20.0
    inbound: bool = True
    pilot: str = BY_HAND
    headings: Orders = ()
    seed: int = 2
    on_map: bool = True
    revealed: bool = False
    course_deg: float = 40.0

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.pilot not in PILOTS:
            raise ValueError(f"pilot must be one of {', '.join(PILOTS)}, got {self.pilot!r}")

    @property
    def radial_deg(self) -> float:
        """The radial on which it starts."""
        return float(reciprocal_deg(self.course_deg)) if self.inbound else self.course_deg

    @property
    def heading_deg(self) -> float:
        """The heading at the start: the course."""
        return self.course_deg

    @property
    def wind(self) -> Wind:
        """The wind, from magnetic north."""
        return unseen_wind(self.seed)

    @property
    def answer(self) -> WindTriangle:
        """What the wind triangle gives for the course."""
        return hold_course(self.course_deg, AIRSPEED_KT, self.wind).triangle

    @property
    def ordered_deg(self) -> float:
        """The heading set for the moment shown."""
        return heading_at(self.headings, self.shown_s, self.course_deg)

    def ordered(self, heading_deg: float) -> Orders:
        """Return the headings with another one from the moment shown, and none after it."""
        kept = tuple(order for order in self.headings if order[0] < self.shown_s)
        return (*kept, (self.shown_s, heading_deg))

    @cached_property
    def _flown(self) -> TrackingPilot:
        return fly_course(
            TrackingCase(
                station=self.station,
                course_deg=self.course_deg,
                inbound=self.inbound,
                distance_nm=self.distance_nm,
                altitude_ft=self.altitude_ft,
                seed=self.seed,
                pilot=self.pilot,
                headings=self.headings if self.pilot == BY_HAND else (),
            )
        )

    @property
    def replays(self) -> tuple[tuple[str, Replay], ...]:
        """The one flight."""
        return ((self.pilot, self._flown.replay),)

    @cached_property
    def now(self) -> ReplayMoment:
        """The moment shown."""
        return self._flown.replay.at(self.shown_s)

    @property
    def bracket(self) -> Bracket | None:
        """How far the bracketing pilot's search has come; None for the others."""
        return self._flown.bracket_at(self.shown_s)
