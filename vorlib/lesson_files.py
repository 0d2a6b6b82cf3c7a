"""A lesson near home from files of stations and fields, or without any in the invented islands."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from vorlib import archipelago
from vorlib.checks import positive
from vorlib.earth import Position
from vorlib.fieldfile import read_fields
from vorlib.flight import Aircraft
from vorlib.lesson_card import Lesson, nearest_fields, nearest_stations
from vorlib.stationdata import ListedStation, StationList, listed, load_stations
from vorlib.textfile import Source, latitude_deg, longitude_deg
from vorlib.wind import CALM, Wind

ISLANDS_CENTRE = Position(46.0, -30.0)
RADIUS_NM, ALTITUDE_FT, AIRSPEED_KT = 45.0, 4500.0, 100.0
FIELDS_WITHIN = 1.35  # of the area's radius: a lesson may end at a field outside it


def stations_or_islands(source: Source | None) -> StationList:
    """Return the stations of a file, or those of the invented islands if there is none."""
    if source is not None:
        return load_stations(source)
    return listed(dict(archipelago.STATIONS), f"the {archipelago.NAME}", "VOR/DME")


def plan_lesson(
    stations: StationList | None = None,
    fields: Source | None = None,
    centre: Position | None = None,
    *,
    idents: Sequence[str] = (),
    radius_nm: float = RADIUS_NM,
    altitude_ft: float = ALTITUDE_FT,
    true_airspeed_kt: float = AIRSPEED_KT,
    wind: Wind = CALM,
    on: date | None = None,
) -> Lesson:
    """Return a lesson for a practice area.

    Parameters
    ----------
    stations
        Where stations are chosen from; None for the invented islands, which bring their fields.
    fields
        A file of airfields, as `vorlib.fieldfile` reads it, or None for no fields.
    centre, radius_nm
        The practice area; needed with real stations.
    idents
        The stations to use; of several with one ident the nearest to the centre. The nearest
        stations if none is given.
    altitude_ft, true_airspeed_kt, wind
        How the lesson is flown; the wind is true.
    on
        The day of the lesson; today if none is given, in the islands their own day.

    Raises
    ------
    ValueError
        If an argument cannot be used; the message names it.
    OSError
        If a file cannot be opened.
    """
    positive("radius_nm", radius_nm, "NM")
    if stations is None:
        if fields is not None:
            raise ValueError("stations must be given with fields: those of the islands are not")
        chosen_from, on = stations_or_islands(None), on or archipelago.TODAY
        airfields = [*archipelago.AIRFIELDS.values()]
        centre, sources = centre or ISLANDS_CENTRE, ["All places and stations are invented."]
    else:
        if centre is None:
            raise ValueError("centre must be given with stations: latitude and longitude")
        chosen_from, on = stations, on or date.today()
        airfields = [] if fields is None else read_fields(fields)
        sources = [f"Stations from {stations.source}. {stations.age_words(on)}"]
    kept = _chosen(chosen_from, idents, centre)
    sources += [f"{s.station.ident}: {words}." for s in kept for words in _remarks(s)]
    return Lesson(
        stations=kept,
        fields=nearest_fields(airfields, centre, FIELDS_WITHIN * radius_nm),
        centre=centre,
        radius_nm=radius_nm,
        altitude_ft=altitude_ft,
        on=on,
        aircraft=Aircraft(true_airspeed_kt),
        wind=wind,
        sources=tuple(sources),
    )


def _chosen(
    stations: StationList, idents: Sequence[str], centre: Position
) -> tuple[ListedStation, ...]:
    if not idents:
        return nearest_stations(stations, centre)
    kept = {ident.upper(): stations.one(ident, near=centre) for ident in idents}
    return tuple(sorted(kept.values(), key=lambda s: float(s.station.distance_nm(centre))))


def _remarks(kept: ListedStation) -> tuple[str, ...]:
    """What the list says of a station that is more than in order, and what was filled in."""
    status = (f"the list has it as {kept.status}",) if "restricted" in kept.status else ()
    return (*status, *kept.assumed)


def place_from_words(words: str) -> Position:
    """Return the place written as latitude and longitude in degrees with a comma between.

    >>> place_from_words("46.0, -30.5").lon_deg
    -30.5
    """
    parts = words.split(",")
    if len(parts) != 2:
        raise ValueError(f"the centre must be latitude,longitude such as 46.0,-30.0, got {words!r}")
    lat, lon = (part.strip() for part in parts)
    return Position(latitude_deg("latitude", lat), longitude_deg("longitude", lon))


def wind_from_words(words: str) -> Wind:
    """Return the true wind written as direction and knots with a stroke between.

    >>> wind_from_words("250/20") == Wind(250.0, 20.0)
    True
    """
    direction, _, speed = words.partition("/")
    try:
        return Wind(float(direction), float(speed))
    except ValueError:
        raise ValueError(
            f"the wind must be true degrees and knots such as 250/20, got {words!r}"
        ) from None
