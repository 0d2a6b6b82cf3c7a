"""The wind correction of a phase of tracking: what was used, and what holds the course."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

import numpy as np

from vorlib.aircraft.flight import Flight
from vorlib.aircraft.wind import wind_triangle
from vorlib.core.angles import difference_deg, mean_direction_deg, spoken_side
from vorlib.core.words import spoken_degrees
from vorlib.debrief.findings import Phase
from vorlib.debrief.wind.estimate import WindEstimate

__all__ = ["HeadingSource", "WindCorrection", "wind_correction"]


class HeadingSource(Enum):
    """Where the headings of a recorded flight come from; the value says so in words."""

    RECORDED = "by the heading recorded"
    ESTIMATED = "by the wind estimated from the track"
    TRACK = "by the track, because heading and wind are unknown"


@dataclass(frozen=True)
class WindCorrection:
    """The wind correction of a phase of tracking, in degrees, positive right.

    Attributes
    ----------
    used_deg
        Heading less track on average; None where neither heading nor wind is known.
    needed_deg
        What would have held the course in the wind estimated; None without one.
    heading
        Where `used_deg` comes from.
    """

    used_deg: float | None
    needed_deg: float | None
    heading: HeadingSource

    @property
    def words(self) -> str:
        """The correction in a sentence."""
        if self.used_deg is None:
            return "What wind correction was used cannot be told: heading and wind are unknown."
        used = f"You held {_spoken_correction(self.used_deg)}, {self.heading.value}"
        if self.needed_deg is None:
            return f"{used}."
        return f"{used}; {_spoken_correction(self.needed_deg)} holds the course in that wind."


def wind_correction(
    phase: Phase, flight: Flight, wind: WindEstimate, heading: HeadingSource
) -> WindCorrection:
    """Return the wind correction of a phase of tracking.

    Parameters
    ----------
    phase
        The phase, its times seconds of the flight.
    flight
        The flight, with its headings as `heading` says.
    wind
        The wind estimated from it.
    heading
        Where the headings come from.
    """
    used = needed = None
    part = (flight.time_s >= phase.begin_s) & (flight.time_s <= phase.end_s)
    time_s, tracks = flight.time_s[part], flight.true_track_deg[part]
    lasting_s = np.diff(time_s, append=time_s[-1])  # recorders write more often in a turn
    if heading is not HeadingSource.TRACK:
        apart = difference_deg(flight.true_heading_deg[part], tracks)
        used = float(np.average(apart, weights=lasting_s))
    if wind.wind is not None and wind.true_airspeed_kt is not None:
        middle = mean_direction_deg(tracks)
        track = middle + np.average(difference_deg(tracks, middle), weights=lasting_s)
        try:
            hold = wind_triangle(
                track, wind.true_airspeed_kt, wind.wind.from_deg, wind.wind.speed_kt
            )
        except ValueError:  # no heading holds a course in such a wind
            return WindCorrection(used, None, heading)
        needed = float(hold.correction_deg)
    return WindCorrection(used, needed, heading)


def _spoken_correction(degrees: float) -> str:
    if not round(degrees):
        return "no wind correction"
    return f"{spoken_degrees(degrees)} to the {spoken_side(degrees)}"
