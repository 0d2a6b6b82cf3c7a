"""The strip chart of flights: needle, heading, course and distance against time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from vorlib.core.angles import format_direction
from vorlib.core.arguments import FloatArray
from vorlib.views.drawing.chart import WIDE_IN, empty_figure
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.vor.receiver import DOTS_FULL_SCALE, Flag, Readings

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

__all__ = ["Strip", "strip_chart"]

HEIGHT_IN = 5.4
POINTS_PER_UNIT = 0.7  # type in points for one picture unit, at this size of figure
ROWS = ("needle, dots\n(right is up)", "heading,\ndegrees", "distance,\nNM")
COURSE_ROW = "course,\ndegrees"
MOST_POINTS = 600  # more are finer than the chart


@dataclass(frozen=True, eq=False)
class Strip:
    """What was recorded of one flight: arrays of one length; heading and course magnetic.

    The selected course may be left out.
    """

    name: str
    time_s: FloatArray
    reading: Readings
    heading_deg: FloatArray
    course_deg: FloatArray | None = None


def strip_chart(strips: Sequence[Strip], theme: Theme = SCREEN) -> Figure:
    """Return the chart of one flight or of several, told apart by dash and name.

    Changes of the flag are marked. The selected course has a row where somebody changes it.

    Raises
    ------
    ValueError
        If there is no strip, or more than two, which could not be told apart.
    """
    if not 1 <= len(strips) <= 2:
        raise ValueError(f"strips must be one or two, got {len(strips)}")
    figure = empty_figure(WIDE_IN, HEIGHT_IN, theme)
    rows = [*ROWS[:2], *([COURSE_ROW] if any(map(_turns_the_ring, strips)) else []), ROWS[2]]
    axes = dict(zip(rows, figure.subplots(len(rows), 1, sharex=True), strict=True))
    looks: list[dict[str, Any]] = [
        {"color": theme.track, "linewidth": 1.2 * theme.line},
        {"color": theme.cone, "linewidth": 1.2 * theme.line, "linestyle": (0, (4, 2))},
    ]
    for strip, look in zip(strips, looks, strict=False):
        some = np.unique(np.linspace(0, len(strip.time_s) - 1, MOST_POINTS).astype(int))
        minutes = strip.time_s[some] / 60.0
        dots = np.where(strip.reading.flag == Flag.OFF, np.nan, strip.reading.dots)[some]
        needle, heading, *course, distance = axes.values()
        needle.plot(minutes, dots, label=strip.name, **look)
        heading.plot(minutes, _unbroken(strip.heading_deg[some]), **look)
        if course and strip.course_deg is not None:
            course[0].plot(minutes, _unbroken(strip.course_deg[some]), **look)
        distance.plot(minutes, np.asarray(strip.reading.distance_nm)[some], **look)
        _mark_flags(list(axes.values()), strip, look, theme, first=strip is strips[0])
    _scales(axes, theme)
    distance.set_xlim(0.0, max(1.0, max(float(s.time_s[-1]) for s in strips)) / 60.0)
    if len(strips) > 1:
        needle.legend(
            loc="lower left", bbox_to_anchor=(0, 1.02), ncols=2, frameon=False, borderpad=0,
            handlelength=3.5, fontsize=POINTS_PER_UNIT * theme.text_size, labelcolor=theme.text,
        )  # fmt: skip
    return figure


def _unbroken(heading_deg: FloatArray) -> FloatArray:
    """Return headings without the jump at north, as near the circle's figures as it can be."""
    smooth: FloatArray = np.rad2deg(np.unwrap(np.deg2rad(heading_deg)))
    turns: FloatArray = np.floor((np.median(smooth) - 1e-9) / 360.0)
    return smooth - 360.0 * turns


def _mark_flags(
    axes: Sequence[Axes], strip: Strip, look: dict[str, Any], theme: Theme, *, first: bool
) -> None:
    """Draw an upright line where the flag changes, with what it changes to: first at the top."""
    flag, size = np.asarray(strip.reading.flag), POINTS_PER_UNIT * theme.small_size
    for row, i in enumerate(np.flatnonzero(np.diff(flag)) + 1):
        minute = float(strip.time_s[i]) / 60.0
        for one in axes:
            one.axvline(minute, color=look["color"], linewidth=theme.thin, linestyle=(0, (1, 2)))
        left = minute < 0.1 * float(strip.time_s[-1]) / 60.0  # where there is no room before it
        axes[0].annotate(
            Flag(int(flag[i])).name,
            (minute, DOTS_FULL_SCALE if first else -DOTS_FULL_SCALE),
            xytext=(2.0 if left else -2.0, (-1.2 if first else 1.2) * size * (row % 3)),
            textcoords="offset points",
            ha="left" if left else "right",
            va="center",
            color=look["color"],
            fontsize=size,
            bbox={"facecolor": theme.sea, "edgecolor": "none", "pad": 0.5},  # the needle is behind
        )


def _turns_the_ring(strip: Strip) -> bool:
    return strip.course_deg is not None and bool(np.ptp(strip.course_deg) > 0.0)


def _scales(axes: dict[str, Axes], theme: Theme) -> None:
    from matplotlib.ticker import MaxNLocator, MultipleLocator

    for name, one in axes.items():
        one.set_facecolor(theme.sea)
        one.grid(color=theme.ring, linewidth=0.5 * theme.thin)
        one.set_ylabel(name, color=theme.text, fontsize=POINTS_PER_UNIT * theme.small_size)
        one.tick_params(colors=theme.text, labelsize=POINTS_PER_UNIT * theme.small_size)
        for edge in one.spines.values():
            edge.set_color(theme.rose)
    full = float(DOTS_FULL_SCALE)
    needle, *directions, distance = axes.values()
    needle.set_ylim(-1.1 * full, 1.1 * full)
    needle.yaxis.set_major_locator(MultipleLocator(full))
    needle.axhline(0.0, color=theme.text, linewidth=theme.thin)
    for one in directions:
        one.yaxis.set_major_locator(MaxNLocator(4, steps=[1, 2, 3, 5, 10], integer=True))
        one.yaxis.set_major_formatter(lambda value, _: format_direction(value))
    distance.set_ylim(bottom=0.0)
    distance.yaxis.set_major_locator(MaxNLocator(4))
    distance.set_xlabel("minutes", color=theme.text, fontsize=POINTS_PER_UNIT * theme.small_size)
