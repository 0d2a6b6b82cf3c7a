"""The plan view: everything as seen from above, with the station in the middle.

True north is up. The projection is azimuthal equidistant about the station, so every distance and
every bearing from the station is exact.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Flag, auto

import numpy as np
from numpy.typing import ArrayLike

from vorlib.angles import format_direction
from vorlib.checks import FloatArray, finite, positive
from vorlib.earth import Position, direct, inverse
from vorlib.station import Station
from vorlib.views.clipping import clip_polyline
from vorlib.views.layout import Box, Labeller
from vorlib.views.mapping import Coast, Place, chart
from vorlib.views.picture import Circle, Group, Item, Line, Picture, Polygon, Polyline, Text
from vorlib.views.plan_course import course_overlays, course_words
from vorlib.views.theme import SCREEN, Theme

__all__ = ["SIZE", "Overlay", "PlanScene", "StationProjection", "plan", "projection", "rose_radius"]

SIZE = 480.0  # width and height of a plan view

# An aircraft from above, nose up: half an outline from the nose to the tail, then its mirror.
_HALF_AIRCRAFT = (
    (0.0, -17.0), (2.2, -13.0), (2.6, -5.5), (17.0, -1.5), (17.0, 2.5), (2.4, 2.5), (1.6, 11.0),
    (7.0, 13.5), (7.0, 16.5), (0.0, 15.0),
)  # fmt: skip
AIRCRAFT = _HALF_AIRCRAFT + tuple((-x, y) for x, y in _HALF_AIRCRAFT[-2:0:-1])


class Overlay(Flag):
    """What is drawn over the map."""

    NONE = 0
    ROSE = auto()
    RINGS = auto()
    RADIAL = auto()
    COURSE = auto()
    ABEAM = auto()
    HALVES = auto()
    WEDGE = auto()
    CONE = auto()
    ALL = ROSE | RINGS | RADIAL | COURSE | ABEAM | HALVES | WEDGE | CONE


@dataclass(frozen=True)
class PlanScene:
    """What a plan view shows.

    Attributes
    ----------
    station
        The station in the middle.
    range_nm
        Distance from the station to the compass rose.
    position
        Where the aircraft is; None hides it.
    heading_deg
        Magnetic heading by the station's declination: true heading = heading + declination.
    course_deg
        The selected course; None leaves out all that depends on it.
    full_scale_deg
        Half the width of the wedge in which the needle is off its stops.
    cone_radius_nm
        Radius of the cone of confusion at the aircraft's height; 0 draws none.
    overlays
        What to draw over the map.
    islands, airfields, stations
        The map: anything with an `outline`; with a `name` and a `position`; other stations.
    track
        Where the aircraft has been, an array of places, or None.

    Raises
    ------
    ValueError
        If a quantity is not finite or not positive, or a position is not one place.
    """

    station: Station
    range_nm: float = 25.0
    position: Position | None = None
    heading_deg: float = 360.0
    course_deg: float | None = None
    full_scale_deg: float = 10.0
    cone_radius_nm: float = 0.0
    overlays: Overlay = Overlay.ALL
    islands: tuple[Coast, ...] = ()
    airfields: tuple[Place, ...] = ()
    stations: tuple[Station, ...] = ()
    track: Position | None = None

    def __post_init__(self) -> None:
        positive("range_nm", self.range_nm, "NM")
        positive("full_scale_deg", self.full_scale_deg, "degrees")
        finite("heading_deg", self.heading_deg)
        finite("cone_radius_nm", self.cone_radius_nm)
        if self.course_deg is not None:
            finite("course_deg", self.course_deg)
        if self.position is not None and self.position.shape != ():
            raise ValueError(f"position must be one place, got shape {self.position.shape}")


@dataclass(frozen=True)
class StationProjection:
    """Azimuthal equidistant about `centre`, which is drawn at (x, y), true north up."""

    centre: Position
    x: float
    y: float
    units_per_nm: float

    def to_xy(self, place: Position) -> tuple[FloatArray, FloatArray]:
        """Return picture coordinates of one place or an array of places."""
        here = self.centre
        line = inverse(here.lat_deg, here.lon_deg, place.lat_deg, place.lon_deg)
        return self.polar_to_xy(line.true_azimuth_deg, line.distance_nm)

    def polar_to_xy(
        self, true_azimuth_deg: ArrayLike, distance_nm: ArrayLike
    ) -> tuple[FloatArray, FloatArray]:
        """Return picture coordinates of what lies at an azimuth and distance from the centre."""
        azimuth = np.radians(true_azimuth_deg)
        radius = np.multiply(distance_nm, self.units_per_nm)
        return self.x + radius * np.sin(azimuth), self.y - radius * np.cos(azimuth)

    def to_position(self, x: ArrayLike, y: ArrayLike, altitude_ft: ArrayLike = 0.0) -> Position:
        """Return the place drawn at picture coordinates, at an altitude in feet."""
        east, south = finite("x", x) - self.x, finite("y", y) - self.y
        azimuth_deg = np.degrees(np.arctan2(east, -south))
        place = direct(self.centre, azimuth_deg, np.hypot(east, south) / self.units_per_nm)
        return Position(place.lat_deg, place.lon_deg, altitude_ft)


def rose_radius(theme: Theme = SCREEN) -> float:
    """Return the radius of the compass rose in picture units: its numerals fit outside it."""
    return SIZE / 2 - 2.1 * theme.small_size - 5.0


def projection(scene: PlanScene, theme: Theme = SCREEN) -> StationProjection:
    """Return how the scene's places are laid on the picture, for drawing and for dragging."""
    scale = rose_radius(theme) / scene.range_nm
    return StationProjection(scene.station.position, SIZE / 2, SIZE / 2, scale)


