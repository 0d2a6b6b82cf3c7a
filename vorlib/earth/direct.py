"""The direct geodesic problem on WGS 84, in closed form, for numbers and arrays.

C. F. F. Karney, "Algorithms for geodesics", Journal of Geodesy 87 (2013), 43-55,
doi:10.1007/s00190-012-0578-z, equations 7, 8, 17, 18, 20, 21 and 23 to 25 (equation numbers from
memory; the coefficients as they stand in the source of geographiclib 2.1). Epsilon is at most
0.0017, and each series ends where the next power of it is lost in the rounding of an arc.
"""

from typing import Any

import numpy as np

from vorlib.core.angles import fold_180
from vorlib.core.arguments import FloatArray
from vorlib.core.blocks import in_blocks
from vorlib.core.scalars import ScalarMath
from vorlib.core.units import METERS_PER_NM
from vorlib.earth.ellipsoid import (
    FLATTENING,
    SECOND_ECCENTRICITY_SQUARED,
    SEMI_MINOR_AXIS_M,
    THIRD_FLATTENING,
    geographiclib,
    reduced_latitude,
)

SEMI_MINOR_AXIS_NM = SEMI_MINOR_AXIS_M / METERS_PER_NM
FARTHEST_NM = 1e6  # 46 times around the earth; beyond, the rounding of the arc is felt


def destination(
    lat_deg: FloatArray,
    lon_deg: FloatArray,
    true_azimuth_deg: FloatArray,
    distance_nm: FloatArray,
    shape: tuple[int, ...],
) -> tuple[FloatArray, FloatArray]:
    """Return latitude and longitude in degrees at the end of geodesics that broadcast to *shape*.

    All are finite; the distance is not negative.
    """
    start = lat_deg, lon_deg, true_azimuth_deg, distance_nm
    if shape == ():
        lat2, lon2 = _far(*start) if distance_nm > FARTHEST_NM else _series(ScalarMath, *start)
        return lat2, lon2
    lat2, lon2 = in_blocks(lambda *block: _series(np, *block), start, shape, 2)
    far = np.broadcast_to(distance_nm > FARTHEST_NM, shape)
    for index in np.argwhere(far):
        at = tuple(index)
        lat2[at], lon2[at] = _far(*(float(np.broadcast_to(a, shape)[at]) for a in start))
    return lat2, lon2


def _series(m: Any, lat_deg: Any, lon_deg: Any, true_azimuth_deg: Any, distance_nm: Any) -> Any:
    """Solve over *m*: latitude and longitude in degrees.

    `u` is the reduced latitude, `a0` the geodesic's azimuth where it crosses the equator, `s` the
    arc from there on the auxiliary sphere, `t` the same with distance made uniform.
    """
    azimuth = m.radians(fold_180(true_azimuth_deg))
    sin_a, cos_a = m.sin(azimuth), m.cos(azimuth)
    sin_u, cos_u = reduced_latitude(lat_deg)
    sin_a0, ahead = cos_u * sin_a, cos_u * cos_a
    cos2_a0 = sin_u * sin_u + ahead * ahead
    root = m.sqrt(1.0 + SECOND_ECCENTRICITY_SQUARED * cos2_a0)
    e = (root - 1.0) / (root + 1.0)
    # Along the equator there is no crossing to count from, and epsilon vanishes with cos2_a0.
    share = 1.0 / m.maximum(cos2_a0, 1e-300)
    sin_2s, cos_2s = 2.0 * sin_u * ahead * share, (ahead * ahead - sin_u * sin_u) * share

    uneven = _sum_of_sines(_distance_coefficients(e), sin_2s, cos_2s)
    e2 = e * e
    arc = uneven + distance_nm / SEMI_MINOR_AXIS_NM * (1.0 - e) / (1.0 + e2 * (0.25 + e2 / 64.0))
    twice_t = _turned(sin_2s, cos_2s, m.sin(2.0 * arc), m.cos(2.0 * arc))
    arc = arc + _sum_of_sines(_reverted_coefficients(e), *twice_t)

    sin_arc, cos_arc = m.sin(arc), m.cos(arc)
    x, y = cos_u * cos_arc - sin_u * cos_a * sin_arc, sin_a * sin_arc
    z = sin_u * cos_arc + ahead * sin_arc
    lat2 = m.arctan2(z, (1.0 - FLATTENING) * m.sqrt(x * x + y * y))

    twice_s2 = _turned(sin_2s, cos_2s, 2.0 * sin_arc * cos_arc, 1.0 - 2.0 * sin_arc * sin_arc)
    mean, swings = _longitude_coefficients(e)
    swing = _sum_of_sines(swings, *twice_s2) - _sum_of_sines(swings, sin_2s, cos_2s)
    lon12 = m.arctan2(y, x) - FLATTENING * sin_a0 * mean * (arc + swing)
    return m.degrees(lat2), fold_180(lon_deg + m.degrees(lon12))


