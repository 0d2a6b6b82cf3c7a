"""Pictures made larger or smaller, with their type and their lines, to stand inside others."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeVar

from vorlib.views.picture import (
    Circle,
    Group,
    Item,
    Line,
    Picture,
    Polygon,
    Polyline,
    Segments,
    Text,
)

__all__ = ["framed", "scaled"]

T = TypeVar("T", bound=Line | Segments | Polyline | Polygon | Circle)


def framed(picture: Picture, width: float, x: float = 0.0, y: float = 0.0) -> Group:
    """Return a picture on its own ground as a group, `width` units wide, its corner at (x, y)."""
    factor = width / picture.width
    right, bottom = picture.width, picture.height
    corners = ((0.0, 0.0), (right, 0.0), (right, bottom), (0.0, bottom))
    ground = Polygon(corners, fill=picture.background)
    return Group(tuple(scaled(item, factor) for item in (ground, *picture.items)), x, y)


def scaled(item: Item, factor: float) -> Item:
    """Return an item that many times as large, about the origin; nothing in it can be grabbed."""
    match item:
        case Group():
            parts = tuple(scaled(part, factor) for part in item.items)
            return Group(parts, item.x * factor, item.y * factor, item.rotate_deg)
        case Text():
            return replace(item, x=item.x * factor, y=item.y * factor, size=item.size * factor)
        case Line(x1, y1, x2, y2):
            start, end = (x1 * factor, y1 * factor), (x2 * factor, y2 * factor)
            return replace(_thicker(item, factor), x1=start[0], y1=start[1], x2=end[0], y2=end[1])
        case Segments(segments):
            times = tuple(
                (a * factor, b * factor, c * factor, d * factor) for a, b, c, d in segments
            )
            return replace(_thicker(item, factor), segments=times)
        case Circle(x, y, radius):
            return replace(
                _thicker(item, factor), x=x * factor, y=y * factor, radius=radius * factor
            )
        case _:
            points = tuple((x * factor, y * factor) for x, y in item.points)
            return replace(_thicker(item, factor), points=points)


def _thicker(item: T, factor: float) -> T:
    return replace(item, width=item.width * factor, dash=tuple(dash * factor for dash in item.dash))