def plan(scene: PlanScene, theme: Theme = SCREEN) -> Picture:
    """Return the plan view of a scene; the aircraft can be grabbed as "aircraft"."""
    layout = projection(scene, theme)
    shown = scene.overlays
    base = chart(
        scene.station,
        scene.islands,
        scene.airfields,
        scene.stations,
        layout,
        rose_radius(theme),
        Overlay.ROSE in shown,
        Overlay.RINGS in shown,
        theme,
    )
    labels = Labeller((2.0, 2.0, SIZE - 2.0, SIZE - 2.0), list(base.taken))
    aircraft = _Aircraft.of(scene, layout, theme)
    if aircraft is not None:
        labels.block(aircraft.box)
    items: list[Item] = [base.ground]
    words: list[Item] = []
    if scene.course_deg is not None:
        azimuth_deg = scene.course_deg + scene.station.declination_deg
        radius = rose_radius(theme)
        drawn = course_overlays(
            radius,
            scene.full_scale_deg,
            Overlay.COURSE in shown,
            Overlay.ABEAM in shown,
            Overlay.HALVES in shown,
            Overlay.WEDGE in shown,
            theme,
        )
        items.append(Group((drawn,), layout.x, layout.y, azimuth_deg))
    items.append(base.marks)
    if aircraft is not None and Overlay.RADIAL in shown:
        items.append(_radial_line(aircraft, layout, theme))
        labels.block_line(layout.x, layout.y, aircraft.x, aircraft.y, theme.small_size / 2)
        words += _radial_words(aircraft, layout, labels, theme)
    if scene.course_deg is not None:
        words += course_words(
            (layout.x, layout.y),
            radius,
            azimuth_deg,
            f"course {format_direction(scene.course_deg)}" if Overlay.COURSE in shown else "",
            Overlay.ABEAM in shown,
            Overlay.HALVES in shown,
            labels,
            theme,
        )
    if Overlay.CONE in shown:
        items += _cone(scene, layout, theme)
    items += _track(scene, layout, theme)
    items += words
    if aircraft is not None:
        items.append(aircraft.group)
    return Picture(
        SIZE,
        SIZE,
        tuple(items),
        title=f"Plan view about {scene.station.name}",
        description=_description(scene, aircraft),
        background=theme.sea,
    )


