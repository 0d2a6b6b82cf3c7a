"""An aircraft about to intercept a course, and the flight that comes of it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from vorlib.aircraft.wind import Wind, track
from vorlib.core.angles import difference_deg, format_direction, wrap_360
from vorlib.earth.geodesic import Position
from vorlib.exhibits.maneuvers.intercept_flight import (
    InterceptCase,
    InterceptPlan,
    fly_case,
    plan_case,
)
from vorlib.exhibits.replay.playback import Played
from vorlib.exhibits.replay.replay import Replay, ReplayMoment, off_line_nm
from vorlib.exhibits.scene import at_station
from vorlib.procedures.intercept import Intercept, intercept_angle_deg, side_of_course

__all__ = ["InterceptState"]

LED, LATE = "turn led", "turned late"


@dataclass(frozen=True)
class InterceptState(Played, at_station.RoundStation):
    """An aircraft about to intercept the selected course.

    Attributes
    ----------
    inbound
        Whether the course leads to the station or away from it.
    angle_deg
        Intercept angle; None for that of the double-angle rule.
    lead
        Whether the turn onto the course is led, or begins when the needle centers.
    both
        Whether the same intercept is shown flown both ways: with the turn led, and without.
    enlarged
        Whether the map has the turn in its middle, enlarged.
    wind_from_deg, wind_kt
        The wind, its direction magnetic.
    airspeed_kt
        True airspeed.
    radial_deg, distance_nm, course_deg
        Where it starts, and the selected course.
    """

    radial_deg: float = 240.0
    distance_nm: float = 11.0
    course_deg: float = 40.0
    range_nm: float = 12.5
    inbound: bool = True
    angle_deg: float | None = None
    lead: bool = True
    both: bool = False
    enlarged: bool = False
    wind_from_deg: float = 310.0
    wind_kt: float = 0.0
    airspeed_kt: float = 100.0

    @cached_property
    def cut_deg(self) -> float:
        """The intercept angle in force."""
        if self.angle_deg is not None:
            return self.angle_deg
        return float(intercept_angle_deg(self.to_go_deg))

    @property
    def target_deg(self) -> float:
        """The radial to be on."""
        return float(wrap_360(self.course_deg + 180.0 * self.inbound))

    @property
    def to_go_deg(self) -> float:
        """How far that radial is, positive clockwise."""
        return float(difference_deg(self.target_deg, self.radial_deg))

    @property
    def heading_deg(self) -> float:
        """The heading at the start: that of the intercept, whether it meets the course or not."""
        side = side_of_course(self.radial_deg, self.course_deg, inbound=self.inbound)
        return float(wrap_360(self.course_deg + (1.0 if side == "right" else -1.0) * self.cut_deg))

    @property
    def track_deg(self) -> float:
        """Where that heading leads over the ground."""
        wind = Wind(self.wind_from_deg, self.wind_kt)
        return float(track(self.heading_deg, self.airspeed_kt, wind).track_deg)

    @property
    def meeting(self) -> Position | None:
        """Where the course is met; None if it is not."""
        plan = self.plan
        return None if plan is None else self.tuned.position_on(self.target_deg, plan.distance_nm)

    @cached_property
    def _case(self) -> InterceptCase:
        return InterceptCase(
            station=self.station,
            radial_deg=self.radial_deg,
            distance_nm=self.distance_nm,
            altitude_ft=self.altitude_ft,
            course_deg=self.course_deg,
            inbound=self.inbound,
            angle_deg=self.cut_deg,
            wind_from_deg=self.wind_from_deg,
            wind_kt=self.wind_kt,
            airspeed_kt=self.airspeed_kt,
        )

    @cached_property
    def _planned(self) -> InterceptPlan:
        return plan_case(self._case)

    @property
    def _replay(self) -> Replay | None:
        """The flight; None without a plan. The picture at its beginning does not ask for it."""
        return fly_case(self._case, self.lead)

    @property
    def other(self) -> Replay | None:
        """The same intercept with the turn begun at the other moment, if it is to be shown."""
        return fly_case(self._case, not self.lead) if self.both else None

    @property
    def plan(self) -> Intercept | None:
        """How the course is intercepted; None if it cannot be."""
        return self._planned.plan

    @property
    def replays(self) -> tuple[tuple[str, Replay], ...]:
        """The flight and, once it plays, the one to compare it with; none without a plan."""
        name, other_name = (LED, LATE) if self.lead else (LATE, LED)
        replay, other = self._replay, self.other if self.time_s else None
        if replay is None:
            return ()
        return ((name, replay), (other_name, other)) if other else ((name, replay),)

    @property
    def duration_s(self) -> float:
        """How long the flight is."""
        return self._replay.duration_s if self._replay else 0.0

    @property
    def problem(self) -> str:
        """Why the course is not met."""
        problem = self._planned.problem
        if problem and self.inbound and abs(self.to_go_deg) > 90.0:
            return (
                f"The {format_direction(self.target_deg)} radial is {abs(self.to_go_deg):.0f} "
                "radials away, on the far side of the station: no intercept leads there from here."
            )
        return problem

    @cached_property
    def now(self) -> ReplayMoment:
        """The moment shown; where the flight begins, or would have begun, it is not flown for."""
        if self.shown_s and self._replay:
            return self._replay.at(self.shown_s)
        return ReplayMoment(self.there, self.heading_deg, self.course_deg, self.reading)

    @property
    def overshoot_nm(self) -> float:
        """How far the flight goes past the course line before it first comes back."""
        return self._past_nm(self.replays[0][1])

    @property
    def other_overshoot_nm(self) -> float:
        """The overshoot of the flight compared with it, NM; 0 without one."""
        return 0.0 if self.other is None else self._past_nm(self.other)

    def _past_nm(self, replay: Replay) -> float:
        off_nm = off_line_nm(replay.flown.reading, self.target_deg)
        past_nm = -np.sign(off_nm[0]) * off_nm
        crossings = np.flatnonzero(np.diff(past_nm > 0.0)) + 1
        if not len(crossings):
            return 0.0
        back = crossings[1] if len(crossings) > 1 else None
        return float(np.max(past_nm[crossings[0] : back]))
