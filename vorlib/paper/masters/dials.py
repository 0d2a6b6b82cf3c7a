"""A master with blank indicators, to draw course, needle and flag in."""

from __future__ import annotations

from collections.abc import Iterator

from vorlib.paper.block import Block
from vorlib.paper.masters.rose import at
from vorlib.paper.page import PRINT, Sheet
from vorlib.views.drawing.picture import Circle, Group, Item, Polygon, Segments, Text
from vorlib.vor.receiver import DOTS_FULL_SCALE

__all__ = ["draw_dials"]

COLUMNS, ROWS = 2, 3
TYPE = 8.5
RADIUS, SCALE = 72.0, 62.0  # in points: of the ring, and from its center to the last dot


def draw_dials(sheet: Sheet) -> None:
    """Draw six indicators, each with lines for heading and radial."""
    width, height = sheet.width / COLUMNS, (sheet.bottom - sheet.top) / ROWS
    for number in range(COLUMNS * ROWS):
        left = sheet.left + number % COLUMNS * width
        top = sheet.top + number // COLUMNS * height
        block = Block(width - 20.0)
        block.y = height - 16.0
        block.blank(0.0, "Heading", 0.45 * block.width, TYPE)
        block.blank(0.5 * block.width, "Radial", block.width, TYPE)
        middle = 0.5 * block.width
        block.draw(Text(0.0, 12.0, f"{number + 1}", 11.0, PRINT.text, "start", bold=True))
        block.draw(Group(tuple(_dial()), middle, 0.5 * height - 1.0))
        sheet.draw(Group(block.items, left + 5.0, top))


def _dial() -> Iterator[Item]:
    """Yield the dial about its center: a box for the course above, one for the flag below."""
    origin = (0.0, 0.0)
    yield Circle(*origin, RADIUS, stroke=PRINT.text, width=1.4)
    ticks = tuple((*at(origin, RADIUS - 5.0, d), *at(origin, RADIUS, d)) for d in range(0, 360, 30))
    yield Segments(ticks, PRINT.text, 0.8)
    yield Polygon(((0.0, -RADIUS), (5.0, -RADIUS - 8.0), (-5.0, -RADIUS - 8.0)), PRINT.text)
    yield Text(-26.0, -RADIUS - 18.0, "course", TYPE, PRINT.muted, "end")
    yield _box(0.0, -RADIUS - 18.0, 22.0, 9.0)
    yield Circle(*origin, 5.0, stroke=PRINT.text, width=1.0)
    step = SCALE / DOTS_FULL_SCALE
    for dot in range(1, DOTS_FULL_SCALE + 1):
        yield Circle(dot * step, 0.0, 2.0, PRINT.text)
        yield Circle(-dot * step, 0.0, 2.0, PRINT.text)
    yield _box(0.0, 0.6 * RADIUS, 24.0, 9.0)
    yield Text(0.0, 0.6 * RADIUS + 16.0, "flag", TYPE - 1.0, PRINT.muted)


def _box(x: float, y: float, half_width: float, half_height: float) -> Polygon:
    left, right, top, foot = x - half_width, x + half_width, y - half_height, y + half_height
    corners = ((left, top), (right, top), (right, foot), (left, foot))
    return Polygon(corners, PRINT.paper, PRINT.text, 1.0)
