"""A practice area from above, drawn to a round scale, with range rings."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from vorlib.briefing.card import CardPlace, LessonCard
from vorlib.core.units import METERS_PER_NM
from vorlib.earth.geodesic import Position, inverse
from vorlib.paper.page import POINTS_PER_MM, PRINT
from vorlib.stations.archipelago import Airfield
from vorlib.views.drawing.layout import Labeler
from vorlib.views.drawing.picture import Circle, Item, Line, Picture, Polygon, Segments, Text
from vorlib.views.plan.map import MapChart, area_chart, ring_step_nm
from vorlib.views.plan.projection import SIZE, StationProjection
from vorlib.views.plan.scene import Coast
from vorlib.vor.station import Station

__all__ = ["area_plan", "beyond_plan", "plan_frame", "points_per_nm", "round_scale"]

# Usual scales of aeronautical charts first, so that a plotter made for them fits the sheet.
SCALES = (250_000, 500_000, 1_000_000, 1_500_000, 2_000_000, 5_000_000, 10_000_000)
ROOM = 1.06  # factor that leaves room beyond the outermost thing shown
SHOWN_RADII = 1.35  # farther than this many radii, a thing would shrink the map too much
AWAY = (24.0, 34.0, 46.0, 60.0)  # distances to try for a name in a crowded place, in units
ROSE = 24.0  # radius of the rose about a station, in picture units


def points_per_nm(scale: int) -> float:
    """Return the length of a nautical mile in points of 1/72 inch at a scale of 1 to `scale`."""
    return METERS_PER_NM * 1000.0 / scale * POINTS_PER_MM


def round_scale(radius_nm: float, width: float) -> int:
    """Return the largest round scale at which a circle of a radius fits a width in points."""
    fitting = (s for s in SCALES if 2.0 * radius_nm * points_per_nm(s) <= width)
    return next(fitting, SCALES[-1])


def area_plan(
    card: LessonCard, begin: CardPlace, width: float, coasts: tuple[Coast, ...] = ()
) -> Picture:
    """Return the plan of a practice area, to be printed at a given width.

    Parameters
    ----------
    card
        The lesson's numbers.
    begin
        Where the tasks start.
    width
        Printed width in points; the scale is true only at this width.
    coasts
        Islands.
    """
    lesson = card.lesson
    scale = round_scale(ROOM * _reach_nm(card), width)
    layout = StationProjection(
        lesson.center, SIZE / 2, SIZE / 2, points_per_nm(scale) * SIZE / width
    )
    stations = tuple(notes.listed.station for notes in card.stations)
    x, y = (float(value) for value in layout.to_xy(begin.position))
    cross = (x - 6.0, y - 6.0, x + 6.0, y + 6.0)
    base = area_chart(coasts, stations, layout, PRINT, lesson.fields, (cross,))
    labels = Labeler((4.0, 4.0, SIZE - 4.0, SIZE - 4.0), list(base.taken))
    return Picture(
        SIZE,
        SIZE,
        (
            base.ground,
            *_area(lesson.radius_nm, layout, labels),
            *_rings(layout, labels),
            *(item for notes in card.stations for item in _rose(notes.listed.station, layout)),
            base.marks,
            *_start(x, y, labels),
            *_crowded(base, stations, lesson.fields, layout, labels),
            *plan_frame(scale, layout),
        ),
        title="The practice area",
        description=f"True north is up; the scale is 1 to {scale:,}, the middle that of the area.",
        background=PRINT.sea,
    )


def beyond_plan(card: LessonCard) -> str:
    """Return a sentence that names the stations too far away for the plan; empty for none."""
    far_nm = SHOWN_RADII * card.lesson.radius_nm
    far = [
        f"{notes.listed.station.name} ({notes.at_center.distance_nm:.0f} NM from the middle)"
        for notes in card.stations
        if notes.at_center.distance_nm > far_nm
    ]
    return f"Beyond the plan: {', '.join(far)}." if far else ""


def _reach_nm(card: LessonCard) -> float:
    """Return the radius about the middle that the plan has to show."""
    radius = card.lesson.radius_nm
    away = [notes.at_center.distance_nm for notes in card.stations]
    away += [_away_nm(card.lesson.center, place.position) for place in card.fields]
    return max([radius, *(nm for nm in away if nm <= SHOWN_RADII * radius)])


def _away_nm(one: Position, other: Position) -> float:
    line = inverse(one.lat_deg, one.lon_deg, other.lat_deg, other.lon_deg)
    return float(line.distance_nm)


def _area(radius_nm: float, layout: StationProjection, labels: Labeler) -> Iterator[Item]:
    """Yield the practice area's edge, with its name inside."""
    radius = radius_nm * layout.units_per_nm
    if radius < SIZE / 2:
        yield Circle(layout.x, layout.y, radius, "", PRINT.rose, 1.6, (7.0, 4.0))
        words = f"practice area, {radius_nm:g} NM"
        yield from _on_circle(words, radius - 10.0, (0, 20, 340, 40, 320, 90, 270), layout, labels)


def _rings(layout: StationProjection, labels: Labeler) -> Iterator[Item]:
    farthest = SIZE / 2 / layout.units_per_nm
    step = ring_step_nm(farthest, 5)
    yield Segments(
        (
            (layout.x - 5.0, layout.y, layout.x + 5.0, layout.y),
            (layout.x, layout.y - 5.0, layout.x, layout.y + 5.0),
        ),
        PRINT.text,
        1.0,
    )
    for number in range(1, math.floor(farthest / step) + 1):
        radius = number * step * layout.units_per_nm
        yield Circle(layout.x, layout.y, radius, "", PRINT.ring, 0.6, (2.0, 3.0))
        azimuths = (180, 150, 210, 120, 240, 60, 300)
        yield from _on_circle(f"{number * step:g} NM", radius, azimuths, layout, labels)


