"""The Corvane Islands: an invented archipelago in mid-ocean, where all lessons are set.

Every place, station, airfield and person is made up; only the Earth under them is real, so the
magnetic variation there is the real one. The stations' declinations were each right in the year
they were set, and have aged differently since. Not for navigation.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from importlib.resources import files
from types import MappingProxyType
from typing import Any

import numpy as np

from vorlib.earth.geodesic import Position, Positions
from vorlib.vor.station import Station


@dataclass(frozen=True)
class Airfield:
    """An airfield; the altitude of its position is its elevation."""

    ident: str
    name: str
    position: Position


@dataclass(frozen=True)
class Island:
    """An island and its coast: an array of points in order, the last joined to the first."""

    name: str
    outline: Positions


@dataclass(frozen=True)
class Person:
    """Someone who appears in the lessons; role is "instructor" or "learner"."""

    name: str
    role: str


def _load() -> dict[str, Any]:
    text = files("vorlib").joinpath("data", "archipelago.json").read_text(encoding="utf-8")
    document: dict[str, Any] = json.loads(text)
    return document


def _position(row: dict[str, Any]) -> Position:
    return Position(row["lat_deg"], row["lon_deg"], row["elevation_ft"])


def _station(row: dict[str, Any]) -> Station:
    return Station(
        ident=row["ident"],
        position=_position(row),
        declination_deg=row["declination_deg"],
        frequency_mhz=row["frequency_mhz"],
        name=row["name"],
        service=row["service"],
    )


def _island(row: dict[str, Any]) -> Island:
    lat_deg, lon_deg = np.array(row["outline"]).T
    return Island(row["name"], Position(lat_deg, lon_deg))


_DOCUMENT = _load()

NAME: str = _DOCUMENT["name"]

TODAY: date = date.fromisoformat(_DOCUMENT["today"])
"""The day of every lesson, fixed so that a notebook gives the same numbers in any year."""

STATIONS: Mapping[str, Station] = MappingProxyType(
    {row["ident"]: _station(row) for row in _DOCUMENT["stations"]}
)

DECLINATION_YEARS: Mapping[str, int] = MappingProxyType(
    {row["ident"]: row["declination_year"] for row in _DOCUMENT["stations"]}
)
"""The year in which each station was last lined up with magnetic north, by ident."""

AIRFIELDS: Mapping[str, Airfield] = MappingProxyType(
    {
        row["ident"]: Airfield(row["ident"], row["name"], _position(row))
        for row in _DOCUMENT["airfields"]
    }
)

ISLANDS: tuple[Island, ...] = tuple(_island(row) for row in _DOCUMENT["islands"])

PEOPLE: tuple[Person, ...] = tuple(Person(**row) for row in _DOCUMENT["people"])
