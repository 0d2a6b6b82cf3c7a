"""A flown flight looked at moment by moment: where the aircraft was and what it showed."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import NamedTuple, overload

import numpy as np
from numpy.typing import NDArray

from vorlib.core.angles import difference_deg, wrap_360
from vorlib.core.arguments import FloatArray
from vorlib.earth.geodesic import Position, Positions
from vorlib.procedures.flying import Flown
from vorlib.views.drawing.thinning import corners
from vorlib.vor.receiver import Reading, Readings, Receiver
from vorlib.vor.station import Station

__all__ = ["Replay", "ReplayMoment", "corners", "off_line_nm"]

DRAWN_WITHIN_NM = 0.01  # a drawn track may leave the flown one by this much, a line's width


class ReplayMoment(NamedTuple):
    """One moment of a flight: heading and course magnetic."""

    position: Position
    heading_deg: float
    course_deg: float
    reading: Reading


@overload
def off_line_nm(reading: Reading, radial_deg: float) -> float: ...
@overload
def off_line_nm(reading: Readings, radial_deg: float) -> FloatArray: ...
def off_line_nm(reading: Reading | Readings, radial_deg: float) -> float | FloatArray:
    """Return the distance from the line of a radial, positive clockwise of it."""
    off = np.radians(reading.radial_deg - radial_deg)
    return reading.distance_nm * np.sin(off)


@dataclass(frozen=True, eq=False)
class Replay:
    """A flight that can be looked at any moment.

    Attributes
    ----------
    station
        The station tuned.
    flown
        The flight, of at least one moment.
    """

    station: Station
    flown: Flown

    @property
    def duration_s(self) -> float:
        """How long the flight lasts."""
        return float(self.flown.flight.time_s[-1])

    @cached_property
    def heading_deg(self) -> FloatArray:
        """Magnetic heading at each look, by the station's declination."""
        true_heading_deg = self.flown.flight.true_heading_deg
        return wrap_360(true_heading_deg - self.station.declination_deg)

    @cached_property
    def distance_nm(self) -> FloatArray:
        """Distance from the station at each look."""
        return self.flown.reading.distance_nm

    def at(self, time_s: float) -> ReplayMoment:
        """Return the moment at a time; before the beginning the first, after the end the last."""
        return _moment(self, time_s)

    def track(self, time_s: float) -> Positions:
        """Return where the aircraft has been up to a time, with no more points than a line needs.

        Always two places or more, the last of them where the aircraft is.
        """
        i, _ = self._look(time_s)
        now, there = self.at(time_s).position, self.flown.flight.position
        passed = self._corners[: max(1, int(np.searchsorted(self._corners, i, "right")))]
        return Position(
            np.append(there.lat_deg[passed], now.lat_deg),
            np.append(there.lon_deg[passed], now.lon_deg),
        )

    def _look(self, time_s: float) -> tuple[int, float]:
        """Index of the last look at or before a time, and the share of the step to the next."""
        times = self.flown.flight.time_s
        i = max(0, int(np.searchsorted(times, time_s, "right")) - 1)
        if i + 1 >= len(times):
            return len(times) - 1, 0.0
        return i, max(0.0, float((time_s - times[i]) / (times[i + 1] - times[i])))

    @cached_property
    def _corners(self) -> NDArray[np.intp]:
        radial = np.radians(self.flown.reading.radial_deg)
        return corners(
            self.distance_nm * np.sin(radial), self.distance_nm * np.cos(radial), DRAWN_WITHIN_NM
        )


@lru_cache(maxsize=16)  # a picture and its sentence ask for the same moment again and again
def _moment(replay: Replay, time_s: float) -> ReplayMoment:
    flight = replay.flown.flight
    i, share = replay._look(time_s)
    there = flight.position
    lat, lon, altitude = (
        float(row[i] + share * (row[min(i + 1, len(row) - 1)] - row[i]))
        for row in (there.lat_deg, there.lon_deg, there.altitude_ft)
    )
    before, after = (
        replay.heading_deg[i],
        replay.heading_deg[min(i + 1, len(replay.heading_deg) - 1)],
    )
    heading = float(wrap_360(before + share * difference_deg(after, before)))
    course = float(replay.flown.course_deg[i])
    position = Position(lat, lon, altitude)
    return ReplayMoment(position, heading, course, Receiver(course).read(replay.station, position))
