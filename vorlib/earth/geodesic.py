"""Positions on the WGS 84 ellipsoid, and the geodesics between them.

Distances are nautical miles along the ellipsoid; azimuths are true. `inverse` is vectorized
(T. Vincenty, "Direct and inverse solutions of geodesics on the ellipsoid", Survey Review 23 (176),
1975, equations 3, 4, 6, 10, 11 and 13 to 21; from memory, checked against geographiclib), with its
fixed point found by the secant method, and asks geographiclib for the nearly antipodal pairs where
the series does not converge.
"""

from dataclasses import dataclass
from typing import Any, Generic, NamedTuple, TypeAlias, overload

import numpy as np
from numpy.typing import ArrayLike

from vorlib.core.angles import fold_180, fold_360
from vorlib.core.arguments import (
    FloatArray,
    N,
    bounded,
    broadcast_shape,
    finite,
    in_one_shape,
    not_negative,
    within,
)
from vorlib.core.blocks import in_blocks
from vorlib.core.scalars import ScalarMath, namespace
from vorlib.core.units import METERS_PER_NM
from vorlib.earth.direct import destination
from vorlib.earth.ellipsoid import (
    FLATTENING,
    SEMI_MAJOR_AXIS_M,
    SEMI_MINOR_AXIS_M,
    geographiclib,
    meridian_radius_m,
    parallel_radius_m,
    reduced_latitude,
)

LONGITUDE_TOLERANCE_RAD = 1e-14  # 0.06 micrometers at the equator
MAXIMUM_ROUNDS = 8


@dataclass(frozen=True, eq=False)
class _Position(Generic[N]):
    lat_deg: N
    lon_deg: N
    altitude_ft: N


class Position(_Position[N]):
    """One place, in floats, or many, in arrays of one shape: `Positions`.

    Parameters
    ----------
    lat_deg, lon_deg
        WGS 84 latitude from -90 to 90 and longitude from -360 to 360, positive north and east.
        The longitude is kept in (-180, 180].
    altitude_ft
        Height above mean sea level in feet; for a station, the elevation of its antenna.

    Raises
    ------
    ValueError
        If a number is not finite or out of range, or the shapes do not broadcast.
    """

    @overload
    def __init__(
        self: "Position[float]", lat_deg: float, lon_deg: float, altitude_ft: float = 0.0
    ) -> None: ...
    @overload
    def __init__(
        self: "Positions", lat_deg: ArrayLike, lon_deg: ArrayLike, altitude_ft: ArrayLike = 0.0
    ) -> None: ...
    def __init__(self, lat_deg: Any, lon_deg: Any, altitude_ft: Any = 0.0) -> None:
        lat = within("lat_deg", lat_deg, -90.0, 90.0, "degrees")
        lon = within("lon_deg", lon_deg, -360.0, 360.0, "degrees")
        altitude = bounded("altitude_ft", altitude_ft, "ft")
        _settle(self, lat, fold_180(lon), altitude)

    @overload
    def at_altitude(self: "Position[float]", altitude_ft: float) -> "Position[float]": ...
    @overload
    def at_altitude(self: "Position[Any]", altitude_ft: ArrayLike) -> "Positions": ...
    def at_altitude(self: "Position[Any]", altitude_ft: ArrayLike) -> "Position[Any]":
        """Return the same places at another altitude in feet."""
        return _position(self.lat_deg, self.lon_deg, bounded("altitude_ft", altitude_ft, "ft"))

    @property
    def shape(self) -> tuple[int, ...]:
        """The common shape of the places; () for one place."""
        return () if isinstance(self.lat_deg, float) else self.lat_deg.shape


Positions: TypeAlias = Position[FloatArray]


def _settle(position: Position[Any], lat_deg: Any, lon_deg: Any, altitude_ft: Any) -> None:
    """Set a position's numbers, already checked and folded, in one shape."""
    lat, lon, altitude = in_one_shape(lat_deg=lat_deg, lon_deg=lon_deg, altitude_ft=altitude_ft)
    _Position.__init__(position, lat, lon, altitude)


def _position(lat_deg: Any, lon_deg: Any, altitude_ft: Any) -> Position[Any]:
    """Return a position of numbers that are already checked and folded."""
    position: Position[Any] = object.__new__(Position)
    _settle(position, lat_deg, lon_deg, altitude_ft)
    return position


class Inverse(NamedTuple, Generic[N]):
    """The geodesic between two places: length, and true azimuth (0, 360] at either end."""

    distance_nm: N
    true_azimuth_deg: N
    true_azimuth_end_deg: N


