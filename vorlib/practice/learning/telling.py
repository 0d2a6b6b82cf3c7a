"""Which question tells most of what a learner may hold."""

import math
from collections.abc import Collection
from functools import lru_cache
from operator import mul

from vorlib.practice.learning.explanation import FIRST_HELD, Answers, by_chance, likelihood
from vorlib.practice.questions.question import Question

UNLIKELY = -9.0  # an explanation so much worse than the best one is left out


class Doubt:
    """What a learner may hold, by what has been answered so far.

    Parameters
    ----------
    answers
        The answers so far.
    names
        The misconceptions that questions to come could show.
    """

    def __init__(self, answers: Answers, names: Collection[str]) -> None:
        # What is asked for need not be likely yet, so it is not paid for as what is held is.
        leads = [(held, lead + FIRST_HELD * bool(held)) for held, lead in answers.rivals(names)]
        self._weights = [(held, math.exp(lead)) for held, lead in leads if lead > UNLIKELY]
        self._guesses = math.exp(min(answers.guessing, -UNLIKELY))
        self._told: dict[tuple[frozenset[str], ...], float] = {}

    def told_by(self, question: Question) -> float:
        """Return how much the answer to a question would tell, in natural units of information."""
        told = self._told.get(question.outcomes)
        if told is None:
            told = self._told[question.outcomes] = self._information(question.outcomes)
        return told

    def _information(self, outcomes: tuple[frozenset[str], ...]) -> float:
        """Return by how much an answer narrows down the explanations, on average."""
        foreseen = frozenset().union(*outcomes)
        weights: dict[frozenset[str], float] = {}  # what is not foreseen makes no difference
        for held, weight in self._weights:
            at_work = held & foreseen
            weights[at_work] = weights.get(at_work, 0.0) + weight
        parts = [*weights.values(), self._guesses]
        shares, of_each = zip(*(_shares(outcomes, held) for held in (*weights, None)), strict=True)
        whole = sum(parts)
        mean: list[float] = [
            sum(map(mul, parts, of_answer)) / whole for of_answer in zip(*shares, strict=True)
        ]
        of_all = sum(share * math.log(share) for share in mean)
        told: float = sum(map(mul, parts, of_each)) / whole - of_all
        return told


@lru_cache(maxsize=4096)
def _shares(
    outcomes: tuple[frozenset[str], ...], held: frozenset[str] | None
) -> tuple[tuple[float, ...], float]:
    """Return how often each answer is given by one who holds something, or guesses for None.

    With it comes the sum of the shares times their logarithms.
    """
    foreseen = frozenset().union(*outcomes)
    parts = [
        by_chance(foreseen, shown) if held is None else likelihood(foreseen, shown, held)
        for shown in outcomes
    ]
    shares = tuple(part / sum(parts) for part in parts)
    return shares, sum(share * math.log(share) for share in shares)
