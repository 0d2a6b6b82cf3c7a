"""How a flight moved over the ground: unbroken segments, velocities, directions smoothed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from vorlib.aircraft.flight import Flight
from vorlib.core.angles import wrap_180, wrap_360
from vorlib.core.arguments import FloatArray
from vorlib.core.units import METERS_PER_NM, SECONDS_PER_HOUR
from vorlib.earth.geodesic import inverse

__all__ = [
    "GAP_S",
    "OverGround",
    "jitter_nm",
    "over_ground",
    "runs",
    "segments",
    "smoothed_deg",
    "smoothing_s",
]

BoolArray = NDArray[np.bool_]
IntArray = NDArray[np.int_]

GAP_S = 30.0  # a silence of a recorder that nothing is to bridge
BASE_S = 3.0  # a velocity is taken from so long before a moment to so long after
SMOOTHING_S = 4.0  # a direction is averaged over as long before and after
JITTER_S = 0.6  # and so much longer for each meter beyond the second that places jump about by
LONGEST_SMOOTHING_S = 12.0
LEAST_MOMENTS = 10  # fewer tell nothing of a recorder
NM_PER_DEG = 60.0
MEDIAN_TO_DEVIATION = 1.4826  # of what is normally distributed


@dataclass(frozen=True, eq=False)
class OverGround:
    """Velocities over the ground, arrays of shape (n,).

    Attributes
    ----------
    time_s
        Increasing times.
    true_track_deg, groundspeed_kt
        The velocity; 360 and 0 where it is not known.
    known
        False where no neighbor is near enough in time to tell.
    """

    time_s: FloatArray
    true_track_deg: FloatArray
    groundspeed_kt: FloatArray
    known: BoolArray

    @cached_property
    def north_east_kt(self) -> FloatArray:
        """The velocity's northern and eastern part, of shape (2, n)."""
        track = np.radians(self.true_track_deg)
        return np.array([self.groundspeed_kt * np.cos(track), self.groundspeed_kt * np.sin(track)])


def runs(value: NDArray[np.generic]) -> list[tuple[int, int]]:
    """Return where each run of one value begins, and the index just after it."""
    if not value.size:
        return []
    edges = [0, *(np.flatnonzero(value[1:] != value[:-1]) + 1).tolist(), value.size]
    return list(pairwise(edges))


def segments(time_s: FloatArray, gap_s: float = GAP_S) -> IntArray:
    """Return the number, from 0, of the unbroken segment each moment is in, parted by `gap_s`."""
    parted = np.diff(time_s, prepend=time_s[:1]) > gap_s
    number: IntArray = np.cumsum(parted)
    return number


def over_ground(flight: Flight, gap_s: float = GAP_S, base_s: float = BASE_S) -> OverGround:
    """Return the velocities of a flight, each from the places some seconds before and after.

    Parameters
    ----------
    flight
        The flight, with n moments.
    gap_s
        No velocity is taken across a silence longer than this.
    base_s
        How long before and after, more than 0; the neighbors where they are farther apart. In a
        turn of 3 degrees a second 3 s make the speed 0.4 % too small.
    """
    time_s, place = flight.time_s, flight.position
    before, after = _window(time_s, segments(time_s, gap_s), base_s)
    after = after - 1
    lat, lon = np.asarray(place.lat_deg), np.asarray(place.lon_deg)
    line = inverse(lat[before], lon[before], lat[after], lon[after])
    elapsed = time_s[after] - time_s[before]
    known = elapsed > 0.0
    bend = wrap_180(line.true_azimuth_end_deg - line.true_azimuth_deg)
    track = wrap_360(line.true_azimuth_deg + bend / 2.0)
    speed = line.distance_nm / np.where(known, elapsed, 1.0) * SECONDS_PER_HOUR
    return OverGround(time_s, np.asarray(track), speed, known)


def smoothed_deg(
    time_s: FloatArray, direction_deg: FloatArray, gap_s: float = GAP_S, half_s: float = SMOOTHING_S
) -> FloatArray:
    """Return directions averaged over seconds before and after, in (0, 360]."""
    begin, end = _window(time_s, segments(time_s, gap_s), half_s)
    east, north = (
        np.concatenate([[0.0], np.cumsum(part(np.radians(direction_deg)))])
        for part in (np.sin, np.cos)
    )
    mean = np.degrees(np.arctan2(east[end] - east[begin], north[end] - north[begin]))
    return np.asarray(wrap_360(mean))


def jitter_nm(flight: Flight, gap_s: float = GAP_S) -> float:
    """Return how much a recorder's places jump from moment to moment, in NM.

    The standard deviation of what is not steady flight: from how far each place is from the middle
    of its neighbors, of which half the flight may be turning.
    """
    time_s, place = flight.time_s, flight.position
    if time_s.size < LEAST_MOMENTS:
        return 0.0
    step = np.diff(time_s)
    steady = (abs(np.diff(step)) < 0.1 * step[1:]) & (step[1:] <= gap_s) & (step[:-1] <= gap_s)
    lat = np.asarray(place.lat_deg)
    east = np.unwrap(np.asarray(place.lon_deg), period=360.0) * np.cos(np.radians(lat.mean()))
    bends = np.concatenate([np.diff(lat, 2)[steady], np.diff(east, 2)[steady]])
    if not bends.size:
        return 0.0
    return float(MEDIAN_TO_DEVIATION * np.median(abs(bends)) / math.sqrt(6.0) * NM_PER_DEG)


def smoothing_s(jitter: float) -> float:
    """Return how long before and after directions are to be averaged, for a jitter in NM."""
    meters = jitter * METERS_PER_NM
    return min(SMOOTHING_S + JITTER_S * max(meters - 2.0, 0.0), LONGEST_SMOOTHING_S)


def _window(time_s: FloatArray, segment: IntArray, half_s: float) -> tuple[IntArray, IntArray]:
    """Return first index and index after the last of each moment's neighbors in its own segment.

    At least the neighbors on either side, as far as there are any in the segment.
    """
    index = np.arange(time_s.size)
    begin = np.minimum(np.searchsorted(time_s, time_s - half_s, "left"), np.maximum(index - 1, 0))
    end = np.maximum(np.searchsorted(time_s, time_s + half_s, "right"), index + 2)
    first, last = (
        np.searchsorted(segment, segment, "left"),
        np.searchsorted(segment, segment, "right"),
    )
    return np.maximum(begin, first), np.minimum(end, last)
