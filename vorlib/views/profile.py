"""The side view: altitude against distance along the track, over the station.

Height and distance cannot share one scale on a page, so the picture states how many times too
tall it is drawn.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from vorlib.checks import finite, positive, within
from vorlib.coverage import CONE_HALF_ANGLE_DEG, cone_radius_nm
from vorlib.units import FEET_PER_NM
from vorlib.views.layout import text_width
from vorlib.views.picture import Group, Item, Line, Picture, Polygon, Polyline, Segments, Text
from vorlib.views.plan_course import HATCH_STEP
from vorlib.views.theme import SCREEN, Theme

__all__ = ["HEIGHT", "WIDTH", "ProfileScale", "ProfileScene", "profile", "profile_scale"]

WIDTH, HEIGHT = 720.0, 360.0
DISTANCE_STEPS_NM = (0.5, 1.0, 2.0, 5.0, 10.0, 20.0)
HEIGHT_STEPS_FT = (500.0, 1000.0, 2000.0, 5000.0, 10000.0)

# An aircraft from the side, nose to the right, about its middle.
_SIDE = (
    (25.0, 1.0), (21.0, -2.5), (14.0, -3.5), (10.0, -8.0), (2.0, -8.5), (-3.0, -4.5),
    (-15.0, -3.0), (-19.0, -12.0), (-24.0, -12.0), (-23.0, -1.0), (-8.0, 4.5), (17.0, 5.0),
    (23.0, 4.0),
)  # fmt: skip
_WING = ((11.0, -0.5), (-3.0, -0.5), (-5.0, 1.5), (10.0, 1.5))


@dataclass(frozen=True)
class ProfileScene:
    """What a side view shows.

    Attributes
    ----------
    distance_nm
        Where the aircraft is along its track: negative before the station, positive beyond.
    altitude_ft
        Its altitude above the sea.
    station_elevation_ft
        Altitude of the station's antenna, from which the cone opens.
    half_angle_deg
        Half-angle of the cone of confusion from the vertical, 0 to 89.
    range_nm, top_ft
        Half the distance and all the altitude the picture holds.
    station_name
        The name under the station.

    Raises
    ------
    ValueError
        If a quantity is not finite or out of range.
    """

    distance_nm: float
    altitude_ft: float
    station_elevation_ft: float = 0.0
    half_angle_deg: float = CONE_HALF_ANGLE_DEG
    range_nm: float = 6.0
    top_ft: float = 10000.0
    station_name: str = ""

    def __post_init__(self) -> None:
        finite("distance_nm", self.distance_nm)
        finite("altitude_ft", self.altitude_ft)
        finite("station_elevation_ft", self.station_elevation_ft)
        within("half_angle_deg", self.half_angle_deg, 0.0, 89.0, "degrees")
        positive("range_nm", self.range_nm, "NM")
        positive("top_ft", self.top_ft, "ft")


@dataclass(frozen=True)
class ProfileScale:
    """How distance along the track and altitude lie on the picture."""

    station_x: float
    sea_y: float
    units_per_nm: float
    units_per_ft: float

    def to_xy(self, distance_nm: float, altitude_ft: float) -> tuple[float, float]:
        """Return picture coordinates."""
        x = self.station_x + distance_nm * self.units_per_nm
        return x, self.sea_y - altitude_ft * self.units_per_ft

    def to_distance_altitude(self, x: float, y: float) -> tuple[float, float]:
        """Return distance in NM and altitude in feet at picture coordinates, for dragging."""
        distance_nm = (x - self.station_x) / self.units_per_nm
        return distance_nm, (self.sea_y - y) / self.units_per_ft

    @property
    def vertical_exaggeration(self) -> float:
        """How many times heights are drawn taller than distances."""
        return self.units_per_ft * FEET_PER_NM / self.units_per_nm


def profile_scale(scene: ProfileScene, theme: Theme = SCREEN) -> ProfileScale:
    """Return the scales of a side view: room is left for the axes' names."""
    left, right = 4.6 * theme.small_size, WIDTH - 1.5 * theme.small_size
    sea_y, top_y = HEIGHT - 3.6 * theme.small_size, 2.6 * theme.small_size
    return ProfileScale(
        (left + right) / 2,
        sea_y,
        (right - left) / (2 * scene.range_nm),
        (sea_y - top_y) / scene.top_ft,
    )


