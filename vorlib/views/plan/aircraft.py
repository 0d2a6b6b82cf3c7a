"""Draw the aircraft on a plan view, and the radial that it is on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from vorlib.core.angles import format_direction
from vorlib.core.words import rounded
from vorlib.views.drawing.clipping import line_outside
from vorlib.views.drawing.layout import Box, Labeler, beside_line
from vorlib.views.drawing.picture import Group, Line, Point, Polygon, Text
from vorlib.views.drawing.theme import Theme
from vorlib.views.plan.projection import SIZE, StationProjection
from vorlib.views.plan.scene import PlanScene

__all__ = ["AircraftMark", "outline", "radial_line", "radial_words"]

# An aircraft from above, nose up: half an outline from the nose to the tail, then its mirror.
_HALF_AIRCRAFT = (
    (0.0, -17.0), (2.2, -13.0), (2.6, -5.5), (17.0, -1.5), (17.0, 2.5), (2.4, 2.5), (1.6, 11.0),
    (7.0, 13.5), (7.0, 16.5), (0.0, 15.0),
)  # fmt: skip
AIRCRAFT = _HALF_AIRCRAFT + tuple((-x, y) for x, y in _HALF_AIRCRAFT[-2:0:-1])


def outline(size: float) -> tuple[Point, ...]:
    """Return the outline of an aircraft from above, centered at the origin, nose up."""
    return tuple((size * x, size * y) for x, y in AIRCRAFT)


@dataclass(frozen=True)
class AircraftMark:
    """The aircraft as drawn: if it is beyond the frame, hollow and at the frame."""

    x: float
    y: float
    radial: str
    distance_nm: float
    box: Box
    group: Group

    @property
    def body(self) -> Box:
        """A box that holds most of the aircraft, whichever way it points."""
        left, top, right, bottom = self.box
        edge = (right - left) / 8
        return left + edge, top + edge, right - edge, bottom - edge

    @classmethod
    def of(cls, scene: PlanScene, layout: StationProjection, theme: Theme) -> AircraftMark | None:
        """Return the aircraft of a scene, or None when the scene hides it."""
        if scene.position is None:
            return None
        line = scene.station.inverse(scene.position)
        x, y = (float(c) for c in layout.polar_to_xy(line.true_azimuth_deg, line.distance_nm))
        half = SIZE / 2 - 18.0 * theme.symbol
        excess = max(abs(x - layout.x), abs(y - layout.y)) / half
        beyond = excess > 1.0
        if beyond:
            x, y = layout.x + (x - layout.x) / excess, layout.y + (y - layout.y) / excess
        size = 0.9 * theme.symbol
        shape = Polygon(
            outline(size),
            fill=theme.paper if beyond else theme.aircraft,
            stroke=theme.aircraft if beyond else theme.paper,
            width=theme.line,
        )
        true_heading_deg = scene.heading_deg + scene.station.declination_deg
        radial = format_direction(float(scene.station.radial_of_azimuth_deg(line.true_azimuth_deg)))
        distance_nm = float(line.distance_nm)
        heading = format_direction(scene.heading_deg)
        label = f"Aircraft, {rounded(distance_nm)} NM out on the {radial} radial, heading {heading}"
        grab = ("aircraft", label) if scene.by_hand else ("", "")
        group = Group((shape,), x, y, true_heading_deg, *grab)
        reach = 18.0 * size
        box = (x - reach, y - reach, x + reach, y + reach)
        return cls(x, y, radial, distance_nm, box, group)


def radial_line(
    aircraft: AircraftMark, layout: StationProjection, words: tuple[Box, ...], theme: Theme
) -> Iterator[Line]:
    """Yield the line from the station to the aircraft, broken where it would cross words."""
    dash = (5 * theme.line, 3.5 * theme.line)
    here, there = (layout.x, layout.y), (aircraft.x, aircraft.y)
    for start, end in line_outside(here, there, words):
        yield Line(*start, *end, theme.aircraft, 1.3 * theme.line, dash)


def radial_words(
    aircraft: AircraftMark, layout: StationProjection, labels: Labeler, theme: Theme
) -> Iterator[Text]:
    """Yield the radial's name, beside the line from the station where there is room for it."""
    here, there = (layout.x, layout.y), (aircraft.x, aircraft.y)
    labels.block_line(*here, *there, theme.small_size / 2)
    words = f"{aircraft.radial} radial"
    text = Text(0.0, 0.0, words, theme.text_size, theme.aircraft, bold=True, halo=theme.sea)
    placed = labels.place(beside_line(here, there, (0.6, 0.8, 0.4, 1.0, 1.3, 0.2, 1.8, 0.0), text))
    if placed is not None:
        yield placed
