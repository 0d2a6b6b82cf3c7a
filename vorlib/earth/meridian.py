"""Distance along a meridian, and the latitude where it leads.

F. R. Helmert's series in the third flattening, to its fourth power (from memory, checked against
geographiclib): exact to the rounding of a latitude.
"""

from typing import Any

from vorlib.core.scalars import namespace
from vorlib.earth.ellipsoid import SEMI_MAJOR_AXIS_M, SEMI_MINOR_AXIS_M, THIRD_FLATTENING

_N = THIRD_FLATTENING

# Of the circle that is as long as the meridian.
RADIUS_M = (SEMI_MAJOR_AXIS_M + SEMI_MINOR_AXIS_M) / 2.0 * (1.0 + _N**2 / 4.0 + _N**4 / 64.0)

# Coefficients of sin(2 x), sin(4 x), sin(6 x), sin(8 x).
_TO_ARC = (
    -3.0 / 2.0 * _N + 9.0 / 16.0 * _N**3,
    15.0 / 16.0 * _N**2 - 15.0 / 32.0 * _N**4,
    -35.0 / 48.0 * _N**3,
    315.0 / 512.0 * _N**4,
)
_TO_LATITUDE = (
    3.0 / 2.0 * _N - 27.0 / 32.0 * _N**3,
    21.0 / 16.0 * _N**2 - 55.0 / 32.0 * _N**4,
    151.0 / 96.0 * _N**3,
    1097.0 / 512.0 * _N**4,
)


def meridian_m(lat_rad: Any) -> Any:
    """Return the meters along the meridian from the equator to a latitude, positive north."""
    return RADIUS_M * _bent(lat_rad, _TO_ARC)


def latitude_rad(meters: Any) -> Any:
    """Return the latitude in radians at a distance along the meridian from the equator."""
    return _bent(meters / RADIUS_M, _TO_LATITUDE)


def _bent(x: Any, coefficients: tuple[float, float, float, float]) -> Any:
    """Return x + c1 sin(2 x) + c2 sin(4 x) + ..., by Clenshaw's sum."""
    m = namespace(x)
    first, second, third, fourth = coefficients
    twice = 2.0 * m.cos(2.0 * x)
    three = third + twice * fourth
    two = second + twice * three - fourth
    return x + (first + twice * two - three) * m.sin(2.0 * x)
