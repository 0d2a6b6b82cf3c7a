"""Reverse sensing: a pilot who follows the needle, and one who first selects the reciprocal."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from vorlib.core.angles import difference_deg, format_direction, reciprocal_deg
from vorlib.core.words import LEAST_TOLD, spoken_time
from vorlib.earth.geodesic import Position
from vorlib.exhibits.base.controls import Button, ChoiceControl, Number, Switch
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.maneuvers.limits import CLEAR_OF_CONE_NM, FARTHEST_NM
from vorlib.exhibits.maneuvers.sensing_flight import SensingCase, fly_sensing
from vorlib.exhibits.replay.playback import Playback, Played
from vorlib.exhibits.replay.replay import Replay, ReplayMoment, off_line_nm
from vorlib.exhibits.scene import at_station, grips
from vorlib.procedures.orientation import sensing_steps
from vorlib.views.drawing.picture import Picture, beside
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument.indicator import IndicatorScene, indicator
from vorlib.views.plan.plan import Overlay, Trace
from vorlib.views.plan.turn_plan import turn_plan, turn_range_nm
from vorlib.views.sentence import CENTERED_DOTS, flag_words, needle_words, unassured_sentence
from vorlib.vor.receiver import Flag

__all__ = ["SensingState", "draw", "sensing", "sentence"]

YOU, CURED = "you", "cured"
LEAST_SHOWN_NM = 1.5
SHOWN = Overlay.ROSE | Overlay.RINGS | Overlay.COURSE | Overlay.WEDGE


@dataclass(frozen=True)
class SensingState(Played, at_station.RoundStation):
    """An aircraft near the selected course line that flies along it, one way or the other.

    Attributes
    ----------
    toward
        Whether it flies toward the station.
    radial_deg, distance_nm, course_deg
        Where it starts, and the selected course.
    reciprocal_at_s
        When the pilot who follows the needle selects the reciprocal; None for never.
    enlarged
        Whether the map follows the aircraft along the course, enlarged.
    """

    radial_deg: float = 220.0
    distance_nm: float = 11.0
    range_nm: float = 12.5
    course_deg: float = 214.0
    toward: bool = True
    reciprocal_at_s: float | None = None
    enlarged: bool = False

    @cached_property
    def heading_deg(self) -> float:
        """The heading: the selected course or its reciprocal, whichever leads the way asked for."""
        wanted = float(reciprocal_deg(self.radial_deg)) if self.toward else self.radial_deg
        along = abs(float(difference_deg(self.course_deg, wanted))) <= 90.0
        return self.course_deg if along else float(reciprocal_deg(self.course_deg))

    @property
    def shown_course_deg(self) -> float:
        """The course selected at the moment shown."""
        return self.at(self.shown_s).course_deg

    @property
    def shown_reversed(self) -> bool:
        """Whether the needle is reversed at the moment shown."""
        now = self.at(self.shown_s)
        return abs(float(difference_deg(now.heading_deg, now.course_deg))) > 90.0

    @property
    def is_reversed(self) -> bool:
        """Whether the needle is reversed for someone who flies this heading."""
        return abs(float(difference_deg(self.heading_deg, self.course_deg))) > 90.0

    def _flight(self, reciprocal_at_s: float | None) -> Replay:
        return fly_sensing(
            SensingCase(
                station=self.station,
                radial_deg=self.radial_deg,
                distance_nm=self.distance_nm,
                altitude_ft=self.altitude_ft,
                course_deg=self.course_deg,
                heading_deg=self.heading_deg,
                toward=self.toward,
                reciprocal_at_s=reciprocal_at_s,
            )
        )

    @cached_property
    def replays(self) -> tuple[tuple[str, Replay], ...]:
        """The flight of the one who follows the needle; with it, if need be, the one who cures."""
        flown = ((YOU, self._flight(self.reciprocal_at_s)),)
        return (*flown, (CURED, self._flight(0.0))) if self.is_reversed else flown


def draw(state: SensingState, theme: Theme) -> Picture:
    """Return both tracks on the plan view, and the indicator of the one who follows the needle."""
    (_, follows), *others = state.replays
    now = follows.at(state.shown_s)
    traces = [Trace(YOU, follows.track(state.shown_s))]
    for name, replay in others:
        heading_deg = replay.at(state.shown_s).heading_deg
        traces.append(Trace(name, replay.track(state.shown_s), True, heading_deg))
    scene = replace(
        state.plan_scene(SHOWN),
        position=now.position,
        heading_deg=now.heading_deg,
        course_deg=now.course_deg,
        traces=tuple(traces) if state.shown_s else (),
        by_hand=not state.shown_s,
    )
    shown = IndicatorScene.of(
        now.course_deg, now.reading, by_hand=not state.shown_s, heading_deg=now.heading_deg
    )
    shown = replace(shown, nose_on_ring=True)
    if not state.enlarged:
        return at_station.plan_and_indicator(scene, shown, theme)
    map_of_turn = turn_plan(scene, *_along(state, now), theme)
    return beside(map_of_turn, indicator(shown, theme), at_station.GAP)


def _along(state: SensingState, now: ReplayMoment) -> tuple[Position, float]:
    """Return the place on the course line abeam the aircraft, and a range that holds them all."""
    radial_deg = float(reciprocal_deg(state.heading_deg)) if state.toward else state.heading_deg
    middle = state.tuned.position_on(radial_deg, float(now.reading.distance_nm))
    moments = (replay.at(state.shown_s) for _, replay in state.replays)
    off_nm = (abs(float(off_line_nm(each.reading, radial_deg))) for each in moments)
    return middle, turn_range_nm(max(*off_nm, LEAST_SHOWN_NM))


def sentence(state: SensingState) -> str:
    """Say what the needle shows, whether it can be followed, and what came of following it."""
    now = state.replays[0][1].at(state.shown_s)
    heading, course = format_direction(now.heading_deg), format_direction(now.course_deg)
    way = "toward" if state.toward else "away from"
    began = "" if not state.shown_s else f"After {spoken_time(state.shown_s)}: "
    shown = (
        f"{began}{course} is selected, heading {heading} {way} {state.tuned.name}; "
        f"{flag_words(now.reading)} and {needle_words(now.reading)}."
    )
    steps: tuple[str, ...] = sensing_steps(
        now.heading_deg, now.course_deg, Flag(int(now.reading.flag))
    )
    if abs(float(now.reading.dots)) < CENTERED_DOTS and not state.shown_reversed:
        steps = (steps[0], "Normal sensing, and you are on the course line.")
    words = (shown, unassured_sentence(now.reading), *steps, _outcome(state))
    return " ".join(filter(None, words))


def _off(off_nm: float) -> str:
    return f"{off_nm:.1f} NM off the course line" if off_nm >= LEAST_TOLD else "on the course line"


def _outcome(state: SensingState) -> str:
    if not state.shown_s:
        return "Press Play."
    off_nm = [
        abs(float(off_line_nm(replay.at(state.shown_s).reading, state.course_deg)))
        for _, replay in state.replays
    ]
    words = f"Following the needle has put you {_off(off_nm[0])}"
    if state.reciprocal_at_s is not None and state.reciprocal_at_s <= state.shown_s:
        words = (
            f"You selected the reciprocal after {spoken_time(state.reciprocal_at_s)} and are "
            f"{_off(off_nm[0])}"
        )
    if not state.is_reversed:
        return f"{words}."
    return f"{words}; with the reciprocal selected at once it would be {off_nm[1]:.1f} NM."


@exhibit(lesson="07", state=SensingState)
def sensing(station: str = "QLN", **start: Any) -> Playback[SensingState]:
    """Return the exhibit of reverse sensing and its cure.

    Parameters
    ----------
    station
        Ident of the station tuned.
    **start
        Fields of `SensingState` to start from, such as ``toward=False``.
    """
    return Playback(
        SensingState(station=station, **start),
        draw,
        sentence,
        [
            _CourseNow(),
            ChoiceControl("toward", "Flying", {"toward the station": True, "away from it": False}),
            at_station.radial_number(),
            Number("distance_nm", "Distance", "NM", CLEAR_OF_CONE_NM, FARTHEST_NM, 0.5, decimals=1),
            at_station.range_choice(),
            at_station.station_choice().put_away(),
            Button("reciprocal_at_s", "Select the reciprocal", _select_now).put("transport"),
            Button("reciprocal_at_s", "Leave the course as set", _never).put("transport"),
            Switch("enlarged", "Enlarge around the aircraft"),
        ],
        {"aircraft": grips.AIRCRAFT, "ring": grips.RING},
    )


class _CourseNow(Number):
    """The course selected: the one set, and after the cure its reciprocal."""

    _now_deg = 0.0

    def __init__(self) -> None:
        super().__init__("course_deg", "Selected course", direction=True)
        self.consequences = lambda state, value: {"reciprocal_at_s": None}

    def follow(self, state: SensingState) -> None:
        """Take over the course at the moment shown."""
        self._now_deg = state.shown_course_deg

    def _show(self, value: float | None) -> None:
        super()._show(self._now_deg)


def _select_now(state: SensingState) -> dict[str, Any]:
    return {"reciprocal_at_s": state.shown_s}


def _never(state: SensingState) -> dict[str, Any]:
    return {"reciprocal_at_s": None}
