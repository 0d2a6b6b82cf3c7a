"""What pictures are made of: plain values, drawn by two inks, `svg` and `pdf`.

Coordinates are picture units: x to the right, y down, rotation clockwise in degrees.
A color is a ``#rrggbb`` string and an empty string means "not drawn".
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol, TypeAlias

__all__ = [
    "Circle",
    "Drawing",
    "Group",
    "Item",
    "Line",
    "Point",
    "Polygon",
    "Polyline",
    "Segments",
    "Text",
]

Point: TypeAlias = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line from (x1, y1) to (x2, y2)."""

    x1: float
    y1: float
    x2: float
    y2: float
    stroke: str
    width: float = 1.0
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Segments:
    """Many separate short lines of one look (ticks, hatching): each is (x1, y1, x2, y2)."""

    segments: tuple[tuple[float, float, float, float], ...]
    stroke: str
    width: float = 1.0
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Polyline:
    """An open line through the points."""

    points: tuple[Point, ...]
    stroke: str
    width: float = 1.0
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Polygon:
    """A closed shape; `opacity` applies to the fill alone."""

    points: tuple[Point, ...]
    fill: str = ""
    stroke: str = ""
    width: float = 1.0
    dash: tuple[float, ...] = ()
    opacity: float = 1.0


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle about (x, y); `opacity` applies to the fill alone."""

    x: float
    y: float
    radius: float
    fill: str = ""
    stroke: str = ""
    width: float = 1.0
    dash: tuple[float, ...] = ()
    opacity: float = 1.0


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text; y is the middle of its capitals and figures.

    Attributes
    ----------
    size
        Height of the type in picture units.
    anchor
        Which part of the text stands at x: "start", "middle" or "end".
    halo
        Color of an outline behind the letters, to lift them off a busy ground.
    rotate_deg
        Turn about (x, y).
    """

    x: float
    y: float
    text: str
    size: float
    fill: str
    anchor: str = "middle"
    bold: bool = False
    halo: str = ""
    rotate_deg: float = 0.0


@dataclass(frozen=True, slots=True, eq=False)
class Group:
    """Items drawn about a new origin (x, y), turned by `rotate_deg` about that origin.

    With a `grab` name the group is something the reader may take hold of, by pointer or by
    keyboard; `label` is then what a screen reader says: a name and, after a comma or from its
    first figure on, a value. The hit area is a circle about the
    group's origin, so a group to be grabbed is drawn round its own origin; with `hit` (left, top,
    right, bottom) it is that box, and a press in it counts as a drag to where it is pressed.

    Groups compare by identity, so that an ink can remember the text of one that is drawn again.
    """

    items: tuple[Item, ...]
    x: float = 0.0
    y: float = 0.0
    rotate_deg: float = 0.0
    grab: str = ""
    label: str = ""
    hit: tuple[float, float, float, float] | None = None


Item: TypeAlias = Line | Segments | Polyline | Polygon | Circle | Text | Group


class Drawing(Protocol):
    """What an ink draws: items on a ground of given size, with the words that stand for them."""

    @property
    def width(self) -> float: ...
    @property
    def height(self) -> float: ...
    @property
    def items(self) -> tuple[Item, ...]: ...
    @property
    def title(self) -> str: ...
    @property
    def description(self) -> str: ...
    @property
    def background(self) -> str: ...
