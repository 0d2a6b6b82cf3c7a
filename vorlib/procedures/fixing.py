"""Fixing a position from radials.

Solved on the ellipsoid: straight lines in a plane about the first station give a first guess, and
Newton's method carries it to where the measured radials are exactly met.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias, overload

import numpy as np
from numpy.typing import ArrayLike

from vorlib.core.angles import difference_deg
from vorlib.core.arguments import ArgumentError, FloatArray, N, finite
from vorlib.core.units import METERS_PER_NM
from vorlib.earth.ellipsoid import SEMI_MAJOR_AXIS_M
from vorlib.earth.geodesic import Position, Positions, shifted
from vorlib.vor.station import Station

RadialLine: TypeAlias = tuple[Station, ArrayLike]

SMALLEST_CUT_DEG = 1.0  # radials that cross at less are parallel for all that a needle can tell
SAME_PLACE_NM = 0.05  # stations nearer than this count as one
EXACT_NM = 1e-6
MAXIMUM_ROUNDS = 12


@dataclass(frozen=True)
class Fix:
    """A position from several radials.

    Attributes
    ----------
    position
        Where the radials are met; of more than two, the least-squares compromise.
    residuals_deg
        What each radial measured less the radial of the position, in the order given.
    cut_deg
        The angle, 0 to 90, at which the two best crossing radials cross.
    """

    position: Position
    residuals_deg: tuple[float, ...]
    cut_deg: float


@overload
def fix_from_radials(lines: Sequence[tuple[Station, float]]) -> Position: ...
@overload
def fix_from_radials(lines: Sequence[RadialLine]) -> Positions: ...
def fix_from_radials(lines: Sequence[RadialLine]) -> Position[Any]:
    """Return the position where radials meet.

    Parameters
    ----------
    lines
        Two or more pairs of station and radial in magnetic degrees. Radials may be arrays that
        broadcast together: a position for each.

    Raises
    ------
    ValueError
        If there are fewer than two lines, or they come from one place; if they are parallel,
        nearly so, or do not meet in front of their stations: the message says which.
    """
    if len(lines) < 2:
        raise ArgumentError(
            f"lines must hold at least two radials, got {len(lines)}", argument="lines"
        )
    measured: list[tuple[Station, Any]] = [
        (station, finite(f"radial of {station.name}", r)) for station, r in lines
    ]
    return settle(measured, _first_guess(measured))


def fix(lines: Sequence[tuple[Station, float]]) -> Fix:
    """Return the position from radials, with how far each radial disagrees with it.

    Parameters and errors as `fix_from_radials`, one number a radial.
    """
    position = fix_from_radials(lines)
    off = [float(difference_deg(radial, s.radial_deg(position))) for s, radial in lines]
    azimuths = [float(s.inverse(position).true_azimuth_end_deg) for s, _ in lines]
    cuts = [cut_angle_deg(one, other) for i, one in enumerate(azimuths) for other in azimuths[:i]]
    return Fix(position, tuple(off), float(max(cuts)))


@overload
def cut_angle_deg(one_deg: float, other_deg: float) -> float: ...
@overload
def cut_angle_deg(one_deg: ArrayLike, other_deg: ArrayLike) -> FloatArray: ...
def cut_angle_deg(one_deg: ArrayLike, other_deg: ArrayLike) -> float | FloatArray:
    """Return the angle between two lines, 0 to 90 degrees, whichever way they run.

    >>> float(cut_angle_deg(10, 170)), float(cut_angle_deg(0, 90))
    (20.0, 90.0)
    """
    return 90.0 - abs(abs(difference_deg(one_deg, other_deg)) - 90.0)


@dataclass(frozen=True)
class Crossing:
    """Where two straight lines in a plane cross, as a first guess of where two radials do.

    Attributes
    ----------
    guess
        The place; without meaning where `parallel` or `behind` says so.
    parallel
        True where the lines cross at less than `SMALLEST_CUT_DEG`.
    behind
        For each of the two stations: True where the crossing lies behind it.
    farthest_nm
        Distance from the farther of the two stations.
    """

    guess: Position[Any]
    parallel: Any
    behind: tuple[tuple[Station, Any], tuple[Station, Any]]
    farthest_nm: Any


def cross(one: tuple[Station, Any], other: tuple[Station, Any]) -> Crossing | None:
    """Return where two radials cross in a plane about the first station, None from one place."""
    (station, radial), (station2, radial2) = one, other
    apart = station.inverse(station2.position)
    if float(apart.distance_nm) < SAME_PLACE_NM:
        return None
    # In the plane about the first station, the second's north is turned by the convergence.
    turned = float(difference_deg(apart.true_azimuth_end_deg, apart.true_azimuth_deg))
    azimuth = np.radians(radial + station.declination_deg)
    azimuth2 = np.radians(radial2 + station2.declination_deg - turned)
    toward = np.radians(float(apart.true_azimuth_deg))
    cut = np.sin(azimuth2 - azimuth)
    parallel = np.abs(cut) < np.sin(np.radians(SMALLEST_CUT_DEG))
    scale = float(apart.distance_nm) / np.where(parallel, 1.0, cut)
    along, along2 = scale * np.sin(azimuth2 - toward), scale * np.sin(azimuth - toward)
    # Half way along, the meridian has leant over by half the convergence.
    tangent = np.tan(np.radians(station.position.lat_deg))
    lean = along * np.sin(azimuth) * tangent * METERS_PER_NM / (2.0 * SEMI_MAJOR_AXIS_M)
    guess = shifted(
        station.position, along * np.sin(azimuth + lean), along * np.cos(azimuth + lean)
    )
    behind = ((station, along < 0.0), (station2, along2 < 0.0))
    return Crossing(guess, parallel, behind, np.maximum(np.abs(along), np.abs(along2)))


def _first_guess(lines: list[tuple[Station, Any]]) -> Position[Any]:
    """Where the first radial meets the first other that crosses it, or the reason why none does."""
    crossings = [c for other in lines[1:] if (c := cross(lines[0], other)) is not None]
    if not crossings:
        raise ArgumentError(
            "the radials must come from two stations: those of one meet only at it",
            argument="lines",
        )
    crossing = next((c for c in crossings if not np.any(c.parallel)), None)
    if crossing is None:
        raise ArgumentError(
            "the radials are parallel or nearly so: they cross at less than "
            f"{SMALLEST_CUT_DEG:g} degree, which fixes nothing",
            argument="lines",
        )
    for station, behind in crossing.behind:
        if np.any(behind):
            raise ArgumentError(
                f"the radials meet on the far side of {station.name}: check each radial and each "
                "ident",
                argument="lines",
            )
    return crossing.guess


def settle(
    lines: Sequence[tuple[Station, Any]], guess: Position[N], within_nm: float = EXACT_NM
) -> Position[N]:
    """Return the place where radials are met, from a guess near it.

    Newton's method; of more than two radials the least squares of their angles.
    """
    place: Position[Any] = guess
    for _ in range(MAXIMUM_ROUNDS):
        step, nearest_nm = _newton(lines, place)
        length_nm = np.hypot(*step)
        # A step longer than the distance to a station would leap over it.
        share = np.minimum(1.0, nearest_nm / np.maximum(length_nm, 1e-12))
        place = shifted(place, step[0] * share, step[1] * share)
        # The method squares the error with every round.
        if np.max(length_nm**2 / nearest_nm, initial=0.0) < within_nm:
            break
    return Position(place.lat_deg, place.lon_deg)


def _newton(
    lines: Sequence[tuple[Station, Any]], place: Position[Any]
) -> tuple[tuple[Any, Any], Any]:
    """Return the step east and north that brings every radial home, and the least distance, NM."""
    sums: list[Any] = [0.0] * 5
    nearest: Any = np.inf
    for station, radial in lines:
        line = station.inverse(place)
        off = difference_deg(radial, station.radial_of_azimuth_deg(line.true_azimuth_deg))
        distance = np.maximum(line.distance_nm, SAME_PLACE_NM)
        # A step of one NM across the radial, clockwise, turns it by 1 / distance.
        along = np.radians(line.true_azimuth_end_deg)
        east, north, turn = np.cos(along) / distance, -np.sin(along) / distance, np.radians(off)
        more = (east * east, east * north, north * north, east * turn, north * turn)
        sums = [total + part for total, part in zip(sums, more, strict=True)]
        nearest = np.minimum(nearest, distance)
    ee, en, nn, e, n = sums
    determinant = ee * nn - en * en
    return ((e * nn - n * en) / determinant, (n * ee - e * en) / determinant), nearest
