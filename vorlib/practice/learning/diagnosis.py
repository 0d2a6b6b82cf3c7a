"""Which misconceptions a learner holds, told from slips and from guessing.

A question foresees a misconception where it leads to another answer than the right one. Held is
what no other explanation of the answers does without; where guessing explains them best, nothing
is.
"""

from collections.abc import Collection, Iterable, Sequence

from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.learning.explanation import LATEST, Answers

__all__ = ["LATEST", "chances", "diagnose", "explain", "first_tries", "guesses", "unsettled"]

TO_SETTLE = 2  # right answers in a row that make what was shown a slip


def first_tries(attempts: Iterable[Attempt]) -> list[Attempt]:
    """Return the first answer to each question: later ones were given after its marking."""
    first: dict[tuple[str, int], Attempt] = {}
    for attempt in attempts:
        first.setdefault((attempt.kind, attempt.seed), attempt)
    return list(first.values())


def diagnose(attempts: Iterable[Attempt]) -> tuple[str, ...]:
    """Return the names of the misconceptions that a learner holds, the strongest first.

    Parameters
    ----------
    attempts
        Answers in the order of time.
    """
    answers = Answers(first_tries(attempts))
    return () if answers.guessing > 0.0 else answers.held


def guesses(attempts: Iterable[Attempt]) -> bool:
    """Tell whether a learner's latest answers look guessed: wrong in ever different ways."""
    return Answers(first_tries(attempts)).guessing > 0.0


def unsettled(attempts: Iterable[Attempt], held: Collection[str] | None = None) -> tuple[str, ...]:
    """Return the misconceptions that one more question would help to tell from a slip.

    One of the latest 2 answers for or against showed it, and it is not yet known to be held.

    Parameters
    ----------
    attempts
        Answers in the order of time.
    held
        What is known to be held; None to find it out.
    """
    tries = first_tries(attempts)
    known = Answers(tries).held if held is None else held
    return tuple(
        name
        for name, spoke in chances(tries, known).items()
        if any(spoke[-TO_SETTLE:]) and name not in known
    )


def chances(attempts: Iterable[Attempt], held: Collection[str] = ()) -> dict[str, list[bool]]:
    """Return of each misconception, by its name, what spoke for it (True) and against it (False).

    An answer that one of those held explains says nothing of any other.
    """
    spoke: dict[str, list[bool]] = {}
    for attempt in first_tries(attempts):
        explained = set(attempt.shown).intersection(held)
        for name in dict.fromkeys(attempt.foreseen):
            answers = spoke.setdefault(name, [])
            if name in explained or (not explained and speaks(attempt, name)):
                answers.append(name in attempt.shown)
    return spoke


def speaks(attempt: Attempt, name: str) -> bool:
    """Tell whether an answer speaks for a misconception that it could show, or against it."""
    return name in attempt.shown or attempt.verdict == "right"


def explain(shown: Sequence[Collection[str]]) -> list[str]:
    """Return for each answer the one of the misconceptions behind it that explains most answers.

    Parameters
    ----------
    shown
        For each answer the names of the misconceptions that would lead to it, one or more.
    """
    behind: dict[int, str] = {}
    while len(behind) < len(shown):
        left = [number for number in range(len(shown)) if number not in behind]
        names = [name for number in left for name in shown[number]]
        most = max(dict.fromkeys(names), key=names.count)
        behind |= {number: most for number in left if most in shown[number]}
    return [behind[number] for number in range(len(shown))]
