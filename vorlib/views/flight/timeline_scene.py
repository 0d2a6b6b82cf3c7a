"""What a timeline shows, as plain values, and its layout."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from vorlib.aircraft.ground_track import IntArray
from vorlib.core.arguments import FloatArray
from vorlib.views.drawing.layout import text_width
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.views.flight.timeline_lanes import legend_rows
from vorlib.vor.receiver import DOTS_FULL_SCALE

__all__ = ["WIDTH", "Bar", "Mark", "TimelineLayout", "TimelineScene", "layout_of"]

WIDTH = 836.0  # as wide as a plan view with an indicator beside it
CHART = 104.0  # height of the needle's chart


class Bar(NamedTuple):
    """A span in a lane: its name, beginning and end, in seconds of the flight."""

    name: str
    begin_s: float
    end_s: float


class Mark(NamedTuple):
    """A numbered moment."""

    number: int
    time_s: float


@dataclass(frozen=True, eq=False)
class TimelineScene:
    """What a timeline shows.

    Attributes
    ----------
    time_s, dots, flag, segment
        Arrays of shape (n,): increasing times, the needle, `Flag` values (below 0 where nothing
        was selected), and the number of the unbroken segment of the recording.
    selections, phases
        Spans of what was selected, and of phases of flight; a phase's name is one of `PATTERNS`.
    marks
        Numbered moments.
    band_dots
        Half the height of a band about the center, three quarters of full scale in the legend; 0
        draws none.
    """

    time_s: FloatArray
    dots: FloatArray
    flag: IntArray
    segment: IntArray
    selections: Sequence[Bar] = ()
    phases: Sequence[Bar] = ()
    marks: Sequence[Mark] = ()
    band_dots: float = 0.0

    @property
    def end_s(self) -> float:
        """Time at the end of the strip: the end of the flight, at least one second."""
        return max(1.0, float(self.time_s[-1]))


@dataclass(frozen=True)
class TimelineLayout:
    """The layout of a timeline: time runs from `left` to `right`, with lanes below the chart."""

    left: float
    right: float
    chart_top: float
    chart_foot: float
    selected_foot: float
    flag_foot: float
    phase_foot: float
    height: float
    end_s: float

    def x(self, time_s: FloatArray | float) -> FloatArray:
        """Return the horizontal coordinate of a time."""
        return self.left + np.asarray(time_s) * ((self.right - self.left) / self.end_s)

    def y(self, dots: FloatArray | float) -> FloatArray:
        """Return the vertical coordinate of a needle; right is up."""
        half = (self.chart_foot - self.chart_top) / 2.0
        return self.chart_top + half - np.asarray(dots) * (half / (1.1 * DOTS_FULL_SCALE))

    def time_s(self, x: float) -> float:
        """Return the time at a horizontal coordinate, kept within the flight."""
        share = (x - self.left) / (self.right - self.left)
        return min(max(share, 0.0), 1.0) * self.end_s


def layout_of(end_s: float, theme: Theme = SCREEN) -> TimelineLayout:
    """Return the layout of a flight that lasts some seconds."""
    size = theme.small_size
    left, right = text_width("selected", size) + 0.8 * size, WIDTH - 1.1 * size
    top = 1.9 * size
    foot = top + CHART
    lane, rows = 1.5 * size, len(legend_rows(left, right, theme))
    phases = foot + 3.0 * lane
    return TimelineLayout(
        left=left,
        right=right,
        chart_top=top,
        chart_foot=foot,
        selected_foot=foot + lane,
        flag_foot=foot + 2.0 * lane,
        phase_foot=phases,
        height=phases + (2.0 + 1.7 * rows) * size,
        end_s=end_s,
    )
