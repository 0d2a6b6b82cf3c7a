"""A planned lesson: stations, fields, practice area, altitude, aircraft and wind."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date

from vorlib.aircraft.flight import Aircraft
from vorlib.aircraft.wind import CALM, Wind
from vorlib.briefing.elevation import ElevationGrid
from vorlib.core.arguments import within
from vorlib.core.limits import (
    FASTEST_KT,
    HIGHEST_FT,
    LOWEST_PLANNED_FT,
    SLOWEST_KT,
    SMALLEST_NM,
    STRONGEST_WIND_KT,
    WIDEST_NM,
)
from vorlib.earth.geodesic import Position, inverse
from vorlib.stations import ListedStation, StationList
from vorlib.stations.archipelago import Airfield
from vorlib.vor.coverage import service_radius_nm, sight_nm
from vorlib.vor.station import Station

MOST_STATIONS = 6
MOST_FIELDS = 8


@dataclass(frozen=True)
class Lesson:
    """What a lesson is planned with.

    Attributes
    ----------
    stations, fields
        Those to be used, nearest to the middle of the practice area first.
    center, radius_nm
        The practice area: a circle.
    altitude_ft
        Planned altitude above the sea.
    on
        The day, for the variation.
    aircraft, wind
        How the aircraft flies, and the forecast wind, true.
    sources
        What to say of the data: where they are from, how old they are, what was left out.
    remarks
        What to say of single stations, such as that one is restricted.
    elevation
        Heights of the ground; without them nothing is said of it.
    """

    stations: tuple[ListedStation, ...]
    fields: tuple[Airfield, ...]
    center: Position
    radius_nm: float
    altitude_ft: float
    on: date
    aircraft: Aircraft = field(default_factory=Aircraft)
    wind: Wind = CALM
    sources: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    elevation: ElevationGrid | None = None

    def __post_init__(self) -> None:
        within("radius_nm", self.radius_nm, SMALLEST_NM, WIDEST_NM, "NM")
        within("altitude_ft", self.altitude_ft, LOWEST_PLANNED_FT, HIGHEST_FT, "ft")
        airspeed_kt = self.aircraft.true_airspeed_kt
        within("true_airspeed_kt", airspeed_kt, SLOWEST_KT, FASTEST_KT, "kt")
        within("speed_kt", float(self.wind.speed_kt), 0.0, STRONGEST_WIND_KT, "kt")
        if self.center.shape != ():
            raise ValueError(f"center must be one place, got shape {self.center.shape}")
        if not self.stations:
            raise ValueError("stations must hold at least one station")

    def overhead(self, place: Position) -> Position:
        """Return the place at the planned altitude."""
        return Position(place.lat_deg, place.lon_deg, self.altitude_ft)


def nearest_fields(
    fields: Iterable[Airfield], center: Position, within_nm: float
) -> tuple[Airfield, ...]:
    """Return the airfields within a distance of a place, nearest first, at most `MOST_FIELDS`."""
    away = [(distance_nm(center, f.position), n, f) for n, f in enumerate(fields)]
    near = sorted(row for row in away if row[0] <= within_nm)
    return tuple(f for *_, f in near[:MOST_FIELDS])


def nearest_stations(
    stations: StationList, center: Position, radius_nm: float = 0.0, altitude_ft: float = math.inf
) -> tuple[ListedStation, ...]:
    """Return the stations nearest to an area, at most `MOST_STATIONS`.

    Only those above the horizon, and promised, somewhere in the area at an altitude; if none is,
    the nearest, of which it can be said why there is nothing to receive.
    """
    near = stations.nearest(center, MOST_STATIONS)
    reached = [
        one
        for one in near
        if one.distance_nm - radius_nm <= _reach_nm(one.listed.station, altitude_ft)
    ]
    return tuple(one.listed for one in reached or near[:1])


def _reach_nm(station: Station, altitude_ft: float) -> float:
    """Return how far a station reaches at an altitude, by horizon and service volume."""
    antenna_ft = float(station.position.altitude_ft)
    sight = float(sight_nm(altitude_ft, antenna_ft))
    if math.isinf(altitude_ft):
        return sight
    above_ft = max(0.0, altitude_ft - antenna_ft)
    return min(sight, float(service_radius_nm(station.service, above_ft)))


def is_restricted(one: ListedStation) -> bool:
    """Tell whether the list says that a station is off the air or does not keep its volume."""
    return not one.station.on_the_air or "restricted" in one.status


def distance_nm(one: Position, other: Position) -> float:
    """Return the distance between two places over the ground."""
    line = inverse(one.lat_deg, one.lon_deg, other.lat_deg, other.lon_deg)
    return float(line.distance_nm)
