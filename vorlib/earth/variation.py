"""Magnetic variation of today, from the World Magnetic Model 2025.

The radials of a station do not follow it: they keep the declination the station was set to.
"""

from datetime import date, datetime
from functools import cache
from typing import Any

import numpy as np

from vorlib.core.arguments import ArgumentError, FloatArray, N
from vorlib.core.units import METERS_PER_FOOT
from vorlib.earth.geodesic import Position

# The model's validity: NOAA/NCEI, World Magnetic Model 2025, epoch 2025.0, five years (header of
# the coefficient file in the package pygeomag).
FIRST_DAY = date(2025, 1, 1)
LAST_DAY = date(2029, 12, 31)


def variation_deg(position: Position[N], on: date) -> N:
    """Return the magnetic variation in degrees, positive east, at *position* on a day.

    The result has the shape of *position*; each place is one call of pygeomag.

    Raises
    ------
    ValueError
        If the day is outside the model, 2025-01-01 to 2029-12-31.
    """
    if not isinstance(on, date):
        raise ArgumentError(f"on must be a datetime.date, got {on!r}", argument="on")
    day = on.date() if isinstance(on, datetime) else on
    if not FIRST_DAY <= day <= LAST_DAY:
        raise ArgumentError(
            f"on must be from {FIRST_DAY} to {LAST_DAY}, the years of the World Magnetic Model "
            f"2025, got {day}; a later day needs a later model",
            argument="on",
        )
    year = _decimal_year(day)
    if isinstance(position.lat_deg, float):
        return _declination_deg(position.lat_deg, position.lon_deg, position.altitude_ft, year)
    if 0 in position.shape:
        return np.empty(position.shape)
    declination = np.vectorize(_declination_deg, otypes=[np.float64])
    variation: FloatArray = declination(
        position.lat_deg, position.lon_deg, position.altitude_ft, year
    )
    return variation


def _decimal_year(day: date) -> float:
    start, end = date(day.year, 1, 1), date(day.year + 1, 1, 1)
    return day.year + (day - start).days / (end - start).days


def _declination_deg(lat_deg: float, lon_deg: float, altitude_ft: float, year: float) -> float:
    altitude_km = altitude_ft * METERS_PER_FOOT / 1000.0
    return float(_model().calculate(lat_deg, lon_deg, altitude_km, year).d)


@cache
def _model() -> Any:
    from pygeomag import GeoMag  # loaded only when a variation is asked for

    return GeoMag(coefficients_file="wmm/WMM_2025.COF")