def _distance_coefficients(e: Any) -> tuple[Any, ...]:
    """C1, which turn an arc into a distance."""
    e2 = e * e
    return (
        e * (e2 * (3.0 / 16.0) - 0.5),
        e2 * (e2 / 32.0 - 1.0 / 16.0),
        e * e2 * (-1.0 / 48.0),
        e2 * e2 * (-5.0 / 512.0),
    )


def _reverted_coefficients(e: Any) -> tuple[Any, ...]:
    """C1', which turn a distance into an arc."""
    e2 = e * e
    return (
        e * (0.5 + e2 * (e2 * (205.0 / 1536.0) - 9.0 / 32.0)),
        e2 * (5.0 / 16.0 - e2 * (37.0 / 96.0)),
        e * e2 * (29.0 / 96.0 - e2 * (75.0 / 128.0)),
        e2 * e2 * (539.0 / 1536.0),
        e * e2 * e2 * (3467.0 / 7680.0),
    )


def _longitude_coefficients(e: Any) -> tuple[Any, tuple[Any, ...]]:
    """A3 and C3, which turn an arc into the lag of longitude behind the auxiliary sphere's."""
    n = THIRD_FLATTENING
    third, fourth = -(1.0 + n * (3.0 + n)) / 16.0, -(3.0 + 2.0 * n) / 64.0
    second = (n * (3.0 * n - 1.0) - 2.0) / 8.0
    mean = 1.0 + e * ((n - 1.0) / 2.0 + e * (second + e * (third + e * fourth)))
    e2 = e * e
    swings = (
        e * ((1.0 - n) / 4.0 + e * ((1.0 - n * n) / 8.0 + e * (3.0 / 64.0))),
        e2 * ((2.0 - 3.0 * n) / 32.0 + e * (3.0 / 64.0)),
        e * e2 * (5.0 / 192.0),
    )
    return mean, swings


def _sum_of_sines(coefficients: tuple[Any, ...], sine: Any, cosine: Any) -> Any:
    """Return the sum of c1 sin(x), c2 sin(2 x), ... from sin(x) and cos(x), by Clenshaw."""
    twice = 2.0 * cosine
    total, above = coefficients[-1], 0.0
    for coefficient in coefficients[-2::-1]:
        total, above = coefficient + twice * total - above, total
    return total * sine


def _turned(sine: Any, cosine: Any, sin_by: Any, cos_by: Any) -> tuple[Any, Any]:
    """Return the sine and cosine of the sum of two angles."""
    return sine * cos_by + cosine * sin_by, cosine * cos_by - sine * sin_by


def _far(lat_deg: Any, lon_deg: Any, true_azimuth_deg: Any, distance_nm: Any) -> Any:
    """Return what geographiclib finds."""
    line = geographiclib().Direct(lat_deg, lon_deg, true_azimuth_deg, distance_nm * METERS_PER_NM)
    return line["lat2"], line["lon2"]
