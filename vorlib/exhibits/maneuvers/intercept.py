"""Intercepting a course: the plan in numbers and steps, and the flight that comes of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from html import escape
from typing import Any

import numpy as np

from vorlib.aircraft.wind import Wind
from vorlib.core.angles import difference_deg, format_direction
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
from vorlib.procedures.intercept import LARGEST_INTERCEPT_DEG, Intercept, intercept_angle_deg
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument.indicator import IndicatorScene
from vorlib.views.plan.plan import Overlay, Trace
from vorlib.views.sentence import flag_words, needle_words, unassured_sentence

__all__ = ["InterceptState", "draw", "intercept", "sentence"]

SMALLEST_ANGLE_DEG, STRONGEST_KT = 10.0, 50.0
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
        Whether the turn onto the course is led, or begins when the needle centres.
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
    wind_from_deg: float = 310.0
    wind_kt: float = 0.0
    airspeed_kt: float = 100.0

    @cached_property
    def cut_deg(self) -> float:
        """The intercept angle in force."""
        if self.angle_deg is not None:
            return self.angle_deg
        target_deg = self.course_deg + 180.0 * self.inbound
        return float(intercept_angle_deg(difference_deg(target_deg, self.radial_deg)))

    @property
    def heading_deg(self) -> float:
        """The heading at the start: that of the intercept, or the course if there is none."""
        return self.course_deg if self.plan is None else self.plan.heading_deg

    @cached_property
    def _flown(self) -> InterceptPilot:
        return fly_intercept(
            InterceptCase(
                station=self.station,
                radial_deg=self.radial_deg,
                distance_nm=self.distance_nm,
                altitude_ft=self.altitude_ft,
                course_deg=self.course_deg,
                inbound=self.inbound,
                angle_deg=self.cut_deg,
                lead=self.lead,
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
        """The one flight, or none."""
        replay = self._flown.replay
        return (("intercept", replay),) if replay else ()

    @property
    def problem(self) -> str:
        """Why the course is not met."""
        return self._flown.problem

    @cached_property
    def now(self) -> ReplayMoment:
        """The moment shown; without a flight, where it would have begun."""
        if self._flown.replay:
            return self._flown.replay.at(self.shown_s)
        return ReplayMoment(self.there, self.heading_deg, self.course_deg, self.reading)

    @property
    def overshoot_nm(self) -> float:
        """How far the flight goes past the course line before it first comes back."""
        ((_, replay),) = self.replays
        off_nm = off_line_nm(replay.flown.reading, self.course_deg + 180.0 * self.inbound)
        past_nm = -np.sign(off_nm[0]) * off_nm
        crossings = np.flatnonzero(np.diff(past_nm > 0.0)) + 1
        if not len(crossings):
            return 0.0
        back = crossings[1] if len(crossings) > 1 else None
        return float(np.max(past_nm[crossings[0] : back]))


def draw(state: InterceptState, theme: Theme) -> Picture:
    """Return the plan view with the track flown so far, and the indicator."""
    now = state.now
    traces = tuple(Trace("", replay.track(state.shown_s)) for _, replay in state.replays)
    scene = replace(
        state.plan_scene(SHOWN),
        position=now.position,
        heading_deg=now.heading_deg,
        traces=traces,
        wind=Wind(state.wind_from_deg, state.wind_kt),
        by_hand=not state.shown_s,
    )
    shown = IndicatorScene.of(now.course_deg, now.reading, heading_deg=now.heading_deg)
    return at_station.plan_and_indicator(scene, shown, theme)


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
    if not state.shown_s:
        return f"{set_up}. Press Play."
    return (
        f"{_now_words(state)} {set_up}, meets the course after {plan.minutes:.1f} minutes, "
        f"{plan.distance_nm:.1f} NM from the station. {_turn_words(state)}"
    )


def _turn_words(state: InterceptState) -> str:
    past = state.overshoot_nm
    result = f"goes {past:.1f} NM past the course" if past >= 0.05 else "ends on the course"
    if not state.lead:
        return f"Turning only when the needle centres, the pilot {result}."
    if past >= 0.15:
        why = "" if state.wind_kt else ": there is no room for it"
        return f"Even leading the turn, the pilot {result}{why}."
    return f"Turning {state.plan.lead_deg:.1f} degrees before it, the pilot {result}."  # type: ignore[union-attr]


def _now_words(state: InterceptState) -> str:
    now = state.now
    return (
        f"After {clock_words(state.shown_s)}, on heading {format_direction(now.heading_deg)}, "
        f"{flag_words(now.reading)} and {needle_words(now.reading)}. "
        f"{unassured_sentence(now.reading)}"
    ).rstrip()


def notes(state: InterceptState) -> str:
    """Return the steps of the plan as a numbered list in HTML, without a lead for who has none."""
    if state.plan is None:
        return f'<div class="vorlib-message">{escape(state.problem)}</div>'
    shown = [step for step in state.plan.steps if state.lead or not step.startswith("Lead the")]
    steps = "".join(f"<li>{escape(step)}</li>" for step in shown)
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
        ],
        {"aircraft": at_station.AIRCRAFT, "ring": at_station.RING},
        notes=notes,
    )


class Angle(Number):
    """The intercept angle in force; moved by hand, it is an angle of one's own."""

    _cut_deg = 0.0

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
