"""Resize pictures, with their type and their lines, to place them inside others."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import TypeVar

from vorlib.views.drawing.picture import (
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

__all__ = ["framed", "resized", "scaled"]

T = TypeVar("T", bound=Line | Segments | Polyline | Polygon | Circle)


def framed(picture: Picture, width: float, x: float = 0.0, y: float = 0.0) -> Group:
    """Return a picture on its own ground as a group, `width` units wide, its corner at (x, y)."""
    factor = width / picture.width
    right, bottom = picture.width, picture.height
    corners = ((0.0, 0.0), (right, 0.0), (right, bottom), (0.0, bottom))
    ground = Polygon(corners, fill=picture.background)
    return Group(tuple(scaled(item, factor) for item in (ground, *picture.items)), x, y)


def resized(picture: Picture, width: float) -> Picture:
    """Return a picture made `width` units wide; it can be grabbed where it could before."""
    height = picture.height * width / picture.width
    return replace(picture, width=width, height=height, items=(framed(picture, width),))


def scaled(item: Item, factor: float) -> Item:
    """Return an item that many times as large, about the origin."""
    match item:
        case Group():
            return _scaled_group(item, factor)
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


# The same group gives the same group, so that the inks know it again.
@lru_cache(maxsize=64)
def _scaled_group(group: Group, factor: float) -> Group:
    parts = tuple(scaled(part, factor) for part in group.items)
    hit = group.hit
    if hit is not None:
        hit = (hit[0] * factor, hit[1] * factor, hit[2] * factor, hit[3] * factor)
    return replace(group, items=parts, x=group.x * factor, y=group.y * factor, hit=hit)


def _thicker(item: T, factor: float) -> T:
    return replace(item, width=item.width * factor, dash=tuple(dash * factor for dash in item.dash))
