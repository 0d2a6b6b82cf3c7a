"""Intercepting a course: the plan in numbers and steps, and the flight that comes of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from html import escape
from typing import Any

import numpy as np

from vorlib.aircraft.wind import Wind, track
from vorlib.core.angles import difference_deg, format_direction, wrap_360
from vorlib.core.units import duration_words
from vorlib.earth.geodesic import Position, between, direct
from vorlib.exhibits.base.controls import ChoiceControl, Number, Switch
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.maneuvers.intercept_flight import (
    InterceptCase,
    InterceptPilot,
    fly_intercept,
)
from vorlib.exhibits.maneuvers.limits import FARTHEST_NM, NEAREST_NM
from vorlib.exhibits.replay.playback import Playback, Played
from vorlib.exhibits.replay.replay import Replay, ReplayMoment, clock_words, off_line_nm
from vorlib.exhibits.scene import at_station
from vorlib.exhibits.scene.wind_controls import (
    airspeed_number,
    wind_direction_number,
    wind_speed_number,
)
from vorlib.procedures.intercept import (
    LARGEST_INTERCEPT_DEG,
    LEAST_LEAD_DEG,
    LEAST_OVERSHOOT_NM,
    Intercept,
    intercept_angle_deg,
    side_of_course,
)
from vorlib.views.drawing.picture import Picture, beside
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument.indicator import IndicatorScene, indicator
from vorlib.views.plan.plan import Intended, Overlay, Trace
from vorlib.views.plan.turn_plan import turn_plan, turn_range_nm
from vorlib.views.sentence import flag_words, needle_words, unassured_sentence

__all__ = ["InterceptState", "draw", "intercept", "sentence"]

SMALLEST_ANGLE_DEG, STRONGEST_KT = 10.0, 50.0
STEPS_TO_HEADING = 4  # of the plan: radials to go, course, side, heading
FAILING_REACH = 2.5  # how many times the distance to the station a heading that fails is drawn
LED, LATE = "turn led", "turned late"
SHOWN = Overlay.ROSE | Overlay.RINGS | Overlay.COURSE | Overlay.WEDGE | Overlay.CONE


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
        Whether the same cut is shown flown both ways: with the turn led, and without.
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
    def _flown(self) -> InterceptPilot:
        return self._fly(self.lead)

    @property
    def other(self) -> Replay | None:
        """The same cut with the turn begun at the other moment, if it is to be shown."""
        return self._fly(not self.lead).replay if self.both else None

    def _fly(self, lead: bool) -> InterceptPilot:
        return fly_intercept(
            InterceptCase(
                station=self.station,
                radial_deg=self.radial_deg,
                distance_nm=self.distance_nm,
                altitude_ft=self.altitude_ft,
                course_deg=self.course_deg,
                inbound=self.inbound,
                angle_deg=self.cut_deg,
                lead=lead,
                wind_from_deg=self.wind_from_deg,
                wind_kt=self.wind_kt,
                airspeed_kt=self.airspeed_kt,
            )
        )

    @property
    def plan(self) -> Intercept | None:
        """How the course is intercepted; None if it cannot be."""
        return self._flown.plan

    @property
    def replays(self) -> tuple[tuple[str, Replay], ...]:
        """The flight and, once it plays, the one to compare it with; none without a plan."""
        name, other_name = (LED, LATE) if self.lead else (LATE, LED)
        replay, other = self._flown.replay, self.other if self.time_s else None
        if replay is None:
            return ()
        return ((name, replay), (other_name, other)) if other else ((name, replay),)

    @property
    def duration_s(self) -> float:
        """How long the flight is."""
        return self._flown.replay.duration_s if self._flown.replay else 0.0

    @property
    def problem(self) -> str:
        """Why the course is not met."""
        problem = self._flown.problem
        if problem and self.inbound and abs(self.to_go_deg) > 90.0:
            return (
                f"The {format_direction(self.target_deg)} radial is {abs(self.to_go_deg):.0f} "
                "radials away, on the far side of the station: no cut leads there from here."
            )
        return problem

    @cached_property
    def now(self) -> ReplayMoment:
        """The moment shown; without a flight, where it would have begun."""
        if self._flown.replay:
            return self._flown.replay.at(self.shown_s)
        return ReplayMoment(self.there, self.heading_deg, self.course_deg, self.reading)

    @property
    def overshoot_nm(self) -> float:
        """How far the flight goes past the course line before it first comes back."""
        return self._past_nm(self.replays[0][1])

    @property
    def other_overshoot_nm(self) -> float:
        """The same of the flight compared with it; 0 without one."""
        return 0.0 if self.other is None else self._past_nm(self.other)

    def _past_nm(self, replay: Replay) -> float:
        off_nm = off_line_nm(replay.flown.reading, self.target_deg)
        past_nm = -np.sign(off_nm[0]) * off_nm
        crossings = np.flatnonzero(np.diff(past_nm > 0.0)) + 1
        if not len(crossings):
            return 0.0
        back = crossings[1] if len(crossings) > 1 else None
        return float(np.max(past_nm[crossings[0] : back]))


def draw(state: InterceptState, theme: Theme) -> Picture:
    """Return the plan view with what is planned and what is flown so far, and the indicator."""
    now = state.now
    scene = replace(
        state.plan_scene(SHOWN),
        position=now.position,
        heading_deg=now.heading_deg,
        traces=tuple(_traces(state)) if state.shown_s else (),
        intended=tuple(_intended(state)),
        wind=Wind(state.wind_from_deg, state.wind_kt),
        by_hand=not state.shown_s,
    )
    shown = IndicatorScene.of(now.course_deg, now.reading, heading_deg=now.heading_deg)
    meeting = state.meeting
    if not state.enlarged or meeting is None:
        return at_station.plan_and_indicator(scene, shown, theme)
    range_nm = turn_range_nm(between(meeting, state.there).distance_nm)
    turn = turn_plan(scene, meeting, range_nm, theme)
    return beside(turn, indicator(shown, theme), at_station.GAP)


def _traces(state: InterceptState) -> Iterator[Trace]:
    """Yield the track flown so far; of two, each with its name, the one compared dashed."""
    (name, replay), *others = state.replays
    yield Trace(name if others else "", replay.track(state.shown_s))
    for other_name, other in others:
        nose_deg = other.at(state.shown_s).heading_deg
        yield Trace(other_name, other.track(state.shown_s), dashed=True, heading_deg=nose_deg)


def _intended(state: InterceptState) -> Iterator[Intended]:
    """Yield the way to the course; where the course is not met, the heading as far as it leads."""
    if abs(state.to_go_deg) < 0.5:
        return  # on the radial already
    plan, meeting, track_deg = state.plan, state.meeting, state.track_deg
    name = f"heading {format_direction(state.heading_deg)}"
    if state.wind_kt >= 0.5:
        name = f"track {format_direction(track_deg)}"
    if plan is not None and meeting is not None:
        met = f"met {plan.distance_nm:.1f} NM out"
        # in wind the track meets the course at another angle than the heading does
        onto_deg = state.course_deg if state.wind_kt < 0.5 else None
        yield Intended(state.there, meeting, name, met, onto_deg)
        return
    reach_nm = FAILING_REACH * state.distance_nm
    ahead = direct(state.there, track_deg + state.tuned.declination_deg, reach_nm)
    yield Intended(state.there, ahead, f"{name}: no intercept")


def sentence(state: InterceptState) -> str:
    """Say what is set up and, once it plays, what the needle does now and how the course is met."""
    plan = state.plan
    course = format_direction(state.course_deg)
    way = f"{'inbound' if state.inbound else 'outbound'} on {course}"
    begun = f"{state.distance_nm:.1f} NM out on the {format_direction(state.radial_deg)} radial"
    if plan is None:
        return f"From {begun} you cannot get {way} like that. {state.problem}"
    rule = ", by the double-angle rule" if state.angle_deg is None else ""
    set_up = (
        f"From {begun} of {state.tuned.name} to be {way}: an intercept angle of "
        f"{state.cut_deg:.0f} degrees{rule}, heading {format_direction(plan.heading_deg)}"
    )
    if state.wind_kt >= 0.5:
        set_up = f"{set_up}, in this wind track {format_direction(state.track_deg)}"
    if not state.shown_s:
        return f"{set_up}. Press Play."
    return (
        f"{_now_words(state)} {set_up}, meets the course after {duration_words(plan.minutes)}, "
        f"{plan.distance_nm:.1f} NM from the station. {_turn_words(state)}"
    )


def _turn_words(state: InterceptState) -> str:
    words = _one_turn_words(state)
    if not state.both:
        return words
    way = "Turned only when the needle centers" if state.lead else "With the turn led"
    return f"{words} {way}, it {_result(state.other_overshoot_nm)}."


def _result(past_nm: float) -> str:
    past = f"goes {past_nm:.1f} NM past the course"
    return past if past_nm >= LEAST_OVERSHOOT_NM else "ends on the course"


def _one_turn_words(state: InterceptState) -> str:
    past, result = state.overshoot_nm, _result(state.overshoot_nm)
    if not state.lead:
        return f"Turning only when the needle centers, the pilot {result}."
    if past >= 0.15:
        why = "" if state.wind_kt else ": there is no room for it"
        return f"Even leading the turn, the pilot {result}{why}."
    plan = state.plan
    assert plan is not None
    if plan.lead_deg < LEAST_LEAD_DEG:
        return f"Turning as the needle centers, the pilot {result}."
    return f"Turning {plan.lead_deg:.1f} degrees before it, the pilot {result}."


def _now_words(state: InterceptState) -> str:
    now = state.now
    return (
        f"After {clock_words(state.shown_s)}, on heading {format_direction(now.heading_deg)}, "
        f"{flag_words(now.reading)} and {needle_words(now.reading)}. "
        f"{unassured_sentence(now.reading)}"
    ).rstrip()


def notes(state: InterceptState) -> str:
    """Return the steps of the plan as a numbered list in HTML, without a lead for who has none.

    Where and when the course is met, and the lead, come with Play.
    """
    if state.plan is None:
        return f'<div class="vorlib-message">{escape(state.problem)}</div>'
    shown = [step for step in state.plan.steps if state.lead or not step.startswith("Lead the")]
    told = shown if state.shown_s else shown[:STEPS_TO_HEADING]
    steps = "".join(f"<li>{escape(step)}</li>" for step in told)
    return f"<ol>{steps}</ol>"


@exhibit(lesson="05", state=InterceptState)
def intercept(station: str = "QLN", **start: Any) -> Playback[InterceptState]:
    """Return the exhibit of an intercept, planned and flown.

    Parameters
    ----------
    station
        Ident of the station tuned.
    **start
        Fields of `InterceptState` to start from, such as ``inbound=False`` or ``lead=False``.
    """
    low, high = SMALLEST_ANGLE_DEG, LARGEST_INTERCEPT_DEG
    return Playback(
        InterceptState(station=station, **start),
        draw,
        sentence,
        [
            at_station.course_number(),
            ChoiceControl(
                "inbound", "The course leads", {"to the station": True, "from it": False}
            ),
            at_station.radial_number(),
            Number("distance_nm", "Distance", "NM", NEAREST_NM, FARTHEST_NM, 0.5, decimals=1),
            Angle("angle_deg", "Intercept angle", "degrees", low, high, 5.0, optional=True),
            airspeed_number(),
            wind_direction_number().put_away(),
            wind_speed_number(STRONGEST_KT).put_away(),
            at_station.range_choice(),
            at_station.station_choice().put_away(),
            ByRule("angle_deg", "Double-angle rule"),
            Switch("lead", "Lead the turn"),
            Switch("both", "Show the turn both ways"),
            Switch("enlarged", "Enlarge the turn"),
        ],
        {"aircraft": at_station.AIRCRAFT, "ring": at_station.RING},
        notes=notes,
    )


class Angle(Number):
    """The intercept angle in force; moved by hand, it is an angle of one's own."""

    _cut_deg = 0.0

    @property
    def _allowed(self) -> str:
        return f"{super()._allowed}: beyond 90 you would fly back along the course"

    def follow(self, state: Any) -> None:
        """Know the angle that the rule gives."""
        self._cut_deg = state.cut_deg

    def _show(self, value: float | None) -> None:
        super()._show(self._cut_deg)


class ByRule(Switch):
    """Whether the double-angle rule gives the angle; switched off, its angle is one's own."""

    _cut_deg = 0.0

    def follow(self, state: Any) -> None:
        """Know the angle in force."""
        self._cut_deg = state.cut_deg

    def read(self, value: Any) -> Any:
        """Return the angle as it is: whether one was asked for is all there is to know."""
        return value

    def _entered(self, change: Mapping[str, Any]) -> None:
        super()._entered({"new": None if change["new"] else self._cut_deg})

    def _show(self, value: float | None) -> None:
        super()._show(value is None)
