"""The projection of a plan view: azimuthal equidistant about the station, true north up."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Any, overload

from vorlib.core.arguments import FloatArray, N, finite
from vorlib.core.scalars import namespace
from vorlib.earth.geodesic import Position, direct
from vorlib.earth.nearby import Nearby
from vorlib.views.drawing.layout import Box
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.views.plan.scene import PlanScene

__all__ = ["FRAME", "SIZE", "StationProjection", "projection", "rose_radius"]

SIZE = 480.0  # width and height of a plan view
FRAME: Box = (0.0, 0.0, SIZE, SIZE)


@dataclass(frozen=True)
class StationProjection:
    """Azimuthal equidistant projection about `center`, which is at (x, y), true north up."""

    center: Position
    x: float
    y: float
    units_per_nm: float

    def to_xy(self, place: Position[N]) -> tuple[N, N]:
        """Return picture coordinates of one place or an array of places.

        `Nearby` computes them to a hundredth of a unit over the range of any map.
        """
        distance_nm, azimuth_deg = self._nearby.line(place.lat_deg, place.lon_deg)
        return self.polar_to_xy(azimuth_deg, distance_nm)

    @cached_property
    def _nearby(self) -> Nearby:
        return Nearby(self.center)

    @overload
    def polar_to_xy(self, true_azimuth_deg: float, distance_nm: float) -> tuple[float, float]: ...
    @overload
    def polar_to_xy(
        self, true_azimuth_deg: FloatArray, distance_nm: float | FloatArray
    ) -> tuple[FloatArray, FloatArray]: ...
    def polar_to_xy(self, true_azimuth_deg: Any, distance_nm: Any) -> tuple[Any, Any]:
        """Return picture coordinates of the point at an azimuth and distance from the center."""
        m = namespace(true_azimuth_deg, distance_nm)
        azimuth = m.radians(true_azimuth_deg)
        radius = distance_nm * self.units_per_nm
        return self.x + radius * m.sin(azimuth), self.y - radius * m.cos(azimuth)

    def to_position(self, x: float, y: float, altitude_ft: float = 0.0) -> Position:
        """Return the position of a point in picture coordinates, at an altitude in feet."""
        east, south = finite("x", x) - self.x, finite("y", y) - self.y
        azimuth_deg = math.degrees(math.atan2(east, -south))
        place = direct(self.center, azimuth_deg, math.hypot(east, south) / self.units_per_nm)
        return place.at_altitude(altitude_ft)


def rose_radius(theme: Theme = SCREEN) -> float:
    """Return the radius of the compass rose in picture units, with room outside for numerals."""
    return SIZE / 2 - 2.1 * theme.small_size - 5.0


def projection(scene: PlanScene, theme: Theme = SCREEN) -> StationProjection:
    """Return the projection of a scene, for drawing and for dragging."""
    scale = rose_radius(theme) / scene.range_nm
    return StationProjection(scene.station.position, SIZE / 2, SIZE / 2, scale)
