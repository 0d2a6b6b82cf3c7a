"""The state of the debrief exhibit: the files loaded, and the moment shown."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

import numpy as np

from vorlib.aircraft.wind import Wind
from vorlib.briefing.lesson import Lesson
from vorlib.core.angles import difference_deg, wrap_180, wrap_360
from vorlib.debrief.phases import FlightPhase
from vorlib.debrief.recorded import RecordedDebrief
from vorlib.debrief.report.in_order import Finding
from vorlib.earth.geodesic import Position
from vorlib.exhibits.base.inputs import Opened
from vorlib.exhibits.debrief.case import Case, Loaded, case_of, example_rows
from vorlib.stations import StationList
from vorlib.tracks import Columns
from vorlib.vor.receiver import Reading, Receiver
from vorlib.vor.station import Station

__all__ = ["RANGES_NM", "WHOLE_NM", "DebriefState", "FlightMoment", "Kept"]

WHOLE_NM = 0.0  # a range that is as large as the flight
RANGES_NM = (2.5, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 75.0, 100.0, 150.0, 200.0)
AT_FINDING_S = 1.0  # a finding so near in time is told with the moment


class Kept(NamedTuple):
    """A flight kept to compare with another: its name and its debrief."""

    name: str
    debrief: RecordedDebrief


class FlightMoment(NamedTuple):
    """A moment of a recorded flight; `recorded` is false in a silence of the recorder.

    `selected` is false where nothing was: station and course are then those before it. Heading is
    true; the track is by the station's north.
    """

    recorded: bool
    selected: bool
    station: Station
    course_deg: float
    position: Position
    true_heading_deg: float
    track_deg: float
    groundspeed_kt: float
    reading: Reading
    phase: FlightPhase


@dataclass(frozen=True)
class DebriefState:
    """The files loaded, and the moment shown.

    Attributes
    ----------
    track, number, columns, altitude_ft, stations, selections, true_airspeed_kt
        As in `vorlib.exhibits.debrief.case.case_of`.
    range_nm
        How much the map shows; `WHOLE_NM` for the whole flight.
    folder
        Where PDF and CSV are to be written.
    student, instructor, aircraft, lesson
        Who flew what, for the head of the page.
    struck
        Numbers of findings that are not to be printed.
    plan
        The lesson of a card that was saved, to be held against the flight.
    planned_wind, planned_altitude_ft, planned_airspeed_kt
        What the lesson was planned with; None for what was not.
    kept
        Another flight, to be set beside this one.
    time_s
        The moment asked for.
    """

    track: Opened[str] | None = None
    number: int | None = None
    columns: Columns = field(default_factory=Columns)
    altitude_ft: float | None = None
    stations: Opened[StationList] | None = None
    selections: str | None = field(default_factory=example_rows)
    true_airspeed_kt: float | None = None
    range_nm: float = WHOLE_NM
    folder: str = ""
    student: str = ""
    instructor: str = ""
    aircraft: str = ""
    lesson: str = ""
    struck: frozenset[int] = frozenset()
    plan: Opened[Lesson] | None = None
    planned_wind: Wind | None = None
    planned_altitude_ft: float | None = None
    planned_airspeed_kt: float | None = None
    kept: Kept | None = None
    time_s: float = 0.0

    def __post_init__(self) -> None:
        if self.range_nm not in (WHOLE_NM, *RANGES_NM):
            allowed = ", ".join(f"{range_nm:g}" for range_nm in RANGES_NM)
            raise ValueError(
                f"range_nm must be one of {allowed}, or {WHOLE_NM:g} for the whole flight, got "
                f"{self.range_nm:g}"
            )

    @cached_property
    def case(self) -> Case:
        """The result of what was loaded."""
        return case_of(
            Loaded(
                track=self.track,
                number=self.number,
                columns=self.columns,
                altitude_ft=self.altitude_ft,
                stations=self.stations,
                selections=self.selections,
                true_airspeed_kt=self.true_airspeed_kt,
            )
        )

    @property
    def name(self) -> str:
        """The flight's name: its file, and its number in the file."""
        if self.track is None:
            return "the example flight of the invented islands"
        return f"flight {self.number} of {self.track.name}" if self.number else self.track.name

    @property
    def debrief(self) -> RecordedDebrief:
        """The debrief.

        Raises
        ------
        ValueError
            If it could not be made.
        """
        if self.case.debrief is None:
            raise ValueError(self.case.problem)
        return self.case.debrief

    @property
    def duration_s(self) -> float:
        """How long the flight is; 0 without one."""
        debrief = self.case.debrief
        return float(debrief.seen.time_s[-1]) if debrief is not None else 0.0

    @property
    def shown_s(self) -> float:
        """The moment shown: a time beyond the flight is held at its end."""
        return min(max(self.time_s, 0.0), self.duration_s)

    @property
    def before(self) -> int:
        """Index of the last recorded moment that is not later."""
        time_s = self.debrief.seen.time_s
        return max(0, int(np.searchsorted(time_s, self.shown_s + 1e-9, "right")) - 1)

    @cached_property
    def moment(self) -> FlightMoment:
        """The moment, its place between those recorded before and after."""
        debrief, i = self.debrief, self.before
        seen, flight = debrief.seen, debrief.flight
        after = min(i + 1, seen.time_s.size - 1)
        step_s = float(seen.time_s[after] - seen.time_s[i])
        share = (self.shown_s - float(seen.time_s[i])) / step_s if step_s else 0.0
        silent = share > 0.0 and bool(seen.segment[after] != seen.segment[i])
        where = flight.position
        lat, lon, altitude = (
            float(row[i] + share * (row[after] - row[i]))
            for row in (where.lat_deg, where.lon_deg, where.altitude_ft)
        )
        if abs(float(where.lon_deg[after] - where.lon_deg[i])) > 180.0:  # the antimeridian
            east = float(wrap_180(where.lon_deg[after] - where.lon_deg[i]))
            lon = float(where.lon_deg[i]) + share * east
        station, course = seen.tuned[i], float(seen.course_deg[i])
        position = Position(lat, lon, altitude)
        turned = share * float(difference_deg(*flight.true_heading_deg[[after, i]]))
        return FlightMoment(
            recorded=not silent,
            selected=bool(debrief.selection[i] >= 0),
            station=station,
            course_deg=course,
            position=position,
            true_heading_deg=float(wrap_360(flight.true_heading_deg[i] + turned)),
            track_deg=float(seen.track_deg[i]),
            groundspeed_kt=float(debrief.groundspeed_kt[i]),
            reading=Receiver(course).read(station, position),
            phase=FlightPhase(int(debrief.phase[i])),
        )

    @property
    def finding(self) -> Finding | None:
        """The finding of this moment, if there is one."""
        near = [f for f in self.case.findings if abs(f.time_s - self.shown_s) <= AT_FINDING_S]
        return min(near, key=lambda f: abs(f.time_s - self.shown_s), default=None)
