"""Pictures as plain lists of primitives, drawn by two inks: `svg` and `mpl`.

Coordinates are picture units: x to the right, y down, rotation clockwise in degrees.
A colour is a ``#rrggbb`` string and an empty string means "not drawn".
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, TypeAlias

__all__ = [
    "Circle",
    "Group",
    "Item",
    "Line",
    "Picture",
    "Point",
    "Polygon",
    "Polyline",
    "Segments",
    "Text",
    "above",
    "beside",
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
        Colour of an outline behind the letters, to lift them off a busy ground.
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


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing of given width and height, with the words that stand for it.

    `title` names the picture and `description` says what it shows, for a reader who cannot see
    it. Jupyter shows a picture as SVG.
    """

    width: float
    height: float
    items: tuple[Item, ...]
    title: str = ""
    description: str = ""
    background: str = "#ffffff"

    def _repr_svg_(self) -> str:
        from vorlib.views.svg import to_svg

        return to_svg(self, display_width=f"{self.width:g}")

    def _repr_pretty_(self, printer: Any, cycle: bool) -> None:
        """Give a notebook the words in place of the picture, not its list of items."""
        printer.text(f"{self.title}. {self.description}")


def _on_own_ground(picture: Picture) -> tuple[Item, ...]:
    width, height = picture.width, picture.height
    corners = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
    return (Polygon(corners, fill=picture.background), *picture.items)


def beside(left: Picture, right: Picture, gap: float = 16.0) -> Picture:
    """Put two pictures in one, side by side, their middles level.

    The left picture keeps its x coordinates, and its y as well unless the right one is taller.
    """
    height = max(left.height, right.height)
    return replace(
        left,
        width=left.width + gap + right.width,
        height=height,
        items=(
            Group(_on_own_ground(left), 0.0, (height - left.height) / 2),
            Group(_on_own_ground(right), left.width + gap, (height - right.height) / 2),
        ),
        title=" and ".join(filter(None, (left.title, right.title))),
        description=" ".join(filter(None, (left.description, right.description))),
        background=right.background,
    )


def above(upper: Picture, lower: Picture, gap: float = 16.0) -> Picture:
    """Put two pictures in one, one above the other, their middles in line.

    The upper picture keeps its y coordinates, and its x as well unless the lower one is wider.
    """
    width = max(upper.width, lower.width)
    return replace(
        upper,
        width=width,
        height=upper.height + gap + lower.height,
        items=(
            Group(_on_own_ground(upper), (width - upper.width) / 2, 0.0),
            Group(_on_own_ground(lower), (width - lower.width) / 2, upper.height + gap),
        ),
        title=" and ".join(filter(None, (upper.title, lower.title))),
        description=" ".join(filter(None, (upper.description, lower.description))),
        background=lower.background,
    )
