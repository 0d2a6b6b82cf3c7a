"""Draw a recorded flight from above, to a round scale, with a pattern for each phase."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import numpy as np

from vorlib.core.arguments import FloatArray
from vorlib.debrief.phases import FlightPhase
from vorlib.debrief.recorded import RecordedDebrief
from vorlib.earth.geodesic import Position, direct, inverse
from vorlib.paper.area_plan import plan_frame, points_per_nm
from vorlib.paper.page import PRINT
from vorlib.views.drawing.clipping import clip_polyline
from vorlib.views.drawing.layout import Labeler
from vorlib.views.drawing.picture import Circle, Item, Picture, Point, Polyline, Text
from vorlib.views.drawing.thinning import corners
from vorlib.views.instrument.deviation_strip import LOOKS, minute_step
from vorlib.views.plan.map import area_chart
from vorlib.views.plan.projection import SIZE, StationProjection
from vorlib.views.plan.scene import Coast
from vorlib.vor.receiver import Flag
from vorlib.vor.station import Station

__all__ = ["track_plan"]

# Round scales in finer steps than those of charts, so that the track fills the plan.
SCALES = tuple(
    int(factor * ten)
    for ten in (1_000, 10_000, 100_000, 1_000_000)
    for factor in (10, 12.5, 15, 20, 25, 30, 40, 50, 60, 75)
)
ROOM = 1.1  # factor that leaves room beyond the outermost thing shown
LEAST_NM = 2.0
SHOWN_RADII = 1.5  # farther than this many radii, a station would shrink the plan too much
WITHIN = 0.3  # greatest error of the simplified track, in picture units
BOX = (0.0, 0.0, SIZE, SIZE)
MOST_MARKS = 8


def track_plan(debrief: RecordedDebrief, width: float, coasts: tuple[Coast, ...] = ()) -> Picture:
    """Return the plan of a recorded flight, to be printed at a given width.

    Parameters
    ----------
    debrief
        The flight.
    width
        Printed width in points; the scale is true only at this width.
    coasts
        Islands.
    """
    stations = tuple({id(one.station): one.station for one in debrief.selections}.values())
    center, reach_nm = _extent(debrief, stations)
    fitting = (s for s in SCALES if 2.0 * ROOM * reach_nm * points_per_nm(s) <= width)
    scale = next(fitting, SCALES[-1])
    layout = StationProjection(center, SIZE / 2, SIZE / 2, points_per_nm(scale) * SIZE / width)
    x, y = (np.asarray(value) for value in layout.to_xy(debrief.flight.position))
    base = area_chart(coasts, stations, layout, PRINT)
    labels = Labeler((4.0, 4.0, SIZE - 4.0, SIZE - 4.0), list(base.taken))
    for point in zip(x[::30].tolist(), y[::30].tolist(), strict=True):
        labels.block((point[0] - 2.0, point[1] - 2.0, point[0] + 2.0, point[1] + 2.0))
    return Picture(
        SIZE,
        SIZE,
        (
            *([base.ground] if base.ground.items else []),
            *_lines(debrief, layout),
            *_track(debrief, x, y),
            base.marks,
            *_marks(debrief, x, y, labels),
            *plan_frame(scale, layout),
        ),
        title="The flight from above",
        description=f"True north is up; the scale is 1 to {scale:,}.",
        background=PRINT.sea,
    )


def _extent(debrief: RecordedDebrief, stations: tuple[Station, ...]) -> tuple[Position, float]:
    """Return the middle of the flight, and the distance from it that the plan has to show."""
    place = debrief.flight.position
    lat = np.asarray(place.lat_deg)
    lon = np.unwrap(np.asarray(place.lon_deg), period=360.0)
    middle = Position((lat.min() + lat.max()) / 2.0, (lon.min() + lon.max()) / 2.0 % 360.0)
    flown = max(_reach_nm(middle, place), LEAST_NM)
    shown = [_reach_nm(middle, station.position) for station in stations]
    return middle, max([flown, *(nm for nm in shown if nm <= SHOWN_RADII * flown)])


def _reach_nm(middle: Position, place: Position[Any]) -> float:
    """Return how far places lie from the middle to the north, south, east or west, at most."""
    line = inverse(middle.lat_deg, middle.lon_deg, place.lat_deg, place.lon_deg)
    azimuth = np.radians(line.true_azimuth_deg)
    across = np.maximum(abs(np.sin(azimuth)), abs(np.cos(azimuth)))
    return float(np.max(line.distance_nm * across))


def _lines(debrief: RecordedDebrief, layout: StationProjection) -> Iterator[Item]:
    """Yield the courses that were tracked, each from the station to the farthest point flown."""
    seen = debrief.seen
    for phase in debrief.found.phases:
        part = (seen.time_s >= phase.begin_s) & (seen.time_s <= phase.end_s)
        station = seen.tuned[int(np.argmax(part))]
        radial = phase.course_deg + 180.0 * (phase.flag == Flag.TO)
        far = direct(
            station.position, radial + station.declination_deg, float(seen.distance_nm[part].max())
        )
        ends = [layout.to_xy(place) for place in (station.position, far)]
        points = [(float(x), float(y)) for x, y in ends]
        for segment in clip_polyline(points, BOX):
            yield Polyline(segment, PRINT.ring, 0.8, (8.0, 3.0, 1.5, 3.0))


def _track(debrief: RecordedDebrief, x: FloatArray, y: FloatArray) -> Iterator[Item]:
    segments: list[tuple[FlightPhase, tuple[Point, ...]]] = []
    for span in debrief.spans:
        joined = span.end < x.size and debrief.seen.lasting_s[span.end - 1] > 0.0
        end = span.end + joined  # up to where the next one begins
        if end - span.begin < 2:
            continue
        xs, ys = x[span.begin : end], y[span.begin : end]
        some = corners(xs, ys, WITHIN)
        points = list(zip(xs[some].tolist(), ys[some].tolist(), strict=True))
        segments += [(span.phase, segment) for segment in clip_polyline(points, BOX)]
    for _, segment in segments:
        yield Polyline(segment, PRINT.paper, 7.0)  # a light edge, to stand out
    for phase, segment in sorted(segments, key=lambda one: one[0] is not FlightPhase.PASSAGE):
        look = LOOKS[phase]
        ink = PRINT.track if look.strong else PRINT.ring
        yield Polyline(segment, ink, look.width, look.dash)


def _marks(
    debrief: RecordedDebrief, x: FloatArray, y: FloatArray, labels: Labeler
) -> Iterator[Item]:
    """Yield marks for the minutes along the track, its start and its end."""
    time_s = debrief.seen.time_s
    minutes = float(time_s[-1] - time_s[0]) / 60.0
    step = minute_step(minutes, MOST_MARKS)
    ends = ((0, "start"), (time_s.size - 1, "end"))
    at = [(int(np.searchsorted(time_s, time_s[0] + 60.0 * m)), f"{m} min")
          for m in range(step, math.ceil(minutes), step)]  # fmt: skip
    for i, words in (*ends, *at):
        here = float(x[i]), float(y[i])
        if not all(4.0 < value < SIZE - 4.0 for value in here):
            continue
        radius, bold = (3.4, True) if (i, words) in ends else (2.2, False)
        yield Circle(*here, radius, PRINT.paper, PRINT.text, 1.2)
        words_here = _beside(here, words, bold)
        placed = labels.place(words_here)
        if placed:
            yield placed


def _beside(here: Point, words: str, bold: bool) -> Iterator[Text]:
    for away in (9.0, 16.0):
        for dx, dy, anchor in (
            (away, 0.0, "start"), (-away, 0.0, "end"),
            (0.0, -away - 3.0, "middle"), (0.0, away + 3.0, "middle"),
            (away, -away, "start"), (-away, -away, "end"),
            (away, away, "start"), (-away, away, "end"),
        ):  # fmt: skip
            yield Text(here[0] + dx, here[1] + dy, words, 11.0, PRINT.text, anchor, bold, PRINT.sea)
