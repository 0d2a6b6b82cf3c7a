"""Homing against tracking: two pilots fly to a station from the same place in the same wind."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from vorlib.aircraft.wind import Wind, WindTriangle, track, wind_triangle
from vorlib.core.angles import format_direction, reciprocal_deg, spoken_side
from vorlib.core.words import LEAST_TOLD, spoken_degrees, spoken_knots, spoken_time
from vorlib.exhibits.base.controls import ChoiceControl, Number
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.maneuvers.homing_flights import (
    LONGEST_S,
    FlightOutcome,
    HomingCase,
    both_flights,
    outcome,
)
from vorlib.exhibits.maneuvers.limits import CLEAR_OF_CONE_NM, FARTHEST_NM
from vorlib.exhibits.replay.playback import Playback, Played
from vorlib.exhibits.replay.replay import Replay
from vorlib.exhibits.scene import at_station
from vorlib.exhibits.scene.wind_controls import (
    airspeed_number,
    wind_direction_number,
    wind_speed_number,
)
from vorlib.procedures.pursuit import homing_minutes
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument.indicator import IndicatorScene
from vorlib.views.plan.plan import Overlay, Trace
from vorlib.vor.receiver import Flag

__all__ = ["HomingState", "draw", "homing", "sentence"]

STRONGEST_KT = 100.0
SHOWN = Overlay.ROSE | Overlay.RINGS | Overlay.COURSE
NAMES = ("homing", "tracking")
LATE = f"does not arrive within {LONGEST_S / 60.0:.0f} minutes"  # and is drawn no longer than that


@dataclass(frozen=True)
class HomingState(Played, at_station.RoundStation):
    """Two pilots on their way to a station.

    Attributes
    ----------
    radial_deg, distance_nm
        Where both start; heading and course are those straight to the station.
    wind_from_deg, wind_kt
        The wind, its direction magnetic.
    airspeed_kt
        True airspeed of both.
    pilot
        Whose indicator is shown: "homing" or "tracking".
    """

    radial_deg: float = 214.0
    distance_nm: float = 20.0
    wind_from_deg: float = 310.0
    wind_kt: float = 30.0
    airspeed_kt: float = 100.0
    pilot: str = "homing"

    @property
    def course_deg(self) -> float:
        """The course straight to the station."""
        return float(reciprocal_deg(self.radial_deg))

    @property
    def heading_deg(self) -> float:
        """The heading at the start: the course."""
        return self.course_deg

    @cached_property
    def replays(self) -> tuple[tuple[str, Replay], ...]:
        """The two flights."""
        flights = both_flights(
            HomingCase(
                station=self.station,
                radial_deg=self.radial_deg,
                distance_nm=self.distance_nm,
                altitude_ft=self.altitude_ft,
                airspeed_kt=self.airspeed_kt,
                wind_from_deg=self.wind_from_deg,
                wind_kt=self.wind_kt,
            )
        )
        return tuple(zip(NAMES, flights, strict=True))

    @cached_property
    def outcomes(self) -> tuple[FlightOutcome, ...]:
        """What became of the two flights."""
        return tuple(outcome(replay, self.radial_deg) for _, replay in self.replays)

    @property
    def homing_minutes(self) -> float:
        """How long the pursuit curve takes, infinite if it never arrives."""
        wind = Wind(self.wind_from_deg, self.wind_kt)
        return homing_minutes(self.course_deg, self.distance_nm, self.airspeed_kt, wind)

    @property
    def triangle(self) -> WindTriangle | None:
        """What holds the straight course; None if no heading does."""
        try:
            return wind_triangle(
                self.course_deg, self.airspeed_kt, self.wind_from_deg, self.wind_kt
            )
        except ValueError:
            return None

    @property
    def groundspeed_kt(self) -> float:
        """How fast the pilot shown goes over the ground at the moment shown."""
        nose_deg = self.seen.at(self.shown_s).heading_deg
        wind = Wind(self.wind_from_deg, self.wind_kt)
        return float(track(nose_deg, self.airspeed_kt, wind).groundspeed_kt)

    @property
    def seen(self) -> Replay:
        """The flight whose indicator is shown."""
        return dict(self.replays)[self.pilot]


def draw(state: HomingState, theme: Theme) -> Picture:
    """Return both tracks on the plan view, and the indicator of the pilot shown."""
    now = state.seen.at(state.shown_s)
    traces = tuple(
        Trace(
            name,
            replay.track(state.shown_s),
            dashed=name == "tracking",
            heading_deg=None if name == state.pilot else replay.at(state.shown_s).heading_deg,
        )
        for name, replay in state.replays
    )
    scene = replace(
        state.plan_scene(SHOWN),
        position=now.position,
        heading_deg=now.heading_deg,
        traces=traces,
        wind=Wind(state.wind_from_deg, state.wind_kt),
        by_hand=False,
    )
    shown = IndicatorScene.of(
        now.course_deg, now.reading, by_hand=False, heading_deg=now.heading_deg
    )
    return at_station.plan_and_indicator(scene, shown, theme)


def sentence(state: HomingState) -> str:
    """Say what is set up and, once it plays, where the pilot is, and compare the two ways."""
    home, held = state.outcomes
    course = format_direction(state.course_deg)
    wind = f"wind {format_direction(state.wind_from_deg)} at {spoken_knots(state.wind_kt)}"
    begun = f"Both start {state.distance_nm:.1f} NM out on the {_radial(state)}, course {course}"
    begun = f"{begun}, {wind}." if state.wind_kt >= 0.5 else f"{begun}, without wind."
    hopeless = math.isinf(state.homing_minutes) and state.triangle is None
    if hopeless and not home.arrived and not held.arrived:
        return (
            f"{begun} That wind is too strong for {spoken_knots(state.airspeed_kt)} of airspeed: "
            "neither pilot can reach the station."
        )
    if not state.shown_s:
        return f"{begun} One homes, the other tracks. Press Play."
    homed = _homing_words(home, state.homing_minutes)
    tracked = _tracking_words(held, state)
    return f"{_now(state)} {begun} {homed} {tracked}"


def _radial(state: HomingState) -> str:
    return f"{format_direction(state.radial_deg)} radial of {state.tuned.name}"


def _homing_words(home: FlightOutcome, minutes: float) -> str:
    if not home.arrived and math.isinf(minutes):
        return "Homing never reaches the station in this wind."
    if not home.arrived:
        return f"Homing {LATE}: it takes about {minutes:.0f} minutes."
    if abs(home.off_nm) < LEAST_TOLD:
        return f"Homing flies the straight course and arrives after {home.minutes:.1f} minutes."
    return (
        f"Homing drifts up to {abs(home.off_nm):.1f} NM {spoken_side(home.off_nm)} of the straight "
        f"course, turns {spoken_degrees(home.turned_deg)} {spoken_side(home.turned_deg)} on the "
        f"way and arrives after {home.minutes:.1f} minutes, on heading "
        f"{format_direction(home.heading_deg)}."
    )


def _tracking_words(held: FlightOutcome, state: HomingState) -> str:
    if not held.arrived:
        return _not_there_words(state)
    course_deg = state.course_deg
    if abs(held.held_deg) < 0.5:
        return f"Tracking needs no correction and takes {held.minutes:.1f} minutes."
    return (
        f"Tracking holds heading {format_direction(course_deg + held.held_deg)}, "
        f"{spoken_degrees(held.held_deg)} into the wind, stays within "
        f"{math.ceil(abs(held.off_nm) * 10) / 10:.1f} NM and takes {held.minutes:.1f} minutes."
    )


def _not_there_words(state: HomingState) -> str:
    """Say by the wind triangle what becomes of a tracking pilot who has not arrived."""
    triangle = state.triangle
    if triangle is None:
        return "No heading tracks the straight course in this wind."
    into = ""
    if abs(triangle.correction_deg) >= 0.5:
        into = f", {spoken_degrees(triangle.correction_deg)} into the wind,"
    is_late = dict(state.replays)["tracking"].duration_s >= LONGEST_S
    return (
        f"Heading {format_direction(triangle.heading_deg)} holds the straight course{into} at "
        f"{spoken_knots(triangle.groundspeed_kt)} over the ground: tracking "
        f"{LATE if is_late else 'is blown off while turning to it, and misses the station'}."
    )


def _now(state: HomingState) -> str:
    now = state.seen.at(state.shown_s)
    distance_nm = float(now.reading.distance_nm)
    way = "past the station" if now.reading.flag == Flag.FROM else "to go"
    where = f"{distance_nm:.1f} NM {way}" if distance_nm >= LEAST_TOLD else "at the station"
    return (
        f"After {spoken_time(state.shown_s)} the {state.pilot} pilot is on heading "
        f"{format_direction(now.heading_deg)} with {format_direction(now.course_deg)} selected, "
        f"at {spoken_knots(state.groundspeed_kt)} over the ground, {where}."
    )


@exhibit(lesson="04", state=HomingState)
def homing(station: str = "QLN", **start: Any) -> Playback[HomingState]:
    """Return the exhibit of homing against tracking.

    Parameters
    ----------
    station
        Ident of the station tuned.
    **start
        Fields of `HomingState` to start from, such as ``wind_kt=40``.
    """
    return Playback(
        HomingState(station=station, **start),
        draw,
        sentence,
        [
            wind_direction_number(),
            wind_speed_number(STRONGEST_KT),
            at_station.radial_number(),
            Number("distance_nm", "Distance", "NM", CLEAR_OF_CONE_NM, FARTHEST_NM, 0.5, decimals=1),
            airspeed_number(),
            ChoiceControl("pilot", "Indicator of", {f"the {n} pilot": n for n in NAMES}),
            at_station.range_choice(),
            at_station.station_choice().put_away(),
        ],
    )
