"""An aircraft advanced through time over the ellipsoid, and the flight it leaves behind.

Constant true airspeed, coordinated turns limited by bank and roll rate, a steady wind. Headings
are true and speeds count over the ellipsoid. Within a step the bank moves to its target at the
roll rate and stays there, and the path is integrated to well below a millimeter, so the size of
the steps does not change where the aircraft goes.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeAlias

import numpy as np

from vorlib.aircraft.turns import STANDARD_GRAVITY_M_S2
from vorlib.aircraft.wind import CALM, Wind, WindLayers, track
from vorlib.core.angles import fold_180, fold_360, wrap_360
from vorlib.core.arguments import ArgumentError, FloatArray, finite, not_negative, positive, within
from vorlib.core.units import METERS_PER_SECOND_PER_KNOT
from vorlib.earth.ellipsoid import radii_m
from vorlib.earth.geodesic import Position, Positions

# Three-point Gauss collocation on a step: order 6 (J. C. Butcher, Numerical Methods for Ordinary
# Differential Equations, section 342; from memory, checked against scipy).
ROOT_15 = math.sqrt(15.0)
NODES = (0.5 - ROOT_15 / 10.0, 0.5, 0.5 + ROOT_15 / 10.0)
WEIGHTS = (5.0 / 18.0, 4.0 / 9.0, 5.0 / 18.0)
MATRIX = (
    (5 / 36, 2 / 9 - ROOT_15 / 15, 5 / 36 - ROOT_15 / 30),
    (5 / 36 + ROOT_15 / 24, 2 / 9, 5 / 36 - ROOT_15 / 24),
    (5 / 36 + ROOT_15 / 30, 2 / 9 + ROOT_15 / 15, 5 / 36),
)

# The longest segment integrated at once. Together they hold the error of an hour below 1 mm.
LONGEST_SEGMENT_S = 120.0
LARGEST_TURN_DEG = 10.0

HIGHEST_LATITUDE_DEG = 89.0  # beyond it a heading changes faster than an aircraft can follow


@dataclass(frozen=True)
class Aircraft:
    """How an aircraft flies: true airspeed, steepest bank flown, roll rate."""

    true_airspeed_kt: float = 100.0
    bank_limit_deg: float = 20.0
    roll_rate_deg_s: float = 10.0

    def __post_init__(self) -> None:
        positive("true_airspeed_kt", self.true_airspeed_kt, "kt")
        within("bank_limit_deg", self.bank_limit_deg, 1.0, 60.0, "degrees")
        within("roll_rate_deg_s", self.roll_rate_deg_s, 1.0, 90.0, "degrees per second")


@dataclass(frozen=True)
class FlightState:
    """An aircraft at one moment. Heading true, bank positive to the right, climb in ft/min."""

    time_s: float
    lat_deg: float
    lon_deg: float
    altitude_ft: float
    true_heading_deg: float
    bank_deg: float = 0.0
    climb_ft_min: float = 0.0

    @property
    def position(self) -> Position:
        """Where the aircraft is."""
        return Position(self.lat_deg, self.lon_deg, self.altitude_ft)


def start(position: Position, true_heading_deg: float, bank_deg: float = 0.0) -> FlightState:
    """Return the state of an aircraft at time 0 over one place."""
    if position.shape != ():
        raise ArgumentError(
            f"position must be one place, got shape {position.shape}", argument="position"
        )
    heading = float(wrap_360(finite("true_heading_deg", true_heading_deg)))
    lat, lon = float(position.lat_deg), float(position.lon_deg)
    return FlightState(0.0, lat, lon, float(position.altitude_ft), heading, bank_deg)


def advance(
    state: FlightState,
    aircraft: Aircraft,
    seconds: float,
    bank_deg: float = 0.0,
    wind: Wind | WindLayers = CALM,
) -> FlightState:
    """Return the state some seconds later, with the bank moving to *bank_deg* and held there.

    Parameters
    ----------
    state, aircraft
        The moment to start from, and how the aircraft flies.
    seconds
        0 or more.
    bank_deg
        Wanted bank, positive right; cut to the aircraft's limit.
    wind
        One true wind, or layers of them.

    Raises
    ------
    ValueError
        If an argument is not finite, time runs backwards, or the flight nears a pole.
    """
    left = float(not_negative("seconds", seconds, "s"))
    limit = aircraft.bank_limit_deg
    target = max(-limit, min(limit, float(finite("bank_deg", bank_deg))))
    speed = aircraft.true_airspeed_kt * METERS_PER_SECOND_PER_KNOT
    while left > 1e-9:
        segment_s, roll = min(left, LONGEST_SEGMENT_S), 0.0
        if state.bank_deg != target:
            roll = math.copysign(aircraft.roll_rate_deg_s, target - state.bank_deg)
            segment_s = min(segment_s, (target - state.bank_deg) / roll)
        steepest = math.radians(max(abs(state.bank_deg), abs(target)))
        fastest_deg_s = math.degrees(STANDARD_GRAVITY_M_S2 / speed * math.tan(steepest))
        if fastest_deg_s * segment_s > LARGEST_TURN_DEG:
            segment_s = LARGEST_TURN_DEG / fastest_deg_s
        segment_s = min(segment_s, wind.seconds_at(state.altitude_ft, state.climb_ft_min))
        middle_ft = state.altitude_ft + state.climb_ft_min * segment_s / 120.0
        bank_end = state.bank_deg + roll * segment_s
        if abs(bank_end - target) < 1e-9:
            bank_end = target
        state = _segment(state, speed, bank_end, segment_s, wind.at(middle_ft))
        left -= segment_s
    return state


def _segment(
    state: FlightState, speed: float, bank_end: float, seconds: float, wind: Wind
) -> FlightState:
    """Integrate a segment of steady roll: speed in m/s, heading exact, position by collocation."""
    heading, turned = math.radians(state.true_heading_deg), _turn(state, speed, bank_end, seconds)
    wind_north, wind_east = wind.toward_m_s
    ways = [heading + turned(node) for node in NODES]
    north = [speed * math.cos(way) + wind_north for way in ways]
    east = [speed * math.sin(way) + wind_east for way in ways]
    lat = math.radians(state.lat_deg)
    radii = [radii_m(lat)] * 3
    for _ in range(2):  # the radius hardly changes along a segment: twice is exact
        rates = [v / meridian_m for v, (meridian_m, _) in zip(north, radii, strict=True)]
        radii = [radii_m(lat + seconds * _dot(row, rates)) for row in MATRIX]
    rates = [v / meridian_m for v, (meridian_m, _) in zip(north, radii, strict=True)]
    turning = [v / parallel_m for v, (_, parallel_m) in zip(east, radii, strict=True)]
    lat_end = math.degrees(lat + seconds * _dot(WEIGHTS, rates))
    if abs(lat_end) > HIGHEST_LATITUDE_DEG:
        raise ArgumentError(
            f"the flight reaches latitude {lat_end:.2f}; a heading can be flown between "
            f"-{HIGHEST_LATITUDE_DEG:g} and {HIGHEST_LATITUDE_DEG:g} degrees only",
            argument="state",
        )
    return FlightState(
        state.time_s + seconds,
        lat_end,
        fold_180(state.lon_deg + math.degrees(seconds * _dot(WEIGHTS, turning))),
        state.altitude_ft + state.climb_ft_min * seconds / 60.0,
        fold_360(state.true_heading_deg + math.degrees(turned(1.0))),
        bank_end,
        state.climb_ft_min,
    )


def _turn(
    state: FlightState, speed: float, bank_end: float, seconds: float
) -> Callable[[float], float]:
    """Return the radians turned after a share of a segment whose bank moves steadily."""
    bank, end = math.radians(state.bank_deg), math.radians(bank_end)
    pull = STANDARD_GRAVITY_M_S2 / speed
    if bank == end:
        whole = pull * math.tan(bank) * seconds
        return lambda share: whole * share
    # The integral of tan(bank) while the bank moves at a steady rate.
    scale, cosine = pull * seconds / (end - bank), math.cos(bank)
    return lambda share: scale * math.log(cosine / math.cos(bank + share * (end - bank)))


def _dot(row: tuple[float, ...], values: list[float]) -> float:
    return row[0] * values[0] + row[1] * values[1] + row[2] * values[2]


@dataclass(frozen=True)
class Flight:
    """A flown flight as plain arrays, each of shape (n,).

    Attributes
    ----------
    time_s
        Increasing times.
    position
        Where the aircraft was; a receiver reads all of it in one call.
    true_heading_deg, true_track_deg
        Where the nose pointed and where the aircraft went, in (0, 360].
    bank_deg
        Positive right.
    """

    time_s: FloatArray
    position: Positions
    true_heading_deg: FloatArray
    true_track_deg: FloatArray
    bank_deg: FloatArray


Row: TypeAlias = tuple[float, float, float, float, float, float]
"""Time, latitude, longitude, altitude, true heading and bank of a moment, as in `FlightState`."""


def row_of(state: FlightState) -> Row:
    """Return a moment as a row of a recorded flight."""
    s = state
    return s.time_s, s.lat_deg, s.lon_deg, s.altitude_ft, s.true_heading_deg, s.bank_deg


def record(states: list[FlightState], aircraft: Aircraft, wind: Wind | WindLayers = CALM) -> Flight:
    """Return the flight that a list of states makes, with the track flown at each of them."""
    return record_rows([row_of(state) for state in states], aircraft, wind)


def record_rows(
    rows: list[Row] | FloatArray, aircraft: Aircraft, wind: Wind | WindLayers = CALM
) -> Flight:
    """Return the flight that rows make, with the track flown at each of them."""
    time_s, lat, lon, altitude, heading, bank = np.array(rows).reshape(-1, 6).T
    heading = wrap_360(heading)
    over_ground = track(heading, aircraft.true_airspeed_kt, _at_all(wind, altitude))
    return Flight(time_s, Position(lat, lon, altitude), heading, over_ground.track_deg, bank)


def _at_all(wind: Wind | WindLayers, altitude_ft: FloatArray) -> Wind[Any]:
    """Return the winds at several altitudes; a wind that is the same everywhere stays one."""
    if isinstance(wind, Wind):
        return wind
    blowing = [wind.at(height) for height in altitude_ft.tolist()]
    return Wind([w.from_deg for w in blowing], [w.speed_kt for w in blowing])