def _description(scene: PlanScene, aircraft: _Aircraft | None) -> str:
    words = f"True north is up; the compass rose is {scene.range_nm:g} NM from the station."
    if scene.course_deg is not None:
        words += f" Course {format_direction(scene.course_deg)} is selected."
    if aircraft is not None:
        words += f" The aircraft is on the {aircraft.radial} radial at {aircraft.distance_nm:.1f} NM."
    return words


@dataclass(frozen=True)
class _Aircraft:
    """The aircraft as drawn: held at the frame, and hollow, when it is beyond it."""

    x: float
    y: float
    radial: str
    distance_nm: float
    box: Box
    group: Group

    @classmethod
    def of(cls, scene: PlanScene, layout: StationProjection, theme: Theme) -> _Aircraft | None:
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
            tuple((size * a, size * b) for a, b in AIRCRAFT),
            fill=theme.paper if beyond else theme.aircraft,
            stroke=theme.aircraft if beyond else theme.paper,
            width=theme.line,
        )
        true_heading_deg = scene.heading_deg + scene.station.declination_deg
        label = f"Aircraft, heading {format_direction(scene.heading_deg)}"
        group = Group((shape,), x, y, true_heading_deg, "aircraft", label)
        radial = scene.station.radial_of_azimuth_deg(line.true_azimuth_deg)
        reach = 18.0 * size
        box = (x - reach, y - reach, x + reach, y + reach)
        return cls(x, y, format_direction(float(radial)), float(line.distance_nm), box, group)


def _radial_line(aircraft: _Aircraft, layout: StationProjection, theme: Theme) -> Line:
    return Line(
        layout.x,
        layout.y,
        aircraft.x,
        aircraft.y,
        theme.aircraft,
        theme.line * 1.3,
        (5 * theme.line, 3.5 * theme.line),
    )


def _radial_words(
    aircraft: _Aircraft,
    layout: StationProjection,
    labels: Labeller,
    theme: Theme,
) -> Iterator[Text]:
    words = f"{aircraft.radial} radial"
    size = theme.text_size
    dx, dy = aircraft.x - layout.x, aircraft.y - layout.y
    candidates = []
    for share in (0.6, 0.75, 0.45, 1.0, 0.3):
        x, y = layout.x + share * dx, layout.y + share * dy
        for side in (1.0, -1.0) if dx <= 0 else (-1.0, 1.0):
            for step in (1.0, 2.2):
                away = size * step
                start = side > 0
                candidates.append(
                    Text(
                        x + side * away * (0.6 if abs(dx) < abs(dy) else 0.2),
                        y + away * (0.2 if abs(dx) < abs(dy) else -1.0),
                        words,
                        size,
                        theme.aircraft,
                        "start" if start else "end",
                        True,
                        theme.sea,
                    )
                )
    placed = labels.place(candidates)
    if placed is not None:
        yield placed


def _cone(scene: PlanScene, layout: StationProjection, theme: Theme) -> Iterator[Item]:
    radius = scene.cone_radius_nm * layout.units_per_nm
    if 0.0 < radius < SIZE / 2:
        dash, width = (0.1, 3.0 * theme.line), 1.5 * theme.line
        yield Circle(layout.x, layout.y, radius, theme.cone, theme.cone, width, dash, 0.12)


def _track(scene: PlanScene, layout: StationProjection, theme: Theme) -> Iterator[Item]:
    if scene.track is None or np.size(scene.track.lat_deg) < 2:
        return
    x, y = layout.to_xy(scene.track)
    points = list(zip(x.tolist(), y.tolist(), strict=True))
    for piece in clip_polyline(points, (0.0, 0.0, SIZE, SIZE)):
        yield Polyline(piece, theme.track, theme.line * 1.2)
