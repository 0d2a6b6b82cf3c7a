"""The deviation of a recorded flight against time, with what was being done and the flag below it.

Told apart by pattern as well as by gray: the same pattern stands for the same thing on a plan.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from vorlib.aircraft.ground_track import IntArray, runs
from vorlib.core.angles import format_direction
from vorlib.core.arguments import FloatArray
from vorlib.core.words import spoken_time
from vorlib.debrief.findings import LIMIT_SHARE
from vorlib.debrief.phases import FlightPhase
from vorlib.debrief.recorded import RecordedDebrief
from vorlib.views.drawing.layout import Labeler, text_width
from vorlib.views.drawing.picture import (
    Item,
    Line,
    Picture,
    Point,
    Polygon,
    Polyline,
    Segments,
    Text,
)
from vorlib.views.drawing.theme import Theme
from vorlib.vor.receiver import DOTS_FULL_SCALE, Flag

__all__ = ["LOOKS", "Look", "block", "deviation_strip", "hatching", "minute_step"]

STEPS_MIN = (1, 2, 5, 10, 15, 20, 30, 60, 120)
ROW = 1.5  # height of the rows below the chart, in sizes of type
COLUMN = 0.5  # width of what is drawn as one, in units


class Look(NamedTuple):
    """How a phase is drawn: the line of its track, and its block.

    A block has the slope and the spacing of its hatching, and reaches from one share of its height
    to another, from the top: what is narrow on a long flight is told by that.
    """

    width: float
    dash: tuple[float, ...]
    strong: bool
    hatch: tuple[float, ...]
    fill: bool
    height: tuple[float, float] = (0.0, 1.0)


LOOKS = {
    FlightPhase.OTHER: Look(1.4, (), False, (), False, (0.5, 0.5)),
    FlightPhase.INTERCEPTING: Look(2.4, (7.0, 4.0), True, (1.0, 5.0), False),
    FlightPhase.TRACKING: Look(3.4, (), True, (), True),
    FlightPhase.PASSAGE: Look(7.0, (), False, (1.0, 1.6), False, (0.0, 0.45)),
    FlightPhase.TURN: Look(2.8, (0.8, 4.2), True, (-1.0, 4.0), False, (0.55, 1.0)),
    FlightPhase.CIRCUIT: Look(1.4, (3.0, 2.0), False, (-1.0, 9.0), False, (0.3, 0.7)),
    FlightPhase.GROUND: Look(1.0, (1.0, 2.0), False, (), False, (0.9, 1.0)),
}


@dataclass(frozen=True)
class _Axes:
    """Where the chart lies, and how time and dots are laid on it."""

    left: float
    top: float
    right: float
    bottom: float
    begin_s: float
    end_s: float

    def x(self, time_s: FloatArray | float) -> FloatArray:
        share = (np.asarray(time_s) - self.begin_s) / max(self.end_s - self.begin_s, 1e-9)
        return self.left + share * (self.right - self.left)

    def y(self, dots: FloatArray | float) -> FloatArray:
        half = (self.bottom - self.top) / 2.0
        return self.top + half - np.asarray(dots) / (1.1 * DOTS_FULL_SCALE) * half


def deviation_strip(
    debrief: RecordedDebrief, theme: Theme, width: float = 520.0, height: float = 150.0
) -> Picture:
    """Return the strip: the needle, three quarters of full scale, phases, flags and selections."""
    size = theme.small_size
    time_s = debrief.seen.time_s
    ends = float(time_s[0]), max(float(time_s[-1]), float(time_s[0]) + 1.0)
    rows = 2.0 * ROW * size
    axes = _Axes(5.6 * size, 1.6 * size, width - 2.0, height - rows - 1.9 * size, *ends)
    items: list[Item] = [
        *_ground(axes, theme),
        *_gaps(debrief, axes, theme, axes.bottom + rows),
        *_needle(debrief, axes, theme),
        *_selections(debrief, axes, theme),
        *_phases(debrief, axes, theme),
        *_flags(debrief, axes, theme),
        *_minutes(axes, theme, axes.bottom + rows),
    ]
    return Picture(
        width,
        height,
        tuple(items),
        title="The needle over the flight",
        description="; ".join(
            f"{span.phase} for {spoken_time(time_s[span.end - 1] - time_s[span.begin])}"
            for span in debrief.spans
        ),
        background=theme.paper,
    )


def block(
    x: float, y: float, width: float, height: float, phase: FlightPhase, theme: Theme
) -> Iterator[Item]:
    """Yield a block in the pattern of a phase."""
    look = LOOKS[phase]
    top, foot = (y + share * height for share in look.height)
    y, height = top, foot - top
    if not height:
        yield Line(x, y, x + width, y, theme.ring, 0.5)
        return
    corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
    fill = theme.track if look.fill else theme.paper
    yield Polygon(corners, fill, theme.track, 0.5)
    if look.hatch and width > 0.5:
        lines = tuple(hatching(x, y, width, height, *look.hatch))
        if lines:
            yield Segments(lines, theme.track, 0.6)


def minute_step(minutes: float, most: int) -> int:
    """Return a round number of minutes that gives at most so many marks."""
    return next((step for step in STEPS_MIN if minutes / step <= most), STEPS_MIN[-1])


def hatching(
    x: float, y: float, width: float, height: float, slope: float, apart: float
) -> Iterator[tuple[float, float, float, float]]:
    """Yield lines at 45 degrees, rising for a slope above 0, cut to a box."""
    for i in range(1, math.ceil((width + height) / apart)):
        reach = i * apart
        low, high = max(reach - height, 0.0), min(reach, width)
        if low >= high:
            continue
        if slope > 0:
            yield x + low, y + reach - low, x + high, y + reach - high
        else:
            yield x + low, y + height - reach + low, x + high, y + height - reach + high


def _ground(axes: _Axes, theme: Theme) -> Iterator[Item]:
    limit, full = LIMIT_SHARE * DOTS_FULL_SCALE, float(DOTS_FULL_SCALE)
    top, bottom = float(axes.y(limit)), float(axes.y(-limit))
    corners = ((axes.left, top), (axes.right, top), (axes.right, bottom), (axes.left, bottom))
    yield Polygon(corners, theme.cover, "")
    for y in (top, bottom):
        yield Line(axes.left, y, axes.right, y, theme.ring, 0.7, (4.0, 2.0))
    for dots, name in ((full, "5 right"), (limit, "3/4"), (-limit, "3/4"), (-full, "5 left")):
        y = float(axes.y(dots))
        if abs(dots) == full:
            yield Line(axes.left, y, axes.right, y, theme.ring, 0.5)
        yield Text(axes.left - 3.0, y, name, theme.small_size, theme.text, "end")
    middle = float(axes.y(0.0))
    yield Line(axes.left, middle, axes.right, middle, theme.text, 0.6)
    yield Text(axes.left - 3.0, middle, "dots 0", theme.small_size, theme.text, "end")


def _gaps(debrief: RecordedDebrief, axes: _Axes, theme: Theme, bottom: float) -> Iterator[Item]:
    seen = debrief.seen
    for i in (np.flatnonzero(np.diff(seen.segment)) + 1).tolist():
        left, right = float(axes.x(seen.time_s[i - 1])), float(axes.x(seen.time_s[i]))
        corners = ((left, axes.top), (right, axes.top), (right, bottom), (left, bottom))
        yield Polygon(corners, theme.paper, theme.ring, 0.5, (1.0, 1.5))
        words, middle = "not recorded", (left + right) / 2.0
        if right - left > theme.small_size:
            y = (axes.top + axes.bottom) / 2.0
            yield Text(middle, y, words, theme.small_size, theme.muted, rotate_deg=-90.0)


def _needle(debrief: RecordedDebrief, axes: _Axes, theme: Theme) -> Iterator[Item]:
    seen = debrief.seen
    for begin, end in runs(np.where(seen.flag == Flag.OFF, -1, seen.leg)):
        if seen.flag[begin] == Flag.OFF or end - begin < 2:
            continue
        x, y = axes.x(seen.time_s[begin:end]), axes.y(seen.dots[begin:end])
        yield Polyline(_in_columns(x, y), theme.needle, 1.3)


def _in_columns(x: FloatArray, y: FloatArray) -> tuple[Point, ...]:
    """Return the highest and the lowest of each narrow column, in the order of time."""
    column = np.floor(x / COLUMN)
    starts = np.concatenate([[0], np.flatnonzero(np.diff(column)) + 1])
    kept: list[int] = [0]
    for begin, end in zip(starts, np.append(starts[1:], x.size), strict=True):
        low, high = begin + int(np.argmin(y[begin:end])), begin + int(np.argmax(y[begin:end]))
        kept += sorted({low, high})
    index: IntArray = np.unique([*kept, x.size - 1])
    return tuple(zip(x[index].tolist(), y[index].tolist(), strict=True))


def _selections(debrief: RecordedDebrief, axes: _Axes, theme: Theme) -> Iterator[Item]:
    """Yield what is selected, along the top from where it is; left out where there is no room."""
    seen, size = debrief.seen, theme.small_size
    labels = Labeler((axes.left - 1.0, 0.0, axes.right, axes.bottom))
    idents = {id(station): station.ident for station in seen.tuned}
    before = ""
    for begin, _ in runs(debrief.selection):
        if debrief.selection[begin] < 0:
            before = ""
            continue
        course = format_direction(float(seen.course_deg[begin]))
        words = f"{idents[id(seen.tuned[begin])]} {course}"
        if words == before:
            continue
        before, x = words, float(axes.x(seen.time_s[begin]))
        if x > axes.left + 1.0:
            yield Line(x, axes.top - 2.0, x, axes.bottom, theme.text, 0.6, (1.5, 1.5))
        text = Text(x + 1.5, axes.top - 0.8 * size, words, size, theme.text, "start", bold=True)
        placed = labels.place([text])
        if placed:
            yield placed


def _phases(debrief: RecordedDebrief, axes: _Axes, theme: Theme) -> Iterator[Item]:
    top, height = axes.bottom + 2.0, ROW * theme.small_size - 3.0
    for span in debrief.spans:
        left, right = _ends(debrief, axes, span.begin, span.end)
        yield from block(left, top, right - left, height, span.phase, theme)
    words = Text(axes.left - 3.0, top + height / 2, "phase", theme.small_size, theme.text, "end")
    yield words


def _flags(debrief: RecordedDebrief, axes: _Axes, theme: Theme) -> Iterator[Item]:
    seen, size = debrief.seen, theme.small_size
    top = axes.bottom + ROW * size + 1.0
    middle = top + (ROW * size - 3.0) / 2.0
    yield Text(axes.left - 3.0, middle, "flag", size, theme.text, "end")
    selected = debrief.selection >= 0
    for begin, end in runs(np.where(selected, seen.leg, -1)):
        left, right = _ends(debrief, axes, begin, end)
        name = Flag(int(seen.flag[begin])).name if selected[begin] else "nothing selected"
        yield Line(left, top, left, top + ROW * size - 3.0, theme.text, 0.6)
        if right - left > text_width(name, size) + 2.0:
            yield Text((left + right) / 2.0, middle, name, size, theme.text)


def _ends(debrief: RecordedDebrief, axes: _Axes, begin: int, end: int) -> tuple[float, float]:
    """Where a run of moments begins and ends: it lasts until the next, but not across a gap."""
    seen = debrief.seen
    until = float(seen.time_s[end - 1] + seen.lasting_s[end - 1])
    return float(axes.x(seen.time_s[begin])), float(axes.x(until))


def _minutes(axes: _Axes, theme: Theme, y: float) -> Iterator[Item]:
    minutes = (axes.end_s - axes.begin_s) / 60.0
    step = minute_step(minutes, 14)
    yield Line(axes.left, y, axes.right, y, theme.text, 0.6)
    for minute in range(0, math.floor(minutes) + 1, step):
        x = float(axes.x(axes.begin_s + 60.0 * minute))
        yield Line(x, y, x, y + 3.0, theme.text, 0.6)
        yield Text(x, y + 3.0 + 0.7 * theme.small_size, f"{minute}", theme.small_size, theme.text)
    words = "minutes"
    yield Text(axes.left - 8.0, y + 3.0 + 0.7 * theme.small_size, words, theme.small_size,
               theme.text, "end")  # fmt: skip
