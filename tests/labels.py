"""Where the words of a picture stand, and which of them cannot be read for others.

Widths are those of DejaVu Sans, which matplotlib brings; a browser that has Verdana draws them
hardly wider.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from functools import lru_cache
from itertools import combinations, pairwise
from typing import Any, NamedTuple

from matplotlib.font_manager import FontProperties, findfont
from PIL import ImageFont

from vorlib.exhibits.base.changes import resolve
from vorlib.exhibits.base.controls import ChoiceControl, Number, Switch
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.base.transport import TimeSlider
from vorlib.views.drawing.layout import CAP_MIDDLE
from vorlib.views.drawing.picture import Group, Picture, Text
from vorlib.views.drawing.theme import PROJECTOR, SCREEN

__all__ = ["Words", "at_random", "collisions", "hidden_words", "words_of"]

EM = 200
SLACK = 1.0  # picture units by which two letters may share room, or leave the picture


class Words(NamedTuple):
    """One line of text, and the corners of the room its capitals and figures take."""

    text: str
    corners: tuple[tuple[float, float], ...]


@lru_cache
def _font(bold: bool) -> ImageFont.FreeTypeFont:
    weight = "bold" if bold else "normal"
    return ImageFont.truetype(findfont(FontProperties(family="DejaVu Sans", weight=weight)), EM)


@lru_cache(maxsize=20_000)
def _ems(text: str, bold: bool) -> float:
    return _font(bold).getlength(text) / EM


def words_of(items: Any, x: float = 0.0, y: float = 0.0, turn: float = 0.0) -> Iterator[Words]:
    """Yield all words of a picture's items, whichever groups they are in."""
    for item in items:
        if isinstance(item, Group):
            at = _turned(item.x, item.y, x, y, turn)
            yield from words_of(item.items, *at, turn + item.rotate_deg)
        elif isinstance(item, Text) and item.text.strip():
            width = _ems(item.text, item.bold) * item.size
            left = {"start": 0.0, "middle": -width / 2, "end": -width}[item.anchor]
            half = CAP_MIDDLE * item.size
            middle = _turned(item.x, item.y, x, y, turn)
            room = ((left, -half), (left + width, -half), (left + width, half), (left, half))
            corners = (_turned(a, b, *middle, turn + item.rotate_deg) for a, b in room)
            yield Words(item.text, tuple(corners))


def _turned(x: float, y: float, about_x: float, about_y: float, deg: float) -> tuple[float, float]:
    cos, sin = math.cos(math.radians(deg)), math.sin(math.radians(deg))
    return about_x + x * cos - y * sin, about_y + x * sin + y * cos


def _overlap(one: Words, other: Words) -> bool:
    """Whether two turned boxes share room: no line along a side of either keeps them apart."""
    for box in (one.corners, other.corners):
        for (ax, ay), (bx, by) in pairwise(box[:3]):
            length = math.hypot(bx - ax, by - ay) or 1.0
            right, down = (by - ay) / length, (ax - bx) / length
            a, b = ([x * right + y * down for x, y in words.corners] for words in (one, other))
            if max(a) <= min(b) + SLACK or max(b) <= min(a) + SLACK:
                return False
    return True


def hidden_words(picture: Picture) -> list[str]:
    """Return which words of a picture overlap, and which reach out of it."""
    words = list(words_of(picture.items))
    found = [
        f"{one.text!r} and {other.text!r} overlap"
        for one, other in combinations(words, 2)
        if _overlap(one, other)
    ]
    for one in words:
        xs, ys = zip(*one.corners, strict=True)
        inside = min(*xs, *ys) >= -SLACK
        if not inside or max(xs) > picture.width + SLACK or max(ys) > picture.height + SLACK:
            found.append(f"{one.text!r} reaches out of the picture")
    return found


def at_random(exhibit: Exhibit[Any], chance: random.Random) -> Any:
    """Return the state of an exhibit after its controls were moved at random."""
    state = exhibit.state
    for control in exhibit.controls:
        if isinstance(control, TimeSlider):
            value: Any = round(chance.uniform(0.0, state.duration_s))
        elif isinstance(control, Switch):
            value = chance.random() < 0.5
        elif isinstance(control, ChoiceControl):
            value = chance.choice(list(control.options.values()))
        elif isinstance(control, Number):
            value = round(chance.uniform(control.low, control.high), control.decimals)
        else:
            continue
        if hasattr(state, control.field):  # what is refused changes nothing
            state, _ = resolve(state, {control.field: value}, exhibit.controls)
    return state


def collisions(exhibit: Exhibit[Any], states: int, seed: int) -> Iterator[str]:
    """Yield which words hide each other in states of an exhibit, each with the state."""
    chance = random.Random(seed)
    for _ in range(states):
        state, theme = at_random(exhibit, chance), chance.choice((SCREEN, PROJECTOR))
        try:
            picture = exhibit.draw(state, theme)
        except ValueError:  # said beside a control, and not taken
            continue
        large = "in large type, " if theme is PROJECTOR else ""
        yield from (f"{found} ({large}{state})" for found in hidden_words(picture))
