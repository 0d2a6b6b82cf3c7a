"""The inputs of a debrief, and its result or why there is none."""

from __future__ import annotations

import io
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from functools import cached_property, lru_cache
from importlib.resources import files

from vorlib.core.arguments import ArgumentError
from vorlib.debrief.files import stations_near
from vorlib.debrief.recorded import RecordedDebrief, debrief_recording
from vorlib.debrief.report.in_order import Finding, findings_of
from vorlib.debrief.selection_estimate import Estimate, estimate_selections
from vorlib.exhibits.base.inputs import Opened, first_of
from vorlib.exhibits.debrief.parts import PhasePart, phases_of, strip_of
from vorlib.io.text import FileError
from vorlib.stations import StationList
from vorlib.stations.archipelago import STATIONS
from vorlib.tracks import Columns, Recording, read_track
from vorlib.tracks.example import LOG, example_flight
from vorlib.tracks.reach import out_of_reach
from vorlib.tracks.selections import COLUMNS, Selection, read_selections
from vorlib.views.flight.timeline_scene import TimelineScene
from vorlib.vor.station import Station

__all__ = ["Case", "Loaded", "case_of", "example_rows", "rows_of"]

# The field, beside the file itself, whose control can mend what is refused of an argument.
BESIDE_THE_FILE = {name: name for name in ("number", "columns", "altitude_ft")} | {
    declared.name: "columns" for declared in fields(Columns)
}


@dataclass(frozen=True, eq=False)
class Case:
    """A flight debriefed, or why it cannot be debriefed.

    Attributes
    ----------
    recording
        The flight; None if there is none.
    stations
        Those that it may have tuned, by ident, the nearest first.
    rows
        What was selected when, as a table in text.
    debrief
        The debrief; None if it cannot be made.
    problem, field
        Why not, and the field of the control that can mend it; empty when it could be made.
    """

    recording: Recording | None = None
    stations: Mapping[str, Station] | None = None
    rows: str = ""
    debrief: RecordedDebrief | None = None
    problem: str = ""
    field: str = ""

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What was found, in order of time."""
        if self.debrief is None:
            return ()
        return findings_of(self.debrief)

    @cached_property
    def phases(self) -> tuple[PhasePart, ...]:
        """What was done, one thing after the other, with what was selected."""
        return phases_of(self.debrief) if self.debrief is not None else ()

    @cached_property
    def strip(self) -> TimelineScene | None:
        """The flight against time."""
        return strip_of(self.debrief, self.findings) if self.debrief is not None else None


@dataclass(frozen=True)
class Loaded:
    """The inputs of a debrief.

    Attributes
    ----------
    track
        The text of a file; None for the example flight.
    number, columns, altitude_ft
        As in `vorlib.tracks.read_track`.
    stations
        The stations; None for those of the islands.
    selections
        What was selected when, as `vorlib.tracks.selections.read_selections` reads it; None to
        estimate it from the track.
    true_airspeed_kt
        The airspeed if it is known.
    """

    track: Opened[str] | None
    number: int | None
    columns: Columns
    altitude_ft: float | None
    stations: Opened[StationList] | None
    selections: str | None
    true_airspeed_kt: float | None


# A scrub asks for the same case again and again; the recording is not read anew for other rows.
@lru_cache(maxsize=4)
def case_of(loaded: Loaded) -> Case:
    """Return what comes of a recorded flight."""
    track, stations, selections = loaded.track, loaded.stations, loaded.selections
    try:
        recording = _recording(track, loaded.number, loaded.columns, loaded.altitude_ft)
    except ValueError as error:
        return Case(problem=_told(track, error), field=_mended_by(error))
    far = out_of_reach(recording.flight, _all(stations))
    if far:
        return Case(recording, problem=f"No flight is shown: {far}", field="stations")
    near = STATIONS if stations is None else stations_near(stations.content, recording.flight)
    rows = selections or ""
    try:
        selected: Estimate | tuple[Selection, ...]
        if selections is None:
            selected = estimate_selections(recording.flight, near.values())
            rows = rows_of(selected.selections, recording)
        else:
            selected = read_selections(io.StringIO(selections), near, recording.start)
        made = debrief_recording(
            recording.flight,
            selected,
            start=recording.start,
            true_airspeed_kt=loaded.true_airspeed_kt,
            speed_kt=recording.speed_kt,
            notes=recording.notes,
        )
    except ValueError as error:
        told = f"What was selected: {_lines(error)}"
        return Case(recording, near, rows, problem=told, field="selections")
    return Case(recording, near, rows, made)


@lru_cache(maxsize=4)
def _recording(
    track: Opened[str] | None, number: int | None, columns: Columns, altitude_ft: float | None
) -> Recording:
    if track is None:
        return example_flight().recording
    text = io.StringIO(track.content)
    return read_track(text, columns, number=number, altitude_ft=altitude_ft)


def _all(stations: Opened[StationList] | None) -> list[Station]:
    if stations is None:
        return list(STATIONS.values())
    return [one.station for one in stations.content.stations]


def example_rows() -> str:
    """Return what was selected on the example flight, as a table in text."""
    return files("vorlib").joinpath("data", LOG).read_text(encoding="utf-8").strip()


def rows_of(selections: Sequence[Selection], recording: Recording) -> str:
    """Return selections as a table in text, their times seconds of the flight."""
    rows = [(one.time_s, f"{one.station.ident},{one.course_deg:03.0f}") for one in selections]
    begins = {time_s for time_s, _ in rows}
    ends = {one.until_s for one in selections} - begins - {math.inf}
    rows += [(until_s, "off,") for until_s in ends]
    return "\n".join([",".join(COLUMNS), *(f"{at:.0f},{what}" for at, what in sorted(rows))])


def _mended_by(error: ValueError) -> str:
    argument = error.argument if isinstance(error, ArgumentError) else ""
    return BESIDE_THE_FILE.get(argument, "track")


def _told(track: Opened[str] | None, error: ValueError) -> str:
    name = track.name if track else "the example flight"
    return f"No flight is shown: {name}: {_lines(error)}"


def _lines(error: ValueError) -> str:
    messages = error.messages if isinstance(error, FileError) else [str(error)]
    return "\n".join(first_of(messages))
