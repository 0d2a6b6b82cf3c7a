"""Whether a recorded flight and the stations it is held against belong together."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from vorlib.earth import inverse
from vorlib.flight import Flight
from vorlib.station import Station

REACH_NM = 250.0  # beyond the line of sight of any aircraft of a lesson


def out_of_reach(flight: Flight, stations: Iterable[Station]) -> str:
    """Return in a sentence that a flight is nowhere near any station; "" if it is near one.

    Latitude and longitude that were swapped are mostly both possible, and show only here: the
    sentence says so when, exchanged, they lie near a station.

    Parameters
    ----------
    flight
        The flight, with one moment or more.
    stations
        Those it may have tuned, one or more.
    """
    near = list(stations)
    lat, lon = (
        np.array([getattr(s.position, name) for s in near]) for name in ("lat_deg", "lon_deg")
    )
    middle = flight.time_s.size // 2
    here = float(flight.position.lat_deg[middle]), float(flight.position.lon_deg[middle])
    away_nm = inverse(*here, lat, lon).distance_nm
    nearest = int(np.argmin(away_nm))
    if away_nm[nearest] <= REACH_NM:
        return ""
    words = (
        f"The nearest station, {near[nearest].name}, is {away_nm[nearest]:,.0f} NM from the flight"
    )
    exchanged = here[::-1]
    if abs(exchanged[0]) <= 90.0 and np.any(inverse(*exchanged, lat, lon).distance_nm <= REACH_NM):
        return f"{words}: latitude and longitude seem to be swapped."
    return f"{words}: choose stations near it."
