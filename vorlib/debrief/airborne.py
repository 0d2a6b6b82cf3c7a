"""Find when a recorded flight was in the air, and which parts were circuits.

From speed and place, and from height where it was recorded. A touch-and-go hardly slows below the
speed of an approach into the wind: it is told by a dip of speed at the height, or without heights
at the place, at which the aircraft was on the ground before or after.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from vorlib.aircraft.flight import Flight
from vorlib.aircraft.ground_track import GAP_S, BoolArray, IntArray, over_ground, runs
from vorlib.core.arguments import FloatArray
from vorlib.earth.geodesic import inverse

__all__ = ["Airborne", "airborne"]

# All chosen for training aircraft that approach at 50 to 80 kt, recorded every one to ten seconds.
SLOW_KT, SLOW_SHARE = 30.0, 0.35  # slower than both is on the ground: the share is of cruise
FLYING_KT = 40.0  # a track that is never faster has not flown
SLOW_S = 5.0  # for so long
LIFTS_OFF = 0.77  # of the speed of the climb or approach next to it
NEXT_TO_S = (15.0, 60.0)  # which is taken so long after, or before, the slow part
DIP, DIP_SHARE = 0.85, 0.65  # a touch-and-go slows to this share of approach, and of cruise
DIP_S = 15.0  # and is the slowest for so long before and after
KNOWN_FT, KNOWN_NM = 70.0, 3.0  # a ground is as high as one known not farther away
ROUND_FT, ROUND_S = 250.0, 120.0  # an unknown ground is come down to and climbed from
RUNWAY_NM = 1.0  # without heights: so near to a place known as ground
SHORTEST_AIR_S = 20.0
CLIMB_S, SHORTEST_CRUISE_S = 300.0, 600.0
CIRCUIT_S, CIRCUIT_NM, SAME_FIELD_NM = 900.0, 4.0, 1.5


@dataclass(frozen=True, eq=False)
class Airborne:
    """When a flight was in the air, arrays of shape (n,).

    Attributes
    ----------
    flying
        True in the air.
    circuit
        True in the air between two landings at one field, never far from it and soon over.
    touches
        How many times the aircraft touched down and took off again without slowing to a taxi.
    """

    flying: BoolArray
    circuit: BoolArray
    touches: int

    @property
    def away(self) -> BoolArray:
        """True in the air outside circuits."""
        return self.flying & ~self.circuit

    def cruise(self, time_s: FloatArray) -> BoolArray:
        """Return where it was away, and neither climbing from a field nor coming down to one."""
        cruise = self.away.copy()
        for begin, end in runs(self.away):
            first = time_s[begin] + CLIMB_S * (begin > 0)
            last = time_s[end - 1] - CLIMB_S * (end < time_s.size)
            if last - first > SHORTEST_CRUISE_S:
                cruise[begin:end] &= (time_s[begin:end] >= first) & (time_s[begin:end] <= last)
        return cruise

    @property
    def leg(self) -> IntArray:
        """Number of the leg away from the field, from 0; -1 on the ground and in circuits."""
        begins = self.away & ~np.concatenate([[False], self.away[:-1]])
        number: IntArray = np.where(self.away, np.cumsum(begins) - 1, -1)
        return number


def airborne(flight: Flight, gap_s: float = GAP_S, speed_kt: FloatArray | None = None) -> Airborne:
    """Return when a flight was in the air; in doubt it was.

    Parameters
    ----------
    flight
        The flight, with n moments; only times and places are used.
    gap_s
        No speed is taken across a silence longer than this.
    speed_kt
        Speed over the ground as it was recorded, of shape (n,), NaN where it was not.
    """
    time_s = flight.time_s
    speed = _speed_kt(flight, gap_s)
    if speed_kt is not None:
        speed = np.where(np.isfinite(speed_kt), speed_kt, speed)
    nothing = np.zeros(time_s.size, dtype=bool)
    fast = speed[speed > SLOW_KT]
    if not fast.size or float(np.max(fast)) < FLYING_KT:
        moved = bool(time_s.size < 2 or np.max(speed, initial=0.0) >= SLOW_KT)
        return Airborne(~nothing if moved else nothing, nothing, 0)
    cruise = float(np.percentile(fast, 75.0))
    ground = _rolled(time_s, speed, min(SLOW_KT, SLOW_SHARE * cruise))
    touched = nothing.copy()
    for begin, end in _touches(flight, speed, ground, cruise):
        touched[begin:end] = True
    flying = ~(ground | touched)
    for begin, end in runs(flying):
        within = begin > 0 and end < flying.size
        if flying[begin] and within and time_s[end] - time_s[begin] < SHORTEST_AIR_S:
            flying[begin:end] = False
    touches = sum(bool(touched[a]) and not ground[a:b].any() for a, b in runs(flying))
    return Airborne(flying, _circuits(flight, flying), touches)


def _speed_kt(flight: Flight, gap_s: float) -> FloatArray:
    """Return the speed over the ground, interpolated where it is not known."""
    ground = over_ground(flight, gap_s)
    if not ground.known.any():
        return np.full(flight.time_s.size, FLYING_KT)
    known = ground.known
    return np.interp(flight.time_s, flight.time_s[known], ground.groundspeed_kt[known])


def _rolled(time_s: FloatArray, speed: FloatArray, slow_kt: float) -> BoolArray:
    """Return True where the aircraft stands, taxis, rolls to take off, or rolls out."""
    ground = np.zeros(time_s.size, dtype=bool)
    for begin, end in runs(speed < slow_kt):
        if speed[begin] >= slow_kt or ground[begin:end].all():
            continue
        inside = begin > 0 and end < time_s.size
        if inside and time_s[end - 1] - time_s[begin] < SLOW_S:
            continue
        ground[begin:end] = True
        before, after = _beside(time_s, speed, begin, end - 1)
        while end < time_s.size and speed[end] < LIFTS_OFF * after:
            ground[end] = True
            end += 1
        while begin > 0 and speed[begin - 1] < LIFTS_OFF * before:
            begin -= 1
            ground[begin] = True
    return ground


def _beside(time_s: FloatArray, speed: FloatArray, begin: int, end: int) -> tuple[float, float]:
    """Return the usual speed just before one moment and just after another, 0 for none."""
    near, far = NEXT_TO_S
    usual = []
    for edges in (
        (time_s[begin] - far, time_s[begin] - near),
        (time_s[end] + near, time_s[end] + far),
    ):
        first, last = np.searchsorted(time_s, edges)
        usual.append(float(np.median(speed[first:last])) if last > first else 0.0)
    return usual[0], usual[1]


def _touches(
    flight: Flight, speed: FloatArray, ground: BoolArray, cruise: float
) -> list[tuple[int, int]]:
    """Where each dip of speed in the air is a touch-and-go: its first index, and just after it."""
    time_s, found = flight.time_s, list[tuple[int, int]]()
    for i in np.flatnonzero(~ground & (speed < DIP_SHARE * cruise)).tolist():
        first, last = np.searchsorted(time_s, [time_s[i] - DIP_S, time_s[i] + DIP_S])
        if speed[i] > speed[first:last].min() or ground[first:last].any():
            continue
        beside = min(_beside(time_s, speed, i, i))
        if speed[i] > DIP * beside or not _on_ground(flight, ground, i):
            continue
        half = (speed[i] + beside) / 2.0
        begin, end = i, i + 1
        while begin > 0 and speed[begin - 1] < half:
            begin -= 1
        while end < time_s.size and speed[end] < half:
            end += 1
        found.append((begin, end))
    return found


def _on_ground(flight: Flight, ground: BoolArray, i: int) -> bool:
    """Whether a moment is as high as the ground, or without heights at a place of it."""
    time_s, place = flight.time_s, flight.position
    lat, lon = np.asarray(place.lat_deg), np.asarray(place.lon_deg)
    altitude = np.broadcast_to(np.asarray(place.altitude_ft), time_s.shape)
    known = np.flatnonzero(ground)
    away = inverse(lat[i], lon[i], lat[known], lon[known]).distance_nm
    if np.ptp(altitude) == 0.0:  # not recorded
        return bool(np.any(away < RUNWAY_NM))
    near = known[away < KNOWN_NM]
    if near.size:
        return bool(abs(altitude[i] - np.median(altitude[near])) < KNOWN_FT)
    about = abs(time_s - time_s[i]) <= ROUND_S
    before, after = altitude[about & (time_s < time_s[i])], altitude[about & (time_s > time_s[i])]
    lowest = altitude[i] - altitude[about].min() < KNOWN_FT
    deep = min(before.max(initial=-np.inf), after.max(initial=-np.inf)) - altitude[i] > ROUND_FT
    return bool(lowest and deep)


def _circuits(flight: Flight, flying: BoolArray) -> BoolArray:
    """Return True in the air between two landings at one field, never far from it and soon over."""
    place, time_s = flight.position, flight.time_s
    lat, lon = np.asarray(place.lat_deg), np.asarray(place.lon_deg)
    circuit = np.zeros(time_s.size, dtype=bool)
    for begin, end in runs(flying):
        between = flying[begin] and begin > 0 and end < time_s.size
        if not between or time_s[end] - time_s[begin] > CIRCUIT_S:
            continue
        away = inverse(lat[begin], lon[begin], lat[begin : end + 1], lon[begin : end + 1])
        near = away.distance_nm.max() <= CIRCUIT_NM and away.distance_nm[-1] <= SAME_FIELD_NM
        circuit[begin:end] = near
    return circuit
