"""The lesson card, printed: for the instructor with the answers, for the learner without."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Sequence
from os import PathLike
from pathlib import Path

from vorlib.angles import format_direction
from vorlib.earth import Position
from vorlib.lesson_card import LessonCard, Place, Seen
from vorlib.lesson_tasks import Task, lesson_tasks, start_of
from vorlib.paper.area_plan import area_plan
from vorlib.paper.page import A4, SMALL, Column, PageSize, Sheet, pdf_bytes
from vorlib.stationdata import east_or_west
from vorlib.views.picture import Picture
from vorlib.views.scene import Coast
from vorlib.wholefile import write_whole

__all__ = ["lesson_code", "lesson_sheets", "save_lesson"]

CAUTIONS = (
    "A radial counts from the station's own north, which is not today's magnetic north. Identify "
    "before use, and again when in doubt. A centred needle under OFF means nothing.",
    "Line of sight is over a smooth sea: ground in between shortens it. A service volume is what "
    "the publisher promises, and a station may be restricted: read its notes.",
    "Look out. The pilot who flies does not fill in the sheet.",
)
HAND_ROW = 14.0  # height in points of a row that is filled in by hand
PLAN_SHARE = 0.52  # of the paper's height, so that the stations go on the same page


def save_lesson(
    path: str | PathLike[str],
    card: LessonCard,
    size: PageSize = A4,
    *,
    answers: bool = True,
    coasts: tuple[Coast, ...] = (),
) -> Path:
    """Write a lesson card as PDF, whole or not at all; the parameters of `lesson_sheets`.

    Raises
    ------
    ValueError
        If no station is received in the practice area.
    OSError
        If the file cannot be written.
    """
    lesson_tasks(card)  # a lesson without any is not worth the paper
    pages = lesson_sheets(card, size, answers=answers, coasts=coasts)
    return write_whole(path, pdf_bytes(pages, pages[0].title.partition(",")[0]))


def lesson_sheets(
    card: LessonCard,
    size: PageSize = A4,
    *,
    answers: bool = True,
    coasts: tuple[Coast, ...] = (),
) -> tuple[Picture, ...]:
    """Return the pages of a lesson card, which say so where no station is received in the area.

    Parameters
    ----------
    card
        The lesson's numbers.
    size
        The paper.
    answers
        False for the learner's handout.
    coasts
        Islands to draw on the plan.
    """
    title = "Lesson card" if answers else "Lesson: the learner's sheet"
    sheet = Sheet(title, size, f"{card.lesson.on}  {lesson_code(card)}")
    begin, tasks = _begin_and_tasks(card)
    sheet.paragraph(_facts(card))
    sheet.paragraph(" ".join(card.lesson.sources))
    width = min(sheet.width, PLAN_SHARE * size.height)
    sheet.picture(area_plan(card, begin, width, coasts), width)
    sheet.gap()
    _stations(sheet, card, answers)
    _declinations(sheet, card, answers)
    _fields(sheet, card, answers)
    _fixes(sheet, card, answers)
    _tasks(sheet, tasks, answers)
    sheet.heading("Cautions")
    for words in (*CAUTIONS, *card.lesson.remarks):
        sheet.paragraph(words)
    return sheet.pages()


def _begin_and_tasks(card: LessonCard) -> tuple[Place, tuple[Task, ...]]:
    """Where the tasks start, and the tasks; or the middle of the area, and why there are none."""
    try:
        return start_of(card), lesson_tasks(card)
    except ValueError as refusal:
        return card.centre, (Task("None", f"There are no tasks: {refusal}.", ()),)


def lesson_code(card: LessonCard) -> str:
    """Return a short word that card and handout of one lesson share, and no other lesson has."""
    lesson = card.lesson
    fields = (f"{place.name} {_degrees(place.position)}" for place in card.fields)
    stations = (notes.listed.words for notes in card.stations)
    facts = (_facts(card), *stations, *fields, *lesson.sources, str(lesson.on))
    return hashlib.sha256("\n".join(facts).encode()).hexdigest()[:6].upper()


def _facts(card: LessonCard) -> str:
    lesson = card.lesson
    wind = lesson.wind
    blowing = (
        "calm"
        if wind.speed_kt == 0.0
        else (f"wind from {format_direction(float(wind.from_deg))} true at {wind.speed_kt:.0f} kt")
    )
    return (
        f"Practice area within {lesson.radius_nm:g} NM of {_degrees(lesson.centre)}; "
        f"{lesson.altitude_ft:,.0f} ft, "
        f"{lesson.aircraft.true_airspeed_kt:g} kt true airspeed, {blowing}. "
        "Courses are those set on the indicator; headings are by the compass."
    )


def _degrees(place: Position) -> str:
    return f"{float(place.lat_deg):.4f}, {float(place.lon_deg):.4f}"


def _shown(words: Iterable[str], answers: bool) -> list[str]:
    """What an instructor reads and a learner fills in."""
    return [word if answers else "" for word in words]


def _table_height(rows: int) -> float:
    """About how tall a table with so many rows is, with a line or two above it."""
    return 30.0 + HAND_ROW * (rows + 1)


def _stations(sheet: Sheet, card: LessonCard, answers: bool) -> None:
    sheet.heading(f"Stations at {card.lesson.altitude_ft:,.0f} ft", keep=60.0)
    columns = (
        Column("station", 2.7),
        Column("MHz", 1.0, "end"),
        Column("ident in Morse", 2.0),
        Column("horizon NM", 1.1, "end"),
        Column("service NM", 1.2, "end"),
        Column("cone, NM and s", 1.5, "end"),
        Column("mid-area: radial, NM", 1.4),
        Column("received there", 1.8),
        Column("heard in the air", 1.4),
    )
    rows = []
    for notes in card.stations:
        station, there = notes.listed.station, notes.at_centre
        numbers = (
            notes.signs,
            f"{notes.line_of_sight_nm:.0f}",
            f"{station.service}: {notes.service_nm:.0f}",
            f"{notes.cone_nm:.1f}, {notes.cone_s:.0f} s",
            f"{format_direction(there.radial_deg)}, {there.distance_nm:.1f}",
            "yes" if there.received else str(there.reason),
        )
        name = f"{station.ident} {station.name}, {notes.listed.kind}"
        rows.append([name, f"{station.frequency_mhz:.2f}", *_shown(numbers, answers), ""])
    sheet.table(columns, rows, least_height=0.0 if answers else HAND_ROW)


def _declinations(sheet: Sheet, card: LessonCard, answers: bool) -> None:
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
                east_or_west(own),
                str(year or "not said"),
                east_or_west(today),
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


def _fields(sheet: Sheet, card: LessonCard, answers: bool) -> None:
    if not card.fields:
        return
    sheet.heading(f"Over the fields at {card.lesson.altitude_ft:,.0f} ft")
    columns = (
        Column("field", 2.2),
        Column("station", 1.8),
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
        for one in place.received:
            station = f"{one.station.ident} {one.station.name}"
            rows.append([place.name, station, *_shown(_numbers(one), answers), "", "", ""])
        if not place.received:
            rows.append([place.name, "none received", *[""] * 7])
    sheet.table(columns, rows, least_height=HAND_ROW)
    if answers:
        sheet.paragraph(f"Not received: {'; '.join(_not_received(card)) or 'none'}.", SMALL)


def _numbers(one: Seen) -> tuple[str, str, str, str]:
    return (
        format_direction(one.radial_deg),
        f"{one.distance_nm:.1f}",
        format_direction(one.from_deg),
        format_direction(one.to_deg),
    )


def _not_received(card: LessonCard) -> list[str]:
    """For each field the stations that show OFF there, grouped by the reason."""
    lines = []
    for place in card.fields:
        reasons: dict[str, list[str]] = {}
        for one in place.seen:
            if not one.received:
                reasons.setdefault(str(one.reason), []).append(one.station.ident)
        words = [f"{' '.join(idents)} {reason}" for reason, idents in reasons.items()]
        lines += [f"{place.name}: {', '.join(words)}"] if words else []
    return lines


def _fixes(sheet: Sheet, card: LessonCard, answers: bool) -> None:
    sheet.heading("Best pair of stations for a fix", keep=_table_height(len(card.fields) + 1))
    rows = []
    for place in (card.centre, *card.fields):
        numbers = ["none: fewer than two are received", "", ""]
        if place.pair:
            names = " and ".join(station.name for station in place.pair.stations)
            error = f"{place.pair.ellipse.radial_error_nm:.1f}"
            numbers = [names, f"{place.pair.cut_deg:.0f}", error]
        rows.append([place.name, *_shown(numbers, answers)])
    columns: Sequence[Column] = (
        Column("over", 2.2),
        Column("pair", 2.6),
        Column("cut, degrees", 1.0, "end"),
        Column("error at 2 degrees a radial, NM", 1.8, "end"),
    )
    sheet.table(columns, rows, least_height=0.0 if answers else HAND_ROW)


def _tasks(sheet: Sheet, tasks: Iterable[Task], answers: bool) -> None:
    planned = "expected" if answers else "planned"
    columns = (Column("to find", 2.0), Column(planned, 3.0), Column("in the air", 3.0))
    for number, task in enumerate(tasks, 1):
        rows = [
            [answer.question, *_shown([answer.expected], answers), ""] for answer in task.answers
        ]
        sheet.heading(f"{number}. {task.title}", keep=_table_height(len(rows)))
        sheet.paragraph(task.brief)
        if rows:
            sheet.table(columns, rows, least_height=HAND_ROW)
