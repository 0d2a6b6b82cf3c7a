"""Heading, course and track: one heading is held, and the wind carries the aircraft off."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from typing import Any

from vorlib.aircraft.wind import Wind, track
from vorlib.core.angles import format_direction, reciprocal_deg, spoken_side
from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.core.words import LEAST_TOLD, spoken_knots, spoken_time
from vorlib.exhibits.base.controls import Number
from vorlib.exhibits.base.exhibit import Grip
from vorlib.exhibits.base.picture_widget import Drag, Steps
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.maneuvers.limits import CLEAR_OF_CONE_NM, FARTHEST_NM
from vorlib.exhibits.maneuvers.tracking_flight import AIRSPEED_KT
from vorlib.exhibits.replay.playback import Playback, Played
from vorlib.exhibits.replay.replay import Replay, off_line_nm
from vorlib.exhibits.replay.straight import hold_heading
from vorlib.exhibits.scene import at_station
from vorlib.exhibits.scene.figures import FigureImage, figures
from vorlib.exhibits.scene.wind_controls import (
    STRONGEST_KT,
    wind_direction_number,
    wind_speed_number,
)
from vorlib.views.drawing.picture import Picture, beside
from vorlib.views.drawing.theme import Theme
from vorlib.views.plan.plan import Overlay, Trace, plan, projection
from vorlib.views.sentence import where_sentence

__all__ = ["DriftState", "draw", "drift", "sentence"]

SHOWN = Overlay.ROSE | Overlay.RINGS | Overlay.COURSE | Overlay.RADIAL
LONGEST_S = 600.0
LOOKS_PER_S = 0.1  # a straight line needs few
STEP_S = 15.0  # that one arrow key flies on
NOSE_NM = 8.0


@dataclass(frozen=True)
class DriftState(Played, at_station.RoundStation):
    """An aircraft that begins on the course to a station and holds one heading.

    Attributes
    ----------
    radial_deg, distance_nm
        Where it starts; the course leads from there straight to the station.
    heading_deg
        The magnetic heading held.
    wind_from_deg, wind_kt
        The wind, its direction magnetic.
    """

    radial_deg: float = 180.0
    distance_nm: float = 20.0
    heading_deg: float = 360.0
    wind_from_deg: float = 270.0
    wind_kt: float = 20.0

    @property
    def course_deg(self) -> float:
        """The course straight to the station."""
        return float(reciprocal_deg(self.radial_deg))

    @property
    def wind(self) -> Wind:
        """The wind, from magnetic north."""
        return Wind(self.wind_from_deg, self.wind_kt)

    @cached_property
    def replays(self) -> tuple[tuple[str, Replay], ...]:
        """The one flight."""
        return (("drift", _hold(replace(self, time_s=0.0, speed=1.0))),)

    @property
    def track_deg(self) -> float:
        """Where the aircraft goes over the ground."""
        return float(track(self.heading_deg, AIRSPEED_KT, self.wind).track_deg)

    @property
    def groundspeed_kt(self) -> float:
        """How fast it goes over the ground."""
        return float(track(self.heading_deg, AIRSPEED_KT, self.wind).groundspeed_kt)


@lru_cache(maxsize=8)
def _hold(state: DriftState) -> Replay:
    """Fly the heading, whatever the needle says."""
    return hold_heading(
        state.tuned,
        state.there,
        state.heading_deg,
        state.course_deg,
        AIRSPEED_KT,
        LONGEST_S,
        wind=state.wind,
        looks_per_s=LOOKS_PER_S,
    )


def draw(state: DriftState, theme: Theme) -> Picture:
    """Return the plan view with course, nose and track, and the directions as figures."""
    now = state.at(state.shown_s)
    heading = f"heading {format_direction(state.heading_deg)}"
    traces: tuple[Trace, ...] = ()
    if state.shown_s:
        name = f"track {format_direction(state.track_deg)}"
        traces = (Trace(name, state.replays[0][1].track(state.shown_s)),)
    scene = replace(
        state.plan_scene(SHOWN),
        position=now.position,
        traces=traces,
        intended=(state.nose_line(NOSE_NM, heading, now.position),),
        wind=state.wind,
    )
    return beside(plan(scene, theme), figures(_figures(state), theme), at_station.GAP)


def _figures(state: DriftState) -> tuple[FigureImage, ...]:
    now, flown = state.at(state.shown_s), bool(state.shown_s)
    return (
        FigureImage(
            "Radial", format_direction(now.reading.radial_deg), "from the station to you", True
        ),
        FigureImage("Course", format_direction(state.course_deg), "the line you want to fly"),
        FigureImage("Heading", format_direction(state.heading_deg), "where your nose points"),
        FigureImage(
            "Track",
            format_direction(state.track_deg) if flown else "?",
            "where you actually go" if flown else "Press Play",
        ),
    )


def sentence(state: DriftState) -> str:
    """Say where the aircraft is and, once it has flown, where the wind has carried it."""
    now = state.at(state.shown_s)
    place = where_sentence(state.tuned, now.position)
    course, heading = format_direction(state.course_deg), format_direction(state.heading_deg)
    if not state.shown_s:
        wind = (
            f"the wind is {format_direction(state.wind_from_deg)} at {spoken_knots(state.wind_kt)}"
        )
        wind = wind if state.wind_kt >= 0.5 else "there is no wind"
        return f"{place} Your course is {course}, your heading {heading}; {wind}. Press Play."
    off_nm = -float(off_line_nm(now.reading, state.radial_deg))
    side = spoken_side(off_nm)
    line = f"{abs(off_nm):.1f} NM {side} of the course line"
    line = "on the course line" if abs(off_nm) < LEAST_TOLD else line
    return (
        f"After {spoken_time(state.shown_s)} on heading {heading} your track is "
        f"{format_direction(state.track_deg)}, and you are {line}. {place}"
    )


def _drag(state: DriftState, drag: Drag, theme: Theme) -> dict[str, Any]:
    """Fly on as far along the track as the hand has moved."""
    layout = projection(state.plan_scene(Overlay.NONE), theme)
    a = math.radians(state.track_deg + state.tuned.declination_deg)
    ahead = (drag.x - drag.x0) * math.sin(a) - (drag.y - drag.y0) * math.cos(a)
    moved_s = ahead / layout.units_per_nm / max(state.groundspeed_kt, 1.0) * SECONDS_PER_HOUR
    return {"time_s": min(max(state.shown_s + moved_s, 0.0), LONGEST_S)}


def _step(state: DriftState, steps: Steps) -> dict[str, Any]:
    """Fly on along the nose: the wind does the rest."""
    return {"time_s": min(max(state.shown_s + STEP_S * steps.up, 0.0), LONGEST_S)}


@exhibit(lesson="01", state=DriftState)
def drift(station: str = "QLN", **start: Any) -> Playback[DriftState]:
    """Return the exhibit of a heading held in a wind.

    Parameters
    ----------
    station
        Ident of the station.
    **start
        Fields of `DriftState` to start from, such as ``wind_kt=30``.
    """
    return Playback(
        DriftState(station=station, **start),
        draw,
        sentence,
        [
            at_station.heading_number(),
            wind_direction_number(),
            wind_speed_number(STRONGEST_KT),
            at_station.radial_number().put_away(),
            Number(
                "distance_nm", "Distance", "NM", CLEAR_OF_CONE_NM, FARTHEST_NM, 0.5, decimals=1
            ).put_away(),
            at_station.range_choice(),
            at_station.station_choice().put_away(),
        ],
        {"aircraft": Grip(_drag, _step)},
        strip=False,
    )
