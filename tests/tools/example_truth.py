"""What is known of the example flight, measured on the path flown by geographiclib."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from geographiclib.geodesic import Geodesic
from tools.example_pilots import (
    AIRCRAFT,
    ALTITUDE_FT,
    LOOKS_PER_S,
    VARIATION_DEG,
    WIND,
    Whole,
    past,
)

from vorlib.core.angles import difference_deg, mean_direction_deg, wrap_360
from vorlib.core.units import METERS_PER_NM
from vorlib.vor.receiver import Flag

# A course counts as tracked from and to where the needle is so near and the nose so far along it,
# if that lasts.
NEAR_DEG, ALONG_DEG, LASTING_S = 4.0, 30.0, 60.0


def truth(whole: Whole) -> dict[str, Any]:
    """Return wind, airspeed, variation, and what was overshot, tracked and passed."""
    known = Known(whole)
    return {
        "wind_from_true_deg": float(WIND.from_deg),
        "wind_kt": float(WIND.speed_kt),
        "true_airspeed_kt": AIRCRAFT.true_airspeed_kt,
        "altitude_ft": ALTITUDE_FT,
        "variation_deg": round(VARIATION_DEG, 3),
        "overshoot": known.overshoot(),
        "tracked": [one for number in range(len(whole.legs)) for one in known.tracked(number)],
        "passages": [one for number in range(len(whole.legs)) for one in known.passage(number)],
        "each_second": {
            "radial_deg": [round(float(r), 3) for r in known.radial_deg[::LOOKS_PER_S]],
            "heading_deg": [round(float(h), 2) for h in known.heading_deg[::LOOKS_PER_S]],
        },
    }


class Known:
    """A flight with radial and distance at every look."""

    def __init__(self, whole: Whole) -> None:
        self.whole, self.time_s = whole, whole.flight.time_s
        self.radial_deg, self.distance_nm = measured(whole)
        self.course_deg = np.array([whole.legs[i].course_deg for i in whole.leg])
        self.heading_deg = wrap_360(whole.flight.true_heading_deg - VARIATION_DEG)
        self.inbound = np.cos(np.radians(self.radial_deg - self.course_deg)) < 0.0
        line = np.where(self.inbound, self.course_deg + 180.0, self.course_deg)
        self.off_deg = difference_deg(self.radial_deg, line)  # from the station, clockwise

    def tracked(self, number: int) -> list[dict[str, Any]]:
        """Return how a leg's course was held, if it was."""
        along = abs(difference_deg(self.heading_deg, self.course_deg)) < ALONG_DEG
        near = (abs(self.off_deg) < NEAR_DEG) & (self.whole.flag != Flag.OFF)
        on = np.flatnonzero((self.whole.leg == number) & near & along)
        if not on.size or self.time_s[on[-1]] - self.time_s[on[0]] < LASTING_S:
            return []
        leg, span = self.whole.legs[number], slice(on[0], on[-1] + 1)
        track_deg = self.whole.flight.true_track_deg[span] - VARIATION_DEG
        return [
            {
                "name": leg.name,
                "station": leg.station.ident,
                "course_deg": leg.course_deg,
                "flag": "TO" if self.inbound[on[0]] else "FROM",
                "begin_s": round(float(self.time_s[on[0]]), 1),
                "end_s": round(float(self.time_s[on[-1]]), 1),
                "mean_radial_deg": round(float(mean_direction_deg(self.radial_deg[span])), 3),
                "largest_off_deg": round(float(abs(self.off_deg[span]).max()), 3),
                "mean_correction_deg": round(
                    float(difference_deg(self.heading_deg[span], track_deg).mean()), 2
                ),
            }
        ]

    def passage(self, number: int) -> list[dict[str, Any]]:
        """Return when a leg's station was passed, if it was."""
        if self.whole.legs[number].until is not past:
            return []
        nearest = int(np.argmin(np.where(self.whole.leg == number, self.distance_nm, np.inf)))
        after = (self.whole.leg > number) & (self.whole.flag == Flag.FROM)
        return [
            {
                "station": self.whole.legs[number].station.ident,
                "closest_s": round(float(self.time_s[nearest]), 1),
                "closest_nm": round(float(self.distance_nm[nearest]), 3),
                "from_shown_s": round(float(self.time_s[np.argmax(after)]), 1),
            }
        ]

    def overshoot(self) -> dict[str, Any]:
        """Return how far beyond the first course the late turn went."""
        beyond = self.off_deg * self.off_deg[0] < 0.0
        crossed = int(np.argmax(beyond))
        back = crossed + int(np.argmax(~beyond[crossed:]))
        worst = crossed + int(np.argmax(abs(self.off_deg[crossed:back])))
        off_deg = float(abs(self.off_deg[worst]))
        off_nm = float(self.distance_nm[worst]) * math.sin(math.radians(off_deg))
        return {
            "crossed_s": round(float(self.time_s[crossed]), 1),
            "largest_s": round(float(self.time_s[worst]), 1),
            "largest_deg": round(off_deg, 3),
            "largest_nm": round(off_nm, 3),
        }


def measured(whole: Whole) -> tuple[Any, Any]:
    """Return radial and distance of the station tuned at every look."""
    place = whole.flight.position
    lines = []
    for number, lat, lon in zip(whole.leg, place.lat_deg, place.lon_deg, strict=True):
        station = whole.legs[number].station
        there = station.position
        line = Geodesic.WGS84.Inverse(there.lat_deg, there.lon_deg, lat, lon)
        lines.append((line["azi1"] - station.declination_deg, line["s12"] / METERS_PER_NM))
    azimuth, distance = np.array(lines).T
    return wrap_360(azimuth), distance
