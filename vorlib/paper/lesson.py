"""The lesson card, printed: for the instructor with the answers, for the learner without."""

from __future__ import annotations

import hashlib
from os import PathLike
from pathlib import Path

from vorlib.briefing.card import CardPlace, LessonCard
from vorlib.briefing.scene import start_of
from vorlib.briefing.tasks import Task, lesson_tasks
from vorlib.core.angles import format_direction
from vorlib.earth.geodesic import Position
from vorlib.io.atomic import write_whole
from vorlib.paper.area_plan import area_plan
from vorlib.paper.lesson_tables import (
    declination_table,
    field_table,
    fix_table,
    station_table,
    task_tables,
)
from vorlib.paper.page import A4, PageSize, Sheet, pdf_bytes
from vorlib.views.drawing.picture import Picture
from vorlib.views.plan.scene import Coast

__all__ = ["lesson_code", "lesson_pdf", "lesson_sheets", "save_lesson"]

CAUTIONS = (
    "A radial counts from the station's own north, which is not today's magnetic north. Identify "
    "before use, and again when in doubt. A centered needle under OFF means nothing.",
    "The horizon is that of a smooth sea: over high ground it is much nearer, and hills bring it "
    "nearer still. A service volume is what the publisher promises, by class in the United States "
    "and station by station elsewhere, and one may be restricted: read its notes.",
    "Look out. The pilot who flies does not fill in the sheet.",
)
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
    return write_whole(path, lesson_pdf(card, size, answers=answers, coasts=coasts))


def lesson_pdf(
    card: LessonCard,
    size: PageSize = A4,
    *,
    answers: bool = True,
    coasts: tuple[Coast, ...] = (),
) -> bytes:
    """Return a lesson card as PDF; the parameters of `lesson_sheets`.

    Raises
    ------
    ValueError
        If no station is received in the practice area.
    """
    lesson_tasks(card)  # a lesson without any is not worth the paper
    pages = lesson_sheets(card, size, answers=answers, coasts=coasts)
    return pdf_bytes(pages, pages[0].title.partition(",")[0])


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
    station_table(sheet, card, answers)
    declination_table(sheet, card, answers)
    field_table(sheet, card, answers)
    fix_table(sheet, card, answers)
    task_tables(sheet, tasks, answers)
    sheet.heading("Cautions")
    for words in (*CAUTIONS, *card.lesson.remarks):
        sheet.paragraph(words)
    return sheet.pages()


def _begin_and_tasks(card: LessonCard) -> tuple[CardPlace, tuple[Task, ...]]:
    """Where the tasks start, and the tasks; or the middle of the area, and why there are none."""
    try:
        return start_of(card), lesson_tasks(card)
    except ValueError as refusal:
        return card.centre, (Task("Tasks", f"There are no tasks: {refusal}.", ()),)


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
