"""Leave out impossible points: at latitude 0, longitude 0, or beyond an aircraft's reach."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from vorlib.aircraft.ground_track import BoolArray, runs
from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.core.words import spoken_count
from vorlib.earth.geodesic import inverse
from vorlib.io.text import FileError
from vorlib.tracks.points import Points

__all__ = ["counted", "possible"]

NO_FIX_DEG = 0.01  # a recorder without a fix writes latitude 0 and longitude 0

# A step is impossible when it is faster than so many times the usual one, but never a slower one
# than noise may be; and no aircraft of a lesson is faster than the last.
LEAP, LEAST_LEAP_KT, FASTEST_KT = 4.0, 400.0, 1000.0
MOST_LEAPS = 1000  # a recording with more is not a flight


def counted(which: NDArray[np.bool_], thing: str) -> str:
    """Return how many there are in words, with what they are."""
    return spoken_count(int(np.sum(which)), thing)


def possible(flown: Points, notes: list[str]) -> Points:
    """Return the points that an aircraft can have been at, one after the other.

    Parameters
    ----------
    flown
        Points in order of time, no two at one time.
    notes
        What was left out is added, a sentence for each reason.

    Raises
    ------
    FileError
        If there are so many impossible steps that this is not the flight of one aircraft.
    """
    nowhere = (abs(flown.lat_deg) < NO_FIX_DEG) & (abs(flown.lon_deg) < NO_FIX_DEG)
    if nowhere.any() and not nowhere.all() and np.mean(nowhere) < 0.5:
        notes.append(
            f"Left out: {counted(nowhere, 'point')} at latitude 0, longitude 0, without a fix."
        )
        flown = flown.take(~nowhere)
    kept = _reachable(flown)
    if not kept.all():
        first = flown.line[~kept][0]
        notes.append(
            f"Left out: {counted(~kept, 'point')} that no aircraft can have reached, the first in "
            f"line {first}. They are wrong, or latitude and longitude are swapped."
        )
    return flown.take(kept)


def _reachable(flown: Points) -> BoolArray:
    """Return True for the longest unbroken run of points, and for what can be reached from it."""
    if len(flown) < 2:
        return np.ones(len(flown), dtype=bool)
    lat, lon, time_s = flown.lat_deg, flown.lon_deg, flown.time_s
    nm = inverse(lat[:-1], lon[:-1], lat[1:], lon[1:]).distance_nm
    speed = nm / np.diff(time_s) * SECONDS_PER_HOUR
    fastest_kt = min(max(LEAP * float(np.median(speed)), LEAST_LEAP_KT), FASTEST_KT)
    leap = speed > fastest_kt
    kept = np.ones(len(flown), dtype=bool)
    if not leap.any():
        return kept
    if np.sum(leap) > MOST_LEAPS:
        raise FileError(
            f"{np.sum(leap):,} steps are faster than {fastest_kt:,.0f} kt, the first to line "
            f"{flown.line[np.argmax(leap) + 1]}: this is not the flight of one aircraft"
        )
    segments = runs(np.concatenate([[0], np.cumsum(leap)]))
    longest = max(range(len(segments)), key=lambda i: segments[i][1] - segments[i][0])

    def reached(here: int, there: int) -> bool:
        away_nm = float(inverse(lat[here], lon[here], lat[there], lon[there]).distance_nm)
        apart_s = abs(float(time_s[there] - time_s[here]))
        return away_nm / apart_s * SECONDS_PER_HOUR <= fastest_kt

    last = segments[longest][1] - 1
    for begin, end in segments[longest + 1 :]:
        kept[begin:end] = reached(last, begin)
        last = end - 1 if kept[begin] else last
    first = segments[longest][0]
    for begin, end in reversed(segments[:longest]):
        kept[begin:end] = reached(first, end - 1)
        first = begin if kept[begin] else first
    return kept
