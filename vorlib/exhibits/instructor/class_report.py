"""A class's results as HTML, for under the table: what to do, how it goes, who holds what."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from textwrap import fill

from vorlib.practice.classroom.results import ClassResults
from vorlib.practice.classroom.teaching import TeachAgain, needs_you, nobody_right, teach_again
from vorlib.views.classroom.words import (
    held_count,
    left_out_words,
    lesson_words,
    list_words,
    need_words,
    question_words,
    unsolved_words,
)
from vorlib.views.drawing.chart import Chart
from vorlib.views.sentence import LINE

__all__ = ["report", "tell"]

MOST_NEEDY = 6  # the table shows the others in their order


def report(results: ClassResults, progress: Chart) -> str:
    """Return the results as HTML, with the chart of progress among them."""
    first = needs_you(results)[:MOST_NEEDY]
    sections = {
        "Teach again tomorrow": _listed(map(_teach, teach_again(results)), "ol"),
        "Who needs you first": _listed((escape(need_words(one)) for one in first), "ol"),
        "Progress": f"<p>{escape(progress.sentence)}</p>{progress.svg}",
        "Learner by learner": _listed(map(_name_first, list_words(results).splitlines())),
        "Nobody got right": _listed(escape(unsolved_words(one)) for one in nobody_right(results)),
        "Left out": _listed(map(_name_first, left_out_words(results).splitlines())),
    }
    return "".join(f"<h4>{title}</h4>{body}" for title, body in sections.items() if body)


def tell(words: str) -> None:
    """Print results in words, in lines short enough to read."""
    for line in words.splitlines():
        indent = " " * (len(line) - len(line.lstrip()))
        print(fill(line, LINE, subsequent_indent=indent or "    "))


def _listed(items: Iterable[str], tag: str = "ul") -> str:
    """Return items of HTML as a list; empty for none."""
    rows = "".join(f"<li>{item}</li>" for item in items)
    return f"<{tag}>{rows}</{tag}>" if rows else ""


def _teach(again: TeachAgain) -> str:
    """Return what to teach again as HTML."""
    lines = [f"<b>{escape(again.misconception)}</b>: held by {held_count(again)}"]
    if again.showed_by:
        lines[0] += f", and {len(again.showed_by)} more showed it"
    if again.question:
        lines[0] += f". Go back to {escape(lesson_words(again))}."
        lines.append(f"On the whiteboard: {escape(again.why_tempting)} {escape(again.look_again)}")
        lines.append(f"<i>To begin with: {escape(question_words(again.question))}</i>")
    return "<br>".join(lines)


def _name_first(line: str) -> str:
    """Return a line as HTML with what stands before its first colon in bold."""
    name, colon, rest = line.partition(": ")
    return f"<b>{escape(name)}</b>{colon}{escape(rest)}"
