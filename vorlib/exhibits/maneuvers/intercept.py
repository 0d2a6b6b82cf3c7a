"""Intercepting a course: the plan in numbers and steps, and the flight that comes of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from vorlib.aircraft.wind import Wind
from vorlib.core.angles import format_direction
from vorlib.earth.geodesic import between, direct
from vorlib.exhibits.base.controls import ChoiceControl, Number, Switch
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.maneuvers.intercept_state import InterceptState
from vorlib.exhibits.maneuvers.intercept_words import notes, sentence
from vorlib.exhibits.maneuvers.limits import FARTHEST_NM, NEAREST_NM
from vorlib.exhibits.replay.playback import Playback
from vorlib.exhibits.scene import at_station, grips
from vorlib.exhibits.scene.wind_controls import (
    airspeed_number,
    wind_direction_number,
    wind_speed_number,
)
from vorlib.procedures.intercept import LARGEST_INTERCEPT_DEG
from vorlib.views.drawing.picture import Picture, beside
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument.indicator import IndicatorScene, indicator
from vorlib.views.plan.plan import Intended, Overlay, Trace
from vorlib.views.plan.turn_plan import turn_plan, turn_range_nm

__all__ = ["draw", "intercept"]


SMALLEST_ANGLE_DEG, STRONGEST_KT = 10.0, 50.0
FAILING_REACH = 2.5  # how many times the distance to the station a heading that fails is drawn
SHOWN = Overlay.ROSE | Overlay.RINGS | Overlay.COURSE | Overlay.WEDGE | Overlay.CONE


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
        {"aircraft": grips.AIRCRAFT, "ring": grips.RING},
        notes=notes,
    )


class Angle(Number):
    """The intercept angle in force; moving it sets an angle of the reader's choice."""

    _cut_deg = 0.0

    @property
    def _allowed(self) -> str:
        return f"{super()._allowed}: beyond 90 you would fly back along the course"

    def follow(self, state: Any) -> None:
        """Take over the angle that the rule gives."""
        self._cut_deg = state.cut_deg

    def _show(self, value: float | None) -> None:
        super()._show(self._cut_deg)


class ByRule(Switch):
    """Whether the double-angle rule gives the angle; switched off, its last angle stays."""

    _cut_deg = 0.0

    def follow(self, state: Any) -> None:
        """Take over the angle in force."""
        self._cut_deg = state.cut_deg

    def read(self, value: Any) -> Any:
        """Return the angle as it is: whether one was asked for is all there is to know."""
        return value

    def _entered(self, change: Mapping[str, Any]) -> None:
        super()._entered({"new": None if change["new"] else self._cut_deg})

    def _show(self, value: float | None) -> None:
        super()._show(value is None)
