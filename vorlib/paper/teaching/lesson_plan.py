"""The plan of a lesson on one page: who does what, minute by minute, and what to say."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from vorlib.paper.block import Block, side_by_side
from vorlib.paper.masters import MASTERS
from vorlib.paper.page import A4, LEADING, SMALL, Column, PageSize, Sheet
from vorlib.paper.worksheet import Worksheet
from vorlib.practice.learning.topic import ALL
from vorlib.practice.questions.by_hand import written
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.standards import EDITION, STANDARD, kind_of_element
from vorlib.teaching.plan import HOMEWORK, LessonPlan
from vorlib.views.classroom.question_figure import figure_words
from vorlib.views.drawing.picture import Picture

__all__ = ["plan_pages"]

ROOM = "The lesson's page (press Present), a board, paper and pencil for each."
TYPE = 7.5  # size of type, in points
LONGEST_ALOUD = 260  # the most letters of a question that learners can follow by ear
LEAST_ALOUD = 3  # questions, even if longer ones have to be read twice
NAMED = 4  # the most lessons named by title
INDENT, LABEL = 8.0, 62.0  # room for a bullet, and for a label, in points


@dataclass(frozen=True)
class _Fit:
    """What a page has room for: errors, questions, points of explanations; size of small type."""

    errors: int
    questions: int
    points: bool = True
    small: float = SMALL


MOST = {"errors": 8, "questions": 5}  # the most on a page with room
# Tried in turn until the plan fits one page; then errors and questions are added while they fit.
FITS = (
    _Fit(4, 3),
    *(_Fit(*counts, points=False) for counts in ((4, 3), (4, 2), (3, 2))),
    *(_Fit(*counts, points=False, small=6.5) for counts in ((4, 3), (3, 2))),
    _Fit(3, 1, points=False, small=6.0),
)


def plan_pages(
    plan: LessonPlan, size: PageSize = A4, homework: Worksheet | None = None
) -> tuple[Picture, ...]:
    """Return the page of the plan, with as many errors and questions as fit.

    Parameters
    ----------
    plan
        The plan of the lesson.
    size
        The paper.
    homework
        The sheet to hand out, if one is printed; its secret is on the plan too.
    """
    for fit in FITS:
        sheet = _sheet(plan, size, fit, homework)
        if sheet.count == 1:
            break
    for counted, most in MOST.items():
        for count in range(getattr(fit, counted) + 1, most + 1):
            one_more: dict[str, Any] = {counted: count}
            more = replace(fit, **one_more)
            larger = _sheet(plan, size, more, homework)
            if larger.count > 1:
                break
            fit, sheet = more, larger
    return sheet.pages()


def _sheet(plan: LessonPlan, size: PageSize, fit: _Fit, homework: Worksheet | None) -> Sheet:
    lesson = plan.lesson
    sheet = Sheet(f"Lesson plan: {int(lesson.number)}. {lesson.title}", size, f"{plan.minutes} min")
    side_by_side(sheet, [partial(_objective, plan=plan), partial(_elements, plan=plan)])
    sheet.gap(4.0)
    _needed(sheet, plan)
    _minutes(sheet, plan, fit)
    side_by_side(sheet, [partial(_errors, plan=plan, fit=fit), partial(_aloud, plan=plan, fit=fit)])
    _afterwards(sheet, plan, homework)
    return sheet


def _objective(sheet: Sheet, plan: LessonPlan) -> None:
    sheet.heading("Objective", keep=0.0)
    block = Block(sheet.width)
    block.words("On the ground, each learner can afterwards:", TYPE)
    for aim in plan.lesson.aims:
        block.words("\N{BULLET}", TYPE)
        block.y -= LEADING * TYPE
        block.words(aim, TYPE, x=INDENT)
    block.place(sheet)


def _elements(sheet: Sheet, plan: LessonPlan) -> None:
    sheet.heading("Elements of the standard that it serves", keep=0.0)
    block = Block(sheet.width)
    for code in plan.elements:
        block.words(code, TYPE, bold=True)
        block.y -= LEADING * TYPE
        block.words(f"{kind_of_element(code)}: {STANDARD[code]}", TYPE, x=LABEL)
    block.words(f"{EDITION}.", SMALL)
    block.place(sheet)


def _needed(sheet: Sheet, plan: LessonPlan) -> None:
    masters = [MASTERS[name].title for name in plan.lesson.teaching.masters]
    ready = f"{ROOM} Masters: {', '.join(masters).lower()}." if masters else ROOM
    rows = (
        ("Before this", _before(plan)),
        ("To read", ". ".join(plan.reading) + "." if plan.reading else "Nothing new."),
        ("Have ready", ready),
    )
    _labeled(sheet, rows)


def _before(plan: LessonPlan) -> str:
    """Say which lessons come first: by title if they are few, else by number."""
    numbers = [int(number) for number, _ in plan.after]
    if len(numbers) > NAMED and numbers[-1] - numbers[0] == len(numbers) - 1:
        return f"Lessons {numbers[0]} to {numbers[-1]}."
    return (
        ", ".join(f"{int(n)} {title.rstrip('?')}" for n, title in plan.after) + "."
        if numbers
        else "No lesson."
    )


def _labeled(sheet: Sheet, rows: Iterable[tuple[str, str]]) -> None:
    """Write words beside their labels."""
    block = Block(sheet.width)
    for label, words in rows:
        block.words(label, TYPE, bold=True)
        block.y -= LEADING * TYPE
        block.words(words, TYPE, x=LABEL)
    block.y += 3.0
    block.place(sheet)


def _minutes(sheet: Sheet, plan: LessonPlan, fit: _Fit) -> None:
    sheet.heading("Minute by minute", keep=60.0)
    columns = (
        Column("min", 0.62, "middle"),
        Column("part", 1.15),
        Column("the instructor", 4.6),
        Column("the learners", 3.4),
        Column("exhibit and settings", 2.0),
    )
    rows, begin = [], 0
    for step in plan.steps:
        end = begin + step.minutes
        point = f" Point: {step.point}" if fit.points and step.point else ""
        said = (step.title, f"{step.instructor}{point}", step.learners, "; ".join(step.shown))
        rows.append([f"{begin}\N{EN DASH}{end}", *said])
        begin = end
    sheet.table(columns, rows, fit.small)


def _errors(sheet: Sheet, plan: LessonPlan, fit: _Fit) -> None:
    sheet.heading("Errors to expect, and what to say", keep=0.0)
    rows = [[error.name, error.say] for error in plan.errors[: fit.errors]]
    sheet.table((Column("error", 2.0), Column("say", 3.4)), rows, fit.small)


def _aloud(sheet: Sheet, plan: LessonPlan, fit: _Fit) -> None:
    sheet.heading("Ask aloud", keep=0.0)
    rows = sorted(
        ([_told(question), written(question, question.answer)] for question in plan.asked),
        key=lambda row: len(row[0]),
    )
    short = [row for row in rows if len(row[0]) <= LONGEST_ALOUD]
    if len(short) < LEAST_ALOUD:
        short = rows[:LEAST_ALOUD]
    sheet.table(
        (Column("question", 4.4), Column("expected", 1.2)), short[: fit.questions], fit.small
    )


def _told(question: Question) -> str:
    """Return a question to read aloud: first what its picture shows, then what is asked.

    Leave out how to write the answer.
    """
    shown = figure_words(question.figure) if question.figure else ""
    asked = re.sub(r" \((?:such as|one of)[^)]*\)", "", question.prompt)
    return " ".join(filter(None, (shown, asked)))


def _afterwards(sheet: Sheet, plan: LessonPlan, homework: Worksheet | None) -> None:
    following = plan.following.lstrip("0").rstrip("?")
    coming = f" Next: lesson {following}." if following else ""
    rows = (
        ("Completed", f"With {plan.completed}."),
        ("Homework", f"{_homework(plan, homework)}{coming}"),
    )
    _labeled(sheet, rows)


def _homework(plan: LessonPlan, sheet: Worksheet | None) -> str:
    """Say which sheet to hand out or, before one is printed, what will be on it."""
    if sheet is None:
        about = "the whole course" if plan.homework == ALL else "this lesson"
        return f"A sheet of {HOMEWORK} questions on {about}, printed with its key for each class."
    keep = f" The secret of its key, for you alone: {sheet.secret}." if sheet.secret else ""
    return f"Sheet {sheet.code}, {sheet.count} questions.{keep}"
