"""Homing against tracking: two pilots fly to a station from the same place in the same wind."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any, NamedTuple

import numpy as np

from vorlib.angles import difference_deg, format_direction, reciprocal_deg
from vorlib.archipelago import STATIONS
from vorlib.exhibits import around
from vorlib.exhibits.controls import Choice, Number
from vorlib.exhibits.playback import Playback, Played
from vorlib.exhibits.replay import Replay, clock_words, off_line_nm
from vorlib.flight import Aircraft, start
from vorlib.pilots import Homing, Panel, Pilot, Tracking, fly
from vorlib.receiver import Flag
from vorlib.tracking import Bracket
from vorlib.views.indicator import IndicatorScene
from vorlib.views.picture import Picture
from vorlib.views.plan import Overlay, Trace
from vorlib.views.theme import Theme
from vorlib.wind import Wind, wind_triangle

__all__ = ["State", "draw", "homing", "sentence"]

NEAREST_NM, FARTHEST_NM = 4.0, 25.0
SLOWEST_KT, FASTEST_KT, STRONGEST_KT = 70.0, 200.0, 100.0
ARRIVED_NM = 0.5
LONGEST_S = 2400.0
LOOKS_PER_S = 1.0  # flies as ten looks a second do, to a hundredth of a mile
SHOWN = Overlay.ROSE | Overlay.RINGS | Overlay.COURSE
NAMES = ("homing", "tracking")


@dataclass(frozen=True)
class State(Played, around.Around):
    """Two pilots on their way to a station.

    Attributes
    ----------
    radial_deg, distance_nm
        Where both start; heading and course are those straight to the station.
    wind_from_deg, wind_kt
        The wind, its direction magnetic.
    airspeed_kt
        True airspeed of both.
    watched
        Whose indicator is shown: "homing" or "tracking".
    """

    distance_nm: float = 20.0
    wind_from_deg: float = 310.0
    wind_kt: float = 30.0
    airspeed_kt: float = 100.0
    watched: str = "homing"

    def __post_init__(self) -> None:
        around.Around.__post_init__(self)
        course_deg = float(reciprocal_deg(self.radial_deg))
        object.__setattr__(self, "course_deg", course_deg)
        object.__setattr__(self, "heading_deg", course_deg)
        Played.__post_init__(self)

    @property
    def replays(self) -> tuple[tuple[str, Replay], ...]:
        """The two flights."""
        flights = _flights(
            self.station,
            self.radial_deg,
            self.distance_nm,
            self.altitude_ft,
            self.airspeed_kt,
            self.wind_from_deg,
            self.wind_kt,
        )
        return tuple(zip(NAMES, flights, strict=True))

    @property
    def seen(self) -> Replay:
        """The flight whose indicator is shown."""
        return dict(self.replays)[self.watched]


@lru_cache(maxsize=32)
def _flights(
    station: str,
    radial_deg: float,
    distance_nm: float,
    altitude_ft: float,
    airspeed_kt: float,
    wind_from_deg: float,
    wind_kt: float,
) -> tuple[Replay, Replay]:
    """Fly both pilots straight for the station until they have passed it."""
    tuned, course_deg = STATIONS[station], float(reciprocal_deg(radial_deg))
    here = tuned.position_on(radial_deg, distance_nm, altitude_ft)
    begin = start(here, course_deg + tuned.declination_deg)
    try:
        into_wind = wind_triangle(course_deg, airspeed_kt, wind_from_deg, wind_kt)
        held_deg = float(into_wind.correction_deg)
    except ValueError:  # no heading holds the course: a pilot can but search for one
        held_deg = 0.0

    def flight(pilot: Pilot) -> Replay:
        flown = fly(
            pilot,
            Aircraft(airspeed_kt),
            begin,
            tuned,
            course_deg,
            LONGEST_S,
            wind=Wind(wind_from_deg + tuned.declination_deg, wind_kt),
            until=_passed,
            looks_per_s=LOOKS_PER_S,
        )
        return Replay(tuned, flown)

    return flight(Homing()), flight(Tracking(Bracket(course_deg, held_deg)))


def _passed(panel: Panel) -> bool:
    return panel.flag is Flag.FROM


class Outcome(NamedTuple):
    """What became of a flight to the station."""

    arrived: bool
    minutes: float
    off_nm: float
    turned_deg: float
    heading_deg: float


def outcome(replay: Replay, radial_deg: float) -> Outcome:
    """Return how a flight straight along a radial to the station went.

    Up to where it came nearest to the station; off the radial and turned positive right, as seen
    by someone flying to the station.
    """
    nearest = int(np.argmin(replay.distance_nm))
    off = -off_line_nm(replay.flown.reading, radial_deg)[: nearest + 1]
    heading = float(replay.heading_deg[nearest])
    return Outcome(
        bool(replay.distance_nm[nearest] <= ARRIVED_NM),
        float(replay.flown.flight.time_s[nearest]) / 60.0,
        float(off[np.argmax(np.abs(off))]),
        float(difference_deg(heading, reciprocal_deg(radial_deg))),
        heading,
    )


def draw(state: State, theme: Theme) -> Picture:
    """Return both tracks on the plan view, and the indicator of the pilot watched."""
    now = state.seen.at(state.time_s)
    traces = tuple(
        Trace(
            name,
            replay.track(state.time_s),
            dashed=name == "tracking",
            heading_deg=None if name == state.watched else replay.at(state.time_s).heading_deg,
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
    shown = IndicatorScene.of(now.course_deg, now.reading, by_hand=False)
    return around.plan_and_indicator(scene, shown, theme)


def sentence(state: State) -> str:
    """Compare the two ways to the station, and say where the pilot watched is now."""
    home, held = (outcome(replay, state.radial_deg) for _, replay in state.replays)
    course = format_direction(state.course_deg)
    wind = f"wind {format_direction(state.wind_from_deg)} at {state.wind_kt:.0f} knots"
    begun = f"Both start {state.distance_nm:.1f} NM out on the {_radial(state)}, course {course}"
    begun = f"{begun}, {wind}." if state.wind_kt >= 0.5 else f"{begun}, without wind."
    if not home.arrived and not held.arrived:
        return (
            f"{begun} That wind is too strong for {state.airspeed_kt:.0f} knots of airspeed: "
            "neither pilot can reach the station."
        )
    return f"{begun} {_homing_words(home)} {_tracking_words(held)} {_now(state)}"


def _radial(state: State) -> str:
    return f"{format_direction(state.radial_deg)} radial of {state.tuned.name}"


def _side(signed: float) -> str:
    return "right" if signed > 0 else "left"


def _homing_words(home: Outcome) -> str:
    if not home.arrived:
        return "Homing never reaches the station in this wind."
    if abs(home.off_nm) < 0.05:
        return f"Homing flies the straight course and arrives after {home.minutes:.1f} minutes."
    return (
        f"Homing drifts up to {abs(home.off_nm):.1f} NM {_side(home.off_nm)} of the straight "
        f"course, turns {abs(home.turned_deg):.0f} degrees {_side(home.turned_deg)} on the way "
        f"and arrives after {home.minutes:.1f} minutes, on heading "
        f"{format_direction(home.heading_deg)}."
    )


def _tracking_words(held: Outcome) -> str:
    if not held.arrived:
        return "No heading tracks the straight course in this wind."
    if abs(held.turned_deg) < 0.5:
        return f"Tracking needs no correction and takes {held.minutes:.1f} minutes."
    return (
        f"Tracking holds heading {format_direction(held.heading_deg)}, "
        f"{abs(held.turned_deg):.0f} degrees into the wind, stays within "
        f"{math.ceil(abs(held.off_nm) * 10) / 10:.1f} NM and takes {held.minutes:.1f} minutes."
    )


def _now(state: State) -> str:
    if not state.time_s:
        return "Press Play."
    now = state.seen.at(state.time_s)
    distance_nm = float(now.reading.distance_nm)
    way = "past the station" if now.reading.flag == Flag.FROM else "to go"
    return (
        f"After {clock_words(state.time_s)} the {state.watched} pilot is on heading "
        f"{format_direction(now.heading_deg)} with {format_direction(now.course_deg)} selected, "
        f"{distance_nm:.1f} NM {way}."
    )


def homing(station: str = "QLN", **start: Any) -> Playback[State]:
    """Return the exhibit of homing against tracking.

    Parameters
    ----------
    station
        Ident of the station tuned.
    **start
        Fields of `State` to start from, such as ``wind_kt=40``.
    """
    return Playback(
        State(station=station, **start),
        draw,
        sentence,
        [
            wind_direction_number(),
            wind_speed_number(STRONGEST_KT),
            around.radial_number(),
            Number("distance_nm", "Distance", "NM", NEAREST_NM, FARTHEST_NM, 0.5, decimals=1),
            airspeed_number(),
            Choice("watched", "Indicator of", {f"the {n} pilot": n for n in NAMES}),
            around.range_choice(),
            around.station_choice(),
        ],
    )


def wind_direction_number() -> Number:
    """Return the control for the direction the wind blows from."""
    return Number("wind_from_deg", "Wind from", direction=True)


def wind_speed_number(most_kt: float) -> Number:
    """Return the control for the wind's speed."""
    return Number("wind_kt", "Wind speed", "knots", 0.0, most_kt)


def airspeed_number() -> Number:
    """Return the control for the true airspeed."""
    return Number("airspeed_kt", "True airspeed", "knots", SLOWEST_KT, FASTEST_KT, 5.0)
