"""Which misconceptions a learner holds, told from slips and from guessing.

A question foresees a misconception where its answer differs from the right one, and is then a
chance to show it. A misconception is suspected when it was behind at least 4 of the latest 5
chances. Two can share an answer: the one that explains most comes first, and what it explains is no
evidence for or against another. Who is wrong more often than what is suspected explains, guesses:
then nothing is held.
"""

from collections.abc import Collection, Iterable, Sequence

from vorlib.practice.learning.attempt import Attempt

SHOWN_TO_HOLD = 4  # different questions; two or three can be slips, or guesses
LATEST = 5  # chances: what was held earlier may have been put right
TO_SETTLE = 2  # chances in a row without it make what was shown a slip
GUESS_LATEST = 15  # first answers that tell a guesser
GUESS_LEAST = 6  # fewer tell nothing
GUESS_SHARE = 0.3  # of them, wrong without an explanation


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
    tries = first_tries(attempts)
    suspected = _suspected(tries)
    return () if _guessed(tries, suspected) else suspected


def guesses(attempts: Iterable[Attempt]) -> bool:
    """Tell whether a learner's latest answers look guessed: wrong in ever different ways."""
    tries = first_tries(attempts)
    return _guessed(tries, _suspected(tries))


def unsettled(attempts: Sequence[Attempt]) -> tuple[str, ...]:
    """Return the misconceptions that one more question would help to tell from a slip.

    One of the latest 2 chances showed it, and it is not yet known to be held.
    """
    held = diagnose(attempts)
    return tuple(
        name
        for name, showed in chances(attempts, held).items()
        if any(showed[-TO_SETTLE:]) and name not in held
    )


def chances(attempts: Iterable[Attempt], held: Collection[str] = ()) -> dict[str, list[bool]]:
    """Return whether each misconception showed, by its name, whenever it could have.

    An answer that one of those held explains is a chance for that one only.
    """
    showed: dict[str, list[bool]] = {}
    for attempt in first_tries(attempts):
        explained = [name for name in attempt.shown if name in held]
        for name in explained or attempt.foreseen:
            showed.setdefault(name, []).append(name in attempt.shown)
    return showed


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


def _suspected(tries: Sequence[Attempt]) -> tuple[str, ...]:
    """Return the misconceptions that explain enough of the latest chances, the strongest first."""
    suspected: list[str] = []
    undecided: set[str] = set()
    while True:
        strength = {
            name: _strength(showed)
            for name, showed in chances(tries, suspected).items()
            if name not in undecided.union(suspected) and _is_enough(showed)
        }
        if not strength:
            return tuple(suspected)
        strongest = max(strength, key=lambda name: strength[name])
        equals = {
            name
            for name in strength
            if strength[name] == strength[strongest]
            and all((name in a.shown) == (strongest in a.shown) for a in tries)
        }
        if len(equals) > 1:  # the same answers, so that nothing tells them apart as yet
            undecided |= equals
        else:
            suspected.append(strongest)


def _is_enough(showed: Sequence[bool]) -> bool:
    return sum(showed[-LATEST:]) >= SHOWN_TO_HOLD


def _strength(showed: Sequence[bool]) -> tuple[int, int]:
    """Return by how much a misconception showed rather than not: lately, and in all."""
    lately = showed[-LATEST:]
    return 2 * sum(lately) - len(lately), 2 * sum(showed) - len(showed)


def _guessed(tries: Sequence[Attempt], suspected: Collection[str]) -> bool:
    """Tell whether too many of the latest answers are wrong for reasons not suspected."""
    latest = tries[-GUESS_LATEST:]
    astray = sum(a.verdict == "wrong" and not set(a.shown) & set(suspected) for a in latest)
    return len(latest) >= GUESS_LEAST and astray > GUESS_SHARE * len(latest)
