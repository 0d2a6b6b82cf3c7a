"""The lesson card, printed: with the answers for the instructor, without for the learner."""

from __future__ import annotations

from functools import partial
from os import PathLike
from pathlib import Path

from vorlib.briefing.card import CardPlace, LessonCard
from vorlib.briefing.facts import lesson_code, lesson_facts
from vorlib.briefing.ground import altitude_warnings, highest_words
from vorlib.briefing.lesson import MOST_STATIONS
from vorlib.briefing.scene import start_of
from vorlib.briefing.task import Task
from vorlib.briefing.tasks import lesson_tasks
from vorlib.io.atomic import write_whole
from vorlib.paper.area_plan import area_plan, beyond_plan
from vorlib.paper.block import height_of, side_by_side
from vorlib.paper.lesson_tables import (
    declination_table,
    field_table,
    fix_table,
    station_table,
    task_table,
)
from vorlib.paper.page import A4, PAGE_SIZES, PageSize, Sheet
from vorlib.views.drawing.document import pdf_bytes
from vorlib.views.drawing.picture import Picture
from vorlib.views.plan.scene import Coast

__all__ = ["lesson_pdf", "lesson_sheets", "save_lesson"]

CAUTIONS = (
    "A radial counts from the station's own north, which is not today's magnetic north. Identify "
    "before use, and again when in doubt. A centered needle under OFF means nothing.",
    "The horizon is that of a smooth sea: over high ground it is much nearer, and hills bring it "
    "nearer still. A service volume is what the publisher promises, by class in the United States "
    "and station by station elsewhere, and one may be restricted: read its notes.",
    "This card shows no obstacles or airspace, and of the ground only what it says: compare the "
    "altitude with the minimum altitudes on current charts.",
    "Look out. The pilot who flies does not fill in the sheet.",
)
GAP = 6.0  # below the plan, in points
CAUTION_SIZE = 7.5  # of type, in points
MOST_PAGES = 3
LEAST_PLAN, LARGEST_PLAN = 0.3, 0.52  # limits of the plan's share of the paper's height
# Numbers of stations for each field, tried in turn until a card fits its pages.
LINES_TRIED = (MOST_STATIONS, 4, 3, 2, 1)
STEPS = (
    "After a heading come the steps to it from the course, in whole degrees: the angle for wind "
    "or intercept, then from the station's north to today's."
)


def save_lesson(
    path: str | PathLike[str],
    card: LessonCard,
    size: PageSize = A4,
    *,
    answers: bool = True,
    coasts: tuple[Coast, ...] = (),
) -> Path:
    """Write a lesson card as PDF, completely or not at all; the parameters of `lesson_sheets`.

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
    lesson_tasks(card)  # raises if there are none: such a card is not worth printing
    pages = lesson_sheets(card, size, answers=answers, coasts=coasts)
    return pdf_bytes(pages, pages[0].title.partition(",")[0])


def lesson_sheets(
    card: LessonCard,
    size: PageSize = A4,
    *,
    answers: bool = True,
    coasts: tuple[Coast, ...] = (),
) -> tuple[Picture, ...]:
    """Return the pages of a lesson card; they say so if no station is received in the area.

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
    for lines in LINES_TRIED:
        sheet = _sheet(card, size, answers, coasts, lines)
        if sheet.count <= MOST_PAGES or size not in PAGE_SIZES.values():
            break
    return sheet.pages()


def _sheet(
    card: LessonCard,
    size: PageSize,
    answers: bool,
    coasts: tuple[Coast, ...],
    lines: int,
) -> Sheet:
    """Fill a sheet, with at most `lines` stations for each field."""
    title = "Lesson card" if answers else "Lesson: the learner's sheet"
    sheet = Sheet(title, size, f"{card.lesson.on}  {lesson_code(card.lesson)}")
    begin, tasks = _begin_and_tasks(card)
    facts = lesson_facts(card.lesson)
    sheet.paragraph(f"{facts} {STEPS}" if answers else facts)
    sheet.paragraph(" ".join(card.lesson.sources))
    for words in altitude_warnings(card.lesson):
        sheet.paragraph(words, bold=True)
    sheet.paragraph(" ".join(filter(None, (highest_words(card.lesson), beyond_plan(card)))))
    stations = partial(station_table, card=card, answers=answers)
    room = sheet.bottom - sheet.y - height_of(stations, sheet, sheet.width) - GAP
    width = min(max(room, LEAST_PLAN * size.height), LARGEST_PLAN * size.height, sheet.width)
    sheet.picture(area_plan(card, begin, width, coasts), width)
    sheet.gap(GAP)
    stations(sheet)
    declination_table(sheet, card, answers)
    field_table(sheet, card, answers, lines)
    fix_table(sheet, card, answers)
    written = [
        partial(task_table, number=number, task=task, answers=answers)
        for number, task in enumerate(tasks, 1)
    ]
    side_by_side(sheet, [*written, partial(_cautions, remarks=card.lesson.remarks)])
    return sheet


def _cautions(sheet: Sheet, remarks: tuple[str, ...]) -> None:
    sheet.heading("Cautions", keep=0.0)
    for words in (*CAUTIONS, *remarks):
        sheet.paragraph(words, CAUTION_SIZE)


def _begin_and_tasks(card: LessonCard) -> tuple[CardPlace, tuple[Task, ...]]:
    """Return the start and the tasks; or the middle of the area, and why there are no tasks."""
    try:
        return start_of(card), lesson_tasks(card)
    except ValueError as refusal:
        return card.center, (Task("Tasks", f"There are no tasks: {refusal}.", ()),)