def _on_circle(
    words: str,
    radius: float,
    azimuths_deg: Iterable[float],
    layout: StationProjection,
    labels: Labeler,
) -> Iterator[Text]:
    """Yield words on a circle about the middle, at the first azimuth with room."""
    placed = labels.place(
        Text(
            layout.x + radius * math.sin(a),
            layout.y - radius * math.cos(a),
            words,
            10.0,
            PRINT.muted,
            halo=PRINT.sea,
        )
        for a in map(math.radians, azimuths_deg)
    )
    if placed:
        yield placed


def _rose(station: Station, layout: StationProjection) -> Iterator[Item]:
    """Yield marks every 30 degrees about a station, a longer one at the station's own north."""
    place, declination = station.position, station.declination_deg
    x, y = (float(value) for value in layout.to_xy(place))
    if not (ROSE < x < SIZE - ROSE and ROSE < y < SIZE - ROSE):
        return
    marks = []
    for radial in range(30, 390, 30):
        a = math.radians(radial + declination)
        inner, outer = ROSE - (2.0 if radial % 90 else 4.0), ROSE + (8.0 if radial == 360 else 0.0)
        marks.append(
            (
                x + inner * math.sin(a),
                y - inner * math.cos(a),
                x + outer * math.sin(a),
                y - outer * math.cos(a),
            )
        )
    yield Segments(tuple(marks), PRINT.rose, 0.9)


def _start(x: float, y: float, labels: Labeler) -> Iterator[Item]:
    yield Segments(((x - 5, y - 5, x + 5, y + 5), (x - 5, y + 5, x + 5, y - 5)), PRINT.text, 1.8)
    words = labels.place(
        Text(x + dx, y + dy, "start", 11.0, PRINT.text, anchor, True, PRINT.sea)
        for dx, dy, anchor in (
            (9, 0, "start"),
            (-9, 0, "end"),
            (0, 14, "middle"),
            (0, -14, "middle"),
        )
    )
    if words:
        yield words


def _crowded(
    base: MapChart,
    stations: tuple[Station, ...],
    fields: tuple[Airfield, ...],
    layout: StationProjection,
    labels: Labeler,
) -> Iterator[Item]:
    """Draw places whose names do not fit beside them, with a line to the name; list the rest."""
    drawn = {item.text for item in base.marks.items if isinstance(item, Text)}
    named: list[tuple[str, Station | Airfield]] = [
        *((f"{one.name} {one.ident}", one) for one in stations),
        *((one.name, one) for one in fields),
    ]
    left = []
    for name, one in named:
        if name in drawn or not _is_shown(one.position, layout):
            continue
        x, y = (float(value) for value in layout.to_xy(one.position))
        yield Circle(x, y, 3.0, PRINT.sea, PRINT.text, 1.2)
        placed = labels.place(_places_around(name, x, y))
        if placed:
            yield Line(x, y, placed.x, placed.y, PRINT.muted, 0.7)
            yield placed
        else:
            left.append(one.ident)
    if left:
        words = f"no room for the names of: {', '.join(left)}"
        yield Text(8.0, 10.0, words, 9.0, PRINT.text, "start", halo=PRINT.sea)


def _places_around(name: str, x: float, y: float) -> Iterator[Text]:
    """Yield positions for the name of a place away from it, the nearest first."""
    for away in AWAY:
        for azimuth_deg in range(30, 390, 30):
            a = math.radians(azimuth_deg)
            anchor = "start" if azimuth_deg < 180 else "end"
            yield Text(
                x + away * math.sin(a), y - away * math.cos(a), name, 11.0, PRINT.text, anchor,
                halo=PRINT.sea,
            )  # fmt: skip


def _is_shown(place: Position, layout: StationProjection) -> bool:
    return all(0.0 < float(value) < SIZE for value in layout.to_xy(place))


def plan_frame(scale: int, layout: StationProjection) -> Iterator[Item]:
    """Yield the frame, a bar of the scale and an arrow to true north."""
    corners = ((0.0, 0.0), (SIZE, 0.0), (SIZE, SIZE), (0.0, SIZE))
    yield Polygon(corners, stroke=PRINT.text)
    length_nm = ring_step_nm(90.0 / layout.units_per_nm, 1)
    length, y = length_nm * layout.units_per_nm, SIZE - 14.0
    yield Line(12.0, y, 12.0 + length, y, PRINT.text, 2.0)
    yield Segments(
        ((12.0, y - 4, 12.0, y + 4), (12 + length, y - 4, 12 + length, y + 4)), PRINT.text
    )
    words = f"{length_nm:g} NM, scale 1 : {scale:,}"
    yield Text(12.0, y - 12.0, words, 10.0, PRINT.text, "start", halo=PRINT.sea)
    x = SIZE - 18.0
    yield Line(x, 44.0, x, 14.0, PRINT.text, 1.5)
    yield Segments(((x, 14.0, x - 4.0, 24.0), (x, 14.0, x + 4.0, 24.0)), PRINT.text, 1.5)
    yield Text(x, 54.0, "true N", 9.0, PRINT.text, halo=PRINT.sea)