def profile(scene: ProfileScene, theme: Theme = SCREEN) -> Picture:
    """Return the side view of a scene; the aircraft can be grabbed as "aircraft"."""
    scale = profile_scale(scene, theme)
    return Picture(
        WIDTH,
        HEIGHT,
        (
            *_axes(scene, scale, theme),
            *_cone(scene, scale, theme),
            *_station(scene, scale, theme),
            *_aircraft(scene, scale, theme),
        ),
        title="Side view over the station",
        description=_description(scene),
        background=theme.paper,
    )


def _description(scene: ProfileScene) -> str:
    side = "before" if scene.distance_nm < 0 else "beyond"
    height_ft = max(scene.altitude_ft - scene.station_elevation_ft, 0.0)
    radius_nm = float(cone_radius_nm(height_ft, scene.half_angle_deg))
    inside = "inside" if abs(scene.distance_nm) <= radius_nm else "outside"
    return (
        f"The aircraft is {abs(scene.distance_nm):.1f} NM {side} the station at "
        f"{scene.altitude_ft:.0f} ft, {inside} the cone of confusion, which is "
        f"{radius_nm:.1f} NM in radius at that height."
    )


def _step(whole: float, steps: tuple[float, ...], most: int) -> float:
    return next((step for step in steps if whole / step <= most), steps[-1])


