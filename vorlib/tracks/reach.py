"""Check that a recorded flight and a list of stations belong together."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from vorlib.aircraft.flight import Flight
from vorlib.earth.geodesic import Position, inverse
from vorlib.vor.station import Station

REACH_NM = 250.0  # beyond the line of sight of any aircraft of a lesson
MOST_PLACES = 9  # that stand for a whole flight: nearer to each other than its reach


def out_of_reach(flight: Flight, stations: Iterable[Station]) -> str:
    """Return a sentence that says a flight is near no station; "" if it is near one.

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
    flown = [(float(place.lat_deg), float(place.lon_deg)) for place in some_places(flight)]
    away_nm = np.min([inverse(*here, lat, lon).distance_nm for here in flown], axis=0)
    nearest = int(np.argmin(away_nm))
    if away_nm[nearest] <= REACH_NM:
        return ""
    words = (
        f"The nearest station, {near[nearest].name}, is {away_nm[nearest]:,.0f} NM from the flight"
    )
    exchanged = [here[::-1] for here in flown if abs(here[1]) <= 90.0]
    if any(np.any(inverse(*here, lat, lon).distance_nm <= REACH_NM) for here in exchanged):
        return f"{words}: latitude and longitude seem to be swapped."
    return f"{words}: choose stations near it."


def some_places(flight: Flight) -> list[Position]:
    """Return a few places of a flight, its first and its last among them."""
    place, last = flight.position, flight.time_s.size - 1
    some = np.unique(np.linspace(0, last, min(MOST_PLACES, last + 1)).astype(int))
    return [Position(place.lat_deg[i], place.lon_deg[i]) for i in some.tolist()]
