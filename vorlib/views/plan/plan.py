"""Draw the plan view: the situation from above, with the station in the middle.

True north is up. The projection is azimuthal equidistant about the station, so every distance and
every bearing from the station is exact.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from vorlib.core.angles import format_direction
from vorlib.core.words import rounded
from vorlib.views.drawing.clipping import clip_polyline
from vorlib.views.drawing.layout import Box, Labeler, text_box
from vorlib.views.drawing.picture import Circle, Group, Item, Picture, Point, Polyline, Text
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.views.plan.aircraft import AircraftMark, radial_line, radial_words
from vorlib.views.plan.course import block_course_line, course_overlays, course_words
from vorlib.views.plan.flight import trace_lines, trace_points, trace_words, wind_arrow
from vorlib.views.plan.intended import IntendedMark, intended_marks, intended_words
from vorlib.views.plan.map import chart, numerals_beside
from vorlib.views.plan.projection import FRAME, SIZE, StationProjection, projection, rose_radius
from vorlib.views.plan.scene import Intended, Overlay, PlanScene, Trace
from vorlib.views.plan.service import service_circle, service_words

__all__ = [
    "SIZE",
    "Intended",
    "Overlay",
    "PlanScene",
    "StationProjection",
    "Trace",
    "plan",
    "projection",
]

NOTHING = (-1.0, -1.0, -1.0, -1.0)  # a box outside the picture: it blocks nothing


def plan(scene: PlanScene, theme: Theme = SCREEN) -> Picture:
    """Return the plan view of a scene; the aircraft can be grabbed as "aircraft"."""
    layout = projection(scene, theme)
    parts = scene.station, scene.islands, scene.airfields, scene.stations
    base = chart(*parts, layout, scene.overlays & (Overlay.ROSE | Overlay.RINGS), theme)
    aircraft, traces = AircraftMark.of(scene, layout, theme), trace_points(scene, layout)
    meant = intended_marks(scene, layout)
    numerals = tuple(_numerals(scene, aircraft, base.taken, layout, theme))
    words = (*base.taken, *map(text_box, numerals))
    labels = Labeler((2.0, 2.0, SIZE - 2.0, SIZE - 2.0), list(words))
    return Picture(
        SIZE,
        SIZE,
        (
            base.ground,
            *_course(scene, layout, theme),
            *_cone(scene, layout, theme),
            *service_circle(scene, layout, theme),
            *_radial(scene, aircraft, layout, words, theme),
            base.marks,
            *numerals,
            *_track(scene, layout, theme),
            *(item for mark in meant for item in mark.items(theme)),
            *trace_lines(scene, traces, theme),
            *wind_arrow(scene, labels, theme),
            *_words(scene, aircraft, traces, meant, layout, labels, theme),
            *([aircraft.group] if aircraft else []),
        ),
        title=f"Plan view about {scene.station.name}",
        description=_description(scene, aircraft),
        background=theme.sea,
    )


def _description(scene: PlanScene, aircraft: AircraftMark | None) -> str:
    words = f"True north is up; the compass rose is {scene.range_nm:g} NM from the station."
    if scene.course_deg is not None:
        words += f" Course {format_direction(scene.course_deg)} is selected."
    if aircraft is not None:
        away = rounded(aircraft.distance_nm)
        place = (
            f"on the {aircraft.radial} radial at {away} NM" if away != "0" else "over the station"
        )
        words += f" The aircraft is {place}."
    return words


def _numerals(
    scene: PlanScene,
    aircraft: AircraftMark | None,
    taken: tuple[Box, ...],
    layout: StationProjection,
    theme: Theme,
) -> Iterator[Text]:
    if Overlay.ROSE in scene.overlays:
        thing = aircraft.body if aircraft else NOTHING
        rose = rose_radius(theme), scene.station.declination_deg
        yield from numerals_beside(thing, taken, *rose, layout, theme)


def _course(scene: PlanScene, layout: StationProjection, theme: Theme) -> Iterator[Item]:
    if scene.course_deg is not None:
        overlays = course_overlays(rose_radius(theme), scene.full_scale_deg, scene.overlays, theme)
        true_course_deg = scene.course_deg + scene.station.declination_deg
        yield Group((overlays,), layout.x, layout.y, true_course_deg)


def _radial(
    scene: PlanScene,
    aircraft: AircraftMark | None,
    layout: StationProjection,
    words: tuple[Box, ...],
    theme: Theme,
) -> Iterator[Item]:
    if aircraft is not None and Overlay.RADIAL in scene.overlays:
        yield from radial_line(aircraft, layout, words, theme)


def _words(
    scene: PlanScene,
    aircraft: AircraftMark | None,
    traces: list[list[Point]],
    meant: list[IntendedMark],
    layout: StationProjection,
    labels: Labeler,
    theme: Theme,
) -> Iterator[Text]:
    """Yield the words that move, the most important first: they get the room."""
    block_course_line(scene, layout, labels, theme)
    if aircraft is not None:
        labels.block(aircraft.box)
        if Overlay.RADIAL in scene.overlays:
            yield from radial_words(aircraft, layout, labels, theme)
    yield from intended_words(meant, labels, theme)
    yield from service_words(scene, layout, labels, theme)
    yield from trace_words(scene, traces, labels, theme)
    yield from course_words(scene, layout, labels, theme)


def _cone(scene: PlanScene, layout: StationProjection, theme: Theme) -> Iterator[Item]:
    if Overlay.CONE not in scene.overlays:
        return
    radius = scene.cone_radius_nm * layout.units_per_nm
    if 0.0 < radius < SIZE / 2:
        dash, width = (0.1, 3.0 * theme.line), 1.5 * theme.line
        yield Circle(layout.x, layout.y, radius, theme.cone, theme.cone, width, dash, 0.12)


def _track(scene: PlanScene, layout: StationProjection, theme: Theme) -> Iterator[Item]:
    if scene.track is None or np.size(scene.track.lat_deg) < 2:
        return
    x, y = layout.to_xy(scene.track)
    points = list(zip(x.tolist(), y.tolist(), strict=True))
    for segment in clip_polyline(points, FRAME):
        yield Polyline(segment, theme.track, theme.line * 1.2)
