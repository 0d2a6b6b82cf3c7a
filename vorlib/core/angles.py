"""Directions and differences of directions, in degrees, for numbers and arrays alike.

A direction is returned in (0, 360], as it is spoken: north is 360. A difference is returned in
(-180, 180], positive clockwise. Any finite number is accepted and wrapped.
"""

from typing import overload

import numpy as np
from numpy.typing import ArrayLike

from vorlib.core.arguments import ArgumentError, FloatArray, N, finite
from vorlib.core.scalars import namespace

COMPASS_POINTS = (
    "north",
    "northeast",
    "east",
    "southeast",
    "south",
    "southwest",
    "west",
    "northwest",
)


TURNS_COUNT_DEG = 1e15  # beyond, a float no longer tells one whole turn from the next


def _near(angle_deg: N) -> N:
    """Return a finite angle less its whole turns where it is huge; any other as it is."""
    if isinstance(angle_deg, float):
        return angle_deg % 360.0 if abs(angle_deg) > TURNS_COUNT_DEG else angle_deg
    huge = abs(angle_deg) > TURNS_COUNT_DEG
    return np.where(huge, angle_deg % 360.0, angle_deg) if huge.any() else angle_deg


def fold_360(angle_deg: N) -> N:
    """Return a finite angle folded into (0, 360], as `wrap_360` does, unchecked."""
    folded = angle_deg % 360.0
    wrapped: N = namespace(folded).where(folded == 0.0, 360.0, folded)
    return wrapped


def fold_180(angle_deg: N) -> N:
    """Return a finite angle folded into (-180, 180], as `wrap_180` does, unchecked."""
    # Subtracting whole turns, rather than folding with mod, keeps small angles exact.
    m = namespace(angle_deg)
    angle_deg = _near(angle_deg)
    folded = angle_deg - 360.0 * m.round(angle_deg / 360.0)
    wrapped: N = m.where(folded <= -180.0, folded + 360.0, folded)
    return wrapped


@overload
def wrap_360(angle_deg: float) -> float: ...
@overload
def wrap_360(angle_deg: ArrayLike) -> FloatArray: ...
def wrap_360(angle_deg: ArrayLike) -> float | FloatArray:
    """Return a direction folded into (0, 360]: north is 360, never 0.

    >>> wrap_360(-90), wrap_360(0), wrap_360([720, 10])
    (270.0, 360.0, array([360.,  10.]))
    """
    return fold_360(finite("angle_deg", angle_deg))


@overload
def wrap_180(angle_deg: float) -> float: ...
@overload
def wrap_180(angle_deg: ArrayLike) -> FloatArray: ...
def wrap_180(angle_deg: ArrayLike) -> float | FloatArray:
    """Return an angle folded into (-180, 180]: positive means clockwise.

    >>> wrap_180(350), wrap_180(180), wrap_180(-180)
    (-10.0, 180.0, 180.0)
    """
    return fold_180(finite("angle_deg", angle_deg))


@overload
def difference_deg(to_deg: float, from_deg: float) -> float: ...
@overload
def difference_deg(to_deg: ArrayLike, from_deg: ArrayLike) -> FloatArray: ...
def difference_deg(to_deg: ArrayLike, from_deg: ArrayLike) -> float | FloatArray:
    """Return the turn from one direction to another, in (-180, 180], positive clockwise.

    >>> difference_deg(10, 350)
    20.0
    """
    return fold_180(_near(finite("to_deg", to_deg)) - _near(finite("from_deg", from_deg)))


@overload
def reciprocal_deg(direction_deg: float) -> float: ...
@overload
def reciprocal_deg(direction_deg: ArrayLike) -> FloatArray: ...
def reciprocal_deg(direction_deg: ArrayLike) -> float | FloatArray:
    """Return the opposite direction, in (0, 360].

    >>> reciprocal_deg(40), reciprocal_deg(180)
    (220.0, 360.0)
    """
    return fold_360(finite("direction_deg", direction_deg) + 180.0)


def mean_direction_deg(directions_deg: ArrayLike) -> float:
    """Return the circular mean of directions, in (0, 360].

    Raises
    ------
    ValueError
        If there is no direction, or the directions cancel and so have no mean.

    Notes
    -----
    The direction of the sum of unit vectors: N. I. Fisher, *Statistical Analysis of Circular
    Data*, section 2.3.1 (from memory).

    >>> round(mean_direction_deg([350, 20]), 9)
    5.0
    """
    radians = np.radians(finite("directions_deg", directions_deg))
    if np.size(radians) == 0:
        raise ArgumentError(
            "directions_deg must hold at least one direction, got none", argument="directions_deg"
        )
    east, north = np.mean(np.sin(radians)), np.mean(np.cos(radians))
    if np.hypot(east, north) < 1e-9:
        raise ArgumentError(
            "directions_deg must not cancel out: such directions have no mean",
            argument="directions_deg",
        )
    return fold_360(float(np.degrees(np.arctan2(east, north))))


def format_direction(direction_deg: float) -> str:
    """Return a direction as it is spoken and written: three digits, and 360 for north.

    >>> format_direction(40.2), format_direction(0), format_direction(359.7)
    ('040', '360', '360')
    """
    return f"{round(wrap_360(direction_deg)) % 360 or 360:03d}"


def format_tenths(direction_deg: float) -> str:
    """Return a direction to a tenth of a degree, and 360.0 for north.

    >>> format_tenths(9.54), format_tenths(0.2), format_tenths(359.98)
    ('009.5', '000.2', '360.0')
    """
    return f"{wrap_360(round(float(direction_deg), 1)):05.1f}"


def compass_point(direction_deg: float) -> str:
    """Return the nearest of the eight compass points in words.

    >>> compass_point(225), compass_point(340), compass_point(360)
    ('southwest', 'north', 'north')
    """
    return COMPASS_POINTS[round(wrap_360(direction_deg) / 45.0) % 8]


def spoken_side(signed: float) -> str:
    """Return which side a number means: "right" above 0, else "left"."""
    return "right" if signed > 0.0 else "left"


def east_or_west(angle_deg: float) -> str:
    """Return a declination or variation as charts write it.

    >>> east_or_west(-9.04), east_or_west(3.0)
    ('9.0 W', '3.0 E')
    """
    return f"{abs(angle_deg):.1f} {'E' if angle_deg > 0.0 else 'W'}"
