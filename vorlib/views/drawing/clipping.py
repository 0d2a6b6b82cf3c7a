"""Cut lines and shapes to a rectangle, so that nothing is drawn outside its frame."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from vorlib.views.drawing.layout import Box
from vorlib.views.drawing.picture import Point

__all__ = ["clip_polygon", "clip_polyline", "line_outside"]


def _cut_side(points: Sequence[Point], axis: int, limit: float, sign: float) -> list[Point]:
    """Keep the part of a closed shape where sign * (coordinate - limit) <= 0."""
    sides = [sign * (point[axis] - limit) for point in points]
    if max(sides) <= 0.0:
        return list(points)
    if min(sides) > 0.0:
        return []
    kept: list[Point] = []
    previous = points[-1]
    before = sides[-1]
    for point, here in zip(points, sides, strict=True):
        if (here <= 0) != (before <= 0):
            share = before / (before - here)
            kept.append(
                (
                    previous[0] + share * (point[0] - previous[0]),
                    previous[1] + share * (point[1] - previous[1]),
                )
            )
        if here <= 0:
            kept.append(point)
        previous, before = point, here
    return kept


def clip_polygon(points: Sequence[Point], box: Box) -> tuple[Point, ...]:
    """Return the part of a closed shape inside a box, or () if none of it is.

    Source: the Sutherland-Hodgman method (from memory).
    """
    kept = list(points)
    for axis, limit, sign in ((0, box[0], -1.0), (1, box[1], -1.0), (0, box[2], 1.0)):
        kept = _cut_side(kept, axis, limit, sign) if kept else kept
    kept = _cut_side(kept, 1, box[3], 1.0) if kept else kept
    return tuple(kept)


def _clip_leg(a: Point, b: Point, box: Box) -> tuple[Point, Point] | None:
    """Return the part of a straight leg inside a box (the Liang-Barsky method, from memory)."""
    (ax, ay), (bx, by), (left, top, right, bottom) = a, b, box
    if (ax < left and bx < left) or (ax > right and bx > right):
        return None
    if (ay < top and by < top) or (ay > bottom and by > bottom):
        return None
    if left <= ax <= right and left <= bx <= right and top <= ay <= bottom and top <= by <= bottom:
        return a, b
    dx, dy = bx - ax, by - ay
    enter, leave = 0.0, 1.0
    for step, room in (
        (-dx, ax - left),
        (dx, right - ax),
        (-dy, ay - top),
        (dy, bottom - ay),
    ):
        if step == 0:
            if room < 0:
                return None
        elif step < 0:
            enter = max(enter, room / step)
        else:
            leave = min(leave, room / step)
    if enter > leave:
        return None
    first = a if enter == 0 else (ax + enter * dx, ay + enter * dy)
    last = b if leave == 1 else (ax + leave * dx, ay + leave * dy)
    return first, last


def clip_polyline(points: Sequence[Point], box: Box) -> list[tuple[Point, ...]]:
    """Return the segments of an open line that lie inside a box."""
    if len(points) > 1:  # most lie wholly in it or wholly to one side of it
        xs, ys = zip(*points, strict=True)
        left, top, right, bottom = min(xs), min(ys), max(xs), max(ys)
        if left >= box[0] and top >= box[1] and right <= box[2] and bottom <= box[3]:
            return [tuple(points)]
        if left > box[2] or top > box[3] or right < box[0] or bottom < box[1]:
            return []
    segments: list[list[Point]] = []
    for a, b in pairwise(points):
        leg = _clip_leg(a, b, box)
        if leg is None:
            continue
        if segments and math.dist(segments[-1][-1], leg[0]) < 1e-9:
            segments[-1].append(leg[1])
        else:
            segments.append(list(leg))
    return [tuple(segment) for segment in segments]


def line_outside(a: Point, b: Point, boxes: Iterable[Box]) -> Iterator[tuple[Point, Point]]:
    """Yield the parts of a straight line that no box covers, in order from its first point."""
    legs = (_clip_leg(a, b, box) for box in boxes)
    covered = sorted((math.dist(a, leg[0]), math.dist(a, leg[1]), leg) for leg in legs if leg)
    start, reached = a, 0.0
    for near, far, (first, last) in covered:
        if near > reached:
            yield start, first
        if far > reached:
            start, reached = last, far
    if math.dist(a, b) > reached:
        yield start, b
