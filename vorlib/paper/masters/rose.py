"""A master with a compass rose, and the rose that other masters draw about a station."""

from __future__ import annotations

import math
from collections.abc import Iterator

from vorlib.core.angles import format_direction
from vorlib.paper.block import Block
from vorlib.paper.page import PRINT, Sheet
from vorlib.views.drawing.picture import Circle, Group, Item, Line, Point, Segments, Text

__all__ = ["NOTE", "at", "draw_compass", "fields_at_foot", "rose"]

NOTE = 8.0  # size of small type, in points
FIELD, FIELDS_HEIGHT = 10.0, 26.0  # lines to fill in: size of type, height, in points
QUARTERS = {90: "E", 180: "S", 270: "W", 360: "N"}


def at(center: Point, radius: float, direction_deg: float) -> Point:
    """Return the point at a distance from a center in a direction; north is up."""
    a = math.radians(direction_deg)
    return center[0] + radius * math.sin(a), center[1] - radius * math.cos(a)


def rose(center: Point, radius: float, size: float, every: int = 30) -> Iterator[Item]:
    """Yield a circle with a tick inside at every degree, and figures outside.

    Parameters
    ----------
    center, radius
        Center and radius of the circle, in points.
    size
        Size of the figures, in points.
    every
        Degrees from one figure to the next.
    """
    yield Circle(*center, radius, stroke=PRINT.text, width=1.2)
    fine = 1 if radius > 150.0 else 5
    for step, length, width in ((fine, 0.02, 0.4), (5, 0.03, 0.6), (10, 0.05, 1.0)):
        ticks = tuple(
            (*at(center, radius * (1.0 - length), degree), *at(center, radius, degree))
            for degree in range(step, 361, step)
        )
        yield Segments(ticks, PRINT.text, width)
    for degree in range(every, 361, every):
        x, y = at(center, radius + 0.9 * size, degree)
        bold = degree % 30 == 0
        words = format_direction(degree)
        yield Text(x, y, words, size, PRINT.text, bold=bold, rotate_deg=float(degree))


def fields_at_foot(sheet: Sheet, rows: tuple[tuple[str, ...], ...]) -> float:
    """Draw rows of labels with lines to write on, at the foot; return their upper edge."""
    top = sheet.bottom - FIELDS_HEIGHT * len(rows)
    for number, labels in enumerate(rows):
        block = Block(sheet.width)
        each = sheet.width / len(labels)
        for place, label in enumerate(labels):
            block.blank(place * each, label, (place + 1) * each - 10.0, FIELD)
        sheet.draw(Group(block.items, sheet.left, top + 8.0 + number * FIELDS_HEIGHT))
    return top


def draw_compass(sheet: Sheet) -> None:
    """Draw one large rose, with lines to write what is read from it."""
    top = fields_at_foot(
        sheet,
        (("Radial", "Bearing to the station", "Reciprocal"), ("Heading", "Course", "Track")),
    )
    center = 0.5 * (sheet.left + sheet.right), 0.5 * (sheet.top + top)
    radius = min(0.5 * sheet.width, 0.5 * (top - sheet.top)) - 20.0
    sheet.draw(*rose(center, radius, 10.0, every=10))
    for degree in (90, 180):
        ends = at(center, 0.86 * radius, degree), at(center, 0.86 * radius, degree + 180)
        sheet.draw(Line(*ends[0], *ends[1], PRINT.ring, 0.6, (2.0, 4.0)))
    for degree, letter in QUARTERS.items():
        place = at(center, 0.9 * radius, degree)
        sheet.draw(Text(*place, letter, 16.0, PRINT.text, bold=True))
    sheet.draw(Circle(*center, 2.5, PRINT.text))
