"""The error area of a fix by radial and DME: by bounds, by standard errors, by trials.

The DME may stand with the VOR whose radial is used, or with another station. What is measured is
taken as free of error at a position; the errors are laid about it.
"""

from typing import Any, overload

import numpy as np
from numpy.typing import ArrayLike

from vorlib.core.angles import difference_deg
from vorlib.core.arguments import ArgumentError, BoolArray, FloatArray, not_negative, positive
from vorlib.core.units import FEET_PER_NM
from vorlib.earth.geodesic import Position, Positions, shifted
from vorlib.procedures.dme_fixing import ground_distance_nm
from vorlib.procedures.error_area import CLOSE_ENOUGH_NM, Ellipse, ellipse_of_bands
from vorlib.procedures.fixing import MAXIMUM_ROUNDS, SAME_PLACE_NM, cut_angle_deg
from vorlib.vor.station import Station

# Fix tolerance of a DME, of the distance to its antenna. ICAO Doc 8168, volume I, part I, section
# 2, chapter 2, 2.4.2 (read in a copy, edition not checked).
DME_BOUND_NM, DME_BOUND_SHARE = 0.25, 0.0125

ARC_POINTS = 13  # along each arc of an outline, near enough for straight segments


@overload
def dme_bound_nm(slant_range_nm: float) -> float: ...
@overload
def dme_bound_nm(slant_range_nm: ArrayLike) -> FloatArray: ...
def dme_bound_nm(slant_range_nm: ArrayLike) -> float | FloatArray:
    """Return how far a DME may be off either way: 0.25 NM and 1.25 percent of what it shows.

    Source: ICAO Doc 8168, volume I, part I, section 2, chapter 2, 2.4.2 (read in a copy, edition
    not checked).

    >>> round(float(dme_bound_nm(20.0)), 3)
    0.5
    """
    slant = not_negative("slant_range_nm", slant_range_nm, "NM")
    bound: FloatArray = DME_BOUND_NM + DME_BOUND_SHARE * slant
    return bound


def dme_cut_deg(station: Station, dme: Station, position: Position) -> float:
    """Return the angle, 0 to 90, at which a radial and a DME circle cut: 90 from one site."""
    if _one_site(station, dme):
        return 90.0
    one, other = (s.inverse(position).true_azimuth_end_deg for s in (station, dme))
    return 90.0 - cut_angle_deg(one, other)


def dme_area(
    station: Station, dme: Station, position: Position, bound_deg: float, bound_nm: float
) -> Positions:
    """Return the outline of the area within which a fix by radial and DME lies, in order round it.

    Parameters
    ----------
    station, dme
        Whose radial and whose DME are used; they may be the same.
    position
        The fix, with its altitude.
    bound_deg, bound_nm
        How far the radial and the slant range may be off to either side, more than 0.

    Raises
    ------
    ValueError
        If the radial may pass the circle by within the bounds, so that the area is not closed.
    """
    bound = float(positive("bound_deg", bound_deg, "degrees"))
    off_nm = float(positive("bound_nm", bound_nm, "NM"))
    slant = float(dme.slant_range_nm(position))
    # Nearer than the height there is no place: right over the station the area ends.
    least = max(slant - off_nm, abs(float(dme.height_ft(position))) / FEET_PER_NM)
    across = np.linspace(-bound, bound, ARC_POINTS)
    radial = station.radial_deg(position) + np.concatenate([across, across[::-1]])
    shown = np.repeat([slant + off_nm, least], ARC_POINTS)
    outline, met = meet_circle(station, radial, dme, shown, position)
    if not np.all(met):
        raise ArgumentError(
            f"with errors of {bound:g} degrees and {off_nm:.2f} NM the radial of {station.name} "
            f"may miss the circle of {dme.name}: nothing bounds the fix",
            argument="bound_deg",
        )
    return outline


