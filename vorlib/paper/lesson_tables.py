"""The tables of a printed lesson: stations, declinations, fields, fixes and tasks."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from vorlib.briefing.card import OVERHEAD_NM, CardPlace, LessonCard, Seen, StationNotes
from vorlib.briefing.lesson import MOST_STATIONS, is_restricted
from vorlib.briefing.task import Task
from vorlib.core.angles import format_direction
from vorlib.core.units import NO_BREAK
from vorlib.core.words import spoken_declination
from vorlib.paper.page import SMALL, Column, Sheet

__all__ = [
    "declination_table",
    "field_table",
    "fix_table",
    "station_table",
    "task_table",
]

TASKS = 7.5  # size of type of the tasks, in points
ASKED_OF = 3  # stations for each field that the learner is asked about
HAND_ROW = 14.0  # least height in points of a row to fill in by hand


def _shown(words: Iterable[str], answers: bool) -> list[str]:
    """Return words for the instructor, or blanks for the learner."""
    return [word if answers else "" for word in words]


def _table_height(rows: int) -> float:
    """Estimate the height of a table with a line or two above it, in points."""
    return 30.0 + HAND_ROW * (rows + 1)


def station_table(sheet: Sheet, card: LessonCard, answers: bool) -> None:
    """Write the facts about each station at the planned altitude."""
    sheet.heading(f"Stations at {card.lesson.altitude_ft:,.0f} ft", keep=60.0)
    columns = (
        Column("station", 2.7),
        Column("MHz", 1.0, "end"),
        Column("ident in Morse", 2.0),
        Column("horizon NM", 1.1, "end"),
        Column("service NM", 1.2, "end"),
        Column("cone in calm air", 1.4, "end"),
        Column("mid-area: radial, NM", 1.4),
        Column("reliable there", 1.8),
        Column("heard in the air", 1.4),
    )
    rows = []
    for notes in card.stations:
        station, there = notes.listed.station, notes.at_center
        numbers = (
            notes.signs,
            f"{notes.line_of_sight_nm:.0f}",
            f"{station.service}: {notes.service_nm:.0f}",
            _cone(notes),
            _from_station(there),
            there.caveat or "yes",
        )
        name = f"{station.ident} {station.name}, {notes.listed.kind}"
        if is_restricted(notes.listed):
            name += f"; {notes.listed.status or 'off the air'}: read its notes"
        rows.append([name, f"{station.frequency_mhz:.2f}", *_shown(numbers, answers), ""])
    sheet.table(columns, rows, least_height=0.0 if answers else HAND_ROW)


def _cone(notes: StationNotes) -> str:
    if not notes.has_cone:
        return "none: not above it"
    return f"{max(notes.cone_nm, 0.1):.1f}{NO_BREAK}NM, {notes.cone_s:.0f}{NO_BREAK}s"


def _from_station(there: Seen) -> str:
    if there.distance_nm <= OVERHEAD_NM:
        return "overhead"
    return f"{format_direction(there.radial_deg)}, {there.distance_nm:.1f}"


def declination_table(sheet: Sheet, card: LessonCard, answers: bool) -> None:
    """Write each station's declination and the variation of the day, for the instructor only."""
    if not answers:
        return
    sheet.heading("Each station's own north, and today's", keep=_table_height(len(card.stations)))
    rows = []
    for notes in card.stations:
        station, year = notes.listed.station, notes.listed.declination_year
        own, today = station.declination_deg, station.declination_deg - notes.drift_deg
        rows.append(
            [
                f"{station.ident} {station.name}",
                spoken_declination(own),
                str(year or "not said"),
                spoken_declination(today),
                f"{notes.drift_deg:+.1f}",
            ]
        )
    columns = (
        Column("station", 2.0),
        Column("declination", 1.5),
        Column("set in", 1.0),
        Column(f"variation on {card.lesson.on}", 1.5),
        Column("add to a radial for the magnetic bearing", 2.5),
    )
    sheet.table(columns, rows)


