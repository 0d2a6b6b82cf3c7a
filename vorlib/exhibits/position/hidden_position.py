"""The hidden position: find the radial from the indicator, guess where you are, get it marked."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

import numpy as np

from vorlib.core.angles import (
    COMPASS_POINTS,
    compass_point,
    difference_deg,
    format_direction,
    reciprocal_deg,
)
from vorlib.core.arguments import ArgumentError
from vorlib.core.words import spoken_degrees
from vorlib.exhibits.base.controls import Button, ChoiceControl, Number
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.scene import at_station, grips
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument.indicator import IndicatorScene
from vorlib.views.plan.plan import Intended, Overlay
from vorlib.views.sentence import reading_sentence, volume_words, where_sentence
from vorlib.vor.receiver import Flag

__all__ = [
    "HiddenPositionState",
    "draw",
    "hidden_position",
    "mark_direction",
    "mark_radial",
    "sentence",
]

NEAREST_NM, FARTHEST_NM = 5.0, 22.0  # clear of the cone, and on the map
GOAL = 3  # positions right in a row
ALLOWED_DEG = 4.0  # two dots: covers centering and a receiver that passes its check
HIDDEN = Overlay.ROSE | Overlay.RINGS | Overlay.COURSE


@dataclass(frozen=True)
class HiddenPositionState(at_station.RoundStation):
    """An aircraft hidden somewhere round a station, and a guess at its position.

    Attributes
    ----------
    seed
        Decides where the aircraft is.
    near
        Ident of the station near which the aircraft is hidden; empty for the one tuned.
    guess_radial_deg, guess_direction
        The guess: a radial, and a compass direction from the station such as "southwest".
    revealed
        Whether the aircraft is shown and the guess marked; needs a complete guess.
    in_a_row
        How many positions have been right in a row.
    counted_seed
        The seed of the position that was counted last, as each counts once; None before that.
    heading_deg, course_deg
        Magnetic heading, and selected course.
    """

    seed: int = 1
    near: str = ""
    guess_radial_deg: float | None = None
    guess_direction: str = ""
    revealed: bool = False
    in_a_row: int = 0
    counted_seed: int | None = None
    heading_deg: float = 40.0
    course_deg: float = 40.0

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.revealed and self.guess_radial_deg is None:
            raise ArgumentError(
                "Enter the radial you are on, then reveal.", argument="guess_radial_deg"
            )
        if self.revealed and not self.guess_direction:
            raise ArgumentError(
                "Choose a compass direction, then reveal.", argument="guess_direction"
            )

    @cached_property
    def _place(self) -> tuple[float, float]:
        """Radial and distance of the aircraft from the station tuned."""
        random = np.random.default_rng(self.seed)
        radial_deg = float(random.integers(1, 361))
        distance_nm = round(float(random.uniform(NEAREST_NM, FARTHEST_NM)), 1)
        if self.near not in ("", self.station):
            hidden = at_station.AtStation(
                self.near, self.altitude_ft, radial_deg=radial_deg, distance_nm=distance_nm
            )
            seen = at_station.retuned(hidden, self.station)
            radial_deg, distance_nm = seen["radial_deg"], seen["distance_nm"]
        return radial_deg, distance_nm

    @property
    def radial_deg(self) -> float:
        """The radial that the aircraft is on."""
        return self._place[0]

    @property
    def distance_nm(self) -> float:
        """Its distance from the station."""
        return self._place[1]


def draw(state: HiddenPositionState, theme: Theme) -> Picture:
    """Return the indicator beside a plan view, which shows the aircraft once revealed."""
    if state.revealed:
        range_nm = at_station.range_showing_nm(state.distance_nm, state.range_nm)
        guessed = tuple(_guessed(state))
        scene = replace(state.plan_scene(Overlay.ALL), range_nm=range_nm, intended=guessed)
    else:
        scene = state.plan_scene(HIDDEN, with_aircraft=False)
    shown = IndicatorScene.of(state.course_deg, state.reading)
    return at_station.plan_and_indicator(scene, shown, theme)


def _guessed(state: HiddenPositionState) -> Iterator[Intended]:
    """Yield the guessed radial, as long as the aircraft is far out, if it is wrong."""
    guess_deg = state.guess_radial_deg
    if guess_deg is not None and not _is_near(guess_deg, state.radial_deg):
        there = state.tuned.position_on(guess_deg, state.distance_nm)
        name = f"your {format_direction(guess_deg)}"
        yield Intended(state.tuned.position, there, name, meets="you named")


def sentence(state: HiddenPositionState) -> str:
    """Say what the indicator shows and, once revealed, where the aircraft is and mark the guess."""
    volume = volume_words(state.tuned, state.there)
    shown = reading_sentence(state.course_deg, state.reading, volume)
    if not state.revealed:
        return f"{shown} {_hint(state)}"
    place = where_sentence(state.tuned, state.there)
    said = (place, mark_radial(state), mark_direction(state), _row_words(state), shown)
    return " ".join(filter(None, said))


def _row_words(state: HiddenPositionState) -> str:
    if state.in_a_row >= GOAL:
        return f"That is {state.in_a_row} in a row: you have it."
    return f"That is {state.in_a_row} of {GOAL} in a row." if state.in_a_row else ""


def _hint(state: HiddenPositionState) -> str:
    reading = state.reading
    if reading.flag == Flag.FROM and abs(reading.deviation_deg) <= 1.0:
        return "Which radial are you on, and in which direction from the station does that put you?"
    return "Turn the ring until the needle is centered and the flag reads FROM."


def _is_near(guess_deg: float, direction_deg: float) -> bool:
    return abs(float(difference_deg(guess_deg, direction_deg))) <= ALLOWED_DEG


def mark_radial(state: HiddenPositionState) -> str:
    """Say whether the guessed radial is right, and if not, name the likely mistake."""
    if state.guess_radial_deg is None:
        return ""
    guess, said = state.guess_radial_deg, format_direction(state.guess_radial_deg)

    def near(direction_deg: float) -> bool:
        return _is_near(guess, direction_deg)

    if near(state.radial_deg):
        return f"Your {said} is right: within {ALLOWED_DEG:g} degrees."
    if near(float(reciprocal_deg(state.radial_deg))):
        if state.reading.flag == Flag.TO and near(state.course_deg):
            return (
                f"Your {said} is the bearing to the station, not the radial: you centered the "
                "needle with TO. Center it with FROM and the ring reads the radial."
            )
        return (
            f"Your {said} is the reciprocal, on the other side of the station: "
            "the radial runs from the station to you."
        )
    if near(float(state.tuned.true_azimuth_deg(state.there))):
        return f"Your {said} counts from true north; a radial counts from the station's own north."
    off = abs(float(difference_deg(guess, state.radial_deg)))
    return (
        f"Your {said} is {spoken_degrees(off)} off: center the needle with FROM, then read the "
        "ring."
    )


def mark_direction(state: HiddenPositionState) -> str:
    """Say whether the guessed compass direction is right."""
    said = state.guess_direction
    if not said:
        return ""
    point = compass_point(state.radial_deg)
    # near the edge of a sector, accept the neighboring point too
    if said in _points_about(state.radial_deg):
        return f"And {said} of the station is right."
    if said in _points_about(float(reciprocal_deg(state.radial_deg))):
        return f"But {said} is where the station is from you: you are on the opposite side of it."
    if said == compass_point(float(state.tuned.true_azimuth_deg(state.there))):
        return f"But {said} counts from true north: by the station's rose that radial runs {point}."
    return f"But {said} is not where that radial runs: find it on the rose."


def _points_about(direction_deg: float) -> set[str]:
    return {compass_point(direction_deg + off) for off in (-ALLOWED_DEG, 0.0, ALLOWED_DEG)}


def _retuned(state: HiddenPositionState, ident: str) -> dict[str, Any]:
    """Keep the aircraft where it is, and clear the guess, which was for the other station."""
    return {
        "near": state.near or state.station,
        "revealed": False,
        "guess_radial_deg": None,
        "guess_direction": "",
    }


def _revealed(state: HiddenPositionState) -> dict[str, Any]:
    """Mark the guess; count it unless the position is already revealed."""
    if state.guess_radial_deg is None or state.seed == state.counted_seed:
        return {"revealed": True}
    right = _is_near(state.guess_radial_deg, state.radial_deg)
    right = right and state.guess_direction in _points_about(state.radial_deg)
    in_a_row = state.in_a_row + 1 if right else 0
    return {"revealed": True, "in_a_row": in_a_row, "counted_seed": state.seed}


def _another(state: HiddenPositionState) -> dict[str, Any]:
    return {
        "seed": state.seed + 1,
        "near": "",
        "revealed": False,
        "guess_radial_deg": None,
        "guess_direction": "",
    }


@exhibit(lesson="03", state=HiddenPositionState)
def hidden_position(
    station: str = "QLN", seed: int = 1, **start: Any
) -> Exhibit[HiddenPositionState]:
    """Return the exhibit of the hidden position.

    Parameters
    ----------
    station
        Ident of the station tuned.
    seed
        Decides where the aircraft is.
    **start
        Other fields of `HiddenPositionState` to start from.
    """
    points = {"choose": "", **{f"{point} of the station": point for point in COMPASS_POINTS}}
    return Exhibit(
        HiddenPositionState(station, seed=seed, **start),
        draw,
        sentence,
        [
            at_station.course_number(),
            at_station.tuning(_retuned),
            Number("guess_radial_deg", "Your radial", direction=True, optional=True),
            ChoiceControl("guess_direction", "Compass direction", points),
            Button("revealed", "Reveal and mark", _revealed),
            Button("seed", "Another position", _another),
        ],
        {"ring": grips.RING},
    )
