"""A question for a class: in type for the back row, its answer covered until asked for."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace

from vorlib.practice.questions.by_hand import counts_as_right, written
from vorlib.practice.questions.question import Question
from vorlib.views.classroom.question_figure import figure_picture, figure_words
from vorlib.views.drawing.layout import wrapped
from vorlib.views.drawing.picture import Item, Line, Picture, Text
from vorlib.views.drawing.scaling import framed, resized
from vorlib.views.drawing.theme import PROJECTOR, Theme

__all__ = ["LEAST_TYPE", "oral_picture", "oral_words"]

WIDE, HIGH = 1240.0, 600.0  # a projector of 1280 x 720, less its edges and what stands around it
MARGIN, GAP = 16.0, 24.0
TOP = 60.0  # where the question begins, under its head
LEADING, APART = 1.3, 0.4  # of lines, and of what stands apart, in the size of the type
SIZES = (40.0, 36.0, 32.0, 29.0, 26.0, 24.0, 22.5)  # of type, the largest that fits
LEAST_TYPE = SIZES[-1]
FIGURE_HIGH, LONG_HIGH = 440.0, 400.0
LONG = 1.6  # a figure this many times wider than high goes below the words
COVERED = "The answer is covered."

Row = tuple[str, bool]  # words, and whether they are bold


def oral_picture(question: Question, head: str, revealed: bool, theme: Theme) -> Picture:
    """Return a question, or question and answer, as large as the screen of a projector takes.

    A long row of dials leaves no room for both: with the answer the question is not shown again.

    Parameters
    ----------
    question
        What is asked.
    head
        Which question of how many it is, and what it is about.
    revealed
        Whether the answer is shown.
    theme
        Its colors; the type is large in any.
    """
    figure = _figure(question, theme)
    is_long = figure is not None and figure.width > LONG * figure.height
    beside = figure.width + GAP if figure and not is_long else 0.0
    below = figure.height + GAP if figure and is_long else 0.0
    asked = () if is_long and revealed else _asked(question)
    told = _answer(question) if revealed else ((COVERED, True),)
    for size in SIZES:
        lines = list(_lines((*asked, *told), WIDE - 2.0 * MARGIN - beside, size, theme.text))
        foot = lines[-1].y + 0.5 * LEADING * size
        if foot + below <= HIGH:
            break
    items: list[Item] = [
        Text(MARGIN, MARGIN + 0.5 * LEAST_TYPE, head, LEAST_TYPE, theme.muted, "start"),
        Line(MARGIN, TOP - 8.0, WIDE - MARGIN, TOP - 8.0, theme.ring, theme.line),
    ]
    items += lines
    if figure:
        left = 0.5 * (WIDE - figure.width) if is_long else WIDE - MARGIN - figure.width
        top = foot + 0.5 * GAP if is_long else TOP + 0.5 * GAP
        items.append(framed(figure, figure.width, left, top))
    return Picture(
        WIDE, HIGH, tuple(items), "Question to ask aloud", oral_words(question, head, revealed),
        theme.paper,
    )  # fmt: skip


def oral_words(question: Question, head: str, revealed: bool) -> str:
    """Return what the picture shows, in words."""
    figure = figure_words(question.figure) if question.figure else ""
    answer = " ".join(words for words, _ in _answer(question)) if revealed else COVERED
    return " ".join(filter(None, (f"{head}.", question.prompt, figure, answer)))


def _answer(question: Question) -> tuple[Row, ...]:
    """Return the answer, what else counts as right, and how it is found."""
    answer, limits = written(question, question.answer), counts_as_right(question)
    worked = question.worked.removeprefix(f"{answer}. ")  # it was said already
    also = "" if limits == "this alone" else f" ({limits})"
    return (
        (f"Answer: {answer}{also}.", True),
        *((words, False) for words in re.split(r" (?=With [A-C]: )", worked)),
    )


def _asked(question: Question) -> tuple[Row, ...]:
    """Return the question without how to write the answer."""
    return tuple((line, False) for line in question.lines if not line.startswith("Write A"))


def _lines(rows: Iterable[Row], width: float, size: float, ink: str) -> Iterator[Text]:
    """Yield rows broken into lines, each row a little apart from the one above it."""
    top = TOP
    for words, bold in rows:
        for line in wrapped(words, width / (1.12 if bold else 1.0), size):
            yield Text(MARGIN, top + 0.5 * LEADING * size, line, size, ink, "start", bold)
            top += LEADING * size
        top += APART * size


def _figure(question: Question, theme: Theme) -> Picture | None:
    """Return the picture of a question in its size, with numerals that a back row reads."""
    if question.figure is None:
        return None
    first = figure_picture(question.figure, theme)
    widest = WIDE - 2.0 * MARGIN
    high = LONG_HIGH if first.width > LONG * first.height else FIGURE_HIGH
    factor = min(high / first.height, widest / first.width)
    least = LEAST_TYPE / factor
    large = replace(
        theme, small_size=least, text_size=least, big_size=PROJECTOR.big_size,
        line=PROJECTOR.line,
    )  # fmt: skip
    drawn = figure_picture(question.figure, large)
    return resized(drawn, min(widest, high * drawn.width / drawn.height))
