"""A stretch of level flight toward one heading, all of its looks worked out at once.

The same flight as `vorlib.aircraft.flight.advance` makes of one look after another, with a bank
held from each look to the next. The banks and headings do not depend on the place and are found
first; then how far north and east each look leads; then the places of all looks together.
"""

import math
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import chain, repeat
from typing import TypeAlias

import numpy as np

from vorlib.aircraft.flight import HIGHEST_LATITUDE_DEG, NODES, WEIGHTS, Aircraft, FlightState
from vorlib.aircraft.turns import STANDARD_GRAVITY_M_S2, bank_for_rate_deg
from vorlib.aircraft.wind import Wind
from vorlib.core.arguments import FloatArray
from vorlib.core.units import METERS_PER_SECOND_PER_KNOT
from vorlib.earth.ellipsoid import parallel_radius_m
from vorlib.earth.meridian import latitude_rad, meridian_m

# Bank for each degree the heading is off: rolls out of a turn without overshoot.
BANK_PER_DEG = 5.0

SETTLED_RAD = 2e-12  # nearer to its heading than this an aircraft flies straight on

_NODES, _WEIGHTS = np.array(NODES), np.array(WEIGHTS)

Looks = FloatArray
"""Time, latitude, longitude, altitude, true heading and bank as in `FlightState`: shape (6, n).

Longitude and heading count on where they pass the 180th meridian and north.
"""


# A look of a turn, in radians and seconds: the heading and the bank when it begins, by how much the
# bank moves, the scale of the logarithm that the heading follows meanwhile, how long that takes,
# the heading then, and the rate of the turn from then on.
_Turning: TypeAlias = tuple[float, float, float, float, float, float, float]


@lru_cache(maxsize=32)
def steepest_deg(aircraft: Aircraft) -> float:
    """Return the steepest bank flown: that of a standard rate turn, or the aircraft's limit."""
    return min(aircraft.bank_limit_deg, float(bank_for_rate_deg(aircraft.true_airspeed_kt)))


def bank_toward(heading_error_deg: float, aircraft: Aircraft) -> float:
    """Return the bank that turns onto a heading, at most standard rate and the aircraft's limit.

    Positive right for a heading that is to the right; levels out as the error vanishes.
    """
    steepest = steepest_deg(aircraft)
    return min(max(BANK_PER_DEG * heading_error_deg, -steepest), steepest)


