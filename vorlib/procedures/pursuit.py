"""Homing worked out as the pursuit curve it is, where the turn is slow; by looks where it is not.

A pilot who homes points the nose at the station all the time. Far out the heading changes by a
hundredth of a degree a second, and a differential equation with long steps gives the same path as
a look each second: within 0.002 NM, as the tests see to.
"""

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from vorlib.aircraft.flight import Aircraft, FlightState, row_of
from vorlib.aircraft.stretch import BANK_PER_DEG, Looks
from vorlib.aircraft.turns import STANDARD_GRAVITY_M_S2
from vorlib.aircraft.wind import Wind, components_kt
from vorlib.core.angles import fold_360, reciprocal_deg, wrap_360
from vorlib.core.arguments import FloatArray
from vorlib.core.units import METERS_PER_NM, METERS_PER_SECOND_PER_KNOT
from vorlib.earth.ellipsoid import radii_m
from vorlib.earth.nearby import Nearby
from vorlib.procedures.flying import Flown, flown, fly_looks
from vorlib.procedures.panel import Passed
from vorlib.procedures.pilots import Homing
from vorlib.vor.coverage import cone_radius_nm
from vorlib.vor.receiver import Flag, Receiver
from vorlib.vor.station import Station

SLOW_DEG_S = 1.0  # a turn no faster than this is a pursuit curve's
CLEAR_NM = 0.05  # of the cone of confusion
FEWEST_LOOKS = 20  # worth a curve
LOOKS_BETWEEN = 120  # flown one by one before a curve is tried again
STEP = 0.16  # of the time to the station, at most LONGEST_STEP_S
LONGEST_STEP_S = 90.0


def fly_homing(
    aircraft: Aircraft,
    state: FlightState,
    station: Station,
    course_deg: float,
    seconds: float,
    wind: Wind,
    looks_per_s: float,
) -> Flown:
    """Fly as `vorlib.procedures.pilots.Homing` does, level, until the flag reads FROM.

    Parameters
    ----------
    aircraft, state, station, course_deg, seconds, wind, looks_per_s
        As for `vorlib.procedures.flying.fly`.
    """
    step_s = 1.0 / looks_per_s
    looks = math.ceil(seconds / step_s - 1e-9)
    rows = np.array([row_of(state)]).T
    courses = np.array([course_deg])
    while (left := looks + 1 - courses.size) > 0:
        curve = _Curve(aircraft, station, wind, state.altitude_ft)
        more, selected = curve.looks(state, step_s, left)
        if not selected.size:
            count = min(left, LOOKS_BETWEEN) if curve.is_received(state) else left
            more, selected = fly_looks(
                Homing(), aircraft, state, station, float(courses[-1]), count * step_s,
                wind=wind, until=Passed(), looks_per_s=looks_per_s,
            )  # fmt: skip
            more, selected = more[:, 1:], selected[1:]
            if selected.size < count:
                left = 0
        rows, courses = np.hstack((rows, more)), np.concatenate((courses, selected))
        if not left or not selected.size:
            break
        state = FlightState(*rows[:, -1].tolist())
    return flown(rows, courses, aircraft, station, wind)


def homing_minutes(
    course_deg: float, distance_nm: float, true_airspeed_kt: float, wind: Wind
) -> float:
    """Return how long homing takes to a station, infinite where the wind never lets it arrive.

    Parameters
    ----------
    course_deg
        The course straight to the station at the start, from the same north as the wind.
    distance_nm
        Distance over the ground, NM.
    true_airspeed_kt, wind
        Knots, more than 0; a wind as fast as that, or faster, keeps the pilot away for good, save
        straight from behind.

    Notes
    -----
    On the pursuit curve, distance times (airspeed + headwind) falls steadily by airspeed squared
    less wind squared: d/dt (v r + W . R) = w^2 - v^2, with R from the station to the aircraft and
    R' = W - v R / r. It is 0 at the station.

    >>> round(homing_minutes(360, 20, 100, Wind(270, 90)))
    63
    """
    head_kt, _ = components_kt(course_deg, wind)
    closing = true_airspeed_kt**2 - wind.speed_kt**2
    if closing <= 0.0:
        return math.inf
    return 60.0 * distance_nm * (true_airspeed_kt + float(head_kt)) / closing


