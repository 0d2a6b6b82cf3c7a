"""Reverse sensing: a pilot who follows the needle, and one who first selects the reciprocal."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from vorlib.core.angles import difference_deg, format_direction, reciprocal_deg
from vorlib.exhibits.base.controls import Button, ChoiceControl, Number
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.maneuvers.limits import CLEAR_OF_CONE_NM, FARTHEST_NM
from vorlib.exhibits.maneuvers.sensing_flight import SensingCase, fly_sensing
from vorlib.exhibits.replay.playback import Playback, Played
from vorlib.exhibits.replay.replay import Replay, clock_words, off_line_nm
from vorlib.exhibits.scene import at_station
from vorlib.procedures.orientation import sensing_steps
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument.indicator import IndicatorScene
from vorlib.views.plan.plan import Overlay, Trace
from vorlib.views.sentence import flag_words, needle_words, unassured_sentence
from vorlib.vor.receiver import Flag

__all__ = ["SensingState", "draw", "sensing", "sentence"]

YOU, CURED = "you", "cured"
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
    """

    radial_deg: float = 220.0
    distance_nm: float = 11.0
    range_nm: float = 12.5
    course_deg: float = 214.0
    toward: bool = True
    reciprocal_at_s: float | None = None

    @cached_property
    def heading_deg(self) -> float:
        """The heading: the selected course or its reciprocal, whichever leads the way asked for."""
        wanted = float(reciprocal_deg(self.radial_deg)) if self.toward else self.radial_deg
        along = abs(float(difference_deg(self.course_deg, wanted))) <= 90.0
        return self.course_deg if along else float(reciprocal_deg(self.course_deg))

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
    return at_station.plan_and_indicator(scene, shown, theme)


def sentence(state: SensingState) -> str:
    """Say what the needle shows, whether it can be followed, and what came of following it."""
    now = state.replays[0][1].at(state.shown_s)
    heading, course = format_direction(now.heading_deg), format_direction(now.course_deg)
    way = "toward" if state.toward else "away from"
    began = "" if not state.shown_s else f"After {clock_words(state.shown_s)}: "
    shown = (
        f"{began}{course} is selected, heading {heading} {way} {state.tuned.name}; "
        f"{flag_words(now.reading)} and {needle_words(now.reading)}."
    )
    steps = sensing_steps(now.heading_deg, now.course_deg, Flag(int(now.reading.flag)))
    words = (shown, unassured_sentence(now.reading), *steps, _outcome(state))
    return " ".join(filter(None, words))


def _outcome(state: SensingState) -> str:
    if not state.shown_s:
        return "Press Play."
    off_nm = [
        abs(float(off_line_nm(replay.at(state.shown_s).reading, state.course_deg)))
        for _, replay in state.replays
    ]
    words = f"Following the needle has you {off_nm[0]:.1f} NM off the course line"
    if state.reciprocal_at_s is not None and state.reciprocal_at_s <= state.shown_s:
        words = (
            f"You selected the reciprocal after {clock_words(state.reciprocal_at_s)} and are "
            f"{off_nm[0]:.1f} NM off the course line"
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
            at_station.course_number(),
            ChoiceControl("toward", "Flying", {"toward the station": True, "away from it": False}),
            at_station.radial_number(),
            Number("distance_nm", "Distance", "NM", CLEAR_OF_CONE_NM, FARTHEST_NM, 0.5, decimals=1),
            at_station.range_choice(),
            at_station.station_choice().put_away(),
            Button("reciprocal_at_s", "Select the reciprocal", _select_now),
            Button("reciprocal_at_s", "Leave the course as set", _never),
        ],
        {"aircraft": at_station.AIRCRAFT, "ring": at_station.RING},
    )


def _select_now(state: SensingState) -> dict[str, Any]:
    return {"reciprocal_at_s": state.shown_s}


def _never(state: SensingState) -> dict[str, Any]:
    return {"reciprocal_at_s": None}
