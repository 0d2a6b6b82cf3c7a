"""The picture of a recorded flight: map, indicator and timeline at one moment.

What does not change from moment to moment is drawn once and kept.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from vorlib.core.words import spoken_time
from vorlib.exhibits.debrief.case import Case
from vorlib.exhibits.debrief.state import RANGES_NM, DebriefState, FlightMoment
from vorlib.exhibits.scene.at_station import GAP
from vorlib.stations.archipelago import AIRFIELDS, ISLANDS
from vorlib.views.drawing.clipping import clip_polyline
from vorlib.views.drawing.layout import Labeler, wrapped
from vorlib.views.drawing.picture import (
    Circle,
    Group,
    Item,
    Line,
    Picture,
    Point,
    Polyline,
    Text,
    above,
    beside,
)
from vorlib.views.drawing.theme import Theme
from vorlib.views.drawing.thinning import DRAWN_WITHIN, corners
from vorlib.views.flight.timeline import number_mark, timeline
from vorlib.views.flight.timeline_scene import WIDTH, layout_of
from vorlib.views.instrument.indicator import IndicatorScene, indicator
from vorlib.views.plan.aircraft import AircraftMark
from vorlib.views.plan.map import chart
from vorlib.views.plan.plan import SIZE, Overlay, PlanScene, plan, projection
from vorlib.views.plan.projection import FRAME
from vorlib.vor.coverage import cone_radius_nm, service_radius_nm
from vorlib.vor.station import Station

__all__ = ["draw", "scrubbed_s"]

OVERLAYS = Overlay.ROSE | Overlay.RINGS | Overlay.COURSE | Overlay.WEDGE | Overlay.CONE
CONE_STEP_NM = 0.1  # a smaller change of the cone does not redraw the map
STRIP_GAP = 6.0
FRAME_SHARE = 1.07  # the map reaches this much farther than its rose


def draw(state: DebriefState, theme: Theme) -> Picture:
    """Return map, indicator and timeline at the moment; without a flight, why there is none."""
    case = state.case
    if case.debrief is None or case.strip is None:
        return _nothing(case.problem, theme)
    now = state.moment
    seen = beside(_map(state, now, theme), indicator(_shown(now), theme), GAP)
    strip = timeline(case.strip, state.shown_s, _label(state), theme)
    return above(seen, strip, STRIP_GAP)


def scrubbed_s(state: DebriefState, x: float, theme: Theme) -> float:
    """Return the moment at a place across the picture, in whole seconds."""
    return float(round(layout_of(max(1.0, state.duration_s), theme).time_s(x)))


def _label(state: DebriefState) -> str:
    return f"{spoken_time(state.shown_s)} of {spoken_time(state.duration_s)}"


def _nothing(problem: str, theme: Theme) -> Picture:
    size = theme.text_size
    lines = [line for part in problem.split("\n") for line in wrapped(part, WIDTH - 40.0, size)]
    words = (
        Text(20.0, 30.0 + 1.4 * size * i, line, size, theme.text, "start")
        for i, line in enumerate(lines)
    )
    height = 60.0 + 1.4 * size * len(lines)
    return Picture(
        WIDTH, height, tuple(words), title="No flight", description=problem, background=theme.sea
    )


def _shown(now: FlightMoment) -> IndicatorScene:
    cover = "" if now.selected else "Nothing was selected here."
    cover = cover if now.recorded else "Nothing was recorded here."
    return IndicatorScene.of(now.course_deg, now.reading, cover, by_hand=False)


def _map(state: DebriefState, now: FlightMoment, theme: Theme) -> Picture:
    """Return the map about the station tuned, with the whole track, the track so far, aircraft."""
    case, station = state.case, now.station
    range_nm = state.range_nm or _whole_nm(case, station)
    height_ft = max(0.0, float(station.height_ft(now.position)))
    cone_nm = CONE_STEP_NM * round(float(cone_radius_nm(height_ft)) / CONE_STEP_NM)
    ours = state.stations is None
    service_nm = float(service_radius_nm(station.service, height_ft))
    round_station = cone_nm, service_nm
    ground = _ground(case, station, range_nm, now.course_deg, round_station, ours, theme)
    flown = _flown(case, station, range_nm, theme)
    scene = PlanScene(
        station,
        range_nm=range_nm,
        position=now.position if now.recorded else None,
        heading_deg=now.true_heading_deg - station.declination_deg,
        by_hand=False,
    )
    layout = projection(scene, theme)
    aircraft = AircraftMark.of(scene, layout, theme)
    here: Point | tuple[()] = ()
    if aircraft is not None:
        x, y = layout.to_xy(now.position)
        here = float(x), float(y)
    so_far = _so_far(case, flown, state.before, here, theme)
    items = (*ground.items, *so_far, *_marks(case, station, range_nm, ours, theme))
    where = ground.description
    if aircraft is not None:
        where += f" The aircraft is on the {aircraft.radial} radial, {aircraft.distance_nm:.1f} NM."
        items = (*items, aircraft.group)
    return replace(ground, items=items, description=where)


@lru_cache(maxsize=8)
def _whole_nm(case: Case, station: Station) -> float:
    """Return the smallest range that shows all of the flight about a station."""
    if case.debrief is None:
        return RANGES_NM[-1]
    farthest = float(np.max(station.distance_nm(case.debrief.flight.position)))
    return next((r for r in RANGES_NM if FRAME_SHARE * r >= farthest), RANGES_NM[-1])


@lru_cache(maxsize=8)
def _ground(
    case: Case,
    station: Station,
    range_nm: float,
    course_deg: float,
    round_station: tuple[float, float],
    in_islands: bool,
    theme: Theme,
) -> Picture:
    """Return the map with the selected course and the whole track, as one group."""
    cone_nm, service_nm = round_station
    scene = replace(
        _scene(case, station, range_nm, in_islands),
        course_deg=course_deg,
        cone_radius_nm=cone_nm,
        service_nm=service_nm,
    )
    picture = plan(scene, theme)
    points, _, segment = _flown(case, station, range_nm, theme)
    dash = (1.2 * theme.line, 2.2 * theme.line)
    whole = _lines(points, segment, theme.text, 0.8 * theme.line, dash)
    return replace(picture, items=(Group((*picture.items, *whole)),))


def _scene(case: Case, station: Station, range_nm: float, in_islands: bool) -> PlanScene:
    return PlanScene(
        station,
        range_nm=range_nm,
        overlays=OVERLAYS,
        islands=ISLANDS if in_islands else (),
        airfields=tuple(AIRFIELDS.values()) if in_islands else (),
        stations=tuple((case.stations or {}).values()),
        by_hand=False,
    )


Flown = tuple[tuple[Point, ...], NDArray[np.intp], NDArray[np.int_]]


@lru_cache(maxsize=8)
def _flown(case: Case, station: Station, range_nm: float, theme: Theme) -> Flown:
    """Return the track on the map in as few points as it needs, their indices and segments."""
    if case.debrief is None:
        return (), np.array([], int), np.array([], int)
    layout = projection(PlanScene(station, range_nm=range_nm), theme)
    x, y = layout.to_xy(case.debrief.flight.position)
    segment = case.debrief.seen.segment
    ends = np.flatnonzero(np.diff(segment))
    kept = np.union1d(corners(x, y, DRAWN_WITHIN), np.concatenate([ends, ends + 1])).astype(int)
    return tuple(zip(x[kept].tolist(), y[kept].tolist(), strict=True)), kept, segment[kept]


def _lines(
    points: tuple[Point, ...],
    segment: NDArray[np.int_],
    ink: str,
    width: float,
    dash: tuple[float, ...] = (),
) -> Iterator[Polyline]:
    """Yield the segments of a track that are inside the map; nothing bridges a gap."""
    cuts = [0, *(np.flatnonzero(np.diff(segment)) + 1).tolist(), len(points)]
    for begin, end in pairwise(cuts):
        for line in clip_polyline(points[begin:end], FRAME):
            yield Polyline(line, ink, width, dash)


def _so_far(
    case: Case, flown: Flown, before: int, here: Point | tuple[()], theme: Theme
) -> Iterator[Item]:
    points, kept, segment = flown
    count = int(np.searchsorted(kept, before, "right"))
    if case.debrief is None or not count:
        return
    points, segment = points[:count], segment[:count]
    if here:
        points, segment = (*points, here), np.append(segment, case.debrief.seen.segment[before])
    for line in _lines(points, segment, theme.track, 1.7 * theme.line):
        yield Polyline(line.points, theme.paper, 3.6 * theme.line)
        yield line


@lru_cache(maxsize=8)
def _marks(
    case: Case, station: Station, range_nm: float, in_islands: bool, theme: Theme
) -> tuple[Item, ...]:
    """Return the findings as dots on the track, with numbers where there is room."""
    if case.debrief is None:
        return ()
    scene = _scene(case, station, range_nm, in_islands)
    layout = projection(scene, theme)
    parts = scene.station, scene.islands, scene.airfields, scene.stations
    words = chart(*parts, layout, OVERLAYS & (Overlay.ROSE | Overlay.RINGS), theme).taken
    labels = Labeler((2.0, 2.0, SIZE - 2.0, SIZE - 2.0), list(words))
    flight, size, items = case.debrief.flight, theme.small_size, list[Item]()
    points, _, segment = _flown(case, station, range_nm, theme)
    for line in _lines(points, segment, "", 1.0):
        for here, there in pairwise(line.points):
            labels.block_line(*here, *there, 2.0 * theme.line)
    x, y = layout.to_xy(flight.position)
    for finding in case.findings:
        i = int(np.searchsorted(flight.time_s, finding.time_s).clip(0, flight.time_s.size - 1))
        at = float(x[i]), float(y[i])
        if not all(0.0 < c < SIZE for c in at):
            continue
        places = (
            Text(
                at[0] + away * size * math.sin(math.radians(turn)),
                at[1] - away * size * math.cos(math.radians(turn)),
                f" {finding.number} ",
                1.3 * size,
                theme.text,
            )
            for away in (1.6, 2.4, 3.4)
            for turn in range(0, 360, 30)
        )
        placed = labels.place(places)
        if placed is not None:
            items.append(Line(*at, placed.x, placed.y, theme.text, theme.thin))
            items += number_mark(placed.x, placed.y, finding.number, theme)
        items.append(Circle(*at, 1.8 * theme.line, theme.paper, theme.text, theme.thin))
    return (Group(tuple(items)),) if items else ()
