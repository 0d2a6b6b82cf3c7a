"""The report of a check flight as a page for a notebook."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from vorlib.core.caution import CAUTION
from vorlib.exhibits.base.html import Markup, html_table, sized_svg
from vorlib.exhibits.base.registry import offered
from vorlib.exhibits.sheets.page_preview import as_picture
from vorlib.paper.check_report import check_report_pages
from vorlib.practice.check_flight.example import blueprint, example_report
from vorlib.practice.check_flight.report import CheckReport, Item, ReportedSlip, Share
from vorlib.practice.check_flight.words import (
    SCOPE,
    course,
    item_text,
    item_words,
    number_words,
    practice_line,
    report_words,
    revise_words,
    score,
    slip_words,
    verdict,
)
from vorlib.practice.learning.lessons import NOTEBOOKS
from vorlib.views.classroom.question_figure import figure_picture
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import SCREEN

__all__ = ["first_page", "report_page"]

for function in (blueprint, example_report, item_text, report_words):
    offered(function)

SIGNS = {"right": "✓", "close": "≈", "wrong": "✗", "not answered": "·"}
UNITS_PER_EM = 24.0  # of a question's picture: smaller, for there are many


def report_page(report: CheckReport) -> str:
    """Return a report as HTML: the points, the slips, what to revise, and every question."""
    parts = [
        f"<h3>Check flight of {escape(report.learner)}</h3>",
        _paragraph(score(report), strong=True),
        _paragraph(verdict(report), strong=True),
        _paragraph(course(report)),
        _paragraph(SCOPE),
        '<div class="vorlib-shares">',
        _shares("By element of the standard", report.by_element()),
        _shares("By lesson", report.by_lesson()),
        "</div>",
    ]
    if report.slips():
        parts += ["<h4>The slips</h4>", _list(map(_slip, report.slips()))]
    if report.to_revise():
        parts += [
            "<h4>To revise, most important first</h4>",
            _list(map(_revise, report.to_revise())),
        ]
    parts += ["<h4>Every question</h4>", *map(_item, report.items), _paragraph(CAUTION)]
    return f'<div class="vorlib-report">{"".join(parts)}</div>'


@offered
def first_page(report: CheckReport) -> Picture:
    """Return the first page of the printed report, as a notebook shows it."""
    return as_picture(check_report_pages(report)[0], SCREEN)


def _paragraph(words: str, strong: bool = False) -> str:
    return f"<p><b>{escape(words)}</b></p>" if strong else f"<p>{escape(words)}</p>"


def _list(lines: Iterable[str]) -> str:
    return f"<ul>{''.join(f'<li>{line}</li>' for line in lines)}</ul>"


def _shares(title: str, shares: Iterable[Share]) -> str:
    rows = (
        (
            share.title,
            f"{number_words(share.points)} of {share.out_of}",
            Markup(f'<meter min="0" max="{share.out_of}" value="{share.points}"></meter>'),
        )
        for share in shares
    )
    return html_table(title, rows, row_heads=True)


def _slip(slip: ReportedSlip) -> str:
    name, words = escape(slip.name), escape(slip_words(slip))
    return words.replace(name, f"<b>{name}</b>", 1)


def _revise(share: Share) -> str:
    """Return what to revise of a lesson, with a link to its notebook, which lies beside this."""
    words, title, line = map(escape, (revise_words(share), share.title, practice_line(share)))
    if share.name in NOTEBOOKS:
        link = f'<a href="{NOTEBOOKS[share.name]}.ipynb" target="_blank">{title}</a>'
        words = words.replace(title, link, 1)
    return words.replace(line, f"<code>{line}</code>")


def _item(item: Item) -> str:
    asked, *rest = item_words(item)
    head = f"{item.number}. {SIGNS[item.verdict]} {item.verdict}: {item.stage}"
    body = "".join((_paragraph(asked), _figure(item), *map(_paragraph, rest)))
    return f"<details><summary>{escape(head)}</summary>{body}</details>"


def _figure(item: Item) -> str:
    figure = item.figure
    if figure is None:
        return ""
    svg = sized_svg(figure_picture(figure), UNITS_PER_EM)
    return f'<div class="vorlib-figure">{svg}</div>'
