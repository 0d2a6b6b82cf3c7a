"""The numbers of a lesson: stations, fields and fixes, as an instructor needs them.

For training on the ground, not for navigation. `vorlib.briefing.tasks` makes tasks of it and
`vorlib.paper.lesson` prints it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from vorlib.briefing.lesson import Lesson
from vorlib.core.angles import reciprocal_deg
from vorlib.core.units import NO_BREAK, SECONDS_PER_HOUR
from vorlib.core.words import spoken_degrees
from vorlib.earth.geodesic import Position
from vorlib.morse import encode
from vorlib.procedures.error_area import Pair, rank_pairs
from vorlib.stations import ListedStation
from vorlib.vor.coverage import cone_radius_nm, line_of_sight_nm, service_radius_nm
from vorlib.vor.receiver import Flag, Receiver
from vorlib.vor.station import Station

USEFUL_CUT_DEG = 30.0  # a flatter cut is no fix worth teaching (common practice)
OVERHEAD_NM = 0.1  # nearer to a station a radial and a distance say nothing


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
    has_dme
        Whether the list says that it has a DME.
    """

    station: Station
    radial_deg: float
    distance_nm: float
    dme_nm: float
    from_deg: float
    to_deg: float
    flag: Flag
    caveat: str
    has_dme: bool = False

    @property
    def received(self) -> bool:
        """Whether the station can be used there: received, and its signal promised."""
        return not self.caveat


def seen(listed: ListedStation, there: Position) -> Seen:
    """Return how a station is received at a place."""
    station = listed.station
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
        has_dme=listed.kind != "VOR",
    )


@dataclass(frozen=True)
class StationNotes:
    """A station at the planned altitude and speed.

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
    at_center
        How it is received in the middle of the practice area.
    """

    listed: ListedStation
    morse: str
    line_of_sight_nm: float
    service_nm: float
    cone_nm: float
    cone_s: float
    drift_deg: float
    at_center: Seen

    @property
    def signs(self) -> str:
        """The ident's dots and dashes as they are printed, its letters well apart."""
        apart = self.morse.replace(" ", NO_BREAK * 2)
        return apart.replace("-", "\N{EN DASH}").replace(".", "\N{BULLET}")

    @property
    def has_cone(self) -> bool:
        """Whether the lesson is flown above the antenna, so that there is a cone to meet."""
        return self.cone_nm > 0.0


@dataclass(frozen=True)
class CardPlace:
    """A named place, how each station is received over it, and what a fix there is worth.

    Attributes
    ----------
    name, position, seen
        The place at the planned altitude, and the lesson's stations over it.
    best
        Of the pairs of stations received whose radials cut at 30 degrees or more, the one with the
        smallest error; if none does, the one that cuts best. None where no two are received that
        do not lie on one line.
    """

    name: str
    position: Position
    seen: tuple[Seen, ...]
    best: Pair | None

    @property
    def received(self) -> tuple[Seen, ...]:
        """The stations that can be used there, nearest first."""
        usable = [one for one in self.seen if one.received]
        return tuple(sorted(usable, key=lambda one: one.distance_nm))

    @property
    def pair(self) -> Pair | None:
        """The best pair for a fix by two radials; None where none cuts at 30 degrees or more."""
        return self.best if self.best and self.best.cut_deg >= USEFUL_CUT_DEG else None

    @property
    def dme(self) -> Seen | None:
        """The nearest station received that gives a fix by radial and DME."""
        usable = (one for one in self.received if one.has_dme and one.distance_nm > OVERHEAD_NM)
        return next(usable, None)

    @property
    def why_no_pair(self) -> str:
        """Why two radials give no good fix; empty where they do."""
        if self.pair:
            return ""
        if len(self.received) < 2:
            return f"{'only one' if self.received else 'no'} station is reliable there"
        if self.best is None:
            return "the stations reliable there lie on one line"
        one, other = (station.name for station in self.best.stations)
        return f"the best two, {one} and {other}, cut at only {spoken_degrees(self.best.cut_deg)}"


@dataclass(frozen=True)
class LessonCard:
    """The numbers of a lesson: its stations, the middle of its area, and its fields."""

    lesson: Lesson
    stations: tuple[StationNotes, ...]
    center: CardPlace
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
        place_notes("middle of the practice area", lesson.center, lesson),
        tuple(place_notes(f.name, f.position, lesson) for f in lesson.fields),
    )


def place_notes(name: str, position: Position, lesson: Lesson) -> CardPlace:
    """Return how the lesson's stations are received over a place at the planned altitude."""
    there = lesson.overhead(position)
    each = tuple(seen(one, there) for one in lesson.stations)
    usable = [one.station for one in each if one.received and one.distance_nm > OVERHEAD_NM]
    return CardPlace(name, there, each, _best(rank_pairs(usable, there)))


def _best(pairs: Sequence[Pair]) -> Pair | None:
    """Return the first of ranked pairs that cuts well enough, or else the one that cuts best."""
    useful = (pair for pair in pairs if pair.cut_deg >= USEFUL_CUT_DEG)
    return next(useful, max(pairs, key=lambda pair: pair.cut_deg, default=None))


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
        at_center=seen(listed, lesson.overhead(lesson.center)),
    )
