"""A recorded flight: its points in order, without doubles, and notes of what was mended."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from vorlib.aircraft.flight import HIGHEST_LATITUDE_DEG, Flight
from vorlib.aircraft.ground_track import GAP_S, OverGround, over_ground
from vorlib.core.angles import wrap_360
from vorlib.core.arguments import FloatArray
from vorlib.core.words import spoken_count
from vorlib.earth.geodesic import Position, Positions
from vorlib.io.text import FileError
from vorlib.tracks.fixes import counted, possible
from vorlib.tracks.points import Points, check, joined

APART_S = 1800.0  # after so long without a point another flight begins
STANDING_KT = 0.5  # anything slower has no track
MOVING_KT, SAME_SPEED = 40.0, 1.3  # a recorded speed of another unit is farther off than this


class Gap(NamedTuple):
    """A silence of the recorder: when it begins, in seconds of the flight, and how long it is."""

    begin_s: float
    seconds: float


@dataclass(frozen=True, eq=False)
class Recording:
    """A recorded flight.

    Attributes
    ----------
    flight
        Its arrays, time from 0; heading is the track where none was recorded, and bank is 0.
    start
        When it begins, UTC; None where only seconds of the flight were written.
    gaps
        The silences of the recorder.
    notes
        What was done to the points and what was filled in, a sentence each.
    speed_kt
        Speed over the ground as it was recorded, NaN where none was; None if it is not known.
    """

    flight: Flight
    start: datetime | None
    gaps: tuple[Gap, ...]
    notes: tuple[str, ...]
    speed_kt: FloatArray | None = None


def recording(
    points: Points, number: int | None, altitude_ft: float | None, *, dated: bool = True
) -> Recording:
    """Return the flight that points make.

    Parameters
    ----------
    points
        All points of a file.
    number
        Which flight, from 1, if there are several.
    altitude_ft
        The altitude where none was recorded.
    dated
        False where times are seconds of the flight.

    Raises
    ------
    FileError
        If there are no two points with a time, they are too far apart in time, a point is nowhere
        on the earth, there is no altitude, or there are several flights and none is chosen: they
        are listed.
    """
    notes: list[str] = []
    points = _usable(points, notes, dated)
    flown = _chosen(_flights(points), number, notes, dated)
    backwards = int(np.sum(np.diff(flown.time_s[np.argsort(flown.line, kind="stable")]) < 0.0))
    if backwards:
        notes.append(
            f"The points were not in order of time ({spoken_count(backwards, 'step')} back): they "
            "were sorted."
        )
    new = np.diff(flown.time_s, prepend=-np.inf) > 0.0
    if not new.all():
        notes.append(f"Left out: {counted(~new, 'point')} with the time of another.")
        flown = flown.take(new)
    flown = possible(flown, notes)
    if len(flown) < 2:
        raise FileError("the file holds one point with a time of its own: a flight needs two")
    return _finished(flown, altitude_ft, notes, dated)


def _usable(points: Points, notes: list[str], dated: bool) -> Points:
    """Return the points that have a place and a time, which must be possible ones."""
    if not len(points):
        raise FileError("the file holds no point of a track, at most a route or places")
    points = _having("a place", points, np.isfinite(points.lat_deg), notes)
    check(points, dated=dated)
    return _having("a time that can be read", points, np.isfinite(points.time_s), notes)


def _having(what: str, points: Points, has: NDArray[np.bool_], notes: list[str]) -> Points:
    if not has.any():
        raise FileError(f"no point has {what}: this is not a recorded flight")
    if not has.all():
        first = points.line[~has][0]
        notes.append(
            f"Left out: {counted(~has, 'point')} without {what}, the first in line {first}."
        )
    return points.take(has)


def _flights(points: Points) -> list[Points]:
    """Cut points into flights, each in order of time; flights that overlap stay apart."""
    segments: list[Points] = []
    for track in np.unique(points.track):
        one = points.take(points.track == track)
        # By place too, so that of two points with one time the same one always stays.
        one = one.take(np.lexsort((one.altitude_ft, one.lon_deg, one.lat_deg, one.time_s)))
        cuts = np.flatnonzero(np.diff(one.time_s) > APART_S) + 1
        segments += [one.take(part) for part in np.split(np.arange(len(one)), cuts)]
    flights: list[Points] = []
    for segment in sorted(segments, key=lambda segment: float(segment.time_s[0])):
        silence = segment.time_s[0] - flights[-1].time_s[-1] if flights else np.inf
        if 0.0 <= silence <= APART_S:
            flights[-1] = joined([flights[-1], segment])
        else:
            flights.append(segment)
    return flights


def _chosen(flights: list[Points], number: int | None, notes: list[str], dated: bool) -> Points:
    flown = [flight for flight in flights if len(flight) > 1] or flights
    alone = [flight for flight in flights if len(flight) == 1]
    if alone and flown != flights:
        lines = ", ".join(str(flight.line[0]) for flight in alone[:5])
        notes.append(f"Left out, points hours from any other: {len(alone)}, in line {lines}.")
    if number is None and len(flown) == 1:
        return flown[0]
    if number is not None and 1 <= number <= len(flown):
        if len(flown) > 1:
            notes.append(f"Flight {number} of {len(flown)} in the file.")
        return flown[number - 1]
    listed = [
        f"  {n}: from {_begin(flight, dated)}, "
        f"{(flight.time_s[-1] - flight.time_s[0]) / 60.0:.0f} min, line {flight.line.min()}"
        for n, flight in enumerate(flown, 1)
    ]
    asked = "choose one by its number" if number is None else f"there is no number {number}"
    raise FileError(
        f"the file holds {spoken_count(len(flown), 'flight')}: {asked}", *listed, argument="number"
    )


def _begin(flight: Points, dated: bool) -> str:
    time_s = float(flight.time_s[0])
    return f"{_utc(time_s):%Y-%m-%d %H:%M} UTC" if dated else f"{time_s:.0f} s"


def _utc(time_s: float) -> datetime:
    return datetime(1970, 1, 1, tzinfo=UTC) + timedelta(seconds=float(time_s))


def _finished(flown: Points, altitude_ft: float | None, notes: list[str], dated: bool) -> Recording:
    time_s = flown.time_s - flown.time_s[0]
    position = Position(flown.lat_deg, flown.lon_deg, _altitude_ft(flown, altitude_ft, notes))
    silence = np.diff(time_s)
    apart_s = float(np.median(silence))
    if apart_s > GAP_S:
        raise FileError(
            f"the points are mostly {apart_s:.0f} s apart: one at least every {GAP_S:g} s is "
            "needed to tell what was flown between them"
        )
    gaps = tuple(Gap(float(time_s[i]), float(silence[i])) for i in np.flatnonzero(silence > GAP_S))
    _tell_edges(position, notes)
    level, heading = np.zeros_like(time_s), flown.true_heading_deg
    track = _track_held(over_ground(Flight(time_s, position, level, level, level)))
    written = np.isfinite(heading)
    if written.any() and not written.all():
        notes.append(f"{counted(~written, 'heading')} missing: taken as the track, without wind.")
    heading = wrap_360(np.where(written, heading, track))
    flight = Flight(time_s, position, heading, track, level)
    start = _utc(flown.time_s[0]) if dated else None
    speed = _speed_kt(flown.speed_kt, over_ground(flight), notes)
    return Recording(flight, start, gaps, tuple(notes), speed)


def _speed_kt(speed: FloatArray, ground: OverGround, notes: list[str]) -> FloatArray | None:
    """Return the speeds recorded, if there are any and they agree with the places."""
    moving = np.isfinite(speed) & ground.known & (ground.groundspeed_kt > MOVING_KT)
    if not moving.any():
        return None
    ratio = float(np.median(speed[moving] / ground.groundspeed_kt[moving]))
    if 1.0 / SAME_SPEED <= ratio <= SAME_SPEED:
        return speed
    notes.append(
        f"The recorded speeds are {ratio:.2f} times those between the places: is their unit "
        "right? They are not used."
    )
    return None


def _altitude_ft(flown: Points, altitude_ft: float | None, notes: list[str]) -> FloatArray:
    """Return the altitudes, with those that were not written taken between their neighbors."""
    written = np.isfinite(flown.altitude_ft)
    if written.all():
        return flown.altitude_ft
    if not written.any():
        if altitude_ft is None:
            raise FileError(
                "no altitude was recorded: give one, because reception depends on it",
                argument="altitude_ft",
            )
        notes.append(f"Altitude was not recorded: it is taken as {altitude_ft:,.0f} ft.")
        return np.full(len(flown), altitude_ft)
    notes.append(f"{counted(~written, 'altitude')} missing: taken between the neighbors.")
    return np.interp(flown.time_s, flown.time_s[written], flown.altitude_ft[written])


def _tell_edges(position: Positions, notes: list[str]) -> None:
    if np.any(abs(position.lat_deg) > HIGHEST_LATITUDE_DEG):
        notes.append("The flight nears a pole, where directions change from point to point.")
    elif np.any(abs(np.diff(position.lon_deg)) > 180.0):
        notes.append("The flight crosses the antimeridian, longitude 180.")


def _track_held(ground: OverGround) -> FloatArray:
    """Return the track over the ground; while standing still, the last there was."""
    moving = ground.known & (ground.groundspeed_kt > STANDING_KT)
    latest = np.maximum.accumulate(np.where(moving, np.arange(moving.size), -1))
    held: FloatArray = ground.true_track_deg[np.where(latest < 0, int(np.argmax(moving)), latest)]
    return held
