"""Draw the map of a plan view: sea, islands, airfields, stations, range rings, compass rose."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from vorlib.core.angles import format_direction
from vorlib.views.drawing.clipping import clip_polygon
from vorlib.views.drawing.layout import Box, Labeler, extent, overlap
from vorlib.views.drawing.picture import Circle, Group, Item, Line, Polygon, Segments, Text
from vorlib.views.drawing.theme import Theme
from vorlib.views.plan.projection import SIZE, StationProjection, rose_radius
from vorlib.views.plan.scene import Coast, NamedPlace, Overlay
from vorlib.vor.station import Station

__all__ = ["MapChart", "area_chart", "chart", "compass_rose", "ring_step_nm", "station_symbol"]

RING_STEPS_NM = (0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 25.0, 50.0, 100.0)


@dataclass(frozen=True)
class MapChart:
    """The fixed part of a plan view: what is drawn below and above the course, and its labels."""

    ground: Group
    marks: Group
    taken: tuple[Box, ...]


def ring_step_nm(range_nm: float, most: int) -> float:
    """Return the spacing of the range rings: a round number, for at most `most` rings."""
    fitting = (s for s in RING_STEPS_NM if range_nm / s <= most)
    return next(fitting, RING_STEPS_NM[-1])


# A drag changes none of this, so cache the charts of the last few views.
@lru_cache(maxsize=32)
def chart(
    station: Station,
    islands: tuple[Coast, ...],
    airfields: tuple[NamedPlace, ...],
    stations: tuple[Station, ...],
    layout: StationProjection,
    shown: Overlay,
    theme: Theme,
) -> MapChart:
    """Draw the map under a plan view, with the rose and the rings if they are shown."""
    radius = rose_radius(theme)
    labels = Labeler((3.0, 3.0, SIZE - 3.0, SIZE - 3.0))
    marks: list[Item] = [Group(station_symbol(10.0, theme), layout.x, layout.y)]
    labels.block(extent(marks[0]))
    if Overlay.ROSE in shown:
        rose = compass_rose(radius, station.declination_deg, theme)
        numerals = rose_numerals(radius, station.declination_deg, layout, theme)
        true_north = Group(rose[-1:], layout.x, layout.y)
        for box in (extent(true_north), *(extent(places[0]) for places in numerals)):
            labels.block(box)
        marks.append(Group(rose, layout.x, layout.y))
    name = f"{station.name} {station.ident}" if station.name != station.ident else station.ident
    text = Text(layout.x, layout.y, name, theme.small_size, theme.text, bold=True, halo=theme.sea)
    placed = labels.place(_name_places(text, 14.0 * theme.symbol))
    marks += [placed] if placed else []
    for other in stations:
        if other.ident != station.ident:
            marks += _other_station(other, layout, labels, theme)
    for field in airfields:
        marks += _airfield(field, layout, labels, theme)
    ground = [*_islands(islands, layout, theme)]
    if Overlay.RINGS in shown:
        rings, words = _rings(layout, radius, labels, theme)
        ground += rings
        marks += words
    return MapChart(Group(tuple(ground)), Group(tuple(marks)), tuple(labels.taken))


@lru_cache(maxsize=32)
def area_chart(
    islands: tuple[Coast, ...],
    stations: tuple[Station, ...],
    layout: StationProjection,
    theme: Theme,
    airfields: tuple[NamedPlace, ...] = (),
    taken: tuple[Box, ...] = (),
) -> MapChart:
    """Draw a map that gives all stations equal weight; keep its names off boxes already taken."""
    labels = Labeler((3.0, 3.0, SIZE - 3.0, SIZE - 3.0), list(taken))
    marks: list[Item] = []
    for station in stations:
        x, y = (float(c) for c in layout.to_xy(station.position))
        name = f"{station.name} {station.ident}"
        marks += _named(station_symbol(9.0, theme), name, x, y, labels, theme)
    for field in airfields:
        marks += _airfield(field, layout, labels, theme)
    ground = Group(tuple(_islands(islands, layout, theme)))
    return MapChart(ground, Group(tuple(marks)), tuple(labels.taken))


def _islands(islands: tuple[Coast, ...], layout: StationProjection, theme: Theme) -> Iterator[Item]:
    for island in islands:
        x, y = layout.to_xy(island.outline)
        points = clip_polygon(
            list(zip(x.tolist(), y.tolist(), strict=True)), (0.0, 0.0, SIZE, SIZE)
        )
        if points:
            yield Polygon(points, fill=theme.land, stroke=theme.coast, width=theme.thin)


def station_symbol(radius: float, theme: Theme) -> tuple[Item, ...]:
    """Return a station at the origin: the plain hexagon of aeronautical charts, with a dot."""
    turns = [math.radians(a) for a in range(30, 390, 60)]
    size = radius * theme.symbol
    outline = tuple((size * math.sin(a), -size * math.cos(a)) for a in turns)
    return (
        Polygon(outline, fill=theme.paper, stroke=theme.station, width=1.3 * theme.line),
        Circle(0.0, 0.0, 0.25 * size, fill=theme.station),
    )


def _name_places(name: Text, gap: float) -> Iterator[Text]:
    low, slip = gap + 0.3 * name.size, 0.8 * gap
    places = (
        (gap, 0.0, "start"), (-gap, 0.0, "end"), (0.0, low, "middle"), (0.0, -low, "middle"),
        (slip, low, "start"), (-slip, low, "end"), (slip, -low, "start"), (-slip, -low, "end"),
    )  # fmt: skip
    for dx, dy, anchor in places:
        yield replace(name, x=name.x + dx, y=name.y + dy, anchor=anchor)


def _named(
    symbol: tuple[Item, ...], name: str, x: float, y: float, labels: Labeler, theme: Theme
) -> list[Item]:
    """Return a symbol and its name, or nothing where there is no room for both."""
    group = Group(symbol, x, y)
    box = extent(group)
    if not labels.is_free(box):
        return []
    text = Text(x, y, name, theme.small_size, theme.text, halo=theme.sea)
    placed = labels.place(_name_places(text, 10.0 * theme.symbol))
    if placed is None:
        return []
    labels.block(box)
    return [group, placed]


def _other_station(
    station: Station, layout: StationProjection, labels: Labeler, theme: Theme
) -> list[Item]:
    x, y = (float(c) for c in layout.to_xy(station.position))
    return _named(station_symbol(6.5, theme), station.ident, x, y, labels, theme)


def _airfield(
    field: NamedPlace, layout: StationProjection, labels: Labeler, theme: Theme
) -> list[Item]:
    x, y = (float(c) for c in layout.to_xy(field.position))
    size = 4.5 * theme.symbol
    disc = Circle(0.0, 0.0, size, fill=theme.paper, stroke=theme.muted, width=theme.line)
    runway = Line(-1.4 * size, 0.8 * size, 1.4 * size, -0.8 * size, theme.muted, theme.line)
    return _named((disc, runway), field.name, x, y, labels, theme)


def _rings(
    layout: StationProjection, radius: float, labels: Labeler, theme: Theme
) -> tuple[list[Item], list[Item]]:
    most = 5 if theme.symbol < 1.3 else 3  # larger type needs more room between the rings
    step = ring_step_nm(radius / layout.units_per_nm, most)
    rings: list[Item] = []
    words: list[Item] = []
    count = math.floor(radius / layout.units_per_nm / step + 1e-9)
    for number in range(1, count + 1):
        distance = number * step
        r = distance * layout.units_per_nm
        if r < radius - 1.0:
            dash = (3.0, 4.0)
            rings.append(Circle(layout.x, layout.y, r, "", theme.ring, theme.thin, dash))
            placed = labels.place(_ring_labels(layout, r, f"{distance:g} NM", theme))
            words += [placed] if placed else []
    return rings, words


def _ring_labels(layout: StationProjection, r: float, words: str, theme: Theme) -> Iterator[Text]:
    for azimuth_deg in (125, 145, 105, 165, 235, 215, 305, 325, 55):
        a = math.radians(azimuth_deg)
        x, y = layout.x + r * math.sin(a), layout.y - r * math.cos(a)
        yield Text(x, y, words, theme.small_size, theme.muted, halo=theme.sea)


def compass_rose(radius: float, declination_deg: float, theme: Theme) -> tuple[Item, ...]:
    """Return a compass rose at the origin, turned by the declination, without its numerals.

    A filled arrowhead marks the station's own north (360), an open one true north.
    """
    ticks: dict[float, list[tuple[float, float, float, float]]] = {}
    for degree in range(5, 365, 5):
        length = 14.0 if degree % 30 == 0 else 9.0 if degree % 10 == 0 else 5.0
        a = math.radians(degree + declination_deg)
        sin, cos = math.sin(a), math.cos(a)
        inner = radius - length
        width = theme.line if degree % 10 == 0 else theme.thin
        ticks.setdefault(width, []).append((inner * sin, -inner * cos, radius * sin, -radius * cos))
    items: list[Item] = [Circle(0.0, 0.0, radius, stroke=theme.rose, width=theme.line)]
    items += [Segments(tuple(rows), theme.rose, width) for width, rows in ticks.items()]
    wide, tall = 6.0 * theme.symbol, 16.0 * theme.symbol
    head = ((0.0, -radius), (wide, tall - radius), (-wide, tall - radius))
    items.append(Polygon(head, theme.paper, theme.rose, theme.line))
    items.append(Group((Polygon(head, theme.rose),), rotate_deg=declination_deg))
    side = 1.0 if declination_deg <= 0 else -1.0
    items.append(
        Text(
            side * 1.5 * wide,
            tall / 2 + 4.0 - radius + 0.5 * theme.small_size,
            "true N",
            theme.small_size,
            theme.text,
            "start" if side > 0 else "end",
            halo=theme.sea,
        )
    )
    return tuple(items)


@lru_cache(maxsize=32)
def rose_numerals(
    radius: float, declination_deg: float, layout: StationProjection, theme: Theme
) -> tuple[tuple[Text, ...], ...]:
    """Return the possible places of each numeral: first outside the rose, then inside it."""
    size = theme.small_size
    places = (
        radius + 1.15 * size,
        *(radius - 15.0 - share * size for share in (1.15, 2.0, 3.0, 4.0, 5.5)),
    )
    return tuple(
        tuple(_numeral(degree, reach, declination_deg, layout, theme) for reach in places)
        for degree in range(30, 390, 30)
    )


def numerals_beside(
    thing: Box,
    taken: tuple[Box, ...],
    radius: float,
    declination_deg: float,
    layout: StationProjection,
    theme: Theme,
) -> Iterator[Text]:
    """Yield the rose's numerals; one that a thing would cover moves to a free place."""
    for usual, *others in rose_numerals(radius, declination_deg, layout, theme):
        if not overlap(extent(usual), thing):
            yield usual
            continue
        boxes = (thing, *taken)
        free = (t for t in others if not any(overlap(extent(t), box) for box in boxes))
        yield next(free, usual)


def _numeral(
    degree: int, reach: float, declination_deg: float, layout: StationProjection, theme: Theme
) -> Text:
    x, y = layout.polar_to_xy(degree + declination_deg, reach / layout.units_per_nm)
    numeral, bold = format_direction(degree), degree == 360
    size, ink = theme.small_size, theme.text
    return Text(float(x), float(y), numeral, size, ink, bold=bold, halo=theme.sea)