@overload
def inverse(lat1_deg: float, lon1_deg: float, lat2_deg: float, lon2_deg: float) -> Inverse: ...
@overload
def inverse(
    lat1_deg: ArrayLike, lon1_deg: ArrayLike, lat2_deg: ArrayLike, lon2_deg: ArrayLike
) -> Inverse[FloatArray]: ...
def inverse(
    lat1_deg: ArrayLike, lon1_deg: ArrayLike, lat2_deg: ArrayLike, lon2_deg: ArrayLike
) -> Inverse[Any]:
    """Return the shortest geodesic from the first place to the second.

    All arguments are degrees and broadcast together. Between coinciding places the azimuth has no
    meaning and is given as 360; at a pole azimuths count from the meridian of the longitude given.

    Raises
    ------
    ValueError
        If a number is not finite, a latitude beyond 90, or the shapes do not broadcast.
    """
    lat1 = within("lat1_deg", lat1_deg, -90.0, 90.0, "degrees")
    lat2 = within("lat2_deg", lat2_deg, -90.0, 90.0, "degrees")
    lon1, lon2 = finite("lon1_deg", lon1_deg), finite("lon2_deg", lon2_deg)
    return _inverse(lat1, lon1, lat2, lon2)


@overload
def between(start: Position, end: Position) -> Inverse: ...
@overload
def between(start: Position, end: Positions) -> Inverse[FloatArray]: ...
@overload
def between(start: Positions, end: Position[Any]) -> Inverse[FloatArray]: ...
def between(start: Position[Any], end: Position[Any]) -> Inverse[Any]:
    """Return the shortest geodesic from one position to another, as `inverse`."""
    return _inverse(start.lat_deg, start.lon_deg, end.lat_deg, end.lon_deg)


@overload
def direct(position: Position, true_azimuth_deg: float, distance_nm: float) -> Position: ...
@overload
def direct(
    position: Position[Any], true_azimuth_deg: ArrayLike, distance_nm: ArrayLike
) -> Positions: ...
def direct(
    position: Position[Any], true_azimuth_deg: ArrayLike, distance_nm: ArrayLike
) -> Position[Any]:
    """Return the place reached from *position* along a geodesic, at the same altitude.

    Parameters broadcast. Any azimuth is wrapped; a geodesic may go around the earth.

    Raises
    ------
    ValueError
        If a number is not finite, or the distance negative.
    """
    azimuth = finite("true_azimuth_deg", true_azimuth_deg)
    distance = not_negative("distance_nm", distance_nm, "NM")
    lat, lon = position.lat_deg, position.lon_deg
    shape = broadcast_shape(lat=lat, lon=lon, true_azimuth_deg=azimuth, distance_nm=distance)
    lat2, lon2 = destination(lat, lon, azimuth, distance, shape)
    return Position(lat2, lon2, position.altitude_ft)


@overload
def shifted(position: Position, east_nm: float, north_nm: float) -> Position: ...
@overload
def shifted(
    position: Position[Any], east_nm: float | FloatArray, north_nm: float | FloatArray
) -> Positions: ...
def shifted(position: Position[Any], east_nm: Any, north_nm: Any) -> Position[Any]:
    """Return the place a little east and north of *position*, at its altitude.

    By middle latitude: for the steps of a search, which measures again where it arrives.
    """
    m = namespace(position.lat_deg, east_nm, north_nm)
    lat = m.radians(position.lat_deg)
    up = north_nm * METERS_PER_NM / meridian_radius_m(lat)
    along = east_nm * METERS_PER_NM / parallel_radius_m(lat + up / 2.0)
    lat2, lon2 = position.lat_deg + m.degrees(up), position.lon_deg + m.degrees(along)
    return Position(lat2, lon2, position.altitude_ft)


def _inverse(lat1: Any, lon1: Any, lat2: Any, lon2: Any) -> Inverse[Any]:
    """Return the geodesic between places that are checked already."""
    shape = broadcast_shape(lat1_deg=lat1, lon1_deg=lon1, lat2_deg=lat2, lon2_deg=lon2)
    if shape == ():
        distance_nm, start_deg, end_deg = _inverse_one(lat1, lon1, lat2, lon2)
    else:
        distance_nm, start_deg, end_deg = _inverse_many(lat1, lon1, lat2, lon2, shape)
    return Inverse(distance_nm, fold_360(start_deg), fold_360(end_deg))


def _inverse_one(lat1: Any, lon1: Any, lat2: Any, lon2: Any) -> Any:
    """Distance, azimuth and end azimuth of one pair."""
    ends = *reduced_latitude(lat1), *reduced_latitude(lat2), lon1, lon2
    *solution, converged = _vincenty(ScalarMath, *ends)
    return solution if converged else _geographiclib(lat1, lon1, lat2, lon2)


