"""A lesson near home from files of stations and fields, or without any in the invented islands."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from vorlib.aircraft.flight import Aircraft
from vorlib.aircraft.wind import CALM, Wind
from vorlib.briefing.elevation import ElevationGrid
from vorlib.briefing.lesson import (
    MOST_FIELDS,
    Lesson,
    distance_nm,
    is_restricted,
    nearest_fields,
    nearest_stations,
)
from vorlib.core.arguments import quoted, within
from vorlib.core.limits import SMALLEST_NM, STRONGEST_WIND_KT, WIDEST_NM
from vorlib.core.words import spoken_degrees
from vorlib.earth.geodesic import Position
from vorlib.io.text import Source, latitude_deg, longitude_deg
from vorlib.stations import ListedStation, StationList, archipelago, listed, load_stations
from vorlib.stations.archipelago import Airfield

ISLANDS_CENTER = Position(46.0, -30.0)
RADIUS_NM, PLANNED_ALTITUDE_FT, PLANNED_AIRSPEED_KT = 45.0, 4500.0, 100.0
NAMED_LEFT_OUT = 3  # fields that are not used, of a file that may hold thousands
FIELDS_WITHIN = 1.35  # of the area's radius: a lesson may end at a field outside it
# Chosen: of the FAA's 787 VORs in force on 2026-05-14 the farthest is off by 7.7 degrees.
UNLIKELY_DRIFT_DEG = 10.0


def stations_or_islands(source: Source | None) -> StationList:
    """Return the stations of a file, or those of the invented islands if there is none."""
    if source is not None:
        return load_stations(source)
    stations = listed(dict(archipelago.STATIONS), f"the {archipelago.NAME}", "VOR/DME")
    years = archipelago.DECLINATION_YEARS
    dated = (replace(s, declination_year=years[s.station.ident]) for s in stations.stations)
    return StationList(stations.source, tuple(dated))


def plan_lesson(
    stations: StationList | None = None,
    fields: Sequence[Airfield] | None = None,
    center: Position | None = None,
    *,
    idents: Sequence[str] = (),
    radius_nm: float = RADIUS_NM,
    altitude_ft: float = PLANNED_ALTITUDE_FT,
    true_airspeed_kt: float = PLANNED_AIRSPEED_KT,
    wind: Wind = CALM,
    on: date | None = None,
    elevation: ElevationGrid | None = None,
) -> Lesson:
    """Return a lesson for a practice area.

    Parameters
    ----------
    stations
        Where stations are chosen from; None for the invented islands, which bring their fields.
    fields
        The airfields to choose from, nearest first; None for none, in the islands for their own.
    center, radius_nm
        The practice area; of real stations, round the first of the idents if no center is given.
    idents
        The stations to use; of several with one ident the nearest to the center. If none is given,
        the nearest stations that are above the horizon in the area.
    altitude_ft, true_airspeed_kt, wind
        How the lesson is flown; the wind is true.
    on
        The day of the lesson; today if none is given, in the islands their own day.
    elevation
        Heights of the ground, if there are any.

    Raises
    ------
    ValueError
        If an argument cannot be used; the message names it.
    OSError
        If a file cannot be opened.
    """
    within("radius_nm", radius_nm, SMALLEST_NM, WIDEST_NM, "NM")
    if stations is None:
        if fields is not None:
            raise ValueError("fields need stations: the islands have their own fields")
        chosen_from, on = stations_or_islands(None), on or archipelago.TODAY
        airfields = [*archipelago.AIRFIELDS.values()]
        center, sources = center or ISLANDS_CENTER, ["All places and stations are invented."]
    else:
        if center is None and not idents:
            raise ValueError(
                "choose a center, latitude and longitude, or the idents of some stations"
            )
        center = center or stations.one(idents[0]).station.position
        chosen_from, on = stations, on or date.today()
        airfields = [*(fields or ())]
        sources = [f"Stations from {stations.source}. {stations.age_words(on)}"]
    kept = (
        _named(chosen_from, idents, center)
        if idents
        else nearest_stations(chosen_from, center, radius_nm, altitude_ft)
    )
    within_nm = FIELDS_WITHIN * radius_nm
    near = nearest_fields(airfields, center, within_nm)
    if len(near) < len(airfields):
        sources.append(_fields_left_out(near, airfields, center, within_nm))
    if elevation is not None:
        sources.append(elevation.words)
    return Lesson(
        stations=kept,
        fields=near,
        center=center,
        radius_nm=radius_nm,
        altitude_ft=altitude_ft,
        on=on,
        aircraft=Aircraft(true_airspeed_kt),
        wind=wind,
        sources=tuple(sources),
        remarks=_remarks(kept, on),
        elevation=elevation,
    )


def _fields_left_out(
    near: Sequence[Airfield], fields: Sequence[Airfield], center: Position, within_nm: float
) -> str:
    """Return which fields are not used and why: the nearest by name, with the distance."""
    out = nearest_fields([f for f in fields if f not in near], center, math.inf)[:NAMED_LEFT_OUT]
    names = [f"{f.name} ({distance_nm(center, f.position):.1f} NM)" for f in out]
    more = len(fields) - len(near) - len(names)
    named = ", ".join([*names, *([f"{more} more"] if more else [])])
    return (
        f"Of {len(fields)} fields {len(near)} are used: the nearest, at most {MOST_FIELDS}, within "
        f"{within_nm:.1f} NM of the middle of the area. Left out: {named}."
    )


def _named(
    stations: StationList, idents: Sequence[str], center: Position
) -> tuple[ListedStation, ...]:
    kept = {ident.upper(): stations.one(ident, near=center) for ident in idents}
    return tuple(sorted(kept.values(), key=lambda s: float(s.station.distance_nm(center))))


def _remarks(kept: Sequence[ListedStation], on: date) -> tuple[str, ...]:
    """Return remarks on stations: out of order, filled in, or hardly possible."""
    idents: dict[str, list[str]] = {}
    for one in kept:
        words = [*one.assumed]
        if is_restricted(one):
            words.insert(0, f"the list says {one.status!r}, read the station's notes")
        drift_deg = abs(float(one.station.declination_drift_deg(on)))
        if drift_deg > UNLIKELY_DRIFT_DEG:
            words.append(
                f"the declination lies {spoken_degrees(drift_deg)} from the day's variation: check "
                "its sign, and that latitude and longitude are not swapped"
            )
        for said in words:
            idents.setdefault(said, []).append(one.station.ident)
    return tuple(f"{', '.join(those)}: {said}." for said, those in idents.items())


def place_from_words(words: str) -> Position:
    """Return the place written as latitude and longitude in degrees with a comma between.

    >>> place_from_words("46.0, -30.5").lon_deg
    -30.5
    """
    parts = words.split(",")
    if len(parts) != 2:
        raise ValueError(
            f"the center must be latitude,longitude such as 46.0,-30.0, got {quoted(words)}"
        )
    lat, lon = (part.strip() for part in parts)
    return Position(latitude_deg("latitude", lat), longitude_deg("longitude", lon))


def day_from_words(words: str) -> date:
    """Return the day written as year, month and day.

    >>> day_from_words("2026-06-01")
    datetime.date(2026, 6, 1)
    """
    try:
        return date.fromisoformat(words)
    except ValueError:
        raise ValueError(f"the date must be such as 2026-06-01, got {quoted(words)}") from None


def wind_from_words(words: str) -> Wind:
    """Return the true wind written as direction and knots with a stroke between.

    >>> wind_from_words("250/20") == Wind(250.0, 20.0)
    True
    """
    direction, _, speed = words.partition("/")
    try:
        within("direction", float(direction), 0.0, 360.0, "degrees")
        within("speed", float(speed), 0.0, STRONGEST_WIND_KT, "kt")
        return Wind(float(direction), float(speed))
    except ValueError:
        raise ValueError(
            "the wind must be true degrees, 0 to 360, and knots, 0 to "
            f"{STRONGEST_WIND_KT:.0f}, such as 250/20, got {quoted(words)}"
        ) from None
