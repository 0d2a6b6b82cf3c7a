"""Write an answer as a pilot would, for grading by hand: no finer than it can be read."""

from __future__ import annotations

import math

from vorlib.practice.questions.answers import DIRECTION, LEFT_RIGHT, Answer, Quantity
from vorlib.practice.questions.question import ROUNDING, Question

__all__ = ["counts_as_right", "written"]

COARSE, FINE = 1.0, 0.1  # steps in which a number is read, the coarse one if it is fine enough
WHOLE = ("degrees", "days")  # units of answers that are counted
ONE_ALONE = 0.5  # a tolerance under which only one whole number is right
ALONE = "this alone"


def written(question: Question, answer: Answer) -> str:
    """Return an answer to a question as a pilot would write it.

    Parameters
    ----------
    question
        The question; its tolerance decides the rounding.
    answer
        The right answer, or one that a misconception leads to.
    """
    if isinstance(answer, str) or question.form == DIRECTION:
        return question.form.show(answer)
    step = _step(question)
    rounded = step * round(answer / step)
    # an answer that would round to 0 is shown unrounded
    return question.form.show(rounded if rounded else answer)


def counts_as_right(question: Question) -> str:
    """Return the range of answers that count as right, in words."""
    answer = question.answer
    if isinstance(answer, str):
        return ALONE
    step = _step(question)
    if step == COARSE and question.tolerance <= ONE_ALONE:
        return ALONE
    low = step * math.ceil((answer - question.tolerance) / step - ROUNDING)
    high = step * math.floor((answer + question.tolerance) / step + ROUNDING)
    if question.form == LEFT_RIGHT and high <= 0.0:
        low, high = high, low  # the smaller number first
    least, greatest = question.form.show(low), question.form.show(high)
    if least == greatest:
        return ALONE
    number, _, unit = least.partition(" ")
    # write the unit once if both have it; "degree" and "degrees" are the same unit
    is_one_unit = unit.rstrip("s") == greatest.partition(" ")[2].rstrip("s")
    return f"{number if is_one_unit else least} to {greatest}"


def _step(question: Question) -> float:
    """Return the step in which the answer is read."""
    is_coarse = question.form == DIRECTION or question.tolerance >= COARSE
    return COARSE if is_coarse or _is_counted(question) else FINE


def _is_counted(question: Question) -> bool:
    """Return whether the answer counts whole things."""
    form, answer = question.form, question.answer
    return (
        isinstance(form, Quantity)
        and next(iter(form.units)) in WHOLE
        and question.tolerance <= ONE_ALONE
        and float(answer).is_integer()
    )
