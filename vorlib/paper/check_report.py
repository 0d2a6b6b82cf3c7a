"""The report of a check flight, printed."""

from __future__ import annotations

from dataclasses import replace
from os import PathLike
from pathlib import Path

from vorlib.io.atomic import write_whole
from vorlib.paper.block import Block
from vorlib.paper.page import A4, BODY, HEADING, PRINT, Column, PageSize, Sheet
from vorlib.practice.check_flight.report import CheckReport, Item
from vorlib.practice.check_flight.words import (
    SCOPE,
    course,
    item_words,
    number_words,
    revise_words,
    score,
    slip_words,
    verdict,
)
from vorlib.views.classroom.question_figure import figure_picture
from vorlib.views.drawing.document import pdf_bytes
from vorlib.views.drawing.picture import Picture, Text

__all__ = ["check_report_pages", "save_check_report"]

GUTTER = 22.0  # points for the numbers of the questions
HIGH, WIDEST = 85.0, 230.0  # largest size of a question's picture, in points
FIGURE = replace(PRINT, small_size=16.0, text_size=18.0, symbol=1.25)  # legible when printed small


def save_check_report(path: str | PathLike[str], report: CheckReport, size: PageSize = A4) -> Path:
    """Write a report as PDF, completely or not at all; the same report gives the same bytes.

    Raises
    ------
    OSError
        If the file cannot be written; an earlier one of that name is kept.
    ValueError
        If its name does not end in .pdf.
    """
    if Path(path).suffix.casefold() != ".pdf":
        raise ValueError(f"the file's name must end in .pdf, got {Path(path).name!r}")
    pages = check_report_pages(report, size)
    return write_whole(path, pdf_bytes(pages, f"Check flight of {report.learner}"))


def check_report_pages(report: CheckReport, size: PageSize = A4) -> tuple[Picture, ...]:
    """Return the pages: first the result, then every question with its worked solution."""
    sheet = Sheet("Check flight", size, f"{report.handed_in_at:%Y-%m-%d}  {report.seed}")
    sheet.paragraph(report.learner, HEADING, bold=True)
    sheet.paragraph(score(report), bold=True)
    sheet.paragraph(verdict(report), bold=True)
    sheet.paragraph(course(report))
    sheet.paragraph(SCOPE)
    _points(sheet, report)
    _slips(sheet, report)
    _to_revise(sheet, report)
    sheet.new_page()
    sheet.heading("Every question")
    for item in report.items:
        _question(item, sheet.width).place(sheet, ruled=True)
    return sheet.pages()


def _points(sheet: Sheet, report: CheckReport) -> None:
    for title, shares in (
        ("element of the standard", report.by_element()),
        ("lesson", report.by_lesson()),
    ):
        columns = (Column(title, 3.0), Column("points", 1.0, "end"), Column("of", 1.0, "end"))
        rows = [[s.title, number_words(s.points), f"{s.out_of}"] for s in shares]
        sheet.heading(f"Points by {title}")
        sheet.table(columns, rows, BODY)


def _slips(sheet: Sheet, report: CheckReport) -> None:
    if report.slips():
        sheet.heading("The slips")
    for slip in report.slips():
        sheet.paragraph(slip_words(slip))


def _to_revise(sheet: Sheet, report: CheckReport) -> None:
    if report.to_revise():
        sheet.heading("To revise, most important first")
    for share in report.to_revise():
        sheet.paragraph(revise_words(share))


def _question(item: Item, width: float) -> Block:
    """Return a question as a block: the question, the answer, the solution and the slip."""
    block = Block(width)
    block.y = 5.0
    asked, own, *rest = item_words(item)
    number = Text(0.0, block.y + 0.67 * BODY, str(item.number), BODY, PRINT.text, "start", True)
    block.draw(number)
    figure, right, foot = item.figure, width, 0.0
    if figure is not None:
        picture = figure_picture(figure, FIGURE)
        wide = min(HIGH * picture.width / picture.height, WIDEST)
        right = width - wide - 10.0
        foot = block.picture(picture, width - wide, block.y, wide)
    for words in (asked, own, *rest):
        block.words(words, BODY, x=GUTTER, width=right - GUTTER, bold=words == own)
    block.y = max(block.y, foot) + 4.0
    return block
