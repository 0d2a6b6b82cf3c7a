"""Geodesics from one place to places near it, at a fraction of the cost of the exact ones.

For a loop that asks again and again, as a pilot looks at an indicator. The azimuth is that of the
normal section, the plane through the vertical, less the little by which the geodesic departs from
it; the length is that of the chord, bent (G. Bomford, Geodesy, section 2; from memory, checked
against geographiclib). Within 60 NM the azimuth is true to a ten-millionth of a degree and the
length to a hundred-millionth of it, within 300 NM to a hundred-thousandth and a millionth.
"""

import math
from typing import Any

from vorlib.core.angles import fold_360
from vorlib.core.arguments import N
from vorlib.core.scalars import namespace
from vorlib.core.units import METRES_PER_NM
from vorlib.earth.ellipsoid import (
    ECCENTRICITY_SQUARED,
    SECOND_ECCENTRICITY_SQUARED,
    SEMI_MAJOR_AXIS_M,
)
from vorlib.earth.geodesic import Position


class Nearby:
    """The neighbourhood of one place.

    Parameters
    ----------
    place
        Where the geodesics begin.
    """

    def __init__(self, place: Position) -> None:
        lat = math.radians(place.lat_deg)
        self._lon_deg, self._sine, self._cosine = place.lon_deg, math.sin(lat), math.cos(lat)
        self._radius_m, self._z_m = _normal_m(self._sine)
        self._bend = SECOND_ECCENTRICITY_SQUARED * self._cosine**2

    def line(self, lat_deg: N, lon_deg: N) -> tuple[N, N]:
        """Return the length in NM and the true azimuth at the place, in (0, 360].

        Parameters
        ----------
        lat_deg, lon_deg
            Where the geodesics end, of one shape; unchecked.
        """
        m = namespace(lat_deg)
        lat, apart = m.radians(lat_deg), m.radians(lon_deg - self._lon_deg)
        sine, away = m.sin(lat), m.cos(lat)
        radius, z = _normal_m(sine)
        away = radius * away
        out = away * m.cos(apart) - self._radius_m * self._cosine
        up = z - self._z_m
        east, north = away * m.sin(apart), self._cosine * up - self._sine * out
        chord2: Any = out * out + east * east + up * up
        across2 = m.maximum(east * east + north * north, 1e-300)  # at the place itself: 0 / tiny
        cos2 = north * north / across2
        radius = self._radius_m / (1.0 + self._bend * cos2)
        bent = chord2 / (12.0 * radius * radius)
        metres = m.sqrt(chord2) * (1.0 + bent / 2.0)
        twice_sine = 2.0 * east * north / across2
        azimuth = m.arctan2(east, north) - self._bend * twice_sine * chord2 / (
            12.0 * self._radius_m**2
        )
        return metres / METRES_PER_NM, fold_360(m.degrees(azimuth))


def _normal_m(sine: Any) -> tuple[Any, Any]:
    """Return the length of the normal at a sine of latitude, and the height over the equator."""
    m = namespace(sine)
    radius = SEMI_MAJOR_AXIS_M / m.sqrt(1.0 - ECCENTRICITY_SQUARED * sine * sine)
    return radius, (1.0 - ECCENTRICITY_SQUARED) * radius * sine
