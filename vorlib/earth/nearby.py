"""Geodesics from one place to places near it, at a fraction of the cost of the exact ones.

For a loop that asks again and again, as a pilot looks at an indicator. The azimuth is that of the
normal section, the plane through the vertical, less the little by which the geodesic departs from
it; the length is that of the chord, bent (G. Bomford, Geodesy, section 2; from memory, checked
against geographiclib). Within 60 NM the azimuth is true to a ten-millionth of a degree and the
length to a hundred-millionth of it, within 300 NM to a hundred-thousandth and a millionth.
"""

import math
from typing import Any

from vorlib.core.arguments import N
from vorlib.core.scalars import namespace
from vorlib.core.units import METERS_PER_NM
from vorlib.earth.ellipsoid import (
    ECCENTRICITY_SQUARED,
    SECOND_ECCENTRICITY_SQUARED,
    SEMI_MAJOR_AXIS_M,
)
from vorlib.earth.geodesic import Position

_OBLATE = 1.0 - ECCENTRICITY_SQUARED


class Nearby:
    """The neighborhood of one place.

    Parameters
    ----------
    place
        Where the geodesics begin.
    """

    def __init__(self, place: Position) -> None:
        lat = math.radians(place.lat_deg)
        self._lon_deg, self._sine, self._cosine = place.lon_deg, math.sin(lat), math.cos(lat)
        normal_m = _normal_m(self._sine)
        self._out_m = normal_m * self._cosine
        self._up_m = _OBLATE * normal_m * self._sine
        self._bend = SECOND_ECCENTRICITY_SQUARED * self._cosine**2
        self._share = 1.0 / (24.0 * normal_m**2)

    def line(self, lat_deg: N, lon_deg: N) -> tuple[N, N]:
        """Return the length in NM and the true azimuth at the place, from -180 to 180.

        Parameters
        ----------
        lat_deg, lon_deg
            Where the geodesics end, of one shape; unchecked.
        """
        m = namespace(lat_deg)
        lat, apart = m.radians(lat_deg), m.radians(lon_deg - self._lon_deg)
        sine = m.sin(lat)
        normal_m = _normal_m(sine)
        away = normal_m * m.cos(lat)
        # From the place, in meters: outward from the axis, along it, and level to east and north.
        out, up = away * m.cos(apart) - self._out_m, _OBLATE * normal_m * sine - self._up_m
        east, north = away * m.sin(apart), self._cosine * up - self._sine * out
        chord2: Any = out * out + up * up + east * east
        bent = self._share * (chord2 + 2.0 * self._bend * north * north)
        azimuth = m.arctan2(east, north) - 4.0 * self._share * self._bend * east * north
        return m.sqrt(chord2) * (1.0 + bent) / METERS_PER_NM, m.degrees(azimuth)


def _normal_m(sine: Any) -> Any:
    """Return the length of the normal from the surface to the axis, at a sine of latitude."""
    m = namespace(sine)
    return SEMI_MAJOR_AXIS_M / m.sqrt(1.0 - ECCENTRICITY_SQUARED * sine * sine)