def _axes(scene: ProfileScene, scale: ProfileScale, theme: Theme) -> Iterator[Item]:
    left, top = scale.to_xy(-scene.range_nm, scene.top_ft)
    right, sea = scale.to_xy(scene.range_nm, 0.0)
    yield Polygon(((left, top), (right, top), (right, sea), (left, sea)), theme.sea)
    size, fewer = theme.small_size, 1 if theme.symbol < 1.3 else 2
    step_ft = _step(scene.top_ft, HEIGHT_STEPS_FT, 10 // fewer)
    heights = [i * step_ft for i in range(math.floor(scene.top_ft / step_ft) + 1)]
    levels = [scale.to_xy(0.0, h)[1] for h in heights]
    yield Segments(tuple((left, y, right, y) for y in levels[1:]), theme.ring, theme.thin, (2, 5))
    yield Line(left, sea, right, sea, theme.rose, theme.line)
    for height, y in zip(heights, levels, strict=True):
        yield Text(left - 0.5 * size, y, f"{height:g}", size, theme.text, "end")
    yield Text(4.0, 0.9 * size, "altitude, ft", size, theme.text, "start")
    step_nm = _step(scene.range_nm, DISTANCE_STEPS_NM, 6 // fewer)
    count = math.floor(scene.range_nm / step_nm)
    distances = [i * step_nm for i in range(-count, count + 1)]
    places = [(scale.to_xy(d, 0.0)[0], d) for d in distances]
    yield Segments(tuple((x, sea, x, sea + 6.0) for x, _ in places), theme.rose, theme.line)
    for x, distance in places:
        yield Text(x, sea + 6.0 + 0.8 * size, f"{abs(distance):g}", size, theme.text)
    foot = HEIGHT - 0.9 * size
    yield Text(left, foot, "NM before", size, theme.text, "start")
    yield Text(right, foot, "NM beyond", size, theme.text, "end")
    factor = f"heights drawn {scale.vertical_exaggeration:.1f} times too tall"
    yield Text(right, 0.9 * size, factor, size, theme.text, "end")


def _cone(scene: ProfileScene, scale: ProfileScale, theme: Theme) -> Iterator[Item]:
    """Draw the cone as far up as the picture goes, or out as far as it is wide."""
    base = scene.station_elevation_ft
    tangent = math.tan(math.radians(scene.half_angle_deg))
    if base >= scene.top_ft or tangent == 0.0:
        return
    to_side_ft = scene.range_nm * FEET_PER_NM / tangent
    rim_ft = min(scene.top_ft, base + to_side_ft)
    rim_nm = (rim_ft - base) / FEET_PER_NM * tangent
    apex, left, right = (
        scale.to_xy(d, h) for d, h in ((0.0, base), (-rim_nm, rim_ft), (rim_nm, rim_ft))
    )
    top = [scale.to_xy(side * rim_nm, scene.top_ft) for side in (1.0, -1.0)]
    yield Polygon((apex, right, *top, left), theme.cone, opacity=0.12)
    yield Segments(_bars(apex, left, right, top[0][1]), theme.cone, theme.thin)
    dash = (0.1, 3.0 * theme.line)
    yield Polyline((left, apex, right), theme.cone, 1.5 * theme.line, dash)
    words = ("cone of", "confusion", f"{scene.half_angle_deg:g}° each way")
    size, rim_x = theme.small_size, top[0][0]
    beside = WIDTH - rim_x - size > max(text_width(line, size, True) for line in words)
    x, anchor = (rim_x + size, "start") if beside else (apex[0], "middle")
    for number, line in enumerate(words):
        y = top[0][1] + (1.0 + 1.4 * number) * size
        yield Text(x, y, line, size, theme.cone, anchor, True, theme.sea)


def _bars(
    apex: tuple[float, float], left: tuple[float, float], right: tuple[float, float], top: float
) -> tuple[tuple[float, float, float, float], ...]:
    """Hatch the cone with upright lines."""
    half, rise = right[0] - apex[0], apex[1] - right[1]
    count = int(half / HATCH_STEP)
    offsets = [HATCH_STEP * i for i in range(-count, count + 1)]
    return tuple(
        (apex[0] + d, apex[1] - rise * abs(d) / half, apex[0] + d, top) for d in offsets if half
    )


def _station(scene: ProfileScene, scale: ProfileScale, theme: Theme) -> Iterator[Item]:
    x, y = scale.to_xy(0.0, scene.station_elevation_ft)
    sea, wide = scale.sea_y, 14.0 * theme.symbol
    if y < sea - 1.0:
        yield Polygon(
            (
                (x - 1.5 * wide, sea),
                (x - 0.5 * wide, y),
                (x + 0.5 * wide, y),
                (x + 1.5 * wide, sea),
            ),
            theme.land,
            theme.coast,
            theme.thin,
        )
    mast = 7.0 * theme.symbol
    yield Polygon(((x - mast, y), (x, y - 1.6 * mast), (x + mast, y)), theme.station)
    if scene.station_name:
        size = theme.small_size
        side, anchor = (1.0, "start") if scene.distance_nm < 0 else (-1.0, "end")
        at = x + side * 2.0 * wide, sea - size
        yield Text(*at, scene.station_name, size, theme.text, anchor, True, theme.sea)


def _aircraft(scene: ProfileScene, scale: ProfileScale, theme: Theme) -> Iterator[Item]:
    held_nm = min(max(scene.distance_nm, -scene.range_nm), scene.range_nm)
    held_ft = min(max(scene.altitude_ft, 0.0), scene.top_ft)
    x, y = scale.to_xy(held_nm, held_ft)
    dash = (5 * theme.line, 3.5 * theme.line)
    yield Line(x, y, x, scale.sea_y, theme.aircraft, theme.line, dash)

    def shape(outline: tuple[tuple[float, float], ...], fill: str) -> Polygon:
        points = tuple((theme.symbol * a, theme.symbol * b) for a, b in outline)
        return Polygon(points, fill, theme.paper, theme.line)

    label = f"Aircraft, {scene.distance_nm:.1f} NM along the track at {scene.altitude_ft:.0f} ft"
    body, wing = shape(_SIDE, theme.aircraft), shape(_WING, theme.paper)
    yield Group((body, wing), x, y, grab="aircraft", label=label)