def _inverse_many(
    lat1: FloatArray, lon1: FloatArray, lat2: FloatArray, lon2: FloatArray, shape: tuple[int, ...]
) -> Any:
    """Distances, azimuths and end azimuths of a shape of pairs."""
    ends = *reduced_latitude(lat1), *reduced_latitude(lat2), lon1, lon2
    *solution, converged = in_blocks(lambda *block: _vincenty(np, *block), ends, shape, 4)
    if not converged.all():
        places = [np.broadcast_to(a, shape) for a in (lat1, lon1, lat2, lon2)]
        for index in np.argwhere(converged == 0.0):
            at = tuple(index)
            line = _geographiclib(*(float(place[at]) for place in places))
            for row, value in zip(solution, line, strict=True):
                row[at] = value
    return solution


def _vincenty(
    m: Any,
    sin_u1: FloatArray,
    cos_u1: FloatArray,
    sin_u2: FloatArray,
    cos_u2: FloatArray,
    lon1_deg: FloatArray,
    lon2_deg: FloatArray,
) -> tuple[FloatArray, FloatArray, FloatArray, Any]:
    """Solve one block over *m*: distance (NM), azimuth and end azimuth, and where they hold."""
    f = FLATTENING
    longitude = m.radians(fold_180(lon2_deg - lon1_deg))
    sin_sin, cos_cos = sin_u1 * sin_u2, cos_u1 * cos_u2
    cos_sin, sin_cos = cos_u1 * sin_u2, sin_u1 * cos_u2
    lam, last_lam, last_error = longitude, 0.0, 0.0
    for rounds in range(MAXIMUM_ROUNDS):
        sin_lam, cos_lam = m.sin(lam), m.cos(lam)
        east, north = cos_u2 * sin_lam, cos_sin - sin_cos * cos_lam
        sin_sigma = m.sqrt(east * east + north * north)
        cos_sigma = sin_sin + cos_cos * cos_lam
        sigma = m.arctan2(sin_sigma, cos_sigma)
        sin_alpha = cos_cos * sin_lam / m.maximum(sin_sigma, 1e-300)  # coinciding: 0 / tiny
        cos2_alpha = 1.0 - sin_alpha * sin_alpha
        # On the equator cos2_alpha is 0 and the term it divides vanishes with it.
        cos_2m = cos_sigma - 2.0 * sin_sin / m.maximum(cos2_alpha, 1e-16)
        c = f / 16.0 * cos2_alpha * (4.0 + f * (4.0 - 3.0 * cos2_alpha))
        swing = cos_2m + c * cos_sigma * (2.0 * cos_2m * cos_2m - 1.0)
        error = longitude + (1.0 - c) * f * sin_alpha * (sigma + c * sin_sigma * swing) - lam
        converged = abs(error) <= LONGITUDE_TOLERANCE_RAD
        if m.all(converged):
            break
        change = error - last_error
        # The first step is the plain fixed point; no change is nothing left to correct.
        slope = (lam - last_lam) / (change + (change == 0.0)) if rounds else -1.0
        last_lam, last_error, lam = lam, error, lam - error * slope
    u2 = cos2_alpha * ((SEMI_MAJOR_AXIS_M / SEMI_MINOR_AXIS_M) ** 2 - 1.0)
    a = 1.0 + u2 / 16384.0 * (4096.0 + u2 * (-768.0 + u2 * (320.0 - 175.0 * u2)))
    b = u2 / 1024.0 * (256.0 + u2 * (-128.0 + u2 * (74.0 - 47.0 * u2)))
    cos2_2m = cos_2m * cos_2m
    third = b / 6.0 * cos_2m * (4.0 * sin_sigma * sin_sigma - 3.0) * (4.0 * cos2_2m - 3.0)
    second = cos_sigma * (2.0 * cos2_2m - 1.0) - third
    meters = SEMI_MINOR_AXIS_M * a * (sigma - b * sin_sigma * (cos_2m + b / 4.0 * second))
    start = m.degrees(m.arctan2(east, north))
    end = m.degrees(m.arctan2(cos_u1 * sin_lam, cos_sin * cos_lam - sin_cos))
    return meters / METERS_PER_NM, start, end, converged


def _geographiclib(
    lat1_deg: float, lon1_deg: float, lat2_deg: float, lon2_deg: float
) -> tuple[float, float, float]:
    line = geographiclib().Inverse(lat1_deg, lon1_deg, lat2_deg, lon2_deg)
    return line["s12"] / METERS_PER_NM, line["azi1"], line["azi2"]
