"""Measure things in a picture, and find where a label fits."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import TypeAlias

from vorlib.views.drawing.primitives import Circle, Group, Item, Line, Point, Segments, Text

__all__ = [
    "CAP_MIDDLE",
    "Box",
    "Labeler",
    "beside_line",
    "extent",
    "overlap",
    "reach",
    "text_box",
    "text_width",
    "wrapped",
]

Box: TypeAlias = tuple[float, float, float, float]
"""Left, top, right, bottom."""

CAP_MIDDLE = 0.365  # half the height of capitals in DejaVu Sans (0.729 em); Verdana's is the same

# Advance widths in em of DejaVu Sans, whose measures Verdana nearly shares; others count as 0.62.
_NARROW = dict.fromkeys("iIjl.,:;'|! \N{NO-BREAK SPACE}", 0.32) | dict.fromkeys("ftr-()", 0.41)
_WIDE = dict.fromkeys("ABCDGHKNOQRUVXYw", 0.76) | dict.fromkeys("mMW", 0.98)
_ADVANCE = _NARROW | _WIDE


def text_width(text: str, size: float, bold: bool = False) -> float:
    """Return the width in picture units of one line of text, within about a tenth."""
    return _ems(text) * size * (1.12 if bold else 1.0)


@lru_cache(maxsize=2048)  # picture after picture has the same words
def _ems(text: str) -> float:
    return sum([_ADVANCE.get(c, 0.63) for c in text])


def wrapped(words: str, width: float, size: float) -> list[str]:
    """Break words into lines no wider than `width` picture units, at the size of their type.

    A no-break space holds together what stands before and after it.
    """
    lines: list[str] = []
    for word in filter(None, re.split("[ \n]", words)):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def text_box(item: Text) -> Box:
    """Return the room one line of text takes, its own turn included."""
    width = text_width(item.text, item.size, item.bold)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[item.anchor]
    half = 0.5 * item.size
    return _turned_box((left, -half, left + width, half), item.x, item.y, item.rotate_deg)


def _turned_box(box: Box, x: float, y: float, rotate_deg: float) -> Box:
    left, top, right, bottom = box
    if not rotate_deg:
        return left + x, top + y, right + x, bottom + y
    cos, sin = math.cos(math.radians(rotate_deg)), math.sin(math.radians(rotate_deg))
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    return _around([(x + a * cos - b * sin, y + a * sin + b * cos) for a, b in corners])


def _around(points: Iterable[Point]) -> Box:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


@lru_cache(maxsize=256)
def _group_extent(group: Group) -> Box:
    corners = [p for part in group.items for p in _ends(extent(part))]
    return _turned_box(_around(corners), group.x, group.y, group.rotate_deg)


def _ends(box: Box) -> tuple[Point, Point]:
    return box[:2], box[2:]


def extent(item: Item) -> Box:
    """Return the box around an item, without the thickness of its lines; a turned group has more.

    Raises
    ------
    ValueError
        If a group, polygon or line has nothing in it.
    """
    match item:
        case Line(x1, y1, x2, y2):
            return _around([(x1, y1), (x2, y2)])
        case Segments(segments):
            return _around([p for s in segments for p in _ends(s)])
        case Circle(x, y, radius):
            return x - radius, y - radius, x + radius, y + radius
        case Text():
            return text_box(item)
        case Group():
            return _group_extent(item)
        case _:
            return _around(item.points)


def reach(items: Iterable[Item]) -> float:
    """Greatest distance from the origin to the side of any item's box."""
    return max(max(map(abs, extent(item))) for item in items)


def overlap(a: Box, b: Box) -> bool:
    """Whether two boxes share any room."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def beside_line(start: Point, end: Point, shares: Iterable[float], text: Text) -> Iterator[Text]:
    """Yield places for a text beside a straight line, at given shares of its length, near first."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = math.hypot(dx, dy) or 1.0
    for away in (1.1 * text.size, 2.0 * text.size, 3.2 * text.size):
        for share in shares:
            for side in (1.0, -1.0):
                right, down = -side * dy / length, side * dx / length
                yield replace(
                    text,
                    x=start[0] + share * dx + away * right,
                    y=start[1] + share * dy + away * down,
                    anchor="start" if right > 0.3 else "end" if right < -0.3 else "middle",
                )


@dataclass(slots=True)
class Labeler:
    """Puts each label in the first of its candidate places that is free.

    Attributes
    ----------
    room
        The box that labels must stay inside.
    taken
        Boxes already occupied; each placed label adds its own.
    """

    room: Box
    taken: list[Box] = field(default_factory=list)

    def block(self, box: Box) -> None:
        """Keep labels out of a box."""
        self.taken.append(box)

    def block_line(self, x1: float, y1: float, x2: float, y2: float, half_width: float) -> None:
        """Keep labels off a straight line."""
        steps = max(1, math.ceil(math.hypot(x2 - x1, y2 - y1) / (4 * half_width)))
        for i in range(steps + 1):
            x, y = x1 + (x2 - x1) * i / steps, y1 + (y2 - y1) * i / steps
            self.block((x - half_width, y - half_width, x + half_width, y + half_width))

    def is_free(self, box: Box) -> bool:
        """Whether a box lies inside the room and off everything that is taken."""
        left, top, right, bottom = box
        room = self.room
        if left < room[0] or top < room[1] or right > room[2] or bottom > room[3]:
            return False
        for x1, y1, x2, y2 in self.taken:  # `overlap`, whose calls would cost most of it
            if left < x2 and x1 < right and top < y2 and y1 < bottom:
                return False
        return True

    def place(self, candidates: Iterable[Text]) -> Text | None:
        """Return the first candidate that is free and inside, or None when none is."""
        for text in candidates:
            box = text_box(text)
            if self.is_free(box):
                self.block(box)
                return text
        return None