def field_table(sheet: Sheet, card: LessonCard, answers: bool, most: int = MOST_STATIONS) -> None:
    """Write which stations are received over each field, and why the others are not.

    The instructor gets the nearest stations that are received, at most `most` for each field. The
    learner gets the nearest ones, received or not, and has to say which are received.
    """
    if not card.fields:
        return
    cut = answers and any(len(place.received) > most for place in card.fields)
    title = f"Over the fields at {card.lesson.altitude_ft:,.0f} ft"
    stations = f"{most} stations" if most > 1 else "station"
    sheet.heading(title + (f": the nearest {stations} of each" if cut else ""))
    columns = (
        Column("field", 2.2),
        Column("station", 1.8),
        *(() if answers else (Column("reliable?", 1.0, "middle"),)),
        Column("radial", 0.8, "middle"),
        Column("NM", 0.8, "end"),
        Column("select for FROM", 1.1, "middle"),
        Column("select for TO", 1.1, "middle"),
        Column("seen: flag", 1.1),
        Column("seen: radial", 1.1),
        Column("seen: NM", 1.1),
    )
    rows = []
    for place in card.fields:
        for one in place.received[:most] if answers else _nearest(place):
            station = f"{one.station.ident} {one.station.name}"
            cells = [place.name, station, *(_numbers(one) if answers else ())]
            rows.append(cells + [""] * (len(columns) - len(cells)))
        if answers and not place.received:
            rows.append([place.name, "none to rely on", *[""] * (len(columns) - 2)])
    sheet.table(columns, rows, least_height=HAND_ROW)
    if answers:
        sheet.paragraph(f"Not to be relied on: {'; '.join(_not_received(card)) or 'none'}.", SMALL)


def _nearest(place: CardPlace) -> list[Seen]:
    return sorted(place.seen, key=lambda one: one.distance_nm)[:ASKED_OF]


def _numbers(one: Seen) -> tuple[str, str, str, str]:
    return (
        format_direction(one.radial_deg),
        f"{one.distance_nm:.1f}",
        format_direction(one.from_deg),
        format_direction(one.to_deg),
    )


def _not_received(card: LessonCard) -> list[str]:
    """Return, for each field, the stations not to rely on there, grouped by the reason."""
    lines = []
    for place in card.fields:
        reasons: dict[str, list[str]] = {}
        for one in place.seen:
            if not one.received:
                reasons.setdefault(one.caveat, []).append(one.station.ident)
        words = [f"{' '.join(idents)} {reason}" for reason, idents in reasons.items()]
        lines += [f"{place.name}: {', '.join(words)}"] if words else []
    return lines


def fix_table(sheet: Sheet, card: LessonCard, answers: bool) -> None:
    """Write the best pair of stations for a fix over each place, or the alternative."""
    sheet.heading("Best pair of stations for a fix", keep=_table_height(len(card.fields) + 1))
    rows = []
    for place in (card.center, *card.fields):
        numbers = [_no_pair(place), "", ""]
        if place.pair:
            names = " and ".join(station.name for station in place.pair.stations)
            error = f"{place.pair.ellipse.radial_error_nm:.1f} NM"
            numbers = [names, f"{place.pair.cut_deg:.0f}", error]
        rows.append([place.name, *_shown(numbers, answers)])
    columns: Sequence[Column] = (
        Column("over", 1.7),
        Column("pair", 4.7),
        Column("cut, degrees", 0.8, "end"),
        Column("error at 2 degrees a radial", 1.3, "end"),
    )
    sheet.table(columns, rows, least_height=0.0 if answers else HAND_ROW)


def _no_pair(place: CardPlace) -> str:
    """Return why there is no good pair, and the fix by radial and DME if there is one."""
    if place.dme is None:
        return f"none: {place.why_no_pair}"
    dme = place.dme
    fix = f"{format_direction(dme.radial_deg)}, {dme.dme_nm:.1f}{NO_BREAK}NM"
    return f"none: {place.why_no_pair}. Radial and DME of {dme.station.name}: {fix}"


def task_table(sheet: Sheet, number: int, task: Task, answers: bool) -> None:
    """Write a task, the blanks to fill in, and the ground along its way."""
    planned = "expected" if answers else "planned"
    columns = (Column("to find", 2.4), Column(planned, 3.6), Column("in the air", 2.4))
    rows = [[answer.question, *_shown([answer.expected], answers), ""] for answer in task.answers]
    sheet.heading(f"{number}. {task.title}", keep=0.0)
    sheet.paragraph(task.brief, TASKS)
    if task.ground:
        sheet.paragraph(task.ground, TASKS)
    if rows:
        sheet.table(columns, rows, TASKS, HAND_ROW)