@dataclass(frozen=True)
class _Curve:
    """The pursuit curve of an aircraft to a station in a wind."""

    aircraft: Aircraft
    station: Station
    wind: Wind
    altitude_ft: float

    @cached_property
    def speed(self) -> float:
        """True airspeed in meters a second."""
        return self.aircraft.true_airspeed_kt * METERS_PER_SECOND_PER_KNOT

    @cached_property
    def _delay_s(self) -> float:
        """With this delay a bank for each degree off turns the aircraft after the station."""
        return self.speed / (STANDARD_GRAVITY_M_S2 * BANK_PER_DEG)

    @cached_property
    def _station_rad(self) -> tuple[float, float]:
        here = self.station.position
        return math.radians(here.lat_deg), math.radians(here.lon_deg)

    def is_received(self, state: FlightState) -> bool:
        """Whether the flag reads TO for someone who homes."""
        radial_deg = self.station.radial_deg(state.position)
        reading = Receiver(reciprocal_deg(radial_deg)).read(self.station, state.position)
        return bool(reading.flag == Flag.TO)

    def looks(self, state: FlightState, step_s: float, most: int) -> tuple[Looks, FloatArray]:
        """Return the looks on the curve and the courses selected; none off the curve."""
        nothing = np.empty((6, 0)), np.empty(0)
        nodes = self._nodes(state, step_s * most)
        time_s = nodes[:, 0]
        count = min(most, int(time_s[-1] / step_s + 1e-9))
        if count < FEWEST_LOOKS:
            return nothing
        at = step_s * np.arange(count + 1)
        lat_deg, lon_deg = np.degrees(_hermite(at, time_s, nodes[:, 1:3].T, nodes[:, 3:].T))
        distance_nm, azimuth_deg = Nearby(self.station.position).line(lat_deg, lon_deg)
        radial = fold_360(azimuth_deg - self.station.declination_deg)
        courses = np.asarray(reciprocal_deg(radial))
        inbound = Receiver(courses).read_along(
            self.station, azimuth_deg, distance_nm, self.altitude_ft
        )
        silent = np.flatnonzero(inbound.flag != Flag.TO)
        count = min(count, int(silent[0]) - 1 if len(silent) else count)
        if count < FEWEST_LOOKS:
            return nothing
        azimuth = np.unwrap(np.radians(radial + self.station.declination_deg))
        rate = np.gradient(azimuth, step_s)
        heading = wrap_360(np.degrees(azimuth - self._delay_s * rate) + 180.0)
        bank = np.degrees(np.arctan(rate * self.speed / STANDARD_GRAVITY_M_S2))
        rows = np.stack(
            (state.time_s + at, lat_deg, lon_deg,
             np.full(len(at), self.altitude_ft), heading, bank)
        )  # fmt: skip
        return rows[:, 1 : count + 1], courses[:count]

    def _nodes(self, state: FlightState, seconds: float) -> FloatArray:
        """Return time, latitude, longitude and their rates along the curve, in radians.

        It ends where the turn is no longer slow. Runge and Kutta's method of order 4.
        """
        lat, lon, time_s = math.radians(state.lat_deg), math.radians(state.lon_deg), 0.0
        height_ft = max(0.0, float(self.station.height_ft(state.position)))
        clear_m = (float(cone_radius_nm(height_ft)) + CLEAR_NM) * METERS_PER_NM
        fastest = self.speed + float(self.wind.speed_kt) * METERS_PER_SECOND_PER_KNOT
        nodes = []
        while True:
            north, east, away_m, turn = self._rates(lat, lon)
            nodes.append((time_s, lat, lon, north, east))
            slow = abs(turn) < math.radians(SLOW_DEG_S) and away_m > clear_m
            if not slow or time_s >= seconds:
                return np.array(nodes)
            h = min(STEP * away_m / fastest, LONGEST_STEP_S)
            n2, e2, _, _ = self._rates(lat + h / 2 * north, lon + h / 2 * east)
            n3, e3, _, _ = self._rates(lat + h / 2 * n2, lon + h / 2 * e2)
            n4, e4, _, _ = self._rates(lat + h * n3, lon + h * e3)
            lat += h / 6 * (north + 2 * n2 + 2 * n3 + n4)
            lon += h / 6 * (east + 2 * e2 + 2 * e3 + e4)
            time_s += h

    def _rates(self, lat: float, lon: float) -> tuple[float, float, float, float]:
        """Return radians a second north and east, meters from the station, radians a second turned.

        The geodesic from the station by the mid-latitude formula of Gauss, which is good to a
        millionth over such distances (from memory, checked against the exact one in the tests).
        """
        lat0, lon0 = self._station_rad
        middle, apart = (lat + lat0) / 2.0, math.remainder(lon - lon0, math.tau)
        meridian_m, parallel_m = radii_m(middle)
        north = meridian_m * (lat - lat0) * math.cos(apart / 2.0)
        east = parallel_m * apart
        turned = apart * math.sin(middle)
        azimuth = math.atan2(east, north) - turned / 2.0
        away_m = math.hypot(north, east)
        wind_north, wind_east = self.wind.toward_m_s
        end = azimuth + turned
        turn = (wind_east * math.cos(end) - wind_north * math.sin(end)) / away_m
        heading, speed = azimuth + math.pi - self._delay_s * turn, self.speed
        meridian_m, parallel_m = radii_m(lat)
        return (
            (speed * math.cos(heading) + wind_north) / meridian_m,
            (speed * math.sin(heading) + wind_east) / parallel_m,
            away_m,
            turn,
        )


def _hermite(
    at: NDArray[Any], time_s: FloatArray, value: FloatArray, rate: FloatArray
) -> FloatArray:
    """Return values at some times by cubics between other times, where values and rates are known.

    Values and rates are of shape (m, times).
    """
    i = np.clip(np.searchsorted(time_s, at, "right") - 1, 0, len(time_s) - 2)
    h = time_s[i + 1] - time_s[i]
    s = (at - time_s[i]) / h
    begin, rise = value[:, i], value[:, i + 1] - value[:, i]
    curve: FloatArray = begin + s * (
        rise + (1 - s) * ((1 - s) * (h * rate[:, i] - rise) + s * (rise - h * rate[:, i + 1]))
    )
    return curve
