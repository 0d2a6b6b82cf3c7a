"""Tracking in an unseen wind: set the heading by hand, or see it bracketed or chased."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from vorlib.aircraft.wind import Wind, WindTriangle
from vorlib.core.angles import difference_deg, format_direction, reciprocal_deg, wrap_360
from vorlib.exhibits.base.controls import Button, ChoiceControl, Number, Switch
from vorlib.exhibits.base.exhibit import Grip
from vorlib.exhibits.base.picture_widget import Drag, Steps
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.maneuvers.limits import FARTHEST_NM, NEAREST_NM
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
from vorlib.exhibits.replay.playback import Playback, Played
from vorlib.exhibits.replay.replay import Replay, ReplayMoment, clock_words
from vorlib.exhibits.scene import at_station
from vorlib.procedures.tracking import Bracket, hold_course
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument.indicator import IndicatorScene
from vorlib.views.plan.plan import Overlay, Trace
from vorlib.views.sentence import flag_words, needle_words, unassured_sentence
from vorlib.vor.receiver import Flag, Reading

__all__ = ["HeadingOrder", "TrackingState", "draw", "sentence", "tracking"]

KEY_DEG, UNITS_PER_DEG = 5.0, 2.0  # of the heading to fly, by a key and by a dragging hand
PILOTS = (BY_HAND, BRACKETING, CHASING)
MAP = Overlay.ROSE | Overlay.RINGS | Overlay.COURSE | Overlay.WEDGE


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


def sentence(state: TrackingState) -> str:
    """Say what the needle has done, what to do about it and, once revealed, what the wind is."""
    now = state.now
    way = "to" if state.inbound else "from"
    course = f"The course is {format_direction(state.course_deg)} {way} {state.tuned.name}."
    flown = f"After {clock_words(state.shown_s)} on heading "
    flown = f"{flown}{format_direction(now.heading_deg)}{_turning(state)}: "
    flown = f"{flown}{flag_words(now.reading)}"
    flown = f"{flown} and {needle_words(now.reading)}{_trend(state)}."
    words = (flown, unassured_sentence(now.reading), _advice(state), course, _revealed(state))
    return " ".join(filter(None, words))


def _turning(state: TrackingState) -> str:
    to_go = abs(float(difference_deg(state.ordered_deg, state.now.heading_deg)))
    if state.pilot != BY_HAND or to_go < 1.0:
        return ""
    return f", turning to {format_direction(state.ordered_deg)}"


def _trend(state: TrackingState) -> str:
    """Return how far the needle has moved in the last minute."""
    minute = min(60.0, state.shown_s)
    before = state._flown.replay.at(state.shown_s - minute).reading
    if minute < 10.0 or _silent(before) or _silent(state.now.reading):
        return ""
    moved = float(state.now.reading.dots - before.dots)
    last = "minute" if minute == 60.0 else f"{minute:.0f} seconds"
    if abs(moved) < 0.05:
        return f", as it was {'a ' * (minute == 60.0)}{last} ago"
    side = "right" if moved > 0 else "left"
    return f", {abs(moved):.1f} dots further {side} than {'a ' * (minute == 60.0)}{last} ago"


def _silent(reading: Reading) -> bool:
    return bool(reading.flag == Flag.OFF or reading.pegged)


def _advice(state: TrackingState) -> str:
    if state.now.reading.flag == Flag.OFF:
        return "With the flag OFF hold the heading."
    if state.bracket is not None:
        return state.bracket.words
    if state.pilot == CHASING:
        return "This pilot turns 40 degrees toward the needle, each time until it has crossed."
    if not state.shown_s:
        return "Press Play, watch the needle, and set another heading when it moves off."
    return ""


def _revealed(state: TrackingState) -> str:
    if not state.revealed:
        return ""
    wind, answer = state.wind, state.answer
    correction = float(answer.correction_deg)
    side = "right" if correction > 0 else "left"
    return (
        f"The wind is {format_direction(float(wind.from_deg))} at {float(wind.speed_kt):.0f} "
        f"knots: by the wind triangle heading {format_direction(float(answer.heading_deg))}, "
        f"{abs(correction):.0f} degrees {side} of the course, holds it. {_found(state)}"
    )


def _found(state: TrackingState) -> str:
    """Return how near to that the heading is which was found."""
    if state.pilot == CHASING:
        return "The chasing pilot holds none."
    bracket = state.bracket
    found = state.ordered_deg if bracket is None else state.course_deg + bracket.held_deg
    off = abs(float(difference_deg(found, state.answer.heading_deg)))
    who = "Yours is" if bracket is None else "The bracket's is"
    if off < 0.5:
        return f"{who} the same."
    return f"{who} {off:.0f} {'degree' if round(off) == 1 else 'degrees'} from it."


class HeadingOrder(Number):
    """The heading to fly from the moment shown; earlier ones stay, later ones are dropped."""

    def __init__(self) -> None:
        super().__init__("headings", "Fly heading", direction=True)
        self._state: Any = None

    def follow(self, state: Any) -> None:
        """Know the moment that an entry is for."""
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
