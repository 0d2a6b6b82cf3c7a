"""The problem sheet of a worksheet: questions with room to work and a line for each answer."""

from __future__ import annotations

from dataclasses import replace

from vorlib.paper.block import GUTTER, Block
from vorlib.paper.page import A4, BODY, PRINT, SMALL, TITLE, PageSize, Sheet
from vorlib.paper.worksheet import Worksheet
from vorlib.practice.learning.topic import Topic
from vorlib.practice.questions.answers import DEGREES, DIRECTION, LEFT_RIGHT, Form, Quantity
from vorlib.practice.questions.question import Question
from vorlib.views.classroom.question_figure import figure_picture
from vorlib.views.drawing.picture import Picture, Text

__all__ = ["ROOM", "SOME", "problem_pages"]

PROMPT = 10.0  # size of type, in points
# Room to work between a question and the line for its answer, in points.
ROOM = {"little": 30.0, "some": 70.0, "plenty": 150.0}
SOME = "some"
ANSWER_LINE = 250.0  # length with its label and its unit, in points
HIGH = 160.0  # greatest height of a picture, in points
WIDE = 1.3  # a picture this many times wider than high goes below the words
FIGURE = replace(PRINT, small_size=18.0, text_size=20.0, symbol=1.3)  # legible when printed small
HOW = (
    "Directions are magnetic unless the question says true; write them with three figures. Show "
    "how you got there: a slip is easier to find in the work than in the answer."
)


def problem_pages(
    worksheet: Worksheet, size: PageSize = A4, room: str = SOME
) -> tuple[Picture, ...]:
    """Return the pages of a problem sheet; no question is split over two pages.

    Parameters
    ----------
    worksheet, size
        The questions and the paper.
    room
        Room to work, one of the names in `ROOM`.

    Raises
    ------
    ValueError
        If `room` is not one of them.
    """
    if room not in ROOM:
        raise ValueError(f"the room to work must be one of {', '.join(ROOM)}, got {room!r}")
    sheet = Sheet("Problem sheet", size, f"code {worksheet.code}")
    _head(worksheet, sheet).place(sheet)
    for number, question in enumerate(worksheet.questions, 1):
        _question(number, question, sheet.width, ROOM[room]).place(sheet, ruled=True)
    return sheet.pages()


def _head(worksheet: Worksheet, sheet: Sheet) -> Block:
    """Return the head: the topic, and lines for name, date and number right."""
    block = Block(sheet.width)
    block.words(Topic.read(worksheet.topic).title, TITLE)
    block.y += 12.0
    block.blank(0.0, "Name", 0.5 * sheet.width, PROMPT)
    block.blank(0.53 * sheet.width, "Date", 0.76 * sheet.width, PROMPT)
    block.blank(0.79 * sheet.width, "Right", sheet.width, PROMPT, f"of {worksheet.count}")
    block.y += 22.0
    block.words(HOW, BODY, fill=PRINT.muted)
    block.y += 6.0
    return block


def _question(number: int, question: Question, width: float, room: float) -> Block:
    """Return one question: its number, words and picture, and room for the answer."""
    block = Block(width)
    block.y = 8.0
    picture = figure_picture(question.figure, FIGURE) if question.figure else None
    shape = picture.width / picture.height if picture else 0.0
    right, foot = width, 0.0
    if picture and shape <= WIDE:
        right -= HIGH * shape + 12.0
        foot = block.picture(picture, right + 12.0, block.y, HIGH * shape)
    block.draw(
        Text(0.0, block.y + 0.67 * PROMPT, str(number), 1.1 * PROMPT, PRINT.text, "start", True)
    )
    for line in question.lines:
        block.words(line, PROMPT, x=GUTTER, width=right - GUTTER)
    if picture and shape > WIDE:
        wide = min(width - GUTTER, HIGH * shape)
        block.y = block.picture(picture, GUTTER, block.y + 6.0, wide)
    block.y = max(block.y + room, foot - 2.0 * BODY)
    unit = _unit(question.form)
    block.blank(right - ANSWER_LINE, "Answer", right, BODY, unit)
    block.y = max(block.y + 2.0 * SMALL, foot) + 8.0
    return block


def _unit(form: Form) -> str:
    """Return the unit to print behind the line for an answer."""
    if isinstance(form, Quantity):
        return next(iter(form.units))
    if form == LEFT_RIGHT:
        return "degrees, left or right"
    return next(iter(DEGREES.units)) if form == DIRECTION else ""
