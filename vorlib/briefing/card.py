"""What an instructor has to know before a lesson: stations, fields, fixes, in numbers.

For training on the ground, not for navigation. `vorlib.briefing.tasks` makes tasks of it and
`vorlib.paper.lesson` prints it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date

from vorlib.aircraft.flight import Aircraft
from vorlib.aircraft.wind import CALM, Wind
from vorlib.core.angles import reciprocal_deg
from vorlib.core.arguments import positive
from vorlib.core.units import NO_BREAK, SECONDS_PER_HOUR
from vorlib.earth.geodesic import Position, inverse
from vorlib.morse import encode
from vorlib.procedures.error_area import Pair, rank_pairs
from vorlib.stations import ListedStation, StationList
from vorlib.stations.archipelago import Airfield
from vorlib.vor.coverage import cone_radius_nm, line_of_sight_nm, service_radius_nm
from vorlib.vor.receiver import Flag, Receiver
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
    centre, radius_nm
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
    """

    stations: tuple[ListedStation, ...]
    fields: tuple[Airfield, ...]
    centre: Position
    radius_nm: float
    altitude_ft: float
    on: date
    aircraft: Aircraft = field(default_factory=Aircraft)
    wind: Wind = CALM
    sources: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        positive("radius_nm", self.radius_nm, "NM")
        positive("altitude_ft", self.altitude_ft, "ft")
        if self.centre.shape != ():
            raise ValueError(f"centre must be one place, got shape {self.centre.shape}")
        if not self.stations:
            raise ValueError("stations must hold at least one station")

    def overhead(self, place: Position) -> Position:
        """Return the place at the planned altitude."""
        return Position(place.lat_deg, place.lon_deg, self.altitude_ft)


def nearest_fields(
    fields: Iterable[Airfield], centre: Position, within_nm: float
) -> tuple[Airfield, ...]:
    """Return the airfields within a distance of a place, nearest first, at most `MOST_FIELDS`."""
    away = [(_distance_nm(centre, f.position), n, f) for n, f in enumerate(fields)]
    near = sorted(row for row in away if row[0] <= within_nm)
    return tuple(f for *_, f in near[:MOST_FIELDS])


def nearest_stations(stations: StationList, centre: Position) -> tuple[ListedStation, ...]:
    """Return the stations nearest to a place, at most `MOST_STATIONS`."""
    return tuple(near.listed for near in stations.nearest(centre, MOST_STATIONS))


def _distance_nm(one: Position, other: Position) -> float:
    line = inverse(one.lat_deg, one.lon_deg, other.lat_deg, other.lon_deg)
    return float(line.distance_nm)


@dataclass(frozen=True)
class Seen:
    """A station as it is received at a place.

    Attributes
    ----------
    station
        The station.
    radial_deg, distance_nm, dme_nm
        Where the place is from it; distance over the ground, and as a DME shows it.
    from_deg, to_deg
        Whole degrees to select for a centered needle with FROM, and with TO.
    flag
        What the flag shows with `from_deg` selected.
    caveat
        Why it is not to be relied on, in words: why the flag is OFF, or that nobody promises the
        signal there; empty where it is.
    """

    station: Station
    radial_deg: float
    distance_nm: float
    dme_nm: float
    from_deg: float
    to_deg: float
    flag: Flag
    caveat: str

    @property
    def received(self) -> bool:
        """Whether the station can be used there: received, and its signal promised."""
        return not self.caveat


def seen(station: Station, there: Position) -> Seen:
    """Return how a station is received at a place."""
    radial = float(station.radial_deg(there))
    selected = float(round(radial)) or 360.0
    reading = Receiver(selected).read(station, there)
    return Seen(
        station=station,
        radial_deg=radial,
        distance_nm=float(reading.distance_nm),
        dme_nm=float(station.slant_range_nm(there)),
        from_deg=selected,
        to_deg=float(reciprocal_deg(selected)),
        flag=Flag(int(reading.flag)),
        caveat=reading.caveat,
    )


@dataclass(frozen=True)
class StationNotes:
    """What to know of a station at the planned altitude and speed.

    Attributes
    ----------
    listed, morse
        The station, and its ident in dots and dashes.
    line_of_sight_nm, service_nm
        How far it is above the horizon, and how far its service volume reaches.
    cone_nm, cone_s
        Width of the cone of confusion, and how long it lasts at the planned airspeed in calm air.
    drift_deg
        What to add to a radial to get the day's magnetic bearing.
    at_centre
        How it is received in the middle of the practice area.
    """

    listed: ListedStation
    morse: str
    line_of_sight_nm: float
    service_nm: float
    cone_nm: float
    cone_s: float
    drift_deg: float
    at_centre: Seen

    @property
    def signs(self) -> str:
        """The ident's dots and dashes as they are printed, its letters well apart."""
        apart = self.morse.replace(" ", NO_BREAK * 2)
        return apart.replace("-", "\N{EN DASH}").replace(".", "\N{BULLET}")


@dataclass(frozen=True)
class CardPlace:
    """A named place, how each station is received over it, and the best pair for a fix there."""

    name: str
    position: Position
    seen: tuple[Seen, ...]
    pair: Pair | None

    @property
    def received(self) -> tuple[Seen, ...]:
        """The stations that can be used there, nearest first."""
        usable = [one for one in self.seen if one.received]
        return tuple(sorted(usable, key=lambda one: one.distance_nm))


@dataclass(frozen=True)
class LessonCard:
    """The numbers of a lesson: its stations, the middle of its area, and its fields."""

    lesson: Lesson
    stations: tuple[StationNotes, ...]
    centre: CardPlace
    fields: tuple[CardPlace, ...]


def lesson_card(lesson: Lesson) -> LessonCard:
    """Return the numbers of a lesson.

    Raises
    ------
    ValueError
        If the day lies outside the years of the magnetic model.
    """
    return LessonCard(
        lesson,
        tuple(_notes(one, lesson) for one in lesson.stations),
        place_notes("middle of the practice area", lesson.centre, lesson),
        tuple(place_notes(f.name, f.position, lesson) for f in lesson.fields),
    )


def place_notes(name: str, position: Position, lesson: Lesson) -> CardPlace:
    """Return how the lesson's stations are received over a place at the planned altitude."""
    there = lesson.overhead(position)
    stations = [one.station for one in lesson.stations]
    pairs = rank_pairs(stations, there)
    return CardPlace(
        name, there, tuple(seen(one, there) for one in stations), pairs[0] if pairs else None
    )


def _notes(listed: ListedStation, lesson: Lesson) -> StationNotes:
    station = listed.station
    height_ft = max(0.0, lesson.altitude_ft - float(station.position.altitude_ft))
    cone_nm = 2.0 * float(cone_radius_nm(height_ft))
    return StationNotes(
        listed=listed,
        morse=encode(station.ident),
        line_of_sight_nm=float(
            line_of_sight_nm(lesson.altitude_ft, float(station.position.altitude_ft))
        ),
        service_nm=float(service_radius_nm(station.service, height_ft)),
        cone_nm=cone_nm,
        cone_s=cone_nm / lesson.aircraft.true_airspeed_kt * SECONDS_PER_HOUR,
        drift_deg=float(station.declination_drift_deg(lesson.on)),
        at_centre=seen(station, lesson.overhead(lesson.centre)),
    )
