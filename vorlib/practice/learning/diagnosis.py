"""Which misconceptions a learner holds, told from slips and from guessing.

A question foresees a misconception where it leads to another answer than the right one. If the
learner gives the one or the other, that speaks for it or against it; any other answer says nothing
of it. A misconception is suspected when, lately, what speaks for it outweighs what speaks against
it, counted double, by 3. Two can share an answer: the one that explains most comes first, and what
it explains says nothing of another. Who is too often wrong for no reason suspected guesses: then
nothing is held.
"""

from collections.abc import Collection, Iterable, Sequence

from vorlib.practice.learning.attempt import Attempt

LEAD_TO_HOLD = 3  # a guesser gets there in one of eight beginnings, who slips hardly ever
AGAINST = 2  # how much a right answer counts: who holds a misconception rarely gives one
LATEST = 8  # answers for or against: what was held earlier may have been put right
TO_SETTLE = 2  # right answers in a row that make what was shown a slip
GUESS_LATEST = 20  # first answers that tell a guesser
GUESS_LEAST = 6  # fewer tell nothing, nor does a single wrong one
GUESS_SHARE = 0.25  # of the answers that nothing suspected explains, wrong


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

    One of the latest 2 answers for or against showed it, and it is not yet suspected.
    """
    suspected = _suspected(first_tries(attempts))
    return tuple(
        name
        for name, spoke in chances(attempts, suspected).items()
        if any(spoke[-TO_SETTLE:]) and name not in suspected
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
    return name in attempt.shown or attempt.verdict != "wrong"


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
    """Return the misconceptions that enough speaks for, the strongest first."""
    suspected: list[str] = []
    undecided: set[str] = set()
    while True:
        leads = {
            name: (_lead(spoke[-LATEST:]), _lead(spoke))
            for name, spoke in chances(tries, suspected).items()
            if name not in undecided.union(suspected) and _lead(spoke[-LATEST:]) >= LEAD_TO_HOLD
        }
        if not leads:
            return tuple(suspected)
        strongest = max(leads, key=lambda name: leads[name])
        equals = {
            name
            for name, lead in leads.items()
            if lead == leads[strongest]
            and all((name in a.shown) == (strongest in a.shown) for a in tries)
        }
        if len(equals) > 1:  # all with the same answers: nothing tells them apart as yet
            undecided |= equals
        else:
            suspected.append(strongest)


def _lead(spoke: Sequence[bool]) -> int:
    """Return by how much what spoke for a misconception outweighs what spoke against it."""
    return sum(1 if showed else -AGAINST for showed in spoke)


def _guessed(tries: Sequence[Attempt], suspected: Collection[str]) -> bool:
    """Tell whether too many of the latest answers are wrong for no reason suspected."""
    latest = tries[-GUESS_LATEST:]
    rest = [a.verdict for a in latest if not set(a.shown) & set(suspected)]
    wrong = rest.count("wrong")
    return len(latest) >= GUESS_LEAST and wrong > max(1, GUESS_SHARE * len(rest))
