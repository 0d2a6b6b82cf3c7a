"""What the debrief of a recorded flight is made from, and what comes of it or why it cannot be."""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from importlib.resources import files
from typing import NamedTuple

import numpy as np

from vorlib.archipelago import STATIONS
from vorlib.doing import Doing
from vorlib.earth import Position
from vorlib.exhibits.entries import Opened
from vorlib.findings import LIMIT_SHARE
from vorlib.receiver import DOTS_FULL_SCALE, Flag
from vorlib.recorded import RecordedDebrief, debrief_recording
from vorlib.selection_estimate import Estimate, estimate_selections
from vorlib.selections import COLUMNS, Selection, read_selections
from vorlib.spoken import spoken_time
from vorlib.station import Station
from vorlib.stationdata import StationList
from vorlib.textfile import FileError
from vorlib.tracks import Columns, Recording, read_track
from vorlib.tracks.example import LOG, example_flight
from vorlib.tracks.reach import out_of_reach
from vorlib.views.timeline_scene import Bar, Mark, TimelineScene

__all__ = ["Case", "Finding", "Phase", "case_of", "example_rows", "rows_of"]

NEAR_NM, MOST_NEAR = 250.0, 60  # stations that a flight can have tuned
SHOWN_FAULTS = 4
# Which control can mend what, by what a refusal says; the file itself if none of these.
MENDED_BY = {
    "(altitude_ft)": "altitude_ft",
    "by its number": "number",
    "there is no number": "number",
    "declare which": "columns",
    "given twice": "columns",
}


class Finding(NamedTuple):
    """A finding at a moment, numbered in order of time."""

    number: int
    time_s: float
    words: str


class Phase(NamedTuple):
    """A time of doing one thing, with what it is called."""

    words: str
    begin_s: float
    end_s: float


