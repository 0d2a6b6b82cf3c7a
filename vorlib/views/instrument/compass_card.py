"""The compass card that turns in an indicator and in a heading indicator."""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType

from vorlib.core.angles import format_direction
from vorlib.views.drawing.picture import Circle, Group, Item, Segments, Text
from vorlib.views.drawing.theme import Theme

__all__ = ["CARD_RADIUS", "LETTERS", "compass_card"]

CARD_RADIUS = 148.0
LETTERS = MappingProxyType({90: "E", 180: "S", 270: "W", 360: "N"})
"""What a heading indicator has at the quarters in place of figures."""

NONE: Mapping[int, str] = MappingProxyType({})


def compass_card(fill: str, theme: Theme, letters: Mapping[int, str] = NONE) -> Group:
    """Return a card about the origin with 360 at the top, figures every 30 degrees.

    Parameters
    ----------
    fill
        The card's color.
    letters
        What stands, larger, at some directions in place of figures.
    """
    items: list[Item] = [Circle(0.0, 0.0, CARD_RADIUS, fill, theme.rose, theme.line)]
    for first, length, width in ((5, 7.0, theme.thin), (10, 12.0, theme.line)):
        ticks = tuple(_tick(degree, length) for degree in range(first, 365, 10))
        items.append(Segments(ticks, theme.rose, width))
    radius = CARD_RADIUS - 17.0 - 0.6 * (theme.text_size if letters else theme.small_size)
    for degree in range(30, 390, 30):
        a = math.radians(degree)
        at = radius * math.sin(a), -radius * math.cos(a)
        name = letters.get(degree, format_direction(degree))
        size = theme.text_size * 1.2 if degree in letters else theme.small_size
        items.append(Text(*at, name, size, theme.text, bold=True, rotate_deg=float(degree)))
    return Group(tuple(items))


def _tick(degree: float, length: float) -> tuple[float, float, float, float]:
    sin, cos = math.sin(math.radians(degree)), math.cos(math.radians(degree))
    inner = CARD_RADIUS - length
    return inner * sin, -inner * cos, CARD_RADIUS * sin, -CARD_RADIUS * cos
