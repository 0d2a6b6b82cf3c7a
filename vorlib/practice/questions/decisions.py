"""A decision in flight as a question: a situation, three ways on, and where each leads."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from random import Random

from vorlib.practice.questions.answers import ChoiceAnswer
from vorlib.practice.questions.figures import QuestionFigure
from vorlib.practice.questions.misconceptions import Belief
from vorlib.practice.questions.question import Misconception, Question

LETTERS = "ABC"
WAY = ChoiceAnswer({letter: (f"option {letter.lower()}",) for letter in LETTERS})
SPEEDS_KT = (90, 100, 110, 120)
MINUTES_PER_HOUR = 60.0


@dataclass(frozen=True)
class Way:
    """A way on.

    Attributes
    ----------
    words
        What the pilot does, in the imperative, without a final period.
    outcome
        What becomes of it, in a sentence or two with the numbers.
    belief
        Why somebody takes a wrong way; None for the right one.
    """

    words: str
    outcome: str
    belief: Belief | None = None

    def taken(self, letter: str) -> Misconception:
        """Return the way as a foreseen misconception, its outcome told to who takes it."""
        assert self.belief is not None
        named = self.belief.answering(letter)
        return replace(named, why_tempting=f"{self.outcome} {named.why_tempting}")


def decision(
    kind: str,
    chance: Random,
    situation: str,
    ways: Sequence[Way],
    hints: tuple[str, str, str],
    element: str,
    figure: QuestionFigure | None = None,
) -> Question:
    """Return the question which of three ways to go, in a shuffled order.

    Parameters
    ----------
    kind
        Name of the kind of question.
    chance
        What shuffles the ways.
    situation
        Where the aircraft is, and what happens.
    ways
        Three, the right one first.
    hints, element, figure
        As of `Question`.
    """
    letters = chance.sample(LETTERS, len(LETTERS))
    lettered = sorted(zip(letters, ways, strict=True))
    offered = " ".join(f"{letter}: {way.words}." for letter, way in lettered)
    right, *wrong = zip(letters, ways, strict=True)
    others = " ".join(f"With {letter}: {way.outcome}" for letter, way in sorted(wrong))
    return Question(
        kind=kind,
        prompt=f"{situation} What do you do? {offered} Write A, B or C.",
        form=WAY,
        answer=right[0],
        tolerance=0.0,
        tolerance_why="One of the ways keeps every way out open.",
        hints=hints,
        worked=f"{right[0]}. {right[1].outcome} {others}",
        element=element,
        level="correlation",
        misconceptions=tuple(way.taken(letter) for letter, way in wrong),
        figure=figure,
    )


def flown_nm(speed_kt: float, minutes: float) -> float:
    """Return how far an aircraft flies in some minutes."""
    return speed_kt * minutes / MINUTES_PER_HOUR
