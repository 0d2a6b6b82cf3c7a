"""A lesson as it was prepared, saved beside its card: read again when the flight is debriefed.

JSON, with all that the card was made from but the elevation data, of which no number of a task
comes. For training on the ground, not for navigation.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path
from typing import Any, TypeVar

from vorlib.aircraft.flight import Aircraft
from vorlib.aircraft.wind import Wind
from vorlib.briefing.card import lesson_card
from vorlib.briefing.lesson import Lesson
from vorlib.core.arguments import finite
from vorlib.earth.geodesic import Position
from vorlib.io.text import FileError, Source, printable, read_text, shortened
from vorlib.stations import ListedStation
from vorlib.stations.archipelago import Airfield
from vorlib.vor.station import Station

__all__ = ["lesson_from_json", "lesson_json", "plan_path", "read_lesson"]

T = TypeVar("T")

FORMAT, PLAN_VERSION = "vorlib lesson", 1
SUFFIX = ".plan.json"
SAVE_AS = f"choose the file {SUFFIX} that was written beside the lesson card"
LARGEST_MB = 1
MOST, LONGEST = 200, 2000  # of stations, fields and remarks, and of letters in one of them


def plan_path(card: Path) -> Path:
    """Return where the plan of a card is saved: beside it.

    >>> plan_path(Path("june/card.pdf")).name
    'card.plan.json'
    """
    return card.parent / f"{card.stem}{SUFFIX}"


def lesson_json(lesson: Lesson) -> str:
    """Return a lesson as JSON."""
    content = {
        "format": FORMAT,
        "version": PLAN_VERSION,
        "on": str(lesson.on),
        "center": _place_row(lesson.center),
        "radius_nm": lesson.radius_nm,
        "altitude_ft": lesson.altitude_ft,
        "true_airspeed_kt": lesson.aircraft.true_airspeed_kt,
        "wind_from_deg": float(lesson.wind.from_deg),
        "wind_kt": float(lesson.wind.speed_kt),
        "stations": [_station_row(one) for one in lesson.stations],
        "fields": [
            {"ident": one.ident, "name": one.name, **_place_row(one.position)}
            for one in lesson.fields
        ],
        "sources": lesson.sources,
        "remarks": lesson.remarks,
    }
    return json.dumps(content, ensure_ascii=False, indent=1) + "\n"


def _place_row(place: Position) -> dict[str, float]:
    return {
        "lat_deg": float(place.lat_deg),
        "lon_deg": float(place.lon_deg),
        "elevation_ft": float(place.altitude_ft),
    }


def _station_row(one: ListedStation) -> dict[str, Any]:
    station = one.station
    return {
        "ident": station.ident,
        "name": station.name,
        **_place_row(station.position),
        "declination_deg": station.declination_deg,
        "frequency_mhz": station.frequency_mhz,
        "service": station.service,
        "on_the_air": station.on_the_air,
        "kind": one.kind,
        "line": one.line,
        "country": one.country,
        "status": one.status,
        "declination_year": one.declination_year,
        "effective": str(one.effective) if one.effective else "",
        "assumed": one.assumed,
    }


def read_lesson(source: Source) -> Lesson:
    """Return the lesson in a file that was written beside a lesson card.

    Raises
    ------
    FileError
        If it is something else, damaged, too large, or no card can be made of it; the message says
        where and what is allowed.
    OSError
        If the file cannot be opened.
    """
    return lesson_from_json(read_text(source, SAVE_AS, LARGEST_MB))


def lesson_from_json(text: str) -> Lesson:
    """Return what `lesson_json` wrote; the errors of `read_lesson`."""
    try:
        content = json.loads(text, parse_constant=_no_number)
    except (ValueError, RecursionError) as error:
        raise FileError(f"cut short, damaged or not a plan: {error}: {SAVE_AS}") from None
    if not isinstance(content, dict) or content.get("format") != FORMAT:
        raise FileError(f"not the plan of a lesson: {SAVE_AS}")
    if content.get("version") != PLAN_VERSION:
        told = shortened(repr(content.get("version")), 40)
        raise FileError(f"version {told} of a plan is not known: install a newer vorlib")
    try:
        lesson = _lesson(content)
        lesson_card(lesson)  # or why none can be made of it
    except KeyError as error:
        raise FileError(f"damaged: {error} is missing") from None
    except ValueError as error:
        raise FileError(f"damaged: {error}") from None
    return lesson


def _no_number(word: str) -> float:
    raise ValueError(f"{word} is not a number")


def _lesson(row: Mapping[str, Any]) -> Lesson:
    return Lesson(
        stations=_each(row, "stations", _station),
        fields=_each(row, "fields", _field),
        center=_place(_mapping("center", row["center"])),
        radius_nm=_number(row, "radius_nm"),
        altitude_ft=_number(row, "altitude_ft"),
        on=_day(row, "on"),
        aircraft=Aircraft(_number(row, "true_airspeed_kt")),
        wind=Wind(_number(row, "wind_from_deg"), _number(row, "wind_kt")),
        sources=_each(row, "sources", _words),
        remarks=_each(row, "remarks", _words),
    )


def _field(where: str, value: object) -> Airfield:
    row = _mapping(where, value)
    return Airfield(_words("ident", row["ident"]), _words("name", row["name"]), _place(row))


def _station(where: str, value: object) -> ListedStation:
    row = _mapping(where, value)
    station = Station(
        ident=_words("ident", row["ident"]),
        position=_place(row),
        declination_deg=_number(row, "declination_deg"),
        frequency_mhz=_number(row, "frequency_mhz"),
        name=_words("name", row["name"]),
        service=_words("service", row["service"]),
        on_the_air=row["on_the_air"] is True,
    )
    dated = row["declination_year"] is not None
    return ListedStation(
        station=station,
        kind=_words("kind", row["kind"]),
        line=_whole(row, "line", 0, 10**9),
        country=_words("country", row["country"]),
        status=_words("status", row["status"]),
        declination_year=_whole(row, "declination_year", 1900, 2100) if dated else None,
        effective=_day(row, "effective") if row["effective"] else None,
        assumed=_each(row, "assumed", _words),
    )


def _place(row: Mapping[str, Any]) -> Position:
    return Position(_number(row, "lat_deg"), _number(row, "lon_deg"), _number(row, "elevation_ft"))


def _number(row: Mapping[str, Any], name: str) -> float:
    value = row[name]
    if isinstance(value, list):  # a list is not one number
        raise ValueError(f"{name} must be one number, got a list")
    return float(finite(name, value))


def _whole(row: Mapping[str, Any], name: str, low: int, high: int) -> int:
    value = _number(row, name)
    if value != int(value) or not low <= value <= high:
        raise ValueError(f"{name} must be a whole number from {low} to {high}, got {value:g}")
    return int(value)


def _day(row: Mapping[str, Any], name: str) -> date:
    words = _words(name, row[name])
    try:
        return date.fromisoformat(words)
    except ValueError:
        raise ValueError(f"{name} must be a day such as 2026-06-01, got {words[:40]!r}") from None


def _words(name: str, value: object) -> str:
    if not isinstance(value, str) or len(value) > LONGEST:
        raise ValueError(f"{name} must be words, at most {LONGEST:,} letters")
    return printable(value)


def _mapping(name: str, value: object) -> Mapping[str, Any]:
    if not isinstance(value, dict):
        raise ValueError(f"{name} must be an object with names and values")
    return value


def _each(row: Mapping[str, Any], name: str, read: Callable[[str, object], T]) -> tuple[T, ...]:
    values = row[name]
    if not isinstance(values, list) or len(values) > MOST:
        raise ValueError(f"{name} must be a list of at most {MOST}")
    read_so_far = []
    for number, value in enumerate(values, 1):
        try:
            read_so_far.append(read(name, value))
        except KeyError as error:
            raise ValueError(f"{name}, entry {number}: {error} is missing") from None
        except ValueError as error:
            raise ValueError(f"{name}, entry {number}: {error}") from None
    return tuple(read_so_far)
