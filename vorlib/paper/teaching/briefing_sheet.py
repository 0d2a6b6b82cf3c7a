"""The preflight briefing on one page: who flies what, who looks out, and when to stop.

What the lesson card knows is filled in; the rest is left to write in by hand.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

from vorlib.briefing.card import LessonCard
from vorlib.briefing.facts import lesson_code
from vorlib.briefing.ground import altitude_warnings, highest_words
from vorlib.briefing.task import Task
from vorlib.briefing.tasks import lesson_tasks
from vorlib.core.caution import CAUTION
from vorlib.paper.block import Block, side_by_side
from vorlib.paper.page import A4, HEADING, LEADING, PRINT, SMALL, Column, PageSize, Sheet
from vorlib.views.drawing.document import pdf_bytes
from vorlib.views.drawing.layout import text_width
from vorlib.views.drawing.picture import Picture, Polygon, Text

__all__ = ["Crew", "briefing_pages", "briefing_pdf"]

TITLE = "Preflight briefing"
LOOK_OUT = "Look out. The pilot who flies does not write."
FIELD, ROW = 9.5, 15.0  # size of type of a line to fill in, height of a row, in points
# Size of type, and empty rows for frequencies, tried in turn until the briefing is one page.
SETS_TRIED = ((8.0, 3), (7.5, 2), (7.0, 1))
LEAST_BOX, MOST_BOX, BETWEEN = 50.0, 110.0, 6.0  # heights of a box, and the gap, in points
BOXES = (
    "Weather: cloud, visibility, wind, freezing level", "Notices: stations, fields, airspace",
)  # fmt: skip
CONTROL = "S / I"  # to circle one
# Common practice, from memory.
HAND_OVER = (
    "Control changes hands in three sentences: 'You have the flight controls.' 'I have the flight "
    "controls.' 'You have the flight controls.' S is the student, I the instructor: circle who has "
    "control and who looks out. "
    "Whoever turns the ring or listens to an ident does not look out meanwhile: say so first."
)
STOP = (
    "one of us says stop, for whatever reason",
    "traffic is near, or we have not looked out for a while",
    "we do not know where we are: climb, look outside, use the chart",
    "the ident is missing or wrong, or the flag reads OFF where it should not",
    "cloud, visibility or wind is worse than",
    "we are lower than",
    "the fuel is down to",
    "the time is",
)
TO_FILL_IN = 4  # how many of them, the last ones, have a line to write on


@dataclass(frozen=True)
class Crew:
    """Who flies, and in which aircraft; empty fields are left to write in by hand."""

    student: str = ""
    instructor: str = ""
    aircraft: str = ""


def briefing_pdf(card: LessonCard, size: PageSize = A4, *, crew: Crew | None = None) -> bytes:
    """Return the briefing as PDF; the parameters of `briefing_pages`."""
    return pdf_bytes(briefing_pages(card, size, crew=crew), TITLE)


def briefing_pages(
    card: LessonCard, size: PageSize = A4, *, crew: Crew | None = None
) -> tuple[Picture, ...]:
    """Return the page of the briefing, filled in from the lesson card.

    Parameters
    ----------
    card
        The lesson's numbers.
    size
        The paper.
    crew
        Who flies.
    """
    for type_size, spare in SETS_TRIED:
        reference = f"{card.lesson.on}  {lesson_code(card.lesson)}"
        sheet = Sheet(TITLE, size, reference, f"{CAUTION} {LOOK_OUT}")
        _who(sheet, card, crew or Crew())
        _flown(sheet, card, type_size)
        pair = partial(_stop, size=type_size), partial(_altitudes, card=card, size=type_size)
        side_by_side(sheet, pair)
        room = 0.5 * (sheet.bottom - sheet.y - 2.5 * HEADING - BETWEEN)
        box = min(max(room, LEAST_BOX), MOST_BOX)
        last = partial(_frequencies, card=card, spare=spare), partial(_boxes, height=box)
        side_by_side(sheet, last)
        if sheet.count == 1:
            break
    return sheet.pages()


def _who(sheet: Sheet, card: LessonCard, crew: Crew) -> None:
    block = Block(sheet.width)
    fields = (("Student", crew.student), ("Instructor", crew.instructor))
    other = (("Aircraft", crew.aircraft), ("Date", str(card.lesson.on)), ("Off blocks", ""))
    for row in (fields, other):
        each = sheet.width / len(row)
        for place, (label, known) in enumerate(row):
            block.blank(place * each, label, (place + 1) * each - 10.0, FIELD)
            at, middle = place * each + text_width(label, FIELD) + FIELD, block.y + 0.6 * FIELD
            block.draw(Text(at, middle, known, FIELD, PRINT.text, "start", bold=True))
        block.y += 22.0
    block.place(sheet)


def _flown(sheet: Sheet, card: LessonCard, size: float) -> None:
    sheet.heading("What we fly, in this order", keep=60.0)
    columns = (
        Column("", 0.35, "middle"),
        Column("task", 6.0),
        Column("control", 0.9, "middle"),
        Column("looks out", 0.9, "middle"),
        Column("done", 0.7, "middle"),
    )
    rows = [
        [str(number), _told(task), CONTROL, CONTROL, ""]
        for number, task in enumerate(_tasks(card), 1)
    ]
    sheet.table(columns, rows, size, ROW)
    sheet.paragraph(HAND_OVER, size)


def _tasks(card: LessonCard) -> tuple[Task, ...]:
    """Return the card's tasks, or why there are none."""
    try:
        return lesson_tasks(card)
    except ValueError as refusal:
        return (Task("Tasks", f"There are no tasks: {refusal}.", ()),)


