"""Draw the intended track on a plan view: straight lines, their ends, and intercept angles."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from vorlib.core.angles import difference_deg
from vorlib.views.drawing.clipping import clip_polyline
from vorlib.views.drawing.layout import Labeler, beside_line
from vorlib.views.drawing.picture import Circle, Item, Point, Polyline, Text
from vorlib.views.drawing.theme import Theme
from vorlib.views.plan.projection import FRAME, SIZE, StationProjection
from vorlib.views.plan.scene import Intended, PlanScene

__all__ = ["IntendedMark", "intended_marks", "intended_words"]

ARC_RADIUS, RING_RADIUS = 40.0, 6.0
ARC_STEP_DEG = 5.0
ROUND_DEG = (90.0, 270.0, 120.0, 240.0, 60.0, 300.0, 150.0, 210.0, 0.0, 180.0)


@dataclass(frozen=True)
class IntendedMark:
    """An intended line in picture coordinates."""

    line: Intended
    start: Point
    end: Point
    turn_deg: float  # turn from the line to the course that it meets, positive right

    @property
    def direction_deg(self) -> float:
        """Direction of the line on the picture, clockwise from its top."""
        (x1, y1), (x2, y2) = self.start, self.end
        return math.degrees(math.atan2(x2 - x1, y1 - y2))

    def beyond(self, share_of_turn: float, distance: float) -> Point:
        """Return a point off the line's end, between straight on and the course that it meets."""
        a = math.radians(self.direction_deg + share_of_turn * self.turn_deg)
        return self.end[0] + distance * math.sin(a), self.end[1] - distance * math.cos(a)

    def items(self, theme: Theme) -> Iterator[Item]:
        """Yield the dashed line, a ring where it meets something, and an arc for the turn there."""
        dash, width = (8.0 * theme.line, 5.0 * theme.line), 1.4 * theme.line
        for segment in clip_polyline((self.start, self.end), FRAME):
            yield Polyline(segment, theme.paper, 2.2 * width)  # a light edge, to stand out
            yield Polyline(segment, theme.track, width, dash)
        if self.line.meets:
            yield Circle(*self.end, RING_RADIUS * theme.symbol, theme.paper, theme.track, width)
        if self.turn_deg:
            radius = ARC_RADIUS * math.sqrt(theme.symbol)
            steps = max(2, math.ceil(abs(self.turn_deg) / ARC_STEP_DEG))
            arc = tuple(self.beyond(i / steps, radius) for i in range(steps + 1))
            yield Polyline((self.end, *arc), theme.track, theme.line)


def intended_marks(scene: PlanScene, layout: StationProjection) -> list[IntendedMark]:
    """Return the intended lines of a scene in picture coordinates."""
    marks = []
    for line in scene.intended:
        start, end = layout.to_xy(line.start), layout.to_xy(line.end)
        mark = IntendedMark(line, start, end, 0.0)
        if line.onto_deg is not None:
            onto_deg = line.onto_deg + scene.station.declination_deg
            turn_deg = float(difference_deg(onto_deg, mark.direction_deg))
            mark = replace(mark, turn_deg=turn_deg)
        marks.append(mark)
    return marks


def intended_words(marks: list[IntendedMark], labels: Labeler, theme: Theme) -> Iterator[Text]:
    """Yield the labels of each line, its end and its angle, where there is room."""
    for mark in marks:
        labels.block_line(*mark.start, *mark.end, 4.0 * theme.line)
        reach = 1.3 * RING_RADIUS * theme.symbol
        if mark.line.meets:
            x, y = mark.end
            labels.block((x - reach, y - reach, x + reach, y + reach))
    for mark in marks:
        bold = Text(0.0, 0.0, "", theme.text_size, theme.track, bold=True, halo=theme.sea)
        plain = replace(bold, size=theme.small_size)
        for text in (
            labels.place(_at_angle(mark, bold, theme)),
            labels.place(_along(mark, bold, theme)),
            labels.place(_round_end(mark, plain, theme)),
        ):
            if text is not None:
                yield text


def _along(mark: IntendedMark, text: Text, theme: Theme) -> Iterator[Text]:
    segments = clip_polyline((mark.start, mark.end), FRAME)
    if mark.line.name and segments:
        shares = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
        for size in (text.size, theme.small_size):
            named = replace(text, text=mark.line.name, size=size)
            yield from beside_line(segments[0][0], segments[0][-1], shares, named)
        yield from _round(named, mark.start, mark.direction_deg, theme)


def _at_angle(mark: IntendedMark, text: Text, theme: Theme) -> Iterator[Text]:
    if mark.turn_deg:
        words = replace(text, text=f"{abs(mark.turn_deg):.0f}°")
        radius = ARC_RADIUS * math.sqrt(theme.symbol)
        for share in (0.5, 0.35, 0.65):
            for away in (1.4, 1.8, 0.65):
                x, y = mark.beyond(share, away * radius)
                yield replace(words, x=x, y=y)


def _round_end(mark: IntendedMark, text: Text, theme: Theme) -> Iterator[Text]:
    x, y = mark.end
    if not (mark.line.meets and 0.0 <= x <= SIZE and 0.0 <= y <= SIZE):
        return
    yield from _round(replace(text, text=mark.line.meets), mark.end, mark.direction_deg, theme)


def _round(text: Text, point: Point, direction_deg: float, theme: Theme) -> Iterator[Text]:
    """Yield places around a point, first those at right angles to a direction."""
    for away in (2.2, 3.6, 5.0):
        for turn_deg in ROUND_DEG:
            a = math.radians(direction_deg + turn_deg)
            right = math.sin(a)
            anchor = "start" if right > 0.3 else "end" if right < -0.3 else "middle"
            gap = away * RING_RADIUS * theme.symbol
            x, y = point[0] + gap * right, point[1] - gap * math.cos(a)
            yield replace(text, x=x, y=y, anchor=anchor)
