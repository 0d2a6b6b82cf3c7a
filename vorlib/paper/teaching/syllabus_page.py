"""The syllabus on one page: the lessons in order, with the flights between them."""

from __future__ import annotations

from collections.abc import Sequence

from vorlib.paper.page import A4, BODY, PRINT, Column, PageSize, Sheet
from vorlib.practice.questions.standards import EDITION, HELD_IN_FLIGHT, KINDS
from vorlib.teaching.flights import CourseFlight
from vorlib.teaching.plan import CHECK_MET, HOMEWORK, STANDARD_MET, LessonPlan
from vorlib.teaching.syllabus import Syllabus
from vorlib.views.drawing.picture import Line, Picture, Polygon, Text

__all__ = ["syllabus_pages"]

TYPE = 8.0
LEAST, MOST = 16.0, 27.0  # limits of the height of a row in points; a date and initials go in it
COLUMNS = (
    Column("lesson", 0.75, "end"),
    Column("on the ground", 2.3),
    Column("needs", 0.9),
    Column("min", 0.5, "end"),
    Column("elements", 2.0),
    Column("check: its code", 1.6),
    Column("done: date, initials", 2.0),
)
FLIGHT_AT, ELEMENTS_AT = 1, 4  # columns in which the name and the element of a flight begin


def syllabus_pages(syllabus: Syllabus, size: PageSize = A4) -> tuple[Picture, ...]:
    """Return the page with the lessons in their order, and each flight after its lessons."""
    hours, minutes = divmod(syllabus.minutes, 60)
    sheet = Sheet("Syllabus", size, f"{len(syllabus.plans)} lessons, {hours} h {minutes:02d} min")
    sheet.paragraph(
        f"A lesson is done with {STANDARD_MET}; the check flight with {CHECK_MET}. A flight comes "
        f"once the lessons above it are done. Each check is a sheet of {HOMEWORK} questions, new "
        "for each class: write its code beside it.",
        TYPE,
    )
    kinds = ", ".join(f"{letter} {kind.lower()}" for letter, kind in KINDS.items())
    sheet.paragraph(f"Elements: {EDITION}; {kinds}.", TYPE)
    sheet.gap()
    room = (sheet.bottom - sheet.y) / (len(syllabus.rows) + 1)
    height = min(max(room, LEAST), MOST)
    _row(sheet, [column.title for column in COLUMNS], LEAST, bold=True)
    for row in syllabus.rows:
        sheet.need(height)
        if isinstance(row, CourseFlight):
            _flight(sheet, row, height)
        else:
            _row(sheet, _cells(row), height)
    return sheet.pages()


def _cells(plan: LessonPlan) -> list[str]:
    return [
        str(int(plan.lesson.number)),
        plan.lesson.title,
        _numbers([int(number) for number, _ in plan.after]),
        str(plan.minutes),
        " ".join(_short(element) for element in plan.elements),
        "the test itself" if plan.is_check else "",
        "",
    ]


def _short(element: str) -> str:
    return element.rpartition(".")[2]


def _numbers(needs: list[int]) -> str:
    if len(needs) > 2 and needs[-1] - needs[0] == len(needs) - 1:
        return f"{needs[0]} to {needs[-1]}"
    return ", ".join(map(str, needs)) or "\N{EN DASH}"


def _row(sheet: Sheet, cells: Sequence[str], height: float, bold: bool = False) -> None:
    for (left, right), column, words in zip(_sides(sheet), COLUMNS, cells, strict=True):
        x = right - 6.0 if column.anchor == "end" else left + 6.0
        y = sheet.y + height / 2.0
        sheet.draw(Text(x, y, words, TYPE, PRINT.text, column.anchor, bold))
    sheet.y += height
    weight = 0.8 if bold else 0.3
    sheet.draw(Line(sheet.left, sheet.y, sheet.right, sheet.y, PRINT.text, weight))


def _flight(sheet: Sheet, flight: CourseFlight, height: float) -> None:
    """Draw a band across the page, with room for date and initials at its end."""
    left, right = sheet.left, _sides(sheet)[-1][0]
    top, foot, middle = sheet.y, sheet.y + height, sheet.y + height / 2.0
    band = ((left, top), (right, top), (right, foot), (left, foot))
    x, at = (_sides(sheet)[column][0] + 6.0 for column in (FLIGHT_AT, ELEMENTS_AT))
    title = f"Flight {flight.number}: {flight.title}"
    sheet.draw(
        Polygon(band, PRINT.cover),
        Text(x, middle - 0.7 * BODY, title, BODY, PRINT.text, "start", bold=True),
        Text(x, middle + 0.75 * BODY, flight.flown, TYPE, PRINT.text, "start"),
        Text(at, middle - 0.7 * BODY, _short(HELD_IN_FLIGHT), TYPE, PRINT.text, "start"),
        Line(left, foot, sheet.right, foot, PRINT.text, 0.8),
    )
    sheet.y = foot


def _sides(sheet: Sheet) -> list[tuple[float, float]]:
    """Return left and right side of each column."""
    total, x = sum(column.share for column in COLUMNS), sheet.left
    sides = []
    for column in COLUMNS:
        right = x + sheet.width * column.share / total
        sides.append((x, right))
        x = right
    return sides
