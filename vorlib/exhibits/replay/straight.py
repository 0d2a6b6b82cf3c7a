"""A flight straight on: one heading is held, and the needle followed by nobody."""

from __future__ import annotations

from vorlib.aircraft.flight import Aircraft, start
from vorlib.aircraft.wind import CALM, Wind
from vorlib.earth.geodesic import Position
from vorlib.exhibits.replay.replay import Replay
from vorlib.procedures.flying import fly
from vorlib.procedures.panel import Command
from vorlib.vor.station import Station

__all__ = ["hold_heading"]


def hold_heading(
    station: Station,
    place: Position,
    heading_deg: float,
    course_deg: float,
    airspeed_kt: float,
    seconds: float,
    *,
    wind: Wind = CALM,
    looks_per_s: float = 1.0,
) -> Replay:
    """Return a flight from a place on one heading.

    Parameters
    ----------
    station, course_deg
        The station tuned and the course selected.
    place, heading_deg, airspeed_kt, seconds
        Where it begins, the magnetic heading by the station's declination, the true airspeed and
        how long it lasts.
    wind
        From magnetic north, as the heading.
    """
    east = station.declination_deg
    flown = fly(
        lambda panel: Command(heading_deg, course_deg),
        Aircraft(airspeed_kt),
        start(place, heading_deg + east),
        station,
        course_deg,
        seconds,
        wind=Wind(wind.from_deg + east, wind.speed_kt),
        looks_per_s=looks_per_s,
    )
    return Replay(station, flown)
