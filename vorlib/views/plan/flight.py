"""Draw flights on a plan view: named tracks, the aircraft at their ends, the wind."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import numpy as np

from vorlib.core.angles import format_direction
from vorlib.views.drawing.clipping import clip_polyline
from vorlib.views.drawing.layout import Labeler, overlap, text_width
from vorlib.views.drawing.picture import Group, Item, Line, Point, Polygon, Polyline, Text
from vorlib.views.drawing.theme import Theme
from vorlib.views.plan.aircraft import outline
from vorlib.views.plan.projection import FRAME, SIZE, StationProjection
from vorlib.views.plan.scene import PlanScene, Trace

__all__ = ["trace_lines", "trace_points", "trace_words", "wind_arrow"]

ARROW_LENGTH = 34.0
NAME_TURNS_DEG = (0, 45, -45, 90, -90, 135, -135, 180)


def trace_points(scene: PlanScene, layout: StationProjection) -> list[list[Point]]:
    """Return the points of each trace on the picture."""
    laid = (map(np.atleast_1d, layout.to_xy(trace.track)) for trace in scene.traces)
    return [list(zip(x.tolist(), y.tolist(), strict=True)) for x, y in laid]


def _ink(trace: Trace, theme: Theme) -> str:
    return theme.cone if trace.dashed else theme.track


def trace_lines(scene: PlanScene, lines: list[list[Point]], theme: Theme) -> Iterator[Item]:
    """Yield the lines of the traces, and hollow aircraft at the ends of those that have one."""
    for trace, points in zip(scene.traces, lines, strict=True):
        ink = _ink(trace, theme)
        dash = (6.0 * theme.line, 4.0 * theme.line) if trace.dashed else ()
        for segment in clip_polyline(points, FRAME):
            # a light edge, so that the track stands out from the course line
            yield Polyline(segment, theme.paper, 3.2 * theme.line)
            yield Polyline(segment, ink, 1.4 * theme.line, dash)
        if trace.heading_deg is not None and _is_inside(points[-1]):
            shape = Polygon(outline(0.8 * theme.symbol), theme.paper, ink, 1.2 * theme.line)
            true_heading_deg = trace.heading_deg + scene.station.declination_deg
            yield Group((shape,), *points[-1], true_heading_deg)


def trace_words(
    scene: PlanScene, lines: list[list[Point]], labels: Labeler, theme: Theme
) -> Iterator[Text]:
    """Yield the names of the traces, each near the end of its line where there is room for it."""
    for points in lines:
        for here, there in pairwise(points):
            labels.block_line(*here, *there, 2.0 * theme.line)
        x, y = points[-1]
        reach = 14.0 * theme.symbol
        labels.block((x - reach, y - reach, x + reach, y + reach))
    for trace, points in zip(scene.traces, lines, strict=True):
        if not trace.name:
            continue
        others = [other[-1] for other in lines if other is not points]
        text = Text(
            0, 0, trace.name, theme.text_size, _ink(trace, theme), bold=True, halo=theme.sea
        )
        placed = labels.place(_name_places(text, points, others, theme))
        if placed is not None:
            yield placed


def _name_places(
    text: Text, points: list[Point], others: list[Point], theme: Theme
) -> Iterator[Text]:
    """Yield places around the end of a line, away from other ends first, then at its corners."""
    end = points[-1]
    right = sum(end[0] - x for x, _ in others)
    up = sum(y - end[1] for _, y in others)
    first = math.atan2(right, up) if math.hypot(right, up) > 1.0 else math.pi / 2
    for x, y in [p for p in reversed(points) if _is_inside(p)][:12]:
        for away in (1.4, 2.4):
            for turn_deg in NAME_TURNS_DEG:
                a = first + math.radians(turn_deg)
                anchor = "start" if math.sin(a) > 0.3 else "end" if math.sin(a) < -0.3 else "middle"
                gap = away * 12.0 * theme.symbol
                yield replace(text, x=x + gap * math.sin(a), y=y - gap * math.cos(a), anchor=anchor)


def _is_inside(point: Point) -> bool:
    return all(0.0 <= c <= SIZE for c in point)


def wind_arrow(scene: PlanScene, labels: Labeler, theme: Theme) -> Iterator[Item]:
    """Yield an arrow with the wind, in words such as "wind 300/25", in the upper left corner.

    If there are words there already, it goes to the next free corner.
    """
    if scene.wind is None:
        return
    direction, speed = float(scene.wind.from_deg), float(scene.wind.speed_kt)
    words = f"wind {format_direction(direction)}/{speed:.0f}" if speed >= 0.5 else "no wind"
    size, margin = theme.small_size, 0.5 * theme.small_size
    wide = text_width(words, size, True) + 2 * margin
    tall = 1.8 * size + (ARROW_LENGTH * math.sqrt(theme.symbol) + margin if speed >= 0.5 else 0.0)
    x, y = _free_corner(wide, tall, 1.8 * size, labels)
    labels.block((x, y, x + wide, y + tall))
    ends = ((0.0, 0.0), (wide, 0.0), (wide, 1.8 * size), (0.0, 1.8 * size))
    yield Polygon(tuple((x + a, y + b) for a, b in ends), theme.paper, opacity=0.85)
    yield Text(x + margin, y + 0.9 * size, words, size, theme.text, "start", True)
    if speed >= 0.5:
        half = 0.5 * ARROW_LENGTH * math.sqrt(theme.symbol)
        head = 5.0 * theme.symbol
        # drawn pointing down: a wind from the north blows to the south
        arrow = (
            Line(0.0, -half, 0.0, half - head, theme.text, theme.thick),
            Polygon(((0.0, half), (head, half - 2 * head), (-head, half - 2 * head)), theme.text),
        )
        yield Group(
            arrow,
            x + margin + half,
            y + 1.8 * size + half,
            direction + scene.station.declination_deg,
        )


def _free_corner(wide: float, tall: float, words: float, labels: Labeler) -> Point:
    """Return the upper left corner of a box in a corner of the plan where it hides no words.

    If no corner is free for the whole box, choose one where its own words, at its top, fit.
    """
    corners = [(x, y) for y in (0.0, SIZE - tall) for x in (0.0, SIZE - wide)]
    for deep in (tall, words):
        for x, y in corners:
            box = (x, y, x + wide, y + deep)
            if not any(overlap(box, taken) for taken in labels.taken):
                return x, y
    return corners[0]
