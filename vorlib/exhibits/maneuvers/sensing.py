"""Reverse sensing: a pilot who follows the needle, and one who first selects the reciprocal."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any

from vorlib.aircraft.flight import Aircraft, start
from vorlib.core.angles import difference_deg, format_direction, reciprocal_deg
from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.exhibits.base import at_station as around
from vorlib.exhibits.base.controls import Button, ChoiceControl, Number
from vorlib.exhibits.base.playback import Playback, Played
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.base.replay import Replay, clock_words, off_line_nm
from vorlib.exhibits.maneuvers.tracking_flight import AIRSPEED_KT
from vorlib.procedures.orientation import sensing_steps
from vorlib.procedures.pilots import Command, Panel, Reversed, Tracking, fly
from vorlib.stations.archipelago import STATIONS
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument.indicator import IndicatorScene
from vorlib.views.plan.plan import Overlay, Trace
from vorlib.views.sentence import flag_words, needle_words
from vorlib.vor.receiver import Flag

__all__ = ["SensingState", "draw", "sensing", "sentence"]

NEAREST_NM, FARTHEST_NM = 4.0, 25.0
LONGEST_S = 480.0
LOOKS_PER_S = 2.0
SHORT_NM = 1.5  # of the station a flight toward it ends
YOU, CURED = "you", "cured"
SHOWN = Overlay.ROSE | Overlay.RINGS | Overlay.COURSE | Overlay.WEDGE


@dataclass(frozen=True)
class SensingState(Played, around.AtStation):
    """An aircraft near the selected course line that flies along it, one way or the other.

    Attributes
    ----------
    toward
        Whether it flies toward the station; the heading is the selected course or its reciprocal,
        whichever leads there, and takes the place of `heading_deg`.
    reciprocal_at_s
        When the pilot who follows the needle selects the reciprocal; None for never.
    """

    radial_deg: float = 220.0
    distance_nm: float = 11.0
    range_nm: float = 12.5
    course_deg: float = 214.0
    toward: bool = True
    reciprocal_at_s: float | None = None

    def __post_init__(self) -> None:
        around.AtStation.__post_init__(self)
        wanted = float(reciprocal_deg(self.radial_deg)) if self.toward else self.radial_deg
        along = abs(float(difference_deg(self.course_deg, wanted))) <= 90.0
        heading_deg = self.course_deg if along else float(reciprocal_deg(self.course_deg))
        object.__setattr__(self, "heading_deg", heading_deg)
        Played.__post_init__(self)

    @property
    def is_reversed(self) -> bool:
        """Whether the needle is reversed for someone who flies this heading."""
        return abs(float(difference_deg(self.heading_deg, self.course_deg))) > 90.0

    def _flight(self, reciprocal_at_s: float | None) -> Replay:
        return _fly(
            self.station,
            self.radial_deg,
            self.distance_nm,
            self.altitude_ft,
            self.course_deg,
            self.heading_deg,
            self.toward,
            reciprocal_at_s,
        )

    @property
    def replays(self) -> tuple[tuple[str, Replay], ...]:
        """The flight of the one who follows the needle; with it, if need be, the one who cures."""
        flown = ((YOU, self._flight(self.reciprocal_at_s)),)
        return (*flown, (CURED, self._flight(0.0))) if self.is_reversed else flown


@dataclass
class Following:
    """A pilot who follows the needle as if it were never reversed.

    Attributes
    ----------
    heading_deg
        The way to fly: the selected course or its reciprocal.
    reciprocal_at_s
        When to select the reciprocal of the course selected first; None for never.
    """

    heading_deg: float
    reciprocal_at_s: float | None = None
    selected_reciprocal: bool = False
    along: Tracking = field(default_factory=Tracking)
    against: Reversed = field(default_factory=Reversed)

    def __call__(self, panel: Panel) -> Command:
        """Turn toward the needle, whichever way the selected course runs."""
        due = self.reciprocal_at_s is not None and panel.time_s >= self.reciprocal_at_s
        if due and not self.selected_reciprocal:
            self.selected_reciprocal = True
            return Command(self.heading_deg, float(reciprocal_deg(panel.course_deg)))
        apart = abs(float(difference_deg(self.heading_deg, panel.course_deg)))
        return self.against(panel) if apart > 90.0 else self.along(panel)


@lru_cache(maxsize=32)
def _fly(
    station: str,
    radial_deg: float,
    distance_nm: float,
    altitude_ft: float,
    course_deg: float,
    heading_deg: float,
    toward: bool,
    reciprocal_at_s: float | None,
) -> Replay:
    """Fly along the course line in calm air for some minutes, not as far as the station."""
    tuned, seconds = STATIONS[station], LONGEST_S
    if toward:
        seconds = min(seconds, (distance_nm - SHORT_NM) / AIRSPEED_KT * SECONDS_PER_HOUR)
    flown = fly(
        Following(heading_deg, reciprocal_at_s),
        Aircraft(AIRSPEED_KT),
        start(
            tuned.position_on(radial_deg, distance_nm, altitude_ft),
            heading_deg + tuned.declination_deg,
        ),
        tuned,
        course_deg,
        seconds,
        looks_per_s=LOOKS_PER_S,
    )
    return Replay(tuned, flown)


def draw(state: SensingState, theme: Theme) -> Picture:
    """Return both tracks on the plan view, and the indicator of the one who follows the needle."""
    (_, follows), *others = state.replays
    now = follows.at(state.time_s)
    traces = [Trace(YOU, follows.track(state.time_s))]
    for name, replay in others:
        heading_deg = replay.at(state.time_s).heading_deg
        traces.append(Trace(name, replay.track(state.time_s), True, heading_deg))
    scene = replace(
        state.plan_scene(SHOWN),
        position=now.position,
        heading_deg=now.heading_deg,
        course_deg=now.course_deg,
        traces=tuple(traces) if state.time_s else (),
        by_hand=not state.time_s,
    )
    shown = IndicatorScene.of(now.course_deg, now.reading, by_hand=not state.time_s)
    return around.plan_and_indicator(scene, shown, theme)


def sentence(state: SensingState) -> str:
    """Say what the needle shows, whether it can be followed, and what came of following it."""
    now = state.replays[0][1].at(state.time_s)
    heading, course = format_direction(now.heading_deg), format_direction(now.course_deg)
    way = "toward" if state.toward else "away from"
    began = "" if not state.time_s else f"After {clock_words(state.time_s)}: "
    shown = (
        f"{began}{course} is selected, heading {heading} {way} {state.tuned.name}; "
        f"{flag_words(now.reading)} and {needle_words(now.reading)}."
    )
    steps = sensing_steps(now.heading_deg, now.course_deg, Flag(int(now.reading.flag)))
    return " ".join((shown, *steps, _outcome(state)))


def _outcome(state: SensingState) -> str:
    if not state.time_s:
        return "Press Play."
    off_nm = [
        abs(float(off_line_nm(replay.at(state.time_s).reading, state.course_deg)))
        for _, replay in state.replays
    ]
    words = f"Following the needle has you {off_nm[0]:.1f} NM off the course line"
    if state.reciprocal_at_s is not None and state.reciprocal_at_s <= state.time_s:
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
            around.course_number(),
            ChoiceControl("toward", "Flying", {"toward the station": True, "away from it": False}),
            around.radial_number(),
            Number("distance_nm", "Distance", "NM", NEAREST_NM, FARTHEST_NM, 0.5, decimals=1),
            around.range_choice(),
            around.station_choice(),
            Button("reciprocal_at_s", "Select the reciprocal", _select_now),
            Button("reciprocal_at_s", "Leave the course as set", _never),
        ],
        {"aircraft": around.AIRCRAFT, "ring": around.RING},
    )


def _select_now(state: SensingState) -> dict[str, Any]:
    return {"reciprocal_at_s": state.time_s}


def _never(state: SensingState) -> dict[str, Any]:
    return {"reciprocal_at_s": None}
