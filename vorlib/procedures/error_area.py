"""The error area of a fix: by bounds, by standard errors and by many trials."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import ArrayLike

from vorlib.core.angles import wrap_360
from vorlib.core.arguments import ArgumentError, FloatArray, positive
from vorlib.earth.geodesic import Position, Positions, inverse
from vorlib.procedures.fixing import (
    SMALLEST_CUT_DEG,
    cross,
    cut_angle_deg,
    fix_from_radials,
    settle,
)
from vorlib.vor.receiver import Receiver
from vorlib.vor.station import Station

# Half-axes that hold 95 percent of a two-dimensional normal distribution, in standard errors.
NINETY_FIVE_PERCENT = float(np.sqrt(-2.0 * np.log(0.05)))

CLOSE_ENOUGH_NM = 1e-4  # how exactly a sampled fix is settled
FARTHEST_NM = 400.0  # no VOR is received beyond


@dataclass(frozen=True)
class Ellipse:
    """An error ellipse about a fix.

    Attributes
    ----------
    semi_major_nm, semi_minor_nm
        Half-axes, at one standard error.
    true_azimuth_deg
        Which way the long axis lies, true, in (0, 180].
    """

    semi_major_nm: float
    semi_minor_nm: float
    true_azimuth_deg: float

    @property
    def radial_error_nm(self) -> float:
        """Root-mean-square distance of the fixes from the true position."""
        return float(np.hypot(self.semi_major_nm, self.semi_minor_nm))


def error_quadrilateral(
    lines: Sequence[tuple[Station, float]], bounds_deg: Sequence[float]
) -> Positions:
    """Return the four corners within which a fix by two radials lies, in order round it.

    Parameters
    ----------
    lines
        Two pairs of station and radial.
    bounds_deg
        For each radial, how far it may be off to either side, more than 0.

    Raises
    ------
    ValueError
        If a corner does not exist, because the radials may be parallel within their bounds.
    """
    if len(lines) != 2 or len(bounds_deg) != 2:
        raise ArgumentError(
            "lines and bounds_deg must hold two radials and a bound for each", argument="lines"
        )
    one, other = (float(positive("bounds_deg", bound, "degrees")) for bound in bounds_deg)
    (station, radial), (station2, radial2) = lines
    return fix_from_radials(
        [
            (station, radial + one * np.array([-1.0, -1.0, 1.0, 1.0])),
            (station2, radial2 + other * np.array([-1.0, 1.0, 1.0, -1.0])),
        ]
    )


def error_ellipse(stations: Sequence[Station], position: Position, sigma_deg: ArrayLike) -> Ellipse:
    """Return the error ellipse of a fix by radials at a position, linearised.

    Parameters
    ----------
    stations
        Two or more, whose radials are measured independently.
    position
        Where the aircraft is.
    sigma_deg
        Standard error of a radial in degrees, one for all or one each, more than 0.

    Raises
    ------
    ValueError
        If the radials run parallel there, or the position is a station.

    Notes
    -----
    Covariance of weighted least squares, (A' W A)^-1: with each radial's position line a straight
    band of standard width sigma times distance. True while sigma is small against the cut.
    """
    sigma = np.broadcast_to(positive("sigma_deg", sigma_deg, "degrees"), len(stations))
    azimuths, widths = [], []
    for station, error_deg in zip(stations, sigma, strict=True):
        line = station.inverse(position)
        distance = float(line.distance_nm)
        if distance < 1e-3:
            raise ArgumentError(
                f"position must be away from the stations, got one over {station.name}",
                argument="position",
            )
        azimuths.append(float(line.true_azimuth_end_deg))
        widths.append(float(np.radians(error_deg)) * distance)
    return ellipse_of_bands(azimuths, widths)


def ellipse_of_bands(true_azimuth_deg: Sequence[float], width_nm: Sequence[float]) -> Ellipse:
    """Return the error ellipse where position lines cross, each a straight band.

    Parameters
    ----------
    true_azimuth_deg
        Which way each line runs, true.
    width_nm
        Standard error across each.

    Raises
    ------
    ValueError
        If the lines run parallel.
    """
    cuts = [float(cut_angle_deg(a, b)) for a, b in combinations(true_azimuth_deg, 2)]
    if max(cuts, default=0.0) < SMALLEST_CUT_DEG:
        raise ArgumentError(
            "the lines are parallel there: they fix no position", argument="true_azimuth_deg"
        )
    information = np.zeros((2, 2))
    for azimuth_deg, width in zip(true_azimuth_deg, width_nm, strict=True):
        along = np.radians(azimuth_deg)
        across = np.array([np.cos(along), -np.sin(along)])  # east and north, clockwise
        information += np.outer(across, across) / width**2
    variances, axes = np.linalg.eigh(np.linalg.inv(information))
    azimuth = float(wrap_360(np.degrees(np.arctan2(axes[0, 1], axes[1, 1]))))
    minor, major = (float(root) for root in np.sqrt(variances))
    return Ellipse(major, minor, azimuth - 180.0 if azimuth > 180.0 else azimuth)


@dataclass(frozen=True)
class Samples:
    """Fixes tried with random errors: where they fell, and the share that met nowhere."""

    position: Positions
    lost: float


def sample_fixes(
    lines: Sequence[tuple[Station, float]],
    sigma_deg: ArrayLike,
    count: int = 100_000,
    seed: int = 0,
) -> Samples:
    """Return fixes by two radials with normal errors, seeded, the ones that do not meet left out.

    Parameters
    ----------
    lines
        Two pairs of station and error-free radial.
    sigma_deg
        Standard error of a radial in degrees, one for both or one each.
    count, seed
        How many to try, and which random numbers to take.
    """
    sigma = np.broadcast_to(positive("sigma_deg", sigma_deg, "degrees"), len(lines))
    rng = np.random.default_rng(seed)
    (station, radial), (station2, radial2) = lines
    one = radial + sigma[0] * rng.standard_normal(count)
    other = radial2 + sigma[1] * rng.standard_normal(count)
    crossing = cross((station, one), (station2, other))
    if crossing is None:
        raise ArgumentError(
            "the radials must come from two stations: those of one meet only at it",
            argument="lines",
        )
    lost = crossing.parallel | crossing.behind[0][1] | crossing.behind[1][1]
    lost |= crossing.farthest_nm > FARTHEST_NM
    good = ~lost
    guess = Position(crossing.guess.lat_deg[good], crossing.guess.lon_deg[good])
    place = settle([(station, one[good]), (station2, other[good])], guess, CLOSE_ENOUGH_NM)
    return Samples(place, float(lost.mean()) if count else 0.0)


@dataclass(frozen=True)
class Pair:
    """Two stations for a fix, the angle at which their radials cut, and the fix's ellipse."""

    stations: tuple[Station, Station]
    cut_deg: float
    ellipse: Ellipse


def rank_pairs(
    stations: Sequence[Station], position: Position, sigma_deg: float = 2.0
) -> tuple[Pair, ...]:
    """Return the pairs of stations for a fix at a position, best first.

    Only stations whose signal is promised there, whatever the course; only pairs that fix. Best is
    the smallest root-mean-square error.
    """
    received = [s for s in stations if _received(s, position)]
    pairs = []
    azimuths = [station.inverse(position).true_azimuth_end_deg for station in received]
    for pair, (one, other) in zip(
        combinations(received, 2), combinations(azimuths, 2), strict=True
    ):
        cut = float(cut_angle_deg(one, other))
        if cut >= SMALLEST_CUT_DEG:
            pairs.append(Pair(pair, cut, error_ellipse(pair, position, sigma_deg)))
    return tuple(sorted(pairs, key=lambda pair: pair.ellipse.radial_error_nm))


def _received(station: Station, position: Position) -> bool:
    reading = Receiver(station.radial_deg(position)).read(station, position)
    return reading.assured


def ellipse_outline(
    ellipse: Ellipse, scale: float = NINETY_FIVE_PERCENT, points: int = 72
) -> tuple[FloatArray, FloatArray]:
    """Return the outline of an ellipse as NM east and north of its center, each of shape (points,).

    *scale* counts in standard errors; by default 95 percent of all fixes lie within.
    """
    turn = np.linspace(0.0, 2.0 * np.pi, points)
    along, across = (
        scale * ellipse.semi_major_nm * np.cos(turn),
        scale * ellipse.semi_minor_nm * np.sin(turn),
    )
    azimuth = np.radians(ellipse.true_azimuth_deg)
    east = along * np.sin(azimuth) + across * np.cos(azimuth)
    return east, along * np.cos(azimuth) - across * np.sin(azimuth)


def share_within(
    samples: Samples, position: Position, ellipse: Ellipse, scale: float = NINETY_FIVE_PERCENT
) -> float:
    """Return the share of all fixes tried that fell within an ellipse about a position.

    Fixes that met nowhere count as outside. *scale* as for `ellipse_outline`.
    """
    line = inverse(
        position.lat_deg, position.lon_deg, samples.position.lat_deg, samples.position.lon_deg
    )
    turned = np.radians(line.true_azimuth_deg - ellipse.true_azimuth_deg)
    along = line.distance_nm * np.cos(turned) / ellipse.semi_major_nm
    across = line.distance_nm * np.sin(turned) / ellipse.semi_minor_nm
    within = np.hypot(along, across) <= scale
    return float(within.mean()) * (1.0 - samples.lost) if within.size else 0.0
