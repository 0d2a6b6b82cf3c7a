"""The WGS 84 ellipsoid: its shape, its radii of curvature, and its exact geodesics one by one."""

import math
from functools import cache
from typing import Any

from vorlib.core.scalars import namespace

# WGS 84 defining constants: NGA.STND.0036, table 3.1 (from memory).
SEMI_MAJOR_AXIS_M = 6378137.0
FLATTENING = 1.0 / 298.257223563
SEMI_MINOR_AXIS_M = SEMI_MAJOR_AXIS_M * (1.0 - FLATTENING)
ECCENTRICITY_SQUARED = FLATTENING * (2.0 - FLATTENING)
SECOND_ECCENTRICITY_SQUARED = ECCENTRICITY_SQUARED / (1.0 - ECCENTRICITY_SQUARED)
THIRD_FLATTENING = FLATTENING / (2.0 - FLATTENING)


def reduced_latitude(lat_deg: Any) -> tuple[Any, Any]:
    """Return the sine and cosine of the reduced latitude."""
    m = namespace(lat_deg)
    lat = m.radians(lat_deg)
    sine, cosine = (1.0 - FLATTENING) * m.sin(lat), m.cos(lat)
    length = m.sqrt(sine * sine + cosine * cosine)
    return sine / length, cosine / length


def meridian_radius_m(lat_rad: Any) -> Any:
    """Return the radius of curvature along the meridian at a latitude in radians, in meters."""
    m = namespace(lat_rad)
    sine = m.sin(lat_rad)
    square = 1.0 - ECCENTRICITY_SQUARED * sine * sine
    return SEMI_MAJOR_AXIS_M * (1.0 - ECCENTRICITY_SQUARED) / (square * m.sqrt(square))


def parallel_radius_m(lat_rad: Any) -> Any:
    """Return the radius of the parallel at a latitude in radians, in meters."""
    m = namespace(lat_rad)
    sine = m.sin(lat_rad)
    return SEMI_MAJOR_AXIS_M * m.cos(lat_rad) / m.sqrt(1.0 - ECCENTRICITY_SQUARED * sine * sine)


def radii_m(lat_rad: float) -> tuple[float, float]:
    """Return `meridian_radius_m` and `parallel_radius_m` at one latitude, in half the time."""
    sine = math.sin(lat_rad)
    square = 1.0 - ECCENTRICITY_SQUARED * sine * sine
    normal = SEMI_MAJOR_AXIS_M / math.sqrt(square)
    return normal * (1.0 - ECCENTRICITY_SQUARED) / square, normal * math.cos(lat_rad)


@cache
def geographiclib() -> Any:
    """Return geographiclib's geodesics on this ellipsoid, loaded only when one asks for them."""
    from geographiclib.geodesic import Geodesic

    return Geodesic(SEMI_MAJOR_AXIS_M, FLATTENING)
