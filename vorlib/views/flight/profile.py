"""The side view: altitude against distance along the track, over a station or beside it.

What is drawn is the section through the vertical plane of the flight. Beside the station it cuts
the cone in a hyperbola, which begins higher up than the cone does.

Height and distance cannot share one scale on a page, so the picture states how many times too
tall it is drawn.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from vorlib.core.words import rounded
from vorlib.views.drawing.layout import text_width
from vorlib.views.drawing.picture import (
    Group,
    Item,
    Line,
    Picture,
    Polygon,
    Polyline,
    Segments,
    Text,
)
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.views.flight.profile_scene import (
    HEIGHT,
    WIDTH,
    ProfileScale,
    ProfileScene,
    profile_scale,
)
from vorlib.views.plan.course import HATCH_STEP

__all__ = ["HEIGHT", "WIDTH", "ProfileScale", "ProfileScene", "profile", "profile_scale"]

THROUGH_NM = 0.005  # a section this near runs through the station
SECTION_POINTS = 16  # of each branch of the hyperbola
DISTANCE_STEPS_NM = (0.5, 1.0, 2.0, 5.0, 10.0, 20.0)
HEIGHT_STEPS_FT = (500.0, 1000.0, 2000.0, 5000.0, 10000.0)

# An aircraft from the side, nose to the right, about its middle.
_SIDE = (
    (25.0, 1.0), (21.0, -2.5), (14.0, -3.5), (10.0, -8.0), (2.0, -8.5), (-3.0, -4.5),
    (-15.0, -3.0), (-19.0, -12.0), (-24.0, -12.0), (-23.0, -1.0), (-8.0, 4.5), (17.0, 5.0),
    (23.0, 4.0),
)  # fmt: skip
_WING = ((11.0, -0.5), (-3.0, -0.5), (-5.0, 1.5), (10.0, 1.5))


def profile(scene: ProfileScene, theme: Theme = SCREEN) -> Picture:
    """Return the side view of a scene; the aircraft can be grabbed as "aircraft"."""
    scale = profile_scale(scene, theme)
    return Picture(
        scene.width,
        scene.height,
        (
            *_axes(scene, scale, theme),
            *_cone(scene, scale, theme),
            *_words(scene, scale, theme),
            *_station(scene, scale, theme),
            *_aircraft(scene, scale, theme),
        ),
        title="Side view over the station",
        description=_description(scene),
        background=theme.paper,
    )


def _description(scene: ProfileScene) -> str:
    side = "before" if scene.distance_nm < 0 else "beyond"
    half_nm = scene.half_width_nm(scene.altitude_ft)
    inside = "inside" if abs(scene.distance_nm) < half_nm else "outside"
    section = " ".join(_section(scene))
    where = f"This is the {section}. " if section else ""
    away = rounded(abs(scene.distance_nm))
    place = f"{away} NM {side} the station" if away != "0" else "over the station"
    reach = rounded(half_nm)
    cone = f", which reaches {reach} NM each way at that height" if reach != "0" else ""
    return (
        f"{where}The aircraft is {place} at {scene.altitude_ft:,.0f} ft, {inside} the cone of "
        f"confusion{cone}."
    )


def _section(scene: ProfileScene) -> tuple[str, ...]:
    """Return which section this is, in short lines; none where it runs through the station."""
    if abs(scene.offset_nm) < THROUGH_NM:
        return ()
    return "section", f"{rounded(abs(scene.offset_nm))} NM", "beside", "the station"


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
    foot = scene.height - 0.9 * size
    yield Text(left, foot, "NM before", size, theme.text, "start")
    yield Text(right, foot, "NM beyond", size, theme.text, "end")
    times = f"{scale.vertical_exaggeration:.1f}"
    factor = f"heights drawn {times} times too tall"
    if text_width(f"altitude, ft {factor}", size) > right:
        factor = f"heights x {times}"
    yield Text(right, 0.9 * size, factor, size, theme.text, "end")


def _cone(scene: ProfileScene, scale: ProfileScale, theme: Theme) -> Iterator[Item]:
    """Draw the cone's section as far up as the picture goes, or out as far as it is wide."""
    rim_nm = min(scene.half_width_nm(scene.top_ft), scene.range_nm)
    if rim_nm == 0.0:
        return
    steps = SECTION_POINTS if scene.offset_nm else 1  # through the station its sides are straight
    widths = [rim_nm * i / steps for i in range(-steps, steps + 1)]
    sides = tuple(scale.to_xy(w, scene.altitude_at_ft(abs(w))) for w in widths)
    top_y = scale.to_xy(0.0, scene.top_ft)[1]
    corners = (sides[-1][0], top_y), (sides[0][0], top_y)
    yield Polygon((*sides, *corners), theme.cone, opacity=0.12)
    yield Segments(_bars(scene, scale, rim_nm), theme.cone, theme.thin)
    dash = (0.1, 3.0 * theme.line)
    yield Polyline(sides, theme.cone, 1.5 * theme.line, dash)


def _bars(
    scene: ProfileScene, scale: ProfileScale, rim_nm: float
) -> tuple[tuple[float, float, float, float], ...]:
    """Hatch the section with upright lines."""
    step_nm = HATCH_STEP / scale.units_per_nm
    count = int(rim_nm / step_nm)
    feet = [(i * step_nm, scene.altitude_at_ft(abs(i) * step_nm)) for i in range(-count, count + 1)]
    ends = [(scale.to_xy(w, ft), scale.to_xy(w, scene.top_ft)) for w, ft in feet]
    return tuple((*low, *high) for low, high in ends)


def _words(scene: ProfileScene, scale: ProfileScale, theme: Theme) -> Iterator[Item]:
    """Name the cone and the section, on either side of it or, where it is narrow, upon it."""
    rim_nm = min(scene.half_width_nm(scene.top_ft), scene.range_nm)
    cone = ("cone of", "confusion", f"to {scene.half_angle_deg:g}°") if rim_nm else ()
    section, size = _section(scene), theme.small_size
    (left, top), (right, _) = (scale.to_xy(d, scene.top_ft) for d in (-scene.range_nm, rim_nm))
    left, right = left + size / 4, right + size / 2
    widest = max((text_width(line, size, True) for line in cone), default=0.0)
    if right + widest < scene.width:
        columns = (right, "start", 0, cone), (left, "start", 0, section)
    else:
        middle = scale.station_x
        columns = (middle, "middle", 0, cone), (middle, "middle", len(cone), section)
    for x, anchor, first, lines in columns:
        ink = theme.cone if lines is cone else theme.text
        for number, line in enumerate(lines, first):
            y = top + (1.0 + 1.4 * number) * size
            yield Text(x, y, line, size, ink, anchor, True, theme.sea)


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

    label = (
        f"Aircraft, {rounded(scene.distance_nm)} NM along the track at {scene.altitude_ft:,.0f} ft"
    )
    body, wing = shape(_SIDE, theme.aircraft), shape(_WING, theme.paper)
    yield Group((body, wing), x, y, grab="aircraft", label=label)
