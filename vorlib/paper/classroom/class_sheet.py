"""The results of a class, printed: the table, what to teach again, and who needs help."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from vorlib.core.caution import CAUTION
from vorlib.paper.page import A4, PRINT, SMALL, PageSize, Sheet
from vorlib.practice.classroom.results import ClassResults
from vorlib.practice.classroom.teaching import needs_you, nobody_right, teach_again
from vorlib.views.classroom.table import class_table
from vorlib.views.classroom.words import (
    days_words,
    left_out_words,
    list_words,
    missing_words,
    need_words,
    summary_words,
    taught_words,
    unsolved_words,
)
from vorlib.views.drawing.document import pdf_bytes
from vorlib.views.drawing.picture import Picture

__all__ = ["class_pages", "class_pdf"]

TITLE = "Class results"
TABLE_SHARE = 0.62  # largest share of the paper's height
MOST_NEEDY = 10


def class_pdf(
    results: ClassResults,
    size: PageSize = A4,
    *,
    missing: Sequence[str] = (),
    since: date | None = None,
    until: date | None = None,
) -> bytes:
    """Return the results of a class as PDF; the parameters of `class_pages`."""
    return pdf_bytes(class_pages(results, size, missing=missing, since=since, until=until), TITLE)


def class_pages(
    results: ClassResults,
    size: PageSize = A4,
    *,
    missing: Sequence[str] = (),
    since: date | None = None,
    until: date | None = None,
) -> tuple[Picture, ...]:
    """Return the pages with the results of a class.

    Parameters
    ----------
    results
        The results of some days, with names or without.
    size
        The paper.
    missing
        Learners on the class list who have handed in nothing.
    since, until
        First and last day of the answers, for the heading; None for no limit.
    """
    sheet = Sheet(TITLE, size, days_words(since, until), CAUTION)
    sheet.paragraph(summary_words(results))
    if missing:
        sheet.paragraph(missing_words(missing), bold=True)
    table = class_table(results, PRINT)
    width = min(sheet.width, TABLE_SHARE * size.height * table.width / table.height)
    sheet.picture(table, width)
    needy = needs_you(results)
    for title, paragraphs in (
        ("Teach again", [taught_words(n, one) for n, one in enumerate(teach_again(results), 1)]),
        ("Who needs you first", [need_words(one) for one in needy[:MOST_NEEDY]]),
        ("Learner by learner", list_words(results).splitlines()),
        ("Nobody got right", [unsolved_words(one) for one in nobody_right(results)]),
        ("Files left out", left_out_words(results).splitlines()),
    ):
        _section(sheet, title, paragraphs)
    return sheet.pages()


def _section(sheet: Sheet, title: str, paragraphs: Sequence[str]) -> None:
    """Write a heading and its paragraphs, and split no paragraph over two pages."""
    if not paragraphs:
        return
    sheet.gap()
    sheet.heading(title, keep=sheet.height_of(paragraphs[0], SMALL + 0.5))
    for words in paragraphs:
        sheet.need(sheet.height_of(words, SMALL + 0.5))
        sheet.paragraph(words, SMALL + 0.5)
