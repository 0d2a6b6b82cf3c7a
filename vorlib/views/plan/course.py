"""Draw the selected course on a plan view: course line, abeam line, halves and wedge."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

from vorlib.core.angles import format_direction
from vorlib.views.drawing.layout import Labeler, beside_line
from vorlib.views.drawing.picture import Group, Item, Line, Point, Polygon, Polyline, Segments, Text
from vorlib.views.drawing.theme import Theme
from vorlib.views.plan.projection import StationProjection
from vorlib.views.plan.scene import Overlay, PlanScene

__all__ = ["block_course_line", "course_overlays", "course_words"]

HATCH_STEP = 15.0  # picture units between the lines of the TO half, and the dots of the FROM half


@lru_cache(maxsize=32)
def course_overlays(
    radius: float,
    full_scale_deg: float,
    shown: Overlay,
    theme: Theme,
) -> Group:
    """Return the overlays about the origin for a course straight up; the caller turns them."""
    items: list[Item] = []
    if Overlay.HALVES in shown:
        items += _halves(radius, theme)
    if Overlay.WEDGE in shown:
        items += _wedge(radius, full_scale_deg, theme)
    if Overlay.ABEAM in shown:
        dash = (7.0 * theme.line, 4.0 * theme.line)
        items.append(Line(-radius, 0.0, radius, 0.0, theme.muted, theme.line, dash))
    if Overlay.COURSE in shown:
        items += _course_line(radius, theme)
    return Group(tuple(items))


def _halves(radius: float, theme: Theme) -> Iterator[Item]:
    """Hatch the TO half with lines across the course, and stipple the FROM half."""
    rows = [HATCH_STEP * (i + 0.5) for i in range(int(radius / HATCH_STEP))]
    halves = [(math.sqrt(max(0.0, (radius - 3.0) ** 2 - y * y)), y) for y in rows]
    lines = tuple((-half, y, half, y) for half, y in halves if half > HATCH_STEP)
    dotted = tuple((-half, -y, half, -y) for half, y in halves if half > HATCH_STEP)
    yield Segments(lines, theme.to_half, theme.thin)
    yield Segments(dotted, theme.from_half, 2.2 * theme.thin, (0.1, HATCH_STEP))


def _wedge(radius: float, full_scale_deg: float, theme: Theme) -> Iterator[Item]:
    """Shade the directions in which the needle is off its stops, on both sides of the station."""
    steps = max(2, math.ceil(full_scale_deg / 5))
    for middle_deg in (0.0, 180.0):
        turns = [
            math.radians(middle_deg + full_scale_deg * i / steps) for i in range(-steps, steps + 1)
        ]
        arc: tuple[Point, ...] = tuple((radius * math.sin(a), -radius * math.cos(a)) for a in turns)
        yield Polygon(((0.0, 0.0), *arc), fill=theme.course, opacity=0.14)
        dash = (2.0 * theme.line, 3.0 * theme.line)
        yield Polyline((arc[0], (0.0, 0.0), arc[-1]), theme.course, theme.thin, dash)


def _course_line(radius: float, theme: Theme) -> Iterator[Item]:
    wide, tall = 9.0 * theme.symbol, 22.0 * theme.symbol
    yield Line(0.0, radius, 0.0, tall - radius, theme.course, theme.thick)
    yield Polygon(((0.0, -radius), (wide, tall - radius), (-wide, tall - radius)), theme.course)


def course_words(
    scene: PlanScene, layout: StationProjection, labels: Labeler, theme: Theme
) -> Iterator[Text]:
    """Yield the words that name the overlays, upright, each where there is room for it."""
    if scene.course_deg is None:
        return
    true_course_deg = scene.course_deg + scene.station.declination_deg

    def at(bearing_deg: float, share: float) -> Point:
        x, y = layout.polar_to_xy(true_course_deg + bearing_deg, share * scene.range_nm)
        return float(x), float(y)

    def word(text: str, fill: str, factor: float = 1.0) -> Text:
        return Text(0.0, 0.0, text, factor * theme.text_size, fill, bold=True, halo=theme.sea)

    def spots(text: Text, bearings_deg: Sequence[float], shares: Sequence[float]) -> Iterator[Text]:
        for share in shares:
            for bearing_deg in bearings_deg:
                x, y = at(bearing_deg, share)
                yield replace(text, x=x, y=y)

    named: list[Text | None] = []
    if Overlay.HALVES in scene.overlays:
        turns = (42.0, -42.0, 60.0, -60.0, 30.0, -30.0, 72.0, -72.0, 16.0, -16.0, 82.0, -82.0)
        back = [180.0 - turn for turn in turns]
        wide = (0.62, 0.75, 0.5, 0.4, 0.85)
        for text, bearings_deg in (("FROM", turns), ("TO", back)):
            half, smaller = word(text, theme.text, 1.3), word(text, theme.text)
            # A reader must tell the halves apart: without room their words cover others.
            crowded = next(spots(half, bearings_deg, wide))
            placed = labels.place(spots(half, bearings_deg, wide))
            placed = placed or labels.place(spots(smaller, bearings_deg, wide))
            named.append(placed or crowded)
    if Overlay.COURSE in scene.overlays:
        course = word(f"course {format_direction(scene.course_deg)}", theme.course)
        shares = (0.85, 0.7, 0.55, 0.4, -0.8, -0.65, -0.5)
        named.append(labels.place(beside_line(at(0.0, 0.0), at(0.0, 1.0), shares, course)))
    if Overlay.ABEAM in scene.overlays:
        beside = (90.0, -90.0, 85.0, -85.0, 95.0, -95.0, 80.0, -80.0, 100.0, -100.0)
        named.append(
            labels.place(spots(word("abeam", theme.muted, 0.9), beside, (0.78, 0.65, 0.5)))
        )
    yield from (text for text in named if text is not None)


def block_course_line(
    scene: PlanScene, layout: StationProjection, labels: Labeler, theme: Theme
) -> None:
    """Keep labels off the course line, where it is shown."""
    if scene.course_deg is not None and Overlay.COURSE in scene.overlays:
        true_course_deg = scene.course_deg + scene.station.declination_deg
        x, y = layout.polar_to_xy(true_course_deg, scene.range_nm)
        tail = 2 * layout.x - float(x), 2 * layout.y - float(y)
        labels.block_line(*tail, float(x), float(y), 1.5 * theme.thick)
