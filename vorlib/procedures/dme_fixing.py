"""Fixing a position from a radial and a DME distance, of one station or of two."""

from typing import Any, overload

import numpy as np
from numpy.typing import ArrayLike

from vorlib.core.angles import difference_deg, format_direction
from vorlib.core.arguments import ArgumentError, FloatArray, bounded, not_negative
from vorlib.core.units import FEET_PER_NM
from vorlib.earth.geodesic import Position, Positions
from vorlib.procedures.fixing import EXACT_NM, MAXIMUM_ROUNDS
from vorlib.vor.station import Station


@overload
def ground_distance_nm(slant_range_nm: float, height_ft: float) -> float: ...
@overload
def ground_distance_nm(slant_range_nm: ArrayLike, height_ft: ArrayLike) -> FloatArray: ...
def ground_distance_nm(slant_range_nm: ArrayLike, height_ft: ArrayLike) -> float | FloatArray:
    """Return the distance over the ground from a DME's slant range and the height above it, in NM.

    Raises
    ------
    ValueError
        If the slant range is shorter than the height, which no place gives.
    """
    slant = not_negative("slant_range_nm", slant_range_nm, "NM")
    height = abs(bounded("height_ft", height_ft, "ft")) / FEET_PER_NM
    if np.any(slant < height):
        raise ArgumentError(
            f"slant_range_nm must be at least the height, {np.max(height):.2f} NM, got "
            f"{np.min(slant):.2f}: a DME cannot read less",
            argument="slant_range_nm",
        )
    return np.sqrt(slant * slant - height * height)


@overload
def fix_from_radial_and_dme(
    station: Station, radial_deg: float, slant_range_nm: float, altitude_ft: float
) -> Position: ...
@overload
def fix_from_radial_and_dme(
    station: Station, radial_deg: ArrayLike, slant_range_nm: ArrayLike, altitude_ft: ArrayLike
) -> Positions: ...
def fix_from_radial_and_dme(
    station: Station, radial_deg: ArrayLike, slant_range_nm: ArrayLike, altitude_ft: ArrayLike
) -> Position[Any]:
    """Return the position on a radial at a DME distance, the slant range corrected for height.

    Parameters
    ----------
    station
        VOR with DME on one site.
    radial_deg, slant_range_nm, altitude_ft
        Magnetic degrees, NM as shown, and the aircraft's altitude.
    """
    height = bounded("altitude_ft", altitude_ft, "ft") - station.position.altitude_ft
    return station.position_on(radial_deg, ground_distance_nm(slant_range_nm, height), altitude_ft)


def fixes_from_radial_and_other_dme(
    line: tuple[Station, float], dme: Station, slant_range_nm: float, altitude_ft: float
) -> tuple[Position, ...]:
    """Return the positions on a radial of one station at a DME distance from another.

    A line meets a circle in two places, or touches it in one; nearest to the radial's station
    first. Which of two it is, a third measurement has to tell.

    Raises
    ------
    ValueError
        If the radial passes the circle by, or meets it only behind its station.
    """
    station, radial = line
    height = float(bounded("altitude_ft", altitude_ft, "ft")) - float(dme.position.altitude_ft)
    wanted = float(ground_distance_nm(slant_range_nm, height))
    to_dme = station.inverse(dme.position)
    ahead = float(to_dme.distance_nm)
    off = np.radians(float(difference_deg(radial, station.radial_deg(dme.position))))
    half_squared = wanted**2 - (ahead * np.sin(off)) ** 2
    if half_squared < 0.0:
        raise ArgumentError(
            f"the {format_direction(radial)} radial of {station.name} passes {dme.name} at "
            f"{abs(ahead * np.sin(off)):.1f} NM and never comes within {wanted:.1f} NM of it",
            argument="slant_range_nm",
        )
    middle, half = ahead * np.cos(off), float(np.sqrt(half_squared))
    found = []
    for guess in sorted({middle - half, middle + half}):
        along = guess
        for _ in range(MAXIMUM_ROUNDS):
            if along < 0.0:
                break
            place = station.position_on(radial, along, altitude_ft)
            circle, outward = dme.inverse(place), station.inverse(place).true_azimuth_end_deg
            error = wanted - float(circle.distance_nm)
            closing = np.cos(np.radians(float(outward - circle.true_azimuth_end_deg)))
            if abs(error) < EXACT_NM or abs(closing) < 1e-3:
                break
            along += error / closing
        if along >= 0.0:
            found.append(station.position_on(radial, along, altitude_ft))
    if not found:
        raise ArgumentError(
            f"the {format_direction(radial)} radial of {station.name} leads away from the circle "
            f"of {wanted:.1f} NM about {dme.name}",
            argument="line",
        )
    return tuple(found)