def _told(task: Task) -> str:
    """Return a task in words, with the terrain along its way if that is known."""
    return " ".join(filter(None, (f"{task.title}. {task.brief}", task.ground)))


def _stop(sheet: Sheet, size: float) -> None:
    sheet.heading("We stop when", keep=0.0)
    block = Block(sheet.width)
    for words in STOP[:-TO_FILL_IN]:
        block.words("\N{BULLET}", size)
        block.y -= LEADING * size
        block.words(words, size, x=8.0)
        block.y += 2.0
    for words in STOP[-TO_FILL_IN:]:
        block.words("\N{BULLET}", size)
        block.y -= LEADING * size
        block.blank(8.0, words, sheet.width, size)
        block.y += ROW
    block.place(sheet)


def _altitudes(sheet: Sheet, card: LessonCard, size: float) -> None:
    sheet.heading("Altitudes", keep=0.0)
    sheet.paragraph(f"Planned: {card.lesson.altitude_ft:,.0f} ft.", size, bold=True)
    for words in altitude_warnings(card.lesson):
        sheet.paragraph(words, size, bold=True)
    sheet.paragraph(highest_words(card.lesson), size)
    fields = ", ".join(place.name for place in card.fields)
    sheet.paragraph(f"Fields to go to: {fields or 'none on the card'}.", size)
    block = Block(sheet.width)
    for label in ("Minimum from the chart", "Airspace above, below", "Altimeter setting"):
        block.blank(0.0, label, sheet.width, size)
        block.y += ROW
    block.place(sheet)


def _frequencies(sheet: Sheet, card: LessonCard, spare: int) -> None:
    sheet.heading("Frequencies", keep=0.0)
    rows = [
        [notes.listed.station.name, f"{notes.listed.station.frequency_mhz:.2f}", notes.signs]
        for notes in card.stations
    ]
    rows += [["", "", ""]] * spare
    columns = (Column("station", 2.0), Column("MHz", 1.0, "end"), Column("ident, heard", 2.2))
    sheet.table(columns, rows, SMALL, ROW)


def _boxes(sheet: Sheet, height: float) -> None:
    sheet.heading("Weather and notices", keep=0.0)
    for label in BOXES:
        foot = sheet.y + height
        corners = (
            (sheet.left, sheet.y), (sheet.right, sheet.y), (sheet.right, foot), (sheet.left, foot),
        )  # fmt: skip
        sheet.draw(
            Polygon(corners, stroke=PRINT.text, width=0.7),
            Text(sheet.left + 5.0, sheet.y + 9.0, label, SMALL, PRINT.muted, "start"),
        )
        sheet.y = foot + BETWEEN
