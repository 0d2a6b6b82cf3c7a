"""What a side view shows, as plain values, and its scales."""

from __future__ import annotations

import math
from dataclasses import dataclass

from vorlib.core.arguments import finite, positive, within
from vorlib.core.units import FEET_PER_NM
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.vor.coverage import CONE_HALF_ANGLE_DEG, cone_radius_nm

__all__ = ["HEIGHT", "WIDTH", "ProfileScale", "ProfileScene", "profile_scale"]

WIDTH, HEIGHT = 720.0, 360.0


@dataclass(frozen=True)
class ProfileScene:
    """What a side view shows.

    Attributes
    ----------
    distance_nm
        Distance of the aircraft along its track: negative before the station, positive beyond.
    altitude_ft
        Its altitude above the sea.
    station_elevation_ft
        Altitude of the station's antenna, from which the cone opens.
    half_angle_deg
        Half-angle of the cone of confusion from the vertical, 0 to 89.
    range_nm, top_ft
        Half the distance and the whole altitude that the picture holds.
    station_name
        The name under the station.
    offset_nm
        Distance from the station to the vertical plane of the flight, positive right.
    width, height
        Size of the picture.

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
    offset_nm: float = 0.0
    width: float = WIDTH
    height: float = HEIGHT

    def __post_init__(self) -> None:
        finite("distance_nm", self.distance_nm)
        finite("altitude_ft", self.altitude_ft)
        finite("offset_nm", self.offset_nm)
        finite("station_elevation_ft", self.station_elevation_ft)
        within("half_angle_deg", self.half_angle_deg, 0.0, 89.0, "degrees")
        positive("range_nm", self.range_nm, "NM")
        positive("top_ft", self.top_ft, "ft")

    def half_width_nm(self, altitude_ft: float) -> float:
        """Return half the width of the cone's section at an altitude; 0 where it has none."""
        height_ft = max(altitude_ft - self.station_elevation_ft, 0.0)
        radius_nm = float(cone_radius_nm(height_ft, self.half_angle_deg))
        return math.sqrt(max(radius_nm**2 - self.offset_nm**2, 0.0))

    def altitude_at_ft(self, half_width_nm: float) -> float:
        """Return the altitude at which the cone's section has half a width."""
        radius_nm = math.hypot(half_width_nm, self.offset_nm)
        slope = math.tan(math.radians(self.half_angle_deg))
        return self.station_elevation_ft + radius_nm * FEET_PER_NM / slope


@dataclass(frozen=True)
class ProfileScale:
    """The scales for distance along the track and for altitude."""

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
    """Return the scales of a side view, with room for the names of the axes."""
    left, right = 4.6 * theme.small_size, scene.width - 1.5 * theme.small_size
    sea_y, top_y = scene.height - 3.6 * theme.small_size, 2.6 * theme.small_size
    return ProfileScale(
        (left + right) / 2,
        sea_y,
        (right - left) / (2 * scene.range_nm),
        (sea_y - top_y) / scene.top_ft,
    )
