"""Draw a fix on the map and, enlarged, the area around it in which the aircraft may be."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from vorlib.core.angles import format_direction
from vorlib.earth.geodesic import Position, Positions
from vorlib.views.drawing.clipping import clip_polygon, clip_polyline
from vorlib.views.drawing.layout import Box, Labeler, beside_line
from vorlib.views.drawing.picture import (
    Circle,
    Group,
    Item,
    Line,
    Picture,
    Point,
    Polygon,
    Polyline,
    Segments,
    Text,
)
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.views.plan.aircraft import outline
from vorlib.views.plan.fix_scene import (
    CLOSE,
    CLOSE_RANGES_NM,
    DistanceRing,
    FixScene,
    closeup_projection,
    map_projection,
)
from vorlib.views.plan.map import area_chart
from vorlib.views.plan.projection import FRAME, SIZE, StationProjection
from vorlib.vor.station import Station

__all__ = ["closeup", "fix_map"]

CLOSE_FRAME: Box = (0.0, 0.0, CLOSE, CLOSE)  # the key goes below it
ROUND = np.linspace(0.0, 2.0 * np.pi, 361)
SIN, COS = np.sin(ROUND), np.cos(ROUND)


def fix_map(scene: FixScene, theme: Theme = SCREEN) -> Picture:
    """Return the map; the aircraft can be grabbed as "aircraft"."""
    layout = map_projection(scene)
    laid = _laid(scene, layout)
    base = area_chart(scene.islands, scene.stations, layout, theme)
    labels = Labeler((3.0, 3.0, SIZE - 3.0, SIZE - 3.0), list(base.taken))
    x, y = _xy(layout, scene.aircraft)
    shape = Polygon(outline(0.8 * theme.symbol), theme.aircraft, theme.paper, theme.line)
    reach = 16.0 * theme.symbol
    labels.block((x - reach, y - reach, x + reach, y + reach))
    return Picture(
        SIZE,
        SIZE,
        (
            base.ground,
            *_bands(scene, laid, layout, FRAME, theme),
            *_lines(laid, FRAME, theme),
            *_rings(scene, layout, FRAME, theme),
            base.marks,
            *_line_names(scene, layout, FRAME, labels, theme),
            *_places(scene, layout, FRAME, labels, theme),
            Group((shape,), x, y, grab="aircraft", label=_label(scene)),
        ),
        title="Map with the fix",
        description=f"True north is up; the map reaches {scene.range_nm:g} NM from its middle.",
        background=theme.sea,
    )


def _label(scene: FixScene) -> str:
    here = scene.aircraft
    return f"Aircraft, latitude {here.lat_deg:.2f}, longitude {here.lon_deg:.2f}"


def closeup(scene: FixScene, theme: Theme = SCREEN) -> Picture:
    """Return the fix enlarged, with its areas, a scale and a key under it."""
    layout = closeup_projection(scene)
    laid = _laid(scene, layout)
    labels = Labeler((3.0, 3.0, CLOSE - 3.0, CLOSE - 3.0))
    x, y = _xy(layout, scene.aircraft)
    reach = 14.0 * theme.symbol
    labels.block((x - reach, y - reach, x + reach, y + reach))
    scale = tuple(_scale(layout, labels, theme))
    shape = Polygon(outline(0.7 * theme.symbol), theme.aircraft, theme.paper, theme.line)
    corners = ((0.0, 0.0), (CLOSE, 0.0), (CLOSE, CLOSE), (0.0, CLOSE))
    return Picture(
        CLOSE,
        SIZE,
        (
            Polygon(corners, theme.sea),
            *_bands(scene, laid, layout, CLOSE_FRAME, theme),
            *_lines(laid, CLOSE_FRAME, theme),
            *_rings(scene, layout, CLOSE_FRAME, theme),
            *_areas(scene, layout, theme),
            *_line_names(scene, layout, CLOSE_FRAME, labels, theme),
            *_places(scene, layout, CLOSE_FRAME, labels, theme),
            Group((shape,), x, y),
            *scale,
            Polygon(corners, "", theme.rose, theme.thin),
            *_key(scene, theme),
        ),
        title="The fix enlarged",
        description=f"The edges are {CLOSE / 2 / layout.units_per_nm:g} NM from the fix.",
        background=theme.paper,
    )


def _xy(layout: StationProjection, place: Position) -> Point:
    x, y = layout.to_xy(place)
    return float(x), float(y)


def _points(layout: StationProjection, places: Positions) -> list[Point]:
    x, y = layout.to_xy(places)
    return list(zip(x.tolist(), y.tolist(), strict=True))


def _circle(layout: StationProjection, station: Station, distance_nm: float) -> list[Point]:
    """Return points on a circle around a station, drawn as if the map were flat.

    Over the range of a map the curvature of the earth hardly shows.
    """
    (x, y), radius = _xy(layout, station.position), distance_nm * layout.units_per_nm
    return list(zip((x + radius * SIN).tolist(), (y - radius * COS).tolist(), strict=True))


def _looks(theme: Theme) -> list[tuple[str, tuple[float, ...]]]:
    """Return color and dash of the first, second and third radial."""
    line = theme.line
    return [
        (theme.course, ()),
        (theme.track, (8.0 * line, 3.0 * line)),
        (theme.cone, (2.0 * line, 3.0 * line)),
    ]


def _laid(scene: FixScene, layout: StationProjection) -> list[list[list[Point]]]:
    """Return for each radial the points along its left bound, itself and its right bound."""
    if not scene.lines:
        return []
    places = [line.places for line in scene.lines]
    x, y = layout.to_xy(
        Position(np.stack([p.lat_deg for p in places]), np.stack([p.lon_deg for p in places]))
    )
    return [
        [list(zip(*row, strict=True)) for row in zip(*line, strict=True)]
        for line in zip(x.tolist(), y.tolist(), strict=True)
    ]


def _bands(
    scene: FixScene,
    laid: list[list[list[Point]]],
    layout: StationProjection,
    frame: Box,
    theme: Theme,
) -> Iterator[Polygon]:
    for (left, _, right), (color, _) in zip(laid, _looks(theme), strict=False):
        band = clip_polygon([*left, *reversed(right)], frame)
        if band:
            yield Polygon(band, color, opacity=0.16)
    for ring in scene.rings:
        if ring.band_nm:
            inner, outer = (_circle(layout, ring.station, nm) for nm in ring.band_nm)
            band = clip_polygon([*outer, *reversed(inner)], frame)
            if band:
                yield Polygon(band, theme.cone, opacity=0.16)


def _lines(laid: list[list[list[Point]]], frame: Box, theme: Theme) -> Iterator[Polyline]:
    for (_, middle, _), (color, dash) in zip(laid, _looks(theme), strict=False):
        for segment in clip_polyline(middle, frame):
            yield Polyline(segment, color, 1.5 * theme.line, dash)


def _rings(
    scene: FixScene, layout: StationProjection, frame: Box, theme: Theme
) -> Iterator[Polyline]:
    for ring in scene.rings:
        for segment in clip_polyline(_circle(layout, ring.station, ring.distance_nm), frame):
            yield Polyline(segment, theme.cone, 1.5 * theme.line, _ring_dash(ring, theme))


def _ring_dash(ring: DistanceRing, theme: Theme) -> tuple[float, ...]:
    return (4.0 * theme.line, 3.0 * theme.line) if ring.dashed else ()


def _ellipse_dash(theme: Theme) -> tuple[float, ...]:
    return (5.0 * theme.line, 3.0 * theme.line)


def _line_names(
    scene: FixScene, layout: StationProjection, frame: Box, labels: Labeler, theme: Theme
) -> Iterator[Text]:
    """Yield the names of the radials, each beside its line between station and fix if it can."""
    fix = _xy(layout, scene.fix)
    for line, (color, _) in zip(scene.lines, _looks(theme), strict=False):
        begin = _xy(layout, line.station.position)
        segments = clip_polyline([begin, fix], frame)
        if not segments:
            continue
        words = f"{line.station.ident} {format_direction(line.radial_deg)}"
        text = Text(0, 0, words, theme.small_size, color, bold=True, halo=theme.sea)
        shares = (0.5, 0.3, 0.7, 0.15, 0.85, 1.3, 1.6)
        placed = labels.place(beside_line(segments[0][0], segments[0][-1], shares, text))
        if placed is not None:
            yield placed


def _fix_mark(x: float, y: float, theme: Theme) -> Iterator[Item]:
    """Yield a ring with four ticks, wide enough to go around the aircraft."""
    radius, tick = 18.0 * theme.symbol, 7.0 * theme.symbol
    yield Circle(x, y, radius, "", theme.text, theme.line)
    ends = ((0, -1), (1, 0), (0, 1), (-1, 0))
    ticks = tuple(
        (x + radius * a, y + radius * b, x + (radius + tick) * a, y + (radius + tick) * b)
        for a, b in ends
    )
    yield Segments(ticks, theme.text, theme.line)


def _places(
    scene: FixScene, layout: StationProjection, frame: Box, labels: Labeler, theme: Theme
) -> Iterator[Item]:
    """Yield the fix and the other possible places, with their names."""
    for number, (name, place) in enumerate(((scene.fix_name, scene.fix), *scene.others)):
        x, y = _xy(layout, place)
        if not (frame[0] <= x <= frame[2] and frame[1] <= y <= frame[3]):
            continue
        if number == 0:
            yield from _fix_mark(x, y, theme)
        else:
            yield Circle(x, y, 7.0 * theme.symbol, theme.paper, theme.text, theme.line)
        text = Text(x, y, name, theme.small_size, theme.text, bold=True, halo=theme.sea)
        placed = labels.place(_round(text, 27.0 * theme.symbol))
        if placed is not None:
            yield placed


def _round(text: Text, gap: float) -> Iterator[Text]:
    for turn_deg in (45, 135, 225, 315, 90, 270, 0, 180):
        right, up = math.sin(math.radians(turn_deg)), math.cos(math.radians(turn_deg))
        anchor = "start" if right > 0.3 else "end" if right < -0.3 else "middle"
        yield replace(text, x=text.x + gap * right, y=text.y - gap * up, anchor=anchor)


def _areas(scene: FixScene, layout: StationProjection, theme: Theme) -> Iterator[Polygon]:
    if scene.area is not None:
        yield Polygon(tuple(_points(layout, scene.area)), "", theme.text, theme.thick)
    if scene.triangle is not None:
        corners = clip_polygon(_points(layout, scene.triangle), CLOSE_FRAME)
        if corners:
            yield Polygon(corners, theme.warning, theme.warning, theme.thick, opacity=0.18)
    if scene.ellipse is not None:
        points = tuple(_points(layout, scene.ellipse))
        yield Polygon(points, "", theme.text, theme.line, _ellipse_dash(theme))


def _scale(layout: StationProjection, labels: Labeler, theme: Theme) -> Iterator[Item]:
    """Yield a bar of a round length in the lower left corner."""
    bar_nm = CLOSE_RANGES_NM[round(CLOSE / 2 / layout.units_per_nm, 1)]
    length = bar_nm * layout.units_per_nm
    x, y, size = 10.0, CLOSE - 12.0, theme.small_size
    labels.block((0.0, y - 2.2 * size, x + length + size, CLOSE))
    yield Line(x, y, x + length, y, theme.text, theme.thick)
    yield Text(x, y - size, f"{bar_nm:g} NM", size, theme.text, "start", True, theme.sea)


def _key(scene: FixScene, theme: Theme) -> Iterator[Item]:
    """Yield what the outlines and rings mean, under the enlarged part."""
    rows: list[tuple[str, str, float, tuple[float, ...]]] = []
    if scene.area is not None:
        rows.append(("all within the bounds", theme.text, theme.thick, ()))
    if scene.ellipse is not None:
        rows.append(("95 % of fixes", theme.text, theme.line, _ellipse_dash(theme)))
    if scene.triangle is not None:
        rows.append(("triangle of the radials", theme.warning, theme.thick, ()))
    for ring in scene.rings:
        rows.append((ring.name, theme.cone, 1.5 * theme.line, _ring_dash(ring, theme)))
    step = min(1.6 * theme.text_size, (SIZE - CLOSE) / (len(rows) + 0.3))
    for number, (words, color, width, dash) in enumerate(rows):
        y = CLOSE + step * (number + 0.8)
        yield Line(4.0, y, 44.0, y, color, width, dash)
        yield Text(54.0, y, words, theme.text_size, theme.text, "start")
