"""A question with its answer and the misconceptions foreseen, and the marking of a text."""

import re
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations
from typing import Literal

from vorlib.core.words import as_sentence
from vorlib.practice.questions.answers import Answer, Form
from vorlib.practice.questions.figures import QuestionFigure

CLOSE_TOLERANCES = 3.0  # an answer this many tolerances off is still called close
ROUNDING = 1e-6  # an answer just at the tolerance counts, whatever the last digits of the library

Level = Literal["recall", "understanding", "application", "correlation"]
"""Levels of learning; the first is called rote in the Aviation Instructor's Handbook
(FAA-H-8083-9B), from memory."""

Verdict = Literal["right", "close", "wrong", "not understood"]


@dataclass(frozen=True)
class Misconception:
    """A foreseen misconception.

    Attributes
    ----------
    name
        What went wrong, such as "bearing taken for radial"; the same in every kind of question.
    would_answer
        What someone with this misconception answers, in the question's form.
    why_tempting
        One sentence: why the misconception is easily held.
    look_again
        One sentence: what to look at again. It does not give the answer away.
    """

    name: str
    would_answer: Answer
    why_tempting: str
    look_again: str


@dataclass(frozen=True)
class Question:
    """A question.

    Attributes
    ----------
    kind
        Name of the kind of question, as registered.
    prompt
        The question in words, with every number that is needed.
    form
        How the answer is written.
    answer
        The answer, as the library works it out.
    tolerance, tolerance_why
        How far off an answer still counts as right, in its unit, and the reason in one sentence.
    hints
        Three, each giving away more than the one before.
    worked
        The worked solution, with the answer.
    element
        Element of a training standard that the question serves.
    level
        Level of learning that it asks for.
    misconceptions
        The foreseen misconceptions.
    figure
        What is shown beside the words, or None. The prompt and the figure's words together can be
        answered without seeing it.
    """

    kind: str
    prompt: str
    form: Form
    answer: Answer
    tolerance: float
    tolerance_why: str
    hints: tuple[str, str, str]
    worked: str
    element: str
    level: Level
    misconceptions: tuple[Misconception, ...] = ()
    figure: QuestionFigure | None = None

    @cached_property
    def foreseen(self) -> tuple[str, ...]:
        """Names of the foreseen misconceptions, each once: several answers may show the same."""
        return tuple(dict.fromkeys(misconception.name for misconception in self.misconceptions))

    @cached_property
    def outcomes(self) -> tuple[frozenset[str], ...]:
        """Of each answer that is foreseen the mistakes it shows: of the right one none."""
        shown: dict[Answer, set[str]] = {}
        for mistake in self.misconceptions:
            shown.setdefault(mistake.would_answer, set()).add(mistake.name)
        return (frozenset(), *map(frozenset, shown.values()))

    @property
    def lines(self) -> tuple[str, ...]:
        """The prompt with each of the ways to choose from, if there are any, on its own line."""
        return tuple(re.split(r" (?=[A-D]: |Write A)", self.prompt))

    @property
    def spelled(self) -> str:
        """What is asked and shown and the answer, as text by which a question is known again."""
        shown = self.figure.spelled if self.figure else "None"
        return f"{self.prompt} {self.form.show(self.answer)} {shown}"

    @property
    def is_unambiguous(self) -> bool:
        """Whether no text can count for two answers; two misconceptions may share one."""
        mistaken = {misconception.would_answer for misconception in self.misconceptions}
        if isinstance(self.answer, str):  # words are the same or infinitely far apart
            return self.answer not in mistaken
        return all(
            self.form.apart(one, other) > 2.0 * (self.tolerance + ROUNDING)
            for one, other in combinations((self.answer, *mistaken), 2)
        )


@dataclass(frozen=True)
class Marking:
    """What is said about an answer, and the foreseen misconceptions that would each lead to it."""

    verdict: Verdict
    message: str
    shown: tuple[Misconception, ...] = ()

    @property
    def misconception(self) -> Misconception | None:
        """The first of the misconceptions that would lead to the answer, if any was foreseen."""
        return self.shown[0] if self.shown else None

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the misconceptions that would lead to the answer, each once."""
        return tuple(dict.fromkeys(misconception.name for misconception in self.shown))


def mark(question: Question, text: str) -> Marking:
    """Return the marking of a written answer, which never gives the right answer away.

    A text that makes no sense as an answer is not wrong but "not understood", with a message that
    says what is wanted.
    """
    if not text.strip():
        return Marking("not understood", "Nothing is written yet.")
    try:
        given = question.form.parse(text)
    except ValueError as error:
        return Marking("not understood", as_sentence(str(error)))
    off = question.form.apart(given, question.answer)
    if off <= question.tolerance + ROUNDING:
        return Marking("right", f"Right: {question.form.show(question.answer)}.")
    shown = tuple(
        misconception
        for misconception in question.misconceptions
        if question.form.apart(given, misconception.would_answer) <= question.tolerance + ROUNDING
    )
    if shown:
        return Marking("wrong", _slip_words(shown), shown)
    if off <= CLOSE_TOLERANCES * question.tolerance:
        return Marking("close", f"Close, but not close enough. {question.tolerance_why}")
    return Marking("wrong", "Not yet. Take a hint, or draw it, and try again.")


def _slip_words(shown: tuple[Misconception, ...]) -> str:
    """Return what is said of foreseen misconceptions that all lead to one answer."""
    names = ", or ".join(dict.fromkeys(misconception.name for misconception in shown))
    look_again = " ".join(dict.fromkeys(misconception.look_again for misconception in shown))
    return f"Not yet. The likely slip: {names}. {shown[0].why_tempting} {look_again}"
