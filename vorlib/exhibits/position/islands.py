"""The islands of the lessons: their map, and tables of stations, airfields and people."""

from collections.abc import Mapping
from datetime import date
from typing import TypeVar

from vorlib.core.angles import format_direction
from vorlib.core.words import spoken_degrees
from vorlib.earth.geodesic import Position
from vorlib.earth.variation import variation_deg
from vorlib.exhibits.base.registry import offered
from vorlib.stations.archipelago import (
    AIRFIELDS,
    DECLINATION_YEARS,
    ISLANDS,
    PEOPLE,
    STATIONS,
    TODAY,
    Airfield,
)
from vorlib.views.drawing.picture import Picture
from vorlib.views.plan.plan import Overlay, PlanScene, plan
from vorlib.vor.receiver import Receiver
from vorlib.vor.station import Station

__all__ = [
    "airfield",
    "airfields_table",
    "band_map",
    "day_and_people",
    "declinations_table",
    "islands_map",
    "received_table",
    "station",
    "stations_table",
    "today",
]

T = TypeVar("T")

MIDDLE = "QLN"  # the positions of the others are given from this station
MAP_NM = 60.0
BAND = Overlay.ROSE | Overlay.RINGS | Overlay.COURSE | Overlay.HALVES | Overlay.WEDGE


@offered
def station(ident: str) -> Station:
    """Return a station of the islands by its ident, such as "QLN"."""
    return _one_of("station", STATIONS, ident)


@offered
def airfield(ident: str) -> Airfield:
    """Return an airfield of the islands by its ident, such as "9QUI"."""
    return _one_of("airfield", AIRFIELDS, ident)


def _one_of(what: str, there: Mapping[str, T], ident: str) -> T:
    if ident not in there:
        raise ValueError(f"{what} must be one of {', '.join(there)}, got {ident!r}")
    return there[ident]


@offered
def today() -> date:
    """Return the day on which the lessons are set."""
    return TODAY


@offered
def islands_map() -> Picture:
    """Return the map of all the islands, with their stations and airfields."""
    return plan(
        PlanScene(
            STATIONS[MIDDLE],
            MAP_NM,
            overlays=Overlay.RINGS,
            islands=ISLANDS,
            airfields=tuple(AIRFIELDS.values()),
            stations=tuple(STATIONS.values()),
        )
    )


@offered
def band_map(radial_deg: float, distance_nm: float, error_deg: float) -> Picture:
    """Return a map with an aircraft on a radial, and the band within an error of that radial."""
    middle = STATIONS[MIDDLE]
    return plan(
        PlanScene(
            middle,
            overlays=BAND,
            course_deg=float(round(radial_deg)),
            full_scale_deg=error_deg,
            position=middle.position_on(radial_deg, distance_nm),
            islands=ISLANDS,
        )
    )


@offered
def stations_table() -> str:
    """Return ident, name, frequency and position of every station."""
    return "\n".join(map(_station_row, STATIONS))


def _station_row(ident: str) -> str:
    there, middle = STATIONS[ident], STATIONS[MIDDLE]
    where = "in the middle"
    if ident != MIDDLE:
        radial = format_direction(float(middle.radial_deg(there.position)))
        where = f"radial {radial}, {middle.distance_nm(there.position):2.0f} NM"
    return f"{ident} {there.name:9} {there.frequency_mhz:6.2f} MHz  {where}"


@offered
def airfields_table() -> str:
    """Return every airfield with its radial and distance from the nearest station."""
    rows = []
    for field in AIRFIELDS.values():
        nearest = min(STATIONS.values(), key=lambda s: float(s.distance_nm(field.position)))
        radial = format_direction(float(nearest.radial_deg(field.position)))
        out = f"{nearest.distance_nm(field.position):2.0f} NM"
        rows.append(f"{field.name:16} {nearest.name:9} radial {radial}, {out}")
    return "\n".join(rows)


@offered
def received_table(field: str, altitude_ft: float) -> str:
    """Return the radial of each station over an airfield, or why it is not received.

    Parameters
    ----------
    field
        Ident of the airfield.
    altitude_ft
        Altitude of the aircraft.
    """
    below, rows = airfield(field).position, []
    there = Position(below.lat_deg, below.lon_deg, altitude_ft)
    for ident, tuned in STATIONS.items():
        reading = Receiver(360).read(tuned, there)
        shown = reading.caveat or format_direction(float(reading.radial_deg))
        rows.append(f"{tuned.frequency_mhz:.2f} {ident} {tuned.name:9} {shown}")
    return "\n".join(rows)


@offered
def day_and_people() -> str:
    """Return the day of the lessons, the variation on it, and who flies."""
    variation = -float(variation_deg(STATIONS[MIDDLE].position, TODAY))
    return "\n".join(
        [
            f"{TODAY.day} {TODAY:%B %Y}",
            f"Variation at {STATIONS[MIDDLE].name}: {spoken_degrees(variation)} west",
            *(f"{person.name}, {person.role}" for person in PEOPLE),
        ]
    )


@offered
def declinations_table() -> str:
    """Return every station's declination, when it was set, and the variation there today."""
    return "\n".join(
        f"{s.name:9} set in {DECLINATION_YEARS[ident]} to {-s.declination_deg:2.0f} W, "
        f"today {-float(variation_deg(s.position, TODAY)):4.1f} W"
        for ident, s in STATIONS.items()
    )
