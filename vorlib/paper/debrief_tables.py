"""The tables of a printed debrief: who flew, tracking, findings to remark on, the plan."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from vorlib.core.angles import format_direction, format_tenths, spoken_side
from vorlib.core.words import spoken_time
from vorlib.debrief.findings import LIMIT_SOURCE, Phase
from vorlib.debrief.recorded import HeadingSource, RecordedDebrief, WindCorrection
from vorlib.debrief.report.in_order import Finding, findings_of
from vorlib.debrief.report.planned import Compared
from vorlib.io.text import printable
from vorlib.paper.page import SMALL, Column, Sheet
from vorlib.vor.receiver import DEG_PER_DOT, Flag

__all__ = [
    "Notes",
    "findings_table",
    "planned_table",
    "rests_on",
    "selection_table",
    "tracking_table",
    "who_table",
]

HAND_ROW = 22.0  # height in points of a row to write in by hand
TRACKED = (
    Column("minutes", 1.9),
    Column("station", 1.4),
    Column("course", 0.9, "middle"),
    Column("flag", 0.8, "middle"),
    Column("radial held", 0.9, "end"),
    Column("mean off, deg", 1.0, "end"),
    Column("dots", 0.7, "end"),
    Column("NM", 0.8, "end"),
    Column("most off, deg", 1.0, "end"),
    Column("dots", 0.7, "end"),
    Column("NM", 0.8, "end"),
    Column("within 3/4", 0.9, "end"),
    Column("correction used", 1.2, "end"),
    Column("needed", 1.0, "end"),
)


@dataclass(frozen=True)
class Notes:
    """What an instructor adds to a debrief.

    Attributes
    ----------
    student, instructor, aircraft, lesson
        Who flew what; empty fields are left to write in by hand.
    struck
        Numbers of findings to leave out.
    """

    student: str = ""
    instructor: str = ""
    aircraft: str = ""
    lesson: str = ""
    struck: frozenset[int] = frozenset()

    def kept(self, debrief: RecordedDebrief) -> tuple[Finding, ...]:
        """Return the findings to print, in order of time, with their numbers unchanged.

        Raises
        ------
        ValueError
            If there is no finding of a number that is struck.
        """
        found = findings_of(debrief)
        unknown = sorted(self.struck - {one.number for one in found})
        if unknown:
            raise ValueError(
                f"there is no finding {unknown[0]} to leave out: there are 1 to {len(found)}"
            )
        return tuple(one for one in found if one.number not in self.struck)


def who_table(sheet: Sheet, notes: Notes) -> None:
    """Write who flew what, with room to write in what is not known."""
    cells = {
        "student": notes.student,
        "instructor": notes.instructor,
        "aircraft": notes.aircraft,
        "lesson": notes.lesson,
    }
    columns = [Column(name, 1.0) for name in cells]
    sheet.table(columns, [[printable(words) for words in cells.values()]], least_height=16.0)


def selection_table(sheet: Sheet, debrief: RecordedDebrief) -> None:
    """Write every course selected, and when."""
    sheet.heading("Selected")
    rows, end_s = [], float(debrief.seen.time_s[-1])
    followed_s = [one.time_s for one in debrief.selections[1:]]
    for one, next_s in zip(debrief.selections, [*followed_s, end_s], strict=True):
        given_up = one.until_s < min(next_s, end_s)
        until = at_clock(debrief, one.until_s) if given_up else ""
        rows.append([at_clock(debrief, one.time_s), one.words, until])
    sheet.table((Column("from", 1.0), Column("selected", 4.0), Column("given up at", 1.0)), rows)


def at_clock(debrief: RecordedDebrief, time_s: float) -> str:
    """Return a time in UTC, or in minutes of the flight if the clock time is not known."""
    clock = debrief.utc(time_s)
    return f"{clock:%H:%M:%S}" if clock else spoken_time(time_s)


def tracking_table(sheet: Sheet, debrief: RecordedDebrief) -> None:
    """Write a row for each time that a course was tracked."""
    found = debrief.found.phases
    if found:
        sheet.heading("Tracking")
        sheet.table(TRACKED, [*map(_row, found, debrief.corrections)])


def _row(phase: Phase, correction: WindCorrection) -> Sequence[str]:
    return (
        f"{phase.begin_s / 60.0:.1f} to {phase.end_s / 60.0:.1f}",
        phase.station_name,
        format_direction(phase.course_deg),
        Flag(phase.flag).name,
        format_tenths(phase.mean_radial_deg),
        *_off(phase.mean_away_deg, phase.mean_away_nm),
        *_off(phase.largest_off_deg, phase.largest_off_nm),
        f"{100.0 * phase.within_limit:.0f} %",
        _side(correction.used_deg),
        _side(correction.needed_deg),
    )


def _off(degrees: float, nm: float) -> tuple[str, str, str]:
    return f"{degrees:.1f}", f"{degrees / DEG_PER_DOT:.1f}", f"{nm:.2f}"


def _side(degrees: float | None) -> str:
    if degrees is None:
        return "unknown"
    return f"{abs(degrees):.0f} {spoken_side(degrees)}" if round(degrees) else "0"


def findings_table(sheet: Sheet, debrief: RecordedDebrief, kept: Sequence[Finding]) -> None:
    """Write the findings in order of time, with room for a remark beside each."""
    sheet.heading("Findings, in order of time")
    if not kept:
        sheet.paragraph("None.", SMALL)
        return
    columns = (
        Column("", 0.35, "end"),
        Column("at", 0.9),
        Column("what was found", 5.0),
        Column("remarks", 3.0),
    )
    rows = [[str(one.number), at_clock(debrief, one.time_s), one.words, ""] for one in kept]
    sheet.table(columns, rows, least_height=HAND_ROW)


def planned_table(sheet: Sheet, rows: Iterable[Compared], name: str = "") -> None:
    """Write the plan against the flight, under the name of the plan."""
    cells = [list(row) for row in rows]
    if cells:
        sheet.heading(f"Planned against flown{f': {name}' if name else ''}")
        columns = (
            Column("", 3.2),
            Column("planned", 1.8),
            Column("flown", 2.2),
            Column("difference", 1.4, "end"),
        )
        sheet.table(columns, cells)


def rests_on(sheet: Sheet, debrief: RecordedDebrief) -> None:
    """Write the data and sources on which the numbers rest."""
    sheet.heading("What this rests on", keep=20.0)
    said = [debrief.wind.words]
    if debrief.found.phases and debrief.heading is not HeadingSource.TRACK:
        said.append(f"Wind corrections are worked out {debrief.heading.value}.")
    if debrief.found.phases:
        said.append(f"Within 3/4 is for information, not a verdict: {LIMIT_SOURCE}.")
    for words in (*said, *debrief.notes):
        sheet.paragraph(words, SMALL)
