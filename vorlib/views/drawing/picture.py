"""Pictures: primitives on a ground of given size, with the words that stand for them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from vorlib.views.drawing.primitives import (
    Circle,
    Group,
    Item,
    Line,
    Point,
    Polygon,
    Polyline,
    Segments,
    Text,
)
from vorlib.views.drawing.svg import to_svg

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
        return to_svg(self, display_width=f"{self.width:g}")

    def _repr_pretty_(self, printer: Any, cycle: bool) -> None:
        """Return the words for a notebook, in place of the list of items."""
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
