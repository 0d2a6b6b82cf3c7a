"""Draw a turn onto a course, enlarged: the course line, a line for each dot, and the tracks."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from vorlib.core.angles import difference_deg, format_direction
from vorlib.earth.geodesic import Position
from vorlib.views.drawing.clipping import clip_polyline
from vorlib.views.drawing.layout import Labeler, beside_line
from vorlib.views.drawing.picture import Group, Item, Line, Picture, Point, Polygon, Polyline, Text
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.views.plan.aircraft import outline
from vorlib.views.plan.flight import trace_lines, trace_points, trace_words, wind_arrow
from vorlib.views.plan.intended import intended_marks, intended_words
from vorlib.views.plan.map import station_symbol
from vorlib.views.plan.projection import FRAME, SIZE, StationProjection
from vorlib.views.plan.scene import PlanScene
from vorlib.vor.receiver import DEG_PER_DOT, DOTS_FULL_SCALE

__all__ = ["turn_plan", "turn_range_nm"]

NAMED_DOTS = (0, 5, -5, 3, -3)  # the course itself gets its label first
NAME_SHARES = (0.85, 0.75, 0.15, 0.25, 0.65, 0.35)
RANGES_NM = {1.0: 0.5, 1.5: 0.5, 2.0: 0.5, 3.0: 1.0, 5.0: 2.0, 8.0: 2.0, 12.0: 5.0, 20.0: 5.0}
"""By the distance from the middle of the picture to its edges: the length of the scale bar."""


def turn_range_nm(wanted_nm: float) -> float:
    """Return the smallest range, from the middle to the edges, that holds a distance."""
    return next((r for r in RANGES_NM if r >= 1.1 * wanted_nm), max(RANGES_NM))


def turn_plan(
    scene: PlanScene, middle: Position, range_nm: float, theme: Theme = SCREEN
) -> Picture:
    """Return the area around a place on the selected course, with intended and flown tracks.

    Parameters
    ----------
    scene
        As for a plan view; its selected course has a line for each dot beside it.
    middle
        The place in the middle, on or near the course.
    range_nm
        One of those that `turn_range_nm` returns.
    """
    layout = StationProjection(middle, SIZE / 2, SIZE / 2, SIZE / 2 / range_nm)
    labels = Labeler((3.0, 3.0, SIZE - 3.0, SIZE - 3.0))
    traces, meant = trace_points(scene, layout), intended_marks(scene, layout)
    radials = _radials(scene, layout)
    return Picture(
        SIZE,
        SIZE,
        (
            *_course(scene, radials, theme),
            *_station(scene, layout, labels, theme),
            *_scale(layout, range_nm, labels, theme),
            *(item for mark in meant for item in mark.items(theme)),
            *trace_lines(scene, traces, theme),
            *wind_arrow(scene, labels, theme),
            *_aircraft(scene, layout, labels, theme),
            *intended_words(meant, labels, theme),
            *trace_words(scene, traces, labels, theme),
            *_course_words(scene, radials, labels, theme),
        ),
        title=f"The turn onto the course, about {scene.station.name}",
        description=f"True north is up; the edges are {range_nm:g} NM from where it is met.",
        background=theme.sea,
    )


def _radials(scene: PlanScene, layout: StationProjection) -> dict[int, list[tuple[Point, ...]]]:
    """Return the visible segments of the line for each number of dots; 0 is the course.

    The lines run outward from the station, so they spread as the dots do in the air.
    """
    x, y = layout.to_xy(scene.station.position)
    middle_deg = math.degrees(math.atan2(layout.x - x, y - layout.y))
    length = math.hypot(layout.x - x, layout.y - y) + 2.0 * SIZE
    segments = {}
    for dots in range(-DOTS_FULL_SCALE, DOTS_FULL_SCALE + 1):
        a = math.radians(middle_deg + dots * DEG_PER_DOT)
        end = x + length * math.sin(a), y - length * math.cos(a)
        segments[dots] = list(clip_polyline([(x, y), end], FRAME))
    return segments


def _course(
    scene: PlanScene, radials: dict[int, list[tuple[Point, ...]]], theme: Theme
) -> Iterator[Item]:
    dash = (2.0 * theme.line, 3.0 * theme.line)
    for dots, segments in radials.items():
        for segment in segments:
            if dots:
                yield Polyline(segment, theme.course, theme.thin, dash)
            else:
                yield Polyline(segment, theme.course, theme.thick)
                yield _arrowhead(scene, segment[-1], segment[0], theme)


def _arrowhead(scene: PlanScene, far: Point, near: Point, theme: Theme) -> Group:
    """Return the arrowhead of the course, at the end to which it leads."""
    course_deg = (scene.course_deg or 0.0) + scene.station.declination_deg
    ahead_deg = math.degrees(math.atan2(far[0] - near[0], near[1] - far[1]))
    out = abs(difference_deg(ahead_deg, course_deg)) < 90.0
    (x1, y1), (x2, y2) = (near, far) if out else (far, near)
    wide, tall, share = 9.0 * theme.symbol, 22.0 * theme.symbol, 0.93
    head = Polygon(((0.0, 0.0), (wide, tall), (-wide, tall)), theme.course)
    return Group((head,), x1 + share * (x2 - x1), y1 + share * (y2 - y1), course_deg)


def _course_words(
    scene: PlanScene,
    radials: dict[int, list[tuple[Point, ...]]],
    labels: Labeler,
    theme: Theme,
) -> Iterator[Text]:
    """Yield the label of the course line, and labels for the lines of some dots."""
    course = format_direction(scene.course_deg or 0.0)
    words = Text(
        0.0, 0.0, f"course {course}", theme.text_size, theme.course, bold=True, halo=theme.sea
    )
    for dots in NAMED_DOTS:
        text = words
        if dots:
            text = replace(words, text=f"{abs(dots)} dots", size=theme.small_size, bold=False)
        for segment in radials[dots][:1]:
            placed = labels.place(beside_line(segment[0], segment[-1], NAME_SHARES, text))
            if placed is not None:
                yield placed


def _station(
    scene: PlanScene, layout: StationProjection, labels: Labeler, theme: Theme
) -> Iterator[Item]:
    x, y = layout.to_xy(scene.station.position)
    if 0.0 <= x <= SIZE and 0.0 <= y <= SIZE:
        size = 12.0 * theme.symbol
        labels.block((x - size, y - size, x + size, y + size))
        yield Group(station_symbol(10.0, theme), x, y)
        text = Text(x + 1.3 * size, y, scene.station.ident, theme.small_size, theme.text, "start")
        named = labels.place([text, replace(text, x=x - 1.3 * size, anchor="end")])
        if named is not None:
            yield named


def _aircraft(
    scene: PlanScene, layout: StationProjection, labels: Labeler, theme: Theme
) -> Iterator[Item]:
    if scene.position is None:
        return
    x, y = layout.to_xy(scene.position)
    if 0.0 <= x <= SIZE and 0.0 <= y <= SIZE:
        size = 0.9 * theme.symbol
        labels.block((x - 16 * size, y - 16 * size, x + 16 * size, y + 16 * size))
        shape = Polygon(outline(size), theme.aircraft, theme.paper, theme.line)
        yield Group((shape,), x, y, scene.heading_deg + scene.station.declination_deg)


def _scale(
    layout: StationProjection, range_nm: float, labels: Labeler, theme: Theme
) -> Iterator[Item]:
    """Yield a bar of a round length in the lower left corner."""
    bar_nm = RANGES_NM[range_nm]
    x, y, size = 12.0, SIZE - 14.0, theme.small_size
    length = bar_nm * layout.units_per_nm
    labels.block((0.0, y - 2.2 * size, x + length + size, SIZE))
    yield Line(x, y, x + length, y, theme.text, theme.thick)
    yield Text(x, y - size, f"{bar_nm:g} NM", size, theme.text, "start", True, theme.sea)
