"""What the pictures of a fix show, as plain values, and their projections."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from vorlib.core.arguments import positive
from vorlib.earth.geodesic import Position, Positions
from vorlib.views.plan.projection import SIZE, StationProjection
from vorlib.views.plan.scene import Coast
from vorlib.vor.station import Station

__all__ = [
    "CLOSE",
    "CLOSE_RANGES_NM",
    "DistanceRing",
    "FixScene",
    "PositionLine",
    "closeup_projection",
    "map_projection",
]

CLOSE = 360.0  # width and height of the enlarged part
# By the distance from the middle of the enlarged part to its edge: the length of its scale bar.
CLOSE_RANGES_NM = {0.5: 0.2, 1.0: 0.5, 2.0: 1.0, 5.0: 2.0, 10.0: 5.0, 20.0: 10.0, 40.0: 20.0}
REACH_NM = np.linspace(0.0, 120.0, 7)  # points on a radial, close enough to join by straight lines
# Only the map shows a place farther from the fix than this, or than so many times its area.
ASIDE_NM, ASIDE_AREAS = 20.0, 3.0


@dataclass(frozen=True)
class PositionLine:
    """A radial, and how far it may be off to either side."""

    station: Station
    radial_deg: float
    bound_deg: float

    @cached_property
    def places(self) -> Positions:
        """Places along the left bound, the radial and the right bound, of shape (3, n)."""
        off_deg = np.array([[-self.bound_deg], [0.0], [self.bound_deg]])
        return self.station.position_on(self.radial_deg + off_deg, REACH_NM)


@dataclass(frozen=True)
class DistanceRing:
    """A circle about a station, and the least and greatest distance that it may stand for."""

    station: Station
    distance_nm: float
    name: str
    dashed: bool = False
    band_nm: tuple[float, float] | None = None


@dataclass(frozen=True, eq=False)
class FixScene:
    """What the pictures of a fix show.

    Attributes
    ----------
    fix
        The fix.
    aircraft
        Where the aircraft is.
    lines, rings
        The radials and the DME circles.
    fix_name
        The label of the fix.
    others
        Other possible places, each with its label.
    area, ellipse
        Outlines of the area within the bounds and of that of 95 percent of fixes, or None.
    triangle
        The corners at which three radials cross in pairs, or None.
    middle, range_nm
        The middle of the map and the distance from it to the edges.
    islands, stations
        The map.
    """

    fix: Position
    aircraft: Position
    lines: tuple[PositionLine, ...]
    middle: Position
    rings: tuple[DistanceRing, ...] = ()
    fix_name: str = "fix"
    others: tuple[tuple[str, Position], ...] = ()
    area: Positions | None = None
    ellipse: Positions | None = None
    triangle: Positions | None = None
    range_nm: float = 44.0
    islands: tuple[Coast, ...] = ()
    stations: tuple[Station, ...] = ()

    def __post_init__(self) -> None:
        positive("range_nm", self.range_nm, "NM")


def map_projection(scene: FixScene) -> StationProjection:
    """Return the projection of the map, for drawing and for dragging."""
    return StationProjection(scene.middle, SIZE / 2, SIZE / 2, SIZE / 2 / scene.range_nm)


def closeup_projection(scene: FixScene) -> StationProjection:
    """Return the projection of the enlarged part: the fix is in the middle, all areas inside."""
    scale = CLOSE / 2 / _close_range_nm(scene)
    return StationProjection(scene.fix, CLOSE / 2, CLOSE / 2, scale)


def _close_range_nm(scene: FixScene) -> float:
    """Return the distance from the middle of the enlarged part to its edge, a round number."""
    near = StationProjection(scene.fix, 0.0, 0.0, 1.0)

    def reach(places: Position[Any]) -> float:
        return float(np.max(np.abs(near.to_xy(places))))

    outlines = scene.area, scene.ellipse, scene.triangle
    areas = [reach(outline) for outline in outlines if outline is not None]
    farthest = min(ASIDE_NM, ASIDE_AREAS * max(areas, default=math.inf))
    singles = [reach(place) for place in (scene.aircraft, *(place for _, place in scene.others))]
    reaches = areas + [far for far in singles if far <= farthest]
    reaches += [
        math.radians(line.bound_deg) * float(line.station.distance_nm(scene.fix))
        for line in scene.lines
    ]
    fitting = (r for r in CLOSE_RANGES_NM if 1.15 * max(reaches) <= r)
    return next(fitting, max(CLOSE_RANGES_NM))
