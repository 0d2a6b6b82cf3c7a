"""Legs of a track that keep to a straight line to or from a station."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from vorlib.aircraft.ground_track import BoolArray, IntArray, runs
from vorlib.core.angles import difference_deg, format_direction, mean_direction_deg, wrap_360
from vorlib.core.arguments import FloatArray
from vorlib.core.words import spoken_degrees, spoken_time
from vorlib.earth.geodesic import Positions
from vorlib.vor.coverage import line_of_sight_nm, service_radius_nm
from vorlib.vor.station import Station

__all__ = ["BRIDGED_S", "Leg", "legs", "within_reach"]

# What counts as keeping to a line, chosen so that a learner's weaving about it still does.
ON_LINE_DEG = 20.0  # a track so near the line to the station follows it
BRIDGED_S = 60.0  # and may be off it for so long
NEAR_NM = 1.5  # nearer to the station directions tell nothing
SHORTEST_S = 150.0
SETTLED_DEG = 2.0  # a leg begins and ends so near to the radial kept
LARGEST_MISFIT_DEG = 2.5  # off by a degree, now to one side and now to the other, 10 NM away
FAR_NM, LEAST_MISFIT_DEG, OVERHEAD = 20.0, 0.5, 2.0  # how stations are weighed, chosen
SURE_S, SURE_DEG = 300.0, 1.0  # a leg so long and so straight is told as fairly sure
INBOUND, OUTBOUND = -1, 1


@dataclass(frozen=True)
class Leg:
    """A leg of track that keeps to a line to or from a station.

    Attributes
    ----------
    station, course_deg, inbound
        The station, the course in whole degrees, and whether it leads to the station.
    begin_s, end_s
        When it begins and ends, in seconds of the flight.
    spread_deg
        Standard deviation of the radial about the one kept.
    drift_deg
        Angle between the mean track and the line.
    distance_nm
        Distance from the station, on average.
    overhead
        Whether it leads over the station.
    rival
        Ident of another station that fits as well; empty for none.
    """

    station: Station
    course_deg: float
    inbound: bool
    begin_s: float
    end_s: float
    spread_deg: float
    drift_deg: float
    distance_nm: float
    overhead: bool
    rival: str = ""

    @property
    def seconds(self) -> float:
        """How long it lasts."""
        return self.end_s - self.begin_s

    @property
    def misfit_deg(self) -> float:
        """How far it is from a straight line over the station."""
        return float(np.hypot(self.spread_deg, self.drift_deg))

    @property
    def likely(self) -> float:
        """How likely it is to have been flown by this station, against others.

        A far station fits any straight line somewhat, and over a station there is hardly another.
        """
        over = OVERHEAD if self.overhead else 1.0
        return (
            over * self.seconds / (LEAST_MISFIT_DEG + self.misfit_deg) / (FAR_NM + self.distance_nm)
        )

    @property
    def words(self) -> str:
        """The leg in a sentence, with how sure it is."""
        way = "to" if self.inbound else "from"
        long_straight = self.seconds >= SURE_S and self.misfit_deg <= SURE_DEG
        sure = "fairly sure" if long_straight else "likely, not sure"
        if self.rival:
            sure = f"in doubt, {self.rival} fits as well"
        return (
            f"From {spoken_time(self.begin_s)} to {spoken_time(self.end_s)} the track kept to "
            f"{format_direction(self.course_deg)} {way} {self.station.name}, within "
            f"{spoken_degrees(max(self.misfit_deg, 0.1), 1)}: {sure}."
        )


def within_reach(station: Station, place: Positions) -> BoolArray:
    """Where the station is within line of sight, and the place inside its service volume."""
    antenna_ft = float(station.position.altitude_ft)
    sight_nm = line_of_sight_nm(np.maximum(place.altitude_ft, 0.0), max(antenna_ft, 0.0))
    service_nm = service_radius_nm(station.service, place.altitude_ft - antenna_ft)
    return np.asarray(station.distance_nm(place) <= np.minimum(sight_nm, service_nm))


def legs(
    station: Station,
    time_s: FloatArray,
    place: Positions,
    true_track_deg: FloatArray,
    segment: IntArray,
) -> Iterator[Leg]:
    """Yield the legs of a track that keep to a line to or from a station.

    Parameters
    ----------
    station
        The station.
    time_s, place, true_track_deg, segment
        Of shape (n,): a few looks a minute, the track smoothed, and the number of the unbroken
        segment of the recording.
    """
    line = station.inverse(place)
    radial = station.radial_of_azimuth_deg(line.true_azimuth_deg)
    near = line.distance_nm < NEAR_NM
    usable = within_reach(station, place) & ~near
    outward = difference_deg(true_track_deg, line.true_azimuth_end_deg)
    inward = difference_deg(true_track_deg, line.true_azimuth_end_deg + 180.0)
    side = np.where(abs(outward) < 90.0, OUTBOUND, INBOUND)
    apart = np.where(side == OUTBOUND, outward, inward)
    follows = np.where((abs(apart) <= ON_LINE_DEG) & usable, side, 0)
    state = _bridged(follows, near, time_s, segment)
    for begin, end in runs(state + 10 * segment):  # never across a gap
        if state[begin] == 0:
            continue
        kept = _middle_deg(radial[begin:end])
        on = begin + np.flatnonzero(abs(difference_deg(radial[begin:end], kept)) <= SETTLED_DEG)
        if not on.size:  # as many radials far to one side as to the other, and none between
            continue
        begin, last = int(on[0]), int(on[-1])
        inbound = bool(state[begin] == INBOUND)
        end_s = float(time_s[_through(last, near, segment) if inbound else last])
        part = slice(begin, last + 1)
        kept = _middle_deg(radial[part])
        spread = float(np.sqrt(np.mean(difference_deg(radial[part], kept) ** 2)))
        drift = _drift_deg(line.distance_nm[part], difference_deg(radial[part], kept))
        if end_s - time_s[begin] < SHORTEST_S or max(spread, drift) > LARGEST_MISFIT_DEG:
            continue
        yield Leg(
            station=station,
            course_deg=float(wrap_360(round(kept + 180.0 * inbound))),
            inbound=inbound,
            begin_s=float(time_s[begin]),
            end_s=end_s,
            spread_deg=spread,
            drift_deg=drift,
            distance_nm=float(np.mean(line.distance_nm[part])),
            overhead=bool(near[max(begin - 1, 0) : last + 2].any()),
        )


def _middle_deg(radial_deg: FloatArray) -> float:
    """Return the median of directions that do not go all round."""
    mean = float(mean_direction_deg(radial_deg))
    return mean + float(np.median(difference_deg(radial_deg, mean)))


def _drift_deg(distance_nm: FloatArray, off_deg: FloatArray) -> float:
    """Angle between the line to the station and the straight line nearest to the track."""
    off = np.radians(off_deg)
    along, across = distance_nm * np.cos(off), distance_nm * np.sin(off)
    along = along - along.mean()
    return abs(float(np.degrees(np.arctan(along @ across / max(along @ along, 1e-12)))))


def _bridged(follows: IntArray, near: BoolArray, time_s: FloatArray, segment: IntArray) -> IntArray:
    """Fill short legs off the line between two that follow it the same way."""
    state = follows.copy()
    legs = runs(follows + 10 * segment)
    for before, (begin, end), after in zip(legs, legs[1:], legs[2:], strict=False):
        same = follows[before[0]] == follows[after[0]] and segment[before[0]] == segment[after[0]]
        short = time_s[after[0]] - time_s[begin] <= BRIDGED_S
        if not follows[begin] and same and short and not near[begin:end].any():
            state[begin:end] = follows[before[0]]
    return state


def _through(last: int, near: BoolArray, segment: IntArray) -> int:
    """Index of the moment at which a leg that ends near the station has left it behind."""
    on = last + 1
    while on < near.size and near[on] and segment[on] == segment[last]:
        on += 1
    return on if on < near.size and segment[on] == segment[last] and on > last + 1 else last
