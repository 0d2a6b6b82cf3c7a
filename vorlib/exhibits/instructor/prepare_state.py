"""What a lesson is prepared from: files opened, choices made, and what follows from them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property, lru_cache
from typing import Any

from vorlib.aircraft.wind import Wind
from vorlib.briefing.card import LessonCard, lesson_card
from vorlib.briefing.elevation import ElevationGrid
from vorlib.briefing.files import (
    ISLANDS_CENTER,
    PLANNED_AIRSPEED_KT,
    PLANNED_ALTITUDE_FT,
    RADIUS_NM,
    plan_lesson,
    stations_or_islands,
)
from vorlib.briefing.ground import altitude_warnings, highest_words
from vorlib.core.angles import mean_direction_deg
from vorlib.core.caution import CAUTION
from vorlib.core.words import spoken_count
from vorlib.earth.geodesic import Position
from vorlib.exhibits.base.inputs import SHOWN_FAULTS, Opened, paragraphs
from vorlib.exhibits.scene.at_station import HIGHEST_FT
from vorlib.stations import StationList
from vorlib.stations.archipelago import ISLANDS, NAME, Airfield, Island
from vorlib.vor.station import Station

__all__ = [
    "PrepareState",
    "elevation_note",
    "fields_note",
    "near_note",
    "other_idents",
    "other_stations",
    "stations_note",
]

ABOVE_FT = 3000.0  # a lesson is planned at least this far above a station
SAME_AREA_NM = 100.0  # the area stays while a station of the file is this near
LISTED = 8  # stations named as near

Changes = dict[str, Any]


@dataclass(frozen=True)
class PrepareState:
    """The choices for a lesson.

    Attributes
    ----------
    stations, fields
        The files opened; None for the invented islands, and for their fields. Fields alone wait
        for stations.
    idents
        The stations to use; the nearest to the center if there are none.
    center, radius_nm, altitude_ft, airspeed_kt, wind_from_deg, wind_kt
        As in `vorlib.briefing.files.plan_lesson`; the wind is true.
    on
        The day of the lesson; None for today, in the islands for their own day.
    paper
        Name of the paper's size.
    answers
        Whether the card is shown, not the learner's handout.
    page
        Which page is shown, counted round and round from 1.
    folder
        Where the sheets are to be written.
    elevation, elevation_in
        Heights of the ground, and what they are taken as: "meters" or "feet".
    """

    stations: Opened[StationList] | None = None
    fields: Opened[Sequence[Airfield]] | None = None
    idents: tuple[str, ...] = ()
    center: Position = ISLANDS_CENTER
    radius_nm: float = RADIUS_NM
    altitude_ft: float = PLANNED_ALTITUDE_FT
    airspeed_kt: float = PLANNED_AIRSPEED_KT
    wind_from_deg: float = 250.0
    wind_kt: float = 20.0
    on: date | None = None
    paper: str = "A4"
    answers: bool = True
    page: int = 1
    folder: str = ""
    elevation: Opened[ElevationGrid] | None = None
    elevation_in: str = "meters"

    @cached_property
    def card(self) -> LessonCard:
        """The numbers of the lesson."""
        lesson = plan_lesson(
            self.stations.content if self.stations else None,
            self.fields.content if self.fields and self.stations else None,
            self.center,
            idents=self.idents,
            radius_nm=self.radius_nm,
            altitude_ft=self.altitude_ft,
            true_airspeed_kt=self.airspeed_kt,
            wind=Wind(self.wind_from_deg, self.wind_kt),
            on=self.on,
            elevation=self.elevation.content.taken_as(self.elevation_in)
            if self.elevation
            else None,
        )
        return lesson_card(lesson)

    @property
    def coasts(self) -> tuple[Island, ...]:
        """The coasts to draw: those of the islands, if the lesson is there."""
        return () if self.stations else ISLANDS


def other_stations(state: PrepareState, stations: Opened[StationList] | None) -> Changes:
    """Return what changes with the stations: an area that has some, flown well above them."""
    if stations is None:
        return {"idents": (), "center": ISLANDS_CENTER, "on": None}
    found = stations.content
    if found.nearest(state.center, 1, within_nm=SAME_AREA_NM):
        return {"idents": ()}
    (amid,) = found.nearest(_middle(found), 1)
    return {"idents": (), **_over(state, amid.listed.station)}


def other_idents(state: PrepareState, idents: tuple[str, ...]) -> Changes:
    """Return what changes with the stations to use: an area that has one of them."""
    stations = _list(state)
    try:
        chosen = [stations.one(ident, near=state.center).station for ident in idents]
    except ValueError:
        return {}  # the lesson is refused for it, in words
    if not chosen or min(float(s.distance_nm(state.center)) for s in chosen) <= SAME_AREA_NM:
        return {}
    return _over(state, chosen[0])


def _over(state: PrepareState, station: Station) -> Changes:
    """Return an area round a station, flown well above it."""
    place = station.position
    lowest = 500.0 * math.ceil((float(place.altitude_ft) + ABOVE_FT) / 500.0)
    center = Position(round(float(place.lat_deg), 4), round(float(place.lon_deg), 4))
    return {"center": center, "altitude_ft": min(max(state.altitude_ft, lowest), HIGHEST_FT)}


def _list(state: PrepareState) -> StationList:
    return state.stations.content if state.stations else stations_or_islands(None)


def _middle(stations: StationList) -> Position:
    """Return the mean of their places."""
    places = [s.station.position for s in stations.stations]
    lat = sum(float(place.lat_deg) for place in places) / len(places)
    return Position(lat, float(mean_direction_deg([float(place.lon_deg) for place in places])))


def stations_note(state: PrepareState) -> str:
    """Return what was read of the stations, what was left out, and how old it is, as HTML."""
    if state.stations is None:
        return paragraphs(f"No file: the stations of the {NAME}, all invented.", strong=(CAUTION,))
    return _words_read(state.stations.content, state.card.lesson.on)


@lru_cache(maxsize=8)
def _words_read(stations: StationList, on: date) -> str:
    faults = stations.faults
    lines = [f"{stations.counted} from {stations.source}."]
    for words, counted in (("Left out", stations.left_out), ("Filled in", stations.assumed)):
        if counted:
            listed = "; ".join(f"{number} {what}" for what, number in sorted(counted.items()))
            lines.append(f"{words}: {listed}.")
    lines += faults[:SHOWN_FAULTS]
    if len(faults) > SHOWN_FAULTS:
        lines.append(f"and {len(faults) - SHOWN_FAULTS} more such lines")
    return paragraphs(*lines, strong=(stations.age_words(on), CAUTION))


def fields_note(state: PrepareState) -> str:
    """Return what was read of the fields, and which are not used, as HTML."""
    if state.fields is None:
        read = "No file: no fields." if state.stations else "No file: the fields of the islands."
    else:
        read = f"{spoken_count(len(state.fields.content), 'field')} read"
        read += "." if state.stations else "; used as soon as there is a stations file."
    return paragraphs(read, *state.card.lesson.sources[1:])


def near_note(state: PrepareState) -> str:
    """Return which stations lie nearest, and what is to be said of those used, as HTML."""
    near = _list(state).nearest(state.center, LISTED)
    words = ", ".join(f"{one.listed.station.ident} {one.distance_nm:.0f} NM" for one in near)
    return paragraphs(f"Nearest to the middle: {words}.", *state.card.lesson.remarks)


def elevation_note(state: PrepareState) -> str:
    """Return what is known of the ground, as HTML."""
    lesson = state.card.lesson
    known = (
        lesson.elevation.words
        if lesson.elevation
        else "No file: nothing is known of the ground but the stations and fields."
    )
    return paragraphs(known, highest_words(lesson), strong=altitude_warnings(lesson))