@dataclass(frozen=True)
class Steering:
    """How an aircraft is flown from look to look: toward a heading, level, in one wind.

    Attributes
    ----------
    aircraft
        What is flown.
    step_s
        Seconds from look to look.
    """

    aircraft: Aircraft
    step_s: float

    @cached_property
    def _speed(self) -> float:
        return self.aircraft.true_airspeed_kt * METERS_PER_SECOND_PER_KNOT

    def stretch(self, state: FlightState, true_heading_deg: float, looks: int, wind: Wind) -> Looks:
        """Return the next looks of a level flight that turns to a heading and stays on it.

        Parameters
        ----------
        state
            The moment to start from.
        true_heading_deg
            The heading wanted.
        looks
            How many.
        wind
            The true wind.

        Raises
        ------
        ValueError
            If the flight nears a pole.
        """
        wanted = math.radians(true_heading_deg)
        turn, heading, bank = self._turn(state, wanted, looks)
        north, east = np.empty(looks), np.empty(looks)
        begun, straight_m = len(turn), self._speed * self.step_s
        north[begun:], east[begun:] = straight_m * math.cos(heading), straight_m * math.sin(heading)
        flown = np.empty((6, looks))
        time_s, lat_deg, lon_deg, altitude, heading_deg, bank_deg = flown
        if begun:
            values = np.fromiter(chain.from_iterable(turn), float, begun * len(turn[0]))
            columns = values.reshape(begun, -1).T
            north[:begun], east[:begun] = self._turned_m(columns)
            heading_deg[: begun - 1], bank_deg[: begun - 1] = np.degrees(columns[:2, 1:])
            begun -= 1
            heading_deg[begun:], bank_deg[begun:] = math.degrees(heading), math.degrees(bank)
        else:
            heading_deg[:], bank_deg[:] = state.true_heading_deg, 0.0  # to the last digit
        wind_north, wind_east = wind.toward_m_s
        lat, lon = _places(state, north + wind_north * self.step_s, east + wind_east * self.step_s)
        time_s[:] = np.add.accumulate([state.time_s, *repeat(self.step_s, looks)])[1:]
        np.degrees(lat, out=lat_deg)
        np.degrees(lon, out=lon_deg)
        altitude[:] = state.altitude_ft
        _refuse_poles(lat_deg)
        return flown

    def _turn(
        self, state: FlightState, wanted: float, looks: int
    ) -> tuple[list[_Turning], float, float]:
        """Return the looks until it flies straight on, and the heading and bank after them."""
        step_s, pull = self.step_s, STANDARD_GRAVITY_M_S2 / self._speed
        roll = math.radians(self.aircraft.roll_rate_deg_s)
        steepest, rolled = math.radians(steepest_deg(self.aircraft)), roll * step_s
        nearly = steepest / BANK_PER_DEG
        heading, bank = math.radians(state.true_heading_deg), math.radians(state.bank_deg)
        turn: list[_Turning] = []
        while len(turn) < looks:
            error = math.remainder(wanted - heading, math.tau)
            off, target = abs(error), BANK_PER_DEG * error
            if off < SETTLED_RAD:
                if abs(bank) < SETTLED_RAD:
                    return turn, heading, 0.0
                target = 0.0
            elif target > steepest:
                target = steepest
            elif target < -steepest:
                target = -steepest
            moved = target - bank
            if moved > rolled:
                moved = rolled
            elif moved < -rolled:
                moved = -rolled
            rate = pull * math.tan(bank + moved)
            if not moved and off > nearly:  # the same for all looks until it begins to roll out
                same = min(int((off - nearly) / abs(rate * step_s)) + 1, looks - len(turn))
                turn += [
                    (way, bank, 0.0, 0.0, 0.0, way, rate)
                    for way in [heading + i * rate * step_s for i in range(same)]
                ]
                heading += same * rate * step_s
                continue
            scale = pull / roll if moved > 0.0 else -pull / roll
            held_from = heading + scale * math.log(math.cos(bank) / math.cos(bank + moved))
            rolling_s = abs(moved) / roll
            turn.append((heading, bank, moved, scale, rolling_s, held_from, rate))
            heading, bank = held_from + rate * (step_s - rolling_s), bank + moved
        return turn, heading, bank

    def _turned_m(self, columns: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return the meters north and east through the air of looks in a turn, of shape (7, n)."""
        heading, bank, moved, scale, rolling_s, held_from, rate = columns[:, :, None]
        cosines = np.cos(bank) / np.cos(bank + moved * _NODES)
        held_s = self.step_s - rolling_s
        ways = np.concatenate(
            (heading + scale * np.log(cosines), held_from + rate * held_s * _NODES), axis=1
        )
        meters = self._speed * np.concatenate((rolling_s * _WEIGHTS, held_s * _WEIGHTS), axis=1)
        return (meters * np.cos(ways)).sum(axis=1), (meters * np.sin(ways)).sum(axis=1)


def _places(
    state: FlightState, north_m: FloatArray, east_m: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return latitude and longitude in radians after steps of so many meters north and east.

    A parallel's radius changes so little in a step that its mean at both ends is exact.
    """
    lat0 = math.radians(state.lat_deg)
    lat = np.empty(len(north_m) + 1)
    lat[0], lat[1:] = lat0, latitude_rad(meridian_m(lat0) + np.add.accumulate(north_m))
    turning = 0.5 / parallel_radius_m(lat)
    lon = math.radians(state.lon_deg) + np.add.accumulate(east_m * (turning[1:] + turning[:-1]))
    return lat[1:], lon


def _refuse_poles(lat_deg: FloatArray) -> None:
    farthest = max(lat_deg.max(), -lat_deg.min())
    if farthest > HIGHEST_LATITUDE_DEG:
        raise ValueError(
            f"the flight reaches latitude {farthest:.2f}; a heading can be flown "
            f"between -{HIGHEST_LATITUDE_DEG:g} and {HIGHEST_LATITUDE_DEG:g} degrees only"
        )
