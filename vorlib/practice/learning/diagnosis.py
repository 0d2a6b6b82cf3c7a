"""Which misconceptions a learner holds, told from a slip by what other answers show."""

from collections.abc import Iterable, Sequence

from vorlib.practice.learning.attempt import Attempt

SHOWN_TO_HOLD = 3  # different questions; two can be two slips
LATEST = 5  # questions that could have shown it: what was held earlier may have been put right
TO_SETTLE = 2  # questions in a row without it make what was shown a slip


def first_tries(attempts: Iterable[Attempt]) -> list[Attempt]:
    """Return the first answer to each question: later ones were given after its marking."""
    first: dict[tuple[str, int], Attempt] = {}
    for attempt in attempts:
        first.setdefault((attempt.kind, attempt.seed), attempt)
    return list(first.values())


def diagnose(attempts: Iterable[Attempt]) -> tuple[str, ...]:
    """Return the names of the misconceptions that a learner holds, the most often shown first.

    One is held when it was behind at least 3 of the latest 5 first answers to questions that could
    have shown it. Less is a slip.

    Parameters
    ----------
    attempts
        Answers in the order of time.
    """
    shown = {name: sum(showed[-LATEST:]) for name, showed in chances(attempts).items()}
    held = [name for name, times in shown.items() if times >= SHOWN_TO_HOLD]
    return tuple(sorted(held, key=lambda name: -shown[name]))


def unsettled(attempts: Sequence[Attempt]) -> tuple[str, ...]:
    """Return the misconceptions that one more question would help to tell from a slip.

    One of the latest 2 questions that could show it did, and it is not yet known to be held.
    """
    held = diagnose(attempts)
    return tuple(
        name
        for name, showed in chances(attempts).items()
        if any(showed[-TO_SETTLE:]) and name not in held
    )


def chances(attempts: Iterable[Attempt]) -> dict[str, list[bool]]:
    """Return whether each misconception showed, by its name, whenever it could have."""
    showed: dict[str, list[bool]] = {}
    for attempt in first_tries(attempts):
        for name in dict.fromkeys(attempt.foreseen):
            showed.setdefault(name, []).append(attempt.misconception == name)
    return showed
