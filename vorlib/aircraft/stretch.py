"""A stretch of level flight toward one heading, all of its looks worked out at once.

The same flight as `vorlib.aircraft.flight.advance` makes of one look after another, with a bank
held from each look to the next: the banks and headings do not depend on the place and are found
first, the places after that for all looks together, by the same collocation.
"""

import math
from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from vorlib.aircraft.flight import (
    HIGHEST_LATITUDE_DEG,
    MATRIX,
    NODES,
    WEIGHTS,
    Aircraft,
    FlightState,
)
from vorlib.aircraft.turns import STANDARD_GRAVITY_M_S2
from vorlib.aircraft.wind import Wind
from vorlib.core.angles import wrap_180, wrap_360
from vorlib.core.arguments import FloatArray
from vorlib.core.units import METRES_PER_SECOND_PER_KNOT
from vorlib.earth.ellipsoid import meridian_radius_m, parallel_radius_m

SETTLED_DEG = 1e-10  # nearer to its heading than this an aircraft flies straight on
ROUNDS = 4  # each takes three digits or more off the error of the latitudes
CLOSE_RAD = 1e-11  # a change as small leaves an error of a ten-thousandth of a millimetre, or less

_NODES, _MATRIX, _WEIGHTS = np.array(NODES), np.array(MATRIX).T, np.array(WEIGHTS)


class Stretch(NamedTuple):
    """The looks after a moment of flight, each array of shape (n,)."""

    lat_deg: FloatArray
    lon_deg: FloatArray
    true_heading_deg: FloatArray
    bank_deg: FloatArray


def stretch(
    state: FlightState,
    aircraft: Aircraft,
    true_heading_deg: float,
    bank_toward: Callable[[float], float],
    step_s: float,
    looks: int,
    wind: Wind,
) -> Stretch:
    """Return the next looks of a level flight that turns to a heading and stays on it.

    Parameters
    ----------
    state, aircraft, wind
        The moment to start from, how the aircraft flies, the true wind.
    true_heading_deg
        The heading wanted.
    bank_toward
        The bank for a heading error, asked at each look.
    step_s, looks
        Seconds from look to look, and how many.

    Raises
    ------
    ValueError
        If the flight nears a pole.
    """
    speed = aircraft.true_airspeed_kt * METRES_PER_SECOND_PER_KNOT
    pull = STANDARD_GRAVITY_M_S2 / speed
    heading, bank = math.radians(state.true_heading_deg), math.radians(state.bank_deg)
    wanted, roll = math.radians(true_heading_deg), math.radians(aircraft.roll_rate_deg_s)
    # For each look: heading and bank at its begin, bank at its end, seconds of rolling.
    rows: list[tuple[float, float, float, float]] = []
    while len(rows) < looks:
        error_deg = math.degrees(math.remainder(wanted - heading, math.tau))
        if abs(error_deg) < SETTLED_DEG and bank == 0.0:
            break
        target = math.radians(bank_toward(error_deg))
        rolling_s = abs(target - bank) / roll
        if rolling_s > step_s:
            rolling_s, target = step_s, bank + math.copysign(roll * step_s, target - bank)
        if abs(error_deg) < SETTLED_DEG and rolling_s < SETTLED_DEG:
            target = 0.0
        rows.append((heading, bank, target, rolling_s))
        if rolling_s:
            scale = pull * rolling_s / (target - bank)
            heading += scale * math.log(math.cos(bank) / math.cos(target))
        heading += pull * math.tan(target) * (step_s - rolling_s)
        bank = target
    turn = np.array(rows).reshape(-1, 4)
    north, east, seconds = _velocities(turn, speed, pull, step_s)
    straight = looks - len(rows)
    ones = np.full((straight, 3), speed)
    north = np.concatenate((north, ones * math.cos(heading))) + wind.toward_m_s[0]
    east = np.concatenate((east, ones * math.sin(heading))) + wind.toward_m_s[1]
    seconds = np.concatenate((seconds, np.full(straight, step_s)))
    lat, lon = _places(state, north, east, seconds)
    ends = np.concatenate((np.arange(2, 2 * len(rows) + 1, 2), np.arange(straight) + 1))
    ends[len(rows) :] += 2 * len(rows)
    lat_deg, lon_deg = np.degrees(lat[ends - 1]), np.degrees(lon[ends - 1])
    if np.max(np.abs(lat_deg)) > HIGHEST_LATITUDE_DEG:
        raise ValueError(
            f"the flight reaches latitude {np.max(np.abs(lat_deg)):.2f}; a heading can be flown "
            f"between -{HIGHEST_LATITUDE_DEG:g} and {HIGHEST_LATITUDE_DEG:g} degrees only"
        )
    headings, banks = np.full(looks, heading), np.full(looks, bank)
    headings[: len(rows)] = [*turn[1:, 0], heading][: len(rows)]
    banks[: len(rows)] = turn[:, 2]
    return Stretch(lat_deg, wrap_180(lon_deg), wrap_360(np.degrees(headings)), np.degrees(banks))


def _velocities(
    turn: FloatArray, speed: float, pull: float, step_s: float
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return speeds north and east through the air at the nodes of pieces, and their seconds.

    Two pieces a look: the bank moves, then it is held.
    """
    heading, bank, target, rolling_s = turn.T
    moved = target - bank
    change = np.where(moved == 0.0, 1.0, moved)
    scale = np.where(moved == 0.0, 0.0, pull * rolling_s / change)
    along = bank[:, None] + moved[:, None] * np.append(_NODES, 1.0)
    turned = scale[:, None] * np.log(np.cos(bank)[:, None] / np.cos(along))
    rolling = heading[:, None] + turned[:, :3]
    held_s = step_s - rolling_s
    rate = pull * np.tan(target) * held_s
    held = (heading + turned[:, 3])[:, None] + rate[:, None] * _NODES
    headings = np.stack((rolling, held), axis=1).reshape(-1, 3)
    seconds = np.stack((rolling_s, held_s), axis=1).ravel()
    return speed * np.cos(headings), speed * np.sin(headings), seconds


def _places(
    state: FlightState, north: FloatArray, east: FloatArray, seconds: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return latitude and longitude in radians at the ends of pieces of flight."""
    lat0, lon0 = math.radians(state.lat_deg), math.radians(state.lon_deg)
    ends, lats = _along(lat0, north / meridian_radius_m(lat0), seconds)
    for _ in range(ROUNDS):  # the radius hardly changes along a stretch
        before = ends
        ends, lats = _along(lat0, north / meridian_radius_m(lats), seconds)
        if np.abs(ends - before).max() < CLOSE_RAD:
            break
    turning = east / parallel_radius_m(lats)
    return ends, lon0 + np.cumsum(seconds * (turning @ _WEIGHTS))


def _along(lat0: float, rates: FloatArray, seconds: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return latitudes at the ends and at the nodes of pieces from their rates at the nodes."""
    ends = lat0 + np.cumsum(seconds * (rates @ _WEIGHTS))
    begins = np.concatenate(([lat0], ends[:-1]))
    return ends, begins[:, None] + seconds[:, None] * (rates @ _MATRIX)