def dme_ellipse(
    station: Station, dme: Station, position: Position, sigma_deg: float, sigma_nm: float
) -> Ellipse:
    """Return the error ellipse of a fix by radial and DME at a position, linearised.

    Parameters
    ----------
    station, dme, position
        As in `dme_area`.
    sigma_deg, sigma_nm
        Standard errors of the radial and of the slant range, more than 0.

    Raises
    ------
    ValueError
        If radial and circle run parallel there, or the position is over a station.
    """
    sigma, sigma_slant = _errors(sigma_deg, sigma_nm)
    line, circle = station.inverse(position), dme.inverse(position)
    for distance, name in ((line.distance_nm, station.name), (circle.distance_nm, dme.name)):
        if distance < SAME_PLACE_NM:
            raise ArgumentError(
                f"position must be away from the stations, got one over {name}", argument="position"
            )
    # A slant range off by a little is off by more over the ground, the steeper the slope.
    steep = float(dme.slant_range_nm(position) / circle.distance_nm)
    outward = float(line.true_azimuth_end_deg)
    around = outward if _one_site(station, dme) else float(circle.true_azimuth_end_deg)
    return ellipse_of_bands(
        [outward, around + 90.0],
        [float(np.radians(sigma) * line.distance_nm), sigma_slant * steep],
    )


def _errors(sigma_deg: float, sigma_nm: float) -> tuple[float, float]:
    degrees, nm = positive("sigma_deg", sigma_deg, "degrees"), positive("sigma_nm", sigma_nm, "NM")
    return float(degrees), float(nm)


def _one_site(station: Station, dme: Station) -> bool:
    return float(station.distance_nm(dme.position)) < SAME_PLACE_NM


def meet_circle(
    station: Station, radial_deg: FloatArray, dme: Station, slant_nm: FloatArray, near: Position
) -> tuple[Positions, BoolArray]:
    """Return where radials meet DME circles nearest to a place, and where they do so at all."""
    radial, slant = np.broadcast_arrays(radial_deg, slant_nm)
    height_ft = float(dme.height_ft(near))
    met: BoolArray = slant >= abs(height_ft) / FEET_PER_NM
    ground = ground_distance_nm(np.where(met, slant, dme.slant_range_nm(near)), height_ft)
    if _one_site(station, dme):
        azimuth = np.radians(radial + station.declination_deg)
        place = shifted(station.position, ground * np.sin(azimuth), ground * np.cos(azimuth))
    else:
        place, _ = _nearer(station, radial, dme, ground, near)
    lat, lon = np.copy(place.lat_deg), np.copy(place.lon_deg)
    left = np.flatnonzero(met)
    for _ in range(MAXIMUM_ROUNDS):
        place = Position(lat[left], lon[left])
        place, miss_nm = _nearer(station, radial[left], dme, ground[left], place)
        lat[left], lon[left] = place.lat_deg, place.lon_deg
        left = left[miss_nm > CLOSE_ENOUGH_NM]
        if not left.size:
            break
    met[left] = False
    return Position(lat, lon), met


def _nearer(
    station: Station,
    radial_deg: FloatArray,
    dme: Station,
    ground_nm: FloatArray,
    place: Position[Any],
) -> tuple[Positions, FloatArray]:
    """Return a step of Newton's method to where radials meet circles, and what is left to go."""
    line, circle = station.inverse(place), dme.inverse(place)
    off = difference_deg(radial_deg, station.radial_of_azimuth_deg(line.true_azimuth_deg))
    aside, out = np.radians(off) * line.distance_nm, ground_nm - circle.distance_nm
    a, b = np.radians(line.true_azimuth_end_deg), np.radians(circle.true_azimuth_end_deg)
    square = np.cos(a - b)  # 0 where radial and circle only touch
    square = np.where(abs(square) < 1e-3, 1e-3, square)
    east = (aside * np.cos(b) + out * np.sin(a)) / square
    north = (out * np.cos(a) - aside * np.sin(b)) / square
    # A step as long as the way to a station would leap over it, to the other crossing.
    nearest_nm = np.maximum(np.minimum(line.distance_nm, circle.distance_nm), SAME_PLACE_NM)
    length_nm = np.hypot(east, north)
    share = np.minimum(1.0, 0.5 * nearest_nm / np.maximum(length_nm, 1e-12))
    # The method squares the error with every whole step.
    miss_nm = np.where(share < 1.0, length_nm, length_nm**2 / (nearest_nm * abs(square)))
    return shifted(place, share * east, share * north), miss_nm