@dataclass(frozen=True, eq=False)
class Case:
    """A flight debriefed, or why it cannot be.

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
        found = sorted(_found(self.debrief))
        return tuple(Finding(n, *one) for n, one in enumerate(found, 1))

    @cached_property
    def phases(self) -> tuple[Phase, ...]:
        """What was done, one thing after the other, with what was selected."""
        return tuple(_phases(self.debrief)) if self.debrief is not None else ()

    @cached_property
    def strip(self) -> TimelineScene | None:
        """The flight against time."""
        return _strip(self.debrief, self.findings) if self.debrief is not None else None


def _found(debrief: RecordedDebrief) -> Iterator[tuple[float, str]]:
    found, seen = debrief.found, debrief.seen
    for one in (*found.intercepts, *found.passages, *found.wrong_turns):
        yield one.time_s, one.words
    for i in (np.flatnonzero(np.diff(seen.piece)) + 1).tolist():
        before, after = seen.time_s[i - 1 : i + 1].tolist()
        yield (
            before,
            f"From {spoken_time(before)} to {spoken_time(after)} nothing was recorded: "
            "nothing is found across that.",
        )


def _phases(debrief: RecordedDebrief) -> Iterator[Phase]:
    seen = debrief.seen
    for span in debrief.spans:
        if span.doing == Doing.OTHER:
            continue
        flag = Flag(int(seen.flag[span.begin]))
        way = {Flag.TO: " inbound", Flag.FROM: " outbound", Flag.OFF: ""}[flag]
        station, course = seen.tuned[span.begin], seen.course_deg[span.begin]
        words = f"{span.doing}, {station.ident} {course:03.0f}"
        if span.doing == Doing.TRACKING:
            words += way
        last = min(span.end, seen.time_s.size) - 1
        yield Phase(words, float(seen.time_s[span.begin]), float(seen.time_s[last]))


def _strip(debrief: RecordedDebrief, findings: Sequence[Finding]) -> TimelineScene:
    seen = debrief.seen
    time_s, end_s = seen.time_s, float(seen.time_s[-1])
    begins = [max(0.0, one.time_s) for one in debrief.selections]
    selections = [
        Bar(f"{one.station.ident} {one.course_deg:03.0f}", begin, min(end, end_s))
        for one, begin, end in zip(
            debrief.selections, [0.0, *begins[1:]], [*begins[1:], end_s], strict=True
        )
        if begin < end_s
    ]
    phases = [
        Bar(str(span.doing), float(time_s[span.begin]), _end_s(debrief, span.end))
        for span in debrief.spans
    ]
    return TimelineScene(
        time_s,
        seen.dots,
        seen.flag,
        seen.piece,
        tuple(selections),
        tuple(phases),
        tuple(Mark(one.number, one.time_s) for one in findings),
        LIMIT_SHARE * DOTS_FULL_SCALE,
    )


def _end_s(debrief: RecordedDebrief, end: int) -> float:
    """When a span ends: as the next begins, but with its own piece of the recording."""
    seen = debrief.seen
    whole = end < seen.time_s.size and seen.piece[end] == seen.piece[end - 1]
    return float(seen.time_s[end if whole else end - 1])


# A scrub asks for the same case again and again; the recording is not read anew for other rows.
@lru_cache(maxsize=4)
def case_of(
    track: Opened[str] | None,
    number: int | None,
    columns: Columns,
    altitude_ft: float | None,
    stations: Opened[StationList] | None,
    selections: str | None,
    true_airspeed_kt: float | None,
) -> Case:
    """Return what comes of a recorded flight.

    Parameters
    ----------
    track
        The text of a file; None for the example flight.
    number, columns, altitude_ft
        As in `vorlib.tracks.read_track`.
    stations
        The stations; None for those of the islands.
    selections
        What was selected when, as `vorlib.selections.read_selections` reads it; None to estimate
        it from the track.
    true_airspeed_kt
        The airspeed if it is known.
    """
    try:
        recording = _recording(track, number, columns, altitude_ft)
    except ValueError as error:
        return Case(problem=_told(track, error), field=_mended_by(error))
    far = out_of_reach(recording.flight, _all(stations))
    if far:
        return Case(recording, problem=f"No flight is shown: {far}", field="stations")
    near = _near(stations, recording)
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
            true_airspeed_kt=true_airspeed_kt,
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


def _near(stations: Opened[StationList] | None, recording: Recording) -> Mapping[str, Station]:
    """The stations that a flight may have tuned; of several with one ident the nearest."""
    if stations is None:
        return STATIONS
    place = recording.flight.position
    middle = len(place.lat_deg) // 2
    amid = Position(place.lat_deg[middle], place.lon_deg[middle])
    found = stations.content.nearest(amid, MOST_NEAR, within_nm=NEAR_NM)
    return {one.listed.station.ident: one.listed.station for one in reversed(found)}


def example_rows() -> str:
    """Return what was selected on the example flight, as a table in text."""
    return files("vorlib").joinpath("data", LOG).read_text(encoding="utf-8").strip()


def rows_of(selections: Sequence[Selection], recording: Recording) -> str:
    """Return selections as a table in text, their times seconds of the flight."""
    rows = [f"{one.time_s:.0f},{one.station.ident},{one.course_deg:03.0f}" for one in selections]
    return "\n".join([",".join(COLUMNS), *rows])


def _mended_by(error: ValueError) -> str:
    return next((field for words, field in MENDED_BY.items() if words in str(error)), "track")


def _told(track: Opened[str] | None, error: ValueError) -> str:
    name = track.name if track else "the example flight"
    return f"No flight is shown: {name}: {_lines(error)}"


def _lines(error: ValueError) -> str:
    messages = list(error.messages) if isinstance(error, FileError) else [str(error)]
    more = len(messages) - SHOWN_FAULTS
    return "\n".join([*messages[:SHOWN_FAULTS], *([f"and {more} more"] if more > 0 else [])])
