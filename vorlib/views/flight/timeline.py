"""A whole flight on one strip: needle, selections, flag and phases against time, and a cursor.

The strip itself is drawn once for a flight; only the cursor moves. It is grabbed as "time",
anywhere on the strip.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

import numpy as np

from vorlib.aircraft.ground_track import runs
from vorlib.views.drawing.layout import text_width
from vorlib.views.drawing.picture import (
    Circle,
    Group,
    Item,
    Line,
    Picture,
    Polygon,
    Polyline,
    Text,
)
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.views.drawing.thinning import DRAWN_WITHIN, corners
from vorlib.views.flight.timeline_lanes import PATTERNS, bar, box, hatched, legend
from vorlib.views.flight.timeline_scene import WIDTH, TimelineLayout, TimelineScene, layout_of
from vorlib.views.instrument.deviation_strip import minute_step
from vorlib.vor.receiver import DOTS_FULL_SCALE, Flag

__all__ = ["number_mark", "timeline"]


def timeline(scene: TimelineScene, now_s: float, label: str, theme: Theme = SCREEN) -> Picture:
    """Return the strip of a flight with its cursor at a moment.

    Parameters
    ----------
    scene
        The flight.
    now_s
        The moment, in seconds of the flight.
    label
        The moment in words, such as "12 min 5 s", for a screen reader.
    """
    layout = layout_of(scene.end_s, theme)
    return Picture(
        WIDTH,
        layout.height,
        (_strip(scene, theme), _cursor(layout, now_s, label, theme)),
        title="The flight against time",
        description=f"Needle, selections, flag and phases against time; the cursor is at {label}.",
        background=theme.paper,
    )


def _cursor(layout: TimelineLayout, now_s: float, label: str, theme: Theme) -> Group:
    x = float(layout.x(now_s))
    top, foot = layout.chart_top, layout.phase_foot
    knob = 0.6 * theme.small_size
    points = ((x - knob, foot + 1.3 * knob), (x + knob, foot + 1.3 * knob), (x, foot))
    return Group(
        (
            Line(x, top, x, foot, theme.paper, 2.4 * theme.line),
            Line(x, top, x, foot, theme.aircraft, 1.2 * theme.line),
            Polygon(points, theme.aircraft, theme.paper, 0.7 * theme.line),
        ),
        grab="time",
        label=f"Time, {label}",
        hit=(layout.left, 0.0, layout.right, foot + 1.5 * theme.small_size),
    )


@lru_cache(maxsize=8)
def _strip(scene: TimelineScene, theme: Theme) -> Group:
    """Return all of the strip that does not move."""
    layout = layout_of(scene.end_s, theme)
    return Group(
        (
            *_ground(scene, layout, theme),
            *_gaps(scene, layout, theme),
            *_needle(scene, layout, theme),
            *_marks(scene, layout, theme),
            *_selections(scene, layout, theme),
            *_flags(scene, layout, theme),
            *_phases(scene, layout, theme),
            *_scale(layout, theme),
            *legend(layout.left, layout.phase_foot + 2.8 * theme.small_size, layout.right, theme),
        )
    )


def _ground(scene: TimelineScene, layout: TimelineLayout, theme: Theme) -> Iterator[Item]:
    left, right, size = layout.left, layout.right, theme.small_size
    yield box(left, layout.chart_top, right, layout.chart_foot, theme.sea)
    if scene.band_dots:
        upper, lower = (float(layout.y(side * scene.band_dots)) for side in (1.0, -1.0))
        yield box(left, upper, right, lower, theme.paper)
        dash = (4.0 * theme.line, 3.0 * theme.line)
        for y in (upper, lower):
            yield Line(left, y, right, y, theme.ring, theme.thin, dash)
    center = float(layout.y(0.0))
    yield Line(left, center, right, center, theme.text, theme.thin)
    full = DOTS_FULL_SCALE
    for dots, name in ((full, f"{full} right"), (0, "needle"), (-full, f"{full} left")):
        yield Text(left - 0.4 * size, float(layout.y(0.9 * dots)), name, size, theme.text, "end")


def _needle(scene: TimelineScene, layout: TimelineLayout, theme: Theme) -> Iterator[Item]:
    """Draw the needle where the flag shows, in as few points as the eye needs."""
    shown = scene.flag > Flag.OFF
    for begin, end in runs(np.where(shown, scene.segment, -1)):
        if not shown[begin]:
            continue
        x, y = layout.x(scene.time_s[begin:end]), layout.y(scene.dots[begin:end])
        kept = corners(x, y, DRAWN_WITHIN)
        points = tuple(zip(x[kept].tolist(), y[kept].tolist(), strict=True))
        yield Polyline(points if len(points) > 1 else points * 2, theme.needle, 1.1 * theme.line)


def _gaps(scene: TimelineScene, layout: TimelineLayout, theme: Theme) -> Iterator[Item]:
    """Hatch the silences of the recorder from top to bottom."""
    size = theme.small_size
    for i in (np.flatnonzero(np.diff(scene.segment)) + 1).tolist():
        a, b = (float(layout.x(scene.time_s[j])) for j in (i - 1, i))
        yield from hatched(a, layout.chart_top, b, layout.phase_foot, theme)
        if text_width("gap", size) < b - a:
            yield Text((a + b) / 2, layout.chart_top + size, "gap", size, theme.text,
                       halo=theme.cover)  # fmt: skip


def number_mark(x: float, y: float, number: int, theme: Theme) -> tuple[Item, Item]:
    """Return a number in a ring, the sign of a finding on every picture."""
    size = 0.9 * theme.small_size
    radius = max(0.72 * size, 0.6 * text_width(str(number), size, True))
    return (
        Circle(x, y, radius, theme.paper, theme.text, theme.thin),
        Text(x, y, str(number), size, theme.text, bold=True),
    )


def _marks(scene: TimelineScene, layout: TimelineLayout, theme: Theme) -> Iterator[Item]:
    """Yield the numbers of the findings above the chart, moved apart where they stand close."""
    y = 0.9 * theme.small_size
    moments = [float(layout.x(mark.time_s)) for mark in scene.marks]
    places = _apart(moments, layout, 1.6 * theme.small_size)
    for mark, x, at in zip(scene.marks, moments, places, strict=True):
        yield Line(x, layout.chart_foot, x, layout.chart_top, theme.muted, theme.thin, (1.0, 3.0))
        yield Line(x, layout.chart_top, at, y, theme.muted, theme.thin)
        yield from number_mark(at, y, mark.number, theme)


def _apart(moments: list[float], layout: TimelineLayout, least: float) -> list[float]:
    """Return places in order, at or near the moments, spaced apart if there is room for all."""
    step = min(least, (layout.right - layout.left) / max(1, len(moments)))
    places: list[float] = []
    for x in moments:
        places.append(max(x, places[-1] + step) if places else x)
    limit = layout.right
    for i in reversed(range(len(places))):
        places[i] = min(places[i], limit)
        limit = places[i] - step
    return places


def _selections(scene: TimelineScene, layout: TimelineLayout, theme: Theme) -> Iterator[Item]:
    top, foot, size = layout.chart_foot, layout.selected_foot, theme.small_size
    yield Text(layout.left - 0.4 * size, (top + foot) / 2, "selected", size, theme.text, "end")
    for one in scene.selections:
        a, b = float(layout.x(one.begin_s)), float(layout.x(one.end_s))
        yield box(a, top, b, foot, theme.paper, theme.course, theme.thin)
        for words in (one.name, one.name.rpartition(" ")[2]):
            if text_width(words, size, True) + 4.0 < b - a:
                yield Text((a + b) / 2, (top + foot) / 2, words, size, theme.course, bold=True)
                break


def _flags(scene: TimelineScene, layout: TimelineLayout, theme: Theme) -> Iterator[Item]:
    top, foot, size = layout.selected_foot, layout.flag_foot, theme.small_size
    yield Text(layout.left - 0.4 * size, (top + foot) / 2, "flag", size, theme.text, "end")
    told = np.where(scene.flag < 0, -1, scene.flag + len(Flag) * scene.segment)
    for begin, end in runs(told):
        if told[begin] < 0:
            continue
        flag = Flag(int(scene.flag[begin]))
        last = min(end, scene.time_s.size - 1)
        if scene.segment[last] != scene.segment[begin]:
            last = end - 1  # a gap follows
        a, b = float(layout.x(scene.time_s[begin])), float(layout.x(scene.time_s[last]))
        yield from bar(flag.name, a, top, b, foot, theme)


def _phases(scene: TimelineScene, layout: TimelineLayout, theme: Theme) -> Iterator[Item]:
    top, foot, size = layout.flag_foot, layout.phase_foot, theme.small_size
    yield Text(layout.left - 0.4 * size, (top + foot) / 2, "phase", size, theme.text, "end")
    for one in scene.phases:
        if one.name in PATTERNS:
            a, b = float(layout.x(one.begin_s)), float(layout.x(one.end_s))
            yield from bar(one.name, a, top, b, foot, theme)
    yield box(layout.left, layout.chart_top, layout.right, foot, "", theme.rose, theme.thin)


def _scale(layout: TimelineLayout, theme: Theme) -> Iterator[Item]:
    """Write minutes under the strip, as many as there is room for."""
    size, y = theme.small_size, layout.phase_foot
    step = minute_step(layout.end_s / 60.0, int((layout.right - layout.left) / (4.0 * size)))
    for minute in range(0, int(layout.end_s // 60.0) + 1, step):
        x = float(layout.x(60.0 * minute))
        yield Line(x, y, x, y + 0.35 * size, theme.rose, theme.thin)
        yield Text(x, y + 1.1 * size, str(minute), size, theme.text)
    yield Text(layout.left - 0.8 * size, y + 1.1 * size, "minutes", size, theme.text, "end")
