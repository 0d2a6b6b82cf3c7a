"""Estimate what was selected when from the track alone, where nobody has written it down.

Where a track keeps for some minutes to a straight line to or from a station, that station and that
course are likely to have been selected. It is an estimate: the course meant may have been a few
degrees beside the one that was kept, and with two stations in line either may have been tuned.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np

from vorlib.aircraft.flight import Flight
from vorlib.aircraft.ground_track import GAP_S, IntArray, over_ground, segments, smoothed_deg
from vorlib.core.angles import difference_deg, wrap_360
from vorlib.debrief.airborne import airborne
from vorlib.debrief.legs import BRIDGED_S, Leg, legs, within_reach
from vorlib.earth.geodesic import Position, Positions
from vorlib.tracks.selections import Selection
from vorlib.vor.station import Station

__all__ = ["Estimate", "Leg", "estimate_selections"]

LOOK_S = 4.0  # between looks at the track
WEAVING_S = 30.0  # before and after a look, averaged over, to smooth out weaving
AHEAD_S = 300.0  # a course counts as selected this long before it is flown
SAME_COURSE_DEG = 4.0  # a passage flown through keeps its course
AS_LIKELY = 0.5  # a station with so large a share of the best one's weight is named as a rival


@dataclass(frozen=True)
class Estimate:
    """Selections estimated from a track, and the legs they come from, in order of time."""

    selections: tuple[Selection, ...]
    legs: tuple[Leg, ...]

    @property
    def words(self) -> tuple[str, ...]:
        """What was estimated, and how sure it is, in sentences."""
        if not self.legs:
            return (
                "The track never keeps to a line to or from one of the stations for two and a "
                "half minutes: what was selected cannot be estimated, so enter it.",
            )
        return (
            "What was selected is estimated from the track. So deviations say how steadily you "
            "kept to a line, not how near that was to the course you meant.",
            *(leg.words for leg in self.legs),
        )


def estimate_selections(
    flight: Flight, stations: Iterable[Station], gap_s: float = GAP_S
) -> Estimate:
    """Return what is likely to have been selected on a flight.

    Parameters
    ----------
    flight
        The flight; only its times and places are used.
    stations
        Those that may have been tuned; where one is beyond line of sight or outside its service
        volume it shows no course, and is left out.
    gap_s
        No leg goes across a silence longer than this, and none lies on the ground or in a circuit.
    """
    air = airborne(flight, gap_s)
    looks = np.flatnonzero(np.diff(np.floor(flight.time_s / LOOK_S), prepend=-1.0) > 0.0)
    looks = looks[air.away[looks]]
    time_s, place = flight.time_s[looks], _take(flight.position, looks)
    ground = over_ground(flight, gap_s)
    track = smoothed_deg(flight.time_s, ground.true_track_deg, gap_s, WEAVING_S)[looks]
    parted = segments(flight.time_s, gap_s) + flight.time_s.size * air.leg  # by gaps and landings
    segment = np.unique(parted[looks], return_inverse=True)[1]
    found = [
        leg
        for station in stations
        if looks.size and within_reach(station, _some(place)).any()
        for leg in legs(station, time_s, place, track, segment)
    ]
    kept = _one_course_through(_without_rivals(found))
    free_s = [0.0, *(leg.end_s for leg in kept)]
    selections = tuple(
        Selection(max(free, one.begin_s - AHEAD_S), one.station, one.course_deg, one.end_s)
        for free, one in zip(free_s, kept, strict=False)
    )
    return Estimate(selections, tuple(kept))


def _take(place: Positions, index: IntArray) -> Positions:
    columns = np.broadcast_arrays(place.lat_deg, place.lon_deg, place.altitude_ft)
    lat, lon, altitude = (column[index] for column in columns)
    return Position(lat, lon, altitude)


def _some(place: Positions) -> Positions:
    return _take(place, np.unique(np.linspace(0, place.lat_deg.size - 1, 50).astype(int)))


def _without_rivals(found: list[Leg]) -> list[Leg]:
    """Keep of legs that overlap the best, with the other station named if it fits as well."""
    best = sorted(found, key=lambda one: one.likely, reverse=True)
    kept: list[Leg] = []
    for one in best:
        over = [i for i, other in enumerate(kept) if _shared_s(one, other) > BRIDGED_S]
        if not over:
            kept.append(one)
        for i in over:
            other = kept[i]
            as_well = one.likely >= AS_LIKELY * other.likely
            if as_well and _shared_s(one, other) > 0.5 * other.seconds:
                kept[i] = replace(other, rival=one.station.ident)
    return sorted(kept, key=lambda one: one.begin_s)


def _shared_s(one: Leg, other: Leg) -> float:
    return min(one.end_s, other.end_s) - max(one.begin_s, other.begin_s)


def _one_course_through(kept: list[Leg]) -> list[Leg]:
    """Give one course to a leg to a station and the next from it that go straight through."""
    for i in range(len(kept) - 1):
        to, away = kept[i], kept[i + 1]
        apart = float(difference_deg(away.course_deg, to.course_deg))
        through = to.inbound and not away.inbound and to.station is away.station
        if through and abs(apart) <= SAME_COURSE_DEG and away.begin_s - to.end_s < BRIDGED_S:
            share = away.seconds / (to.seconds + away.seconds)
            course = float(wrap_360(round(to.course_deg + share * apart)))
            kept[i], kept[i + 1] = (replace(one, course_deg=course) for one in (to, away))
    return kept
