"""Tracking in an unseen wind: set the heading by hand, or see it bracketed or chased."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from vorlib.core.angles import wrap_360
from vorlib.exhibits.base.controls import Button, ChoiceControl, Number, Switch
from vorlib.exhibits.base.exhibit import Grip
from vorlib.exhibits.base.picture_widget import Drag, Steps
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.maneuvers.limits import FARTHEST_NM, NEAREST_NM
from vorlib.exhibits.maneuvers.tracking_flight import BY_HAND
from vorlib.exhibits.maneuvers.tracking_state import PILOTS, TrackingState
from vorlib.exhibits.maneuvers.tracking_words import sentence
from vorlib.exhibits.replay.playback import Playback
from vorlib.exhibits.scene import at_station
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument.indicator import IndicatorScene
from vorlib.views.plan.plan import Overlay, Trace

__all__ = ["draw", "tracking"]


KEY_DEG, UNITS_PER_DEG = 5.0, 2.0  # of the heading to fly, by a key and by a dragging hand
MAP = Overlay.ROSE | Overlay.RINGS | Overlay.COURSE | Overlay.WEDGE


def draw(state: TrackingState, theme: Theme) -> Picture:
    """Return the indicator beside the plan view, which may keep the aircraft and the wind back."""
    now = state.now
    scene = replace(
        state.plan_scene(MAP),
        position=now.position if state.on_map else None,
        heading_deg=now.heading_deg,
        traces=(Trace("", state._flown.replay.track(state.shown_s)),) if state.on_map else (),
        wind=state.wind if state.revealed else None,
        by_hand=False,
    )
    shown = IndicatorScene.of(
        now.course_deg, now.reading, by_hand=False, heading_deg=now.heading_deg
    )
    if state.pilot == BY_HAND:
        shown = replace(shown, wanted_heading_deg=state.ordered_deg)
    return at_station.plan_and_indicator(scene, shown, theme)


class HeadingOrder(Number):
    """The heading to fly from the moment shown; earlier ones stay, later ones are dropped."""

    def __init__(self) -> None:
        super().__init__("headings", "Fly heading", direction=True)
        self._state: Any = None

    def follow(self, state: Any) -> None:
        """Take over the moment that an entry is for."""
        self._state = state
        self.slider.disabled = self.box.disabled = state.pilot != BY_HAND

    def read(self, value: Any) -> Any:
        """Return the headings with the one that was entered; pairs are taken as they are."""
        return value if isinstance(value, tuple) else self._state.ordered(super().read(value))

    def _show(self, value: Any) -> None:
        super()._show(self._state.ordered_deg)


def _step_heading(state: TrackingState, steps: Steps) -> dict[str, Any]:
    """Turn the heading to fly: right and left by 5 degrees, up and down by 1."""
    ordered_deg = state.ordered_deg + KEY_DEG * steps.right + steps.up
    return {"headings": state.ordered(float(wrap_360(round(ordered_deg))))}


def _drag_heading(state: TrackingState, drag: Drag, theme: Theme) -> dict[str, Any]:
    """Turn it by a degree for each two units that the hand moves to the right."""
    ordered_deg = state.ordered_deg + (drag.x - drag.x0) / UNITS_PER_DEG
    return {"headings": state.ordered(float(wrap_360(round(ordered_deg))))}


def _another(state: TrackingState) -> dict[str, Any]:
    return {"seed": state.seed + 1, "headings": (), "time_s": 0.0, "revealed": False}


@exhibit(lesson="06", state=TrackingState)
def tracking(station: str = "QLN", **start: Any) -> Playback[TrackingState]:
    """Return the exhibit of tracking a course in an unseen wind.

    Parameters
    ----------
    station
        Ident of the station tuned.
    **start
        Fields of `TrackingState` to start from, such as ``pilot="the bracketing pilot"`` or
        ``seed=4``.
    """
    return Playback(
        TrackingState(station=station, **start),
        draw,
        sentence,
        [
            HeadingOrder().put("transport"),
            ChoiceControl("pilot", "Flown by", {name: name for name in PILOTS}),
            at_station.course_number(),
            ChoiceControl(
                "inbound", "The course leads", {"to the station": True, "from it": False}
            ),
            Number("distance_nm", "Start at", "NM", NEAREST_NM, FARTHEST_NM, 0.5, decimals=1),
            at_station.range_choice(),
            at_station.station_choice().put_away(),
            Switch("on_map", "Aircraft on the map"),
            Switch("revealed", "Show the wind"),
            Button("seed", "Another wind", _another),
        ],
        {"heading": Grip(_drag_heading, _step_heading, wheel=True)},
    )
