"""What best explains a learner's answers: misconceptions held, slips alone, or guessing.

An explanation is a set of misconceptions, mostly none. It says how likely each answer was. Where a
question foresees one of the set, the learner gives its answer, or now the one and now the other of
several; elsewhere the right one. One answer in ten is given without thought all the same. What is
held has to be paid for, as it is rarer than a slip. To guess is to give every answer without
thought. Weights are natural logarithms: 2 is 7 to 1.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from functools import cached_property, lru_cache
from typing import NamedTuple

from vorlib.practice.learning.attempt import Attempt

THOUGHTLESS = 0.1  # of the answers of one who does not guess
CARELESS = 0.1  # of them wrong in a way that nobody foresaw, such as in a sum
ANY_BY_CHANCE = 0.25  # at least: of many answers that could be given a few are tempting
TWICE = 2  # may be a slip, however rare the mistake
FIRST_HELD, NEXT_HELD = 6.0, 1.1  # what is paid: misconceptions come in company
FITTED = 3.5  # in favor of guessing, for each misconception that was chosen to fit
DECIDED = 2.0  # by so much better than without it
ALONE_DECIDED = 2.9  # where it is the only one: the same slip three times in a row is not held
PUT_RIGHT = 4.6  # so much lately against it
LATEST = 8  # answers for or against each: what was held earlier may have been put right
GUESS_LATEST = 20  # answers that tell a guesser
GUESS_LEAST = 8  # fewer tell nothing

NOTHING: frozenset[str] = frozenset()
UNFORESEEN = frozenset(("",))  # what a wrong answer shows that no mistake leads to


def likelihood(foreseen: frozenset[str], shown: frozenset[str], held: frozenset[str]) -> float:
    """Return how likely an answer is for one who holds some misconceptions.

    Parameters
    ----------
    foreseen
        The misconceptions that the question foresees.
    shown
        Those that would lead to the answer; none for the right one.
    held
        Those that are held.
    """
    if shown == UNFORESEEN:
        return CARELESS
    at_work = held & foreseen
    meant = len(shown & at_work) / len(at_work) if at_work else float(not shown)
    return (1.0 - THOUGHTLESS) * meant + THOUGHTLESS * by_chance(foreseen, shown)


def by_chance(foreseen: frozenset[str], shown: frozenset[str]) -> float:
    """Return how likely an answer is for one who guesses; where no mistake is foreseen, certain.

    Mistakes that lead to one answer make one to choose from.
    """
    if shown == UNFORESEEN:
        return ANY_BY_CHANCE
    answers = len(foreseen - shown) + (2 if shown else 1)
    return max(1.0 / answers, ANY_BY_CHANCE)


def price(held: Collection[str]) -> float:
    """Return what an explanation has to be better by than slips alone."""
    return FIRST_HELD + NEXT_HELD * (len(held) - 1) if held else 0.0


@lru_cache(maxsize=4096)
def _log_likelihood(
    foreseen: frozenset[str], shown: frozenset[str], at_work: frozenset[str]
) -> float:
    return math.log(likelihood(foreseen, shown, at_work))


class _Given(NamedTuple):
    """An answer: what its question foresees, what it shows, and of what it still says something."""

    foreseen: frozenset[str]
    shown: frozenset[str]
    at_stake: frozenset[str]

    def log_likelihood(self, held: frozenset[str]) -> float:
        return _log_likelihood(self.foreseen, self.shown, held & self.at_stake)


class Answers:
    """A learner's answers, and what they say of each explanation.

    Parameters
    ----------
    tries
        The first answer to each question, in the order of time. Close ones say nothing.
    """

    def __init__(self, tries: Sequence[Attempt]) -> None:
        self._given = _up_to_date(tries)
        self._where: dict[str, list[int]] = {}  # which answers could show it
        self._showed: Counter[str] = Counter()
        for number, given in enumerate(self._given):
            for name in given.at_stake:
                self._where.setdefault(name, []).append(number)
            self._showed.update(sorted(given.shown))  # the same from run to run

    @cached_property
    def best(self) -> frozenset[str]:
        """The explanation that explains most for its price.

        One misconception can stand in the way of two that explain more: hence several beginnings.
        """
        begins = (NOTHING, *(frozenset((name,)) for name in self._often))
        return max(map(self._climb, begins), key=self._worth)

    @cached_property
    def _often(self) -> tuple[str, ...]:
        """The misconceptions that were shown too often for slips."""
        return tuple(n for n, times in self._showed.items() if n and times > TWICE)

    @cached_property
    def held(self) -> tuple[str, ...]:
        """What no other explanation does without, nor was put right lately, the strongest first."""
        leads = {name: self._lead(name) for name in self.best}
        least = ALONE_DECIDED if len(leads) == 1 else DECIDED
        held = [n for n, lead in leads.items() if lead >= least and not self._is_put_right(n)]
        return tuple(sorted(held, key=lambda name: (-leads[name], name)))

    @cached_property
    def guessing(self) -> float:
        """By how much guessing explains the latest answers better than the best explanation."""
        latest = self._given[-GUESS_LATEST:]
        if len(latest) < GUESS_LEAST:
            return -math.inf
        guessed = sum(math.log(by_chance(given.foreseen, given.shown)) for given in latest)
        meant = sum(given.log_likelihood(self.best) for given in latest)
        return guessed - meant + FITTED * len(self.best)

    def rivals(self, names: Collection[str]) -> Iterator[tuple[frozenset[str], float]]:
        """Yield explanations a step from the best one, and by how much each is better than it.

        Parameters
        ----------
        names
            The misconceptions that may come in.
        """
        best = self.best
        others = [name for name in names if name not in best]
        yield best, 0.0
        for name in others:
            yield best | {name}, self._gain(best, name)
        for out in sorted(best):
            fewer = best - {out}
            loss = -self._gain(fewer, out)
            yield fewer, loss
            for name in others:
                if name in self._showed:
                    yield fewer | {name}, loss + self._gain(fewer, name)

    def _steps(self, held: frozenset[str], name: str) -> list[float]:
        """Return of each answer how much more likely it is with one more misconception held."""
        more = held | {name}
        answers = [self._given[number] for number in self._where.get(name, ())]
        return [given.log_likelihood(more) - given.log_likelihood(held) for given in answers]

    def _gain(self, held: frozenset[str], name: str) -> float:
        """Return how much better a set explains the answers with one more in it, less its price."""
        return sum(self._steps(held, name)) - (NEXT_HELD if held else FIRST_HELD)

    def _climb(self, held: frozenset[str], without: str = "") -> frozenset[str]:
        """Return the best explanation to be had by steps, each of one in, one out or both."""
        often = [name for name in self._often if name != without]
        while True:
            steps = [(self._gain(held, name), held | {name}) for name in often if name not in held]
            for out in sorted(held):
                fewer = held - {out}
                loss = -self._gain(fewer, out)
                steps.append((loss, fewer))
                steps += [
                    (loss + self._gain(fewer, name), fewer | {name})
                    for name in often
                    if name not in held
                ]
            gain, better = max(steps, key=lambda step: step[0], default=(0.0, held))
            if gain <= 1e-9:
                return held
            held = better

    def _lead(self, name: str) -> float:
        """Return by how much the best explanation is better than the best without a name."""
        fewer = self.best - {name}
        other = self._climb(fewer, without=name)
        return self._worth(self.best) - self._worth(other)

    def _worth(self, held: frozenset[str]) -> float:
        return sum(given.log_likelihood(held) for given in self._given) - price(held)

    def _is_put_right(self, name: str) -> bool:
        """Tell whether the latest answers speak against a misconception held before."""
        lately = lowest = 0.0
        for step in reversed(self._steps(self.best - {name}, name)):
            lately += step
            lowest = min(lowest, lately)
        return lowest < -PUT_RIGHT


def _up_to_date(tries: Sequence[Attempt]) -> list[_Given]:
    """Return the answers that still say something, in their order.

    A right one speaks against a misconception, one that shows it for it, as long as it is among the
    latest that do either.
    """
    spoken: Counter[str] = Counter()
    kept = []
    for attempt in reversed(tries):
        if attempt.verdict == "close":
            continue
        right, foreseen = attempt.verdict == "right", frozenset(attempt.foreseen)
        shown = NOTHING if right else frozenset(attempt.shown) or UNFORESEEN
        spoken.update(foreseen if right else shown - UNFORESEEN)
        late = frozenset(n for n in (foreseen if right else shown) if spoken[n] <= LATEST)
        if late or not foreseen:
            kept.append(_Given(foreseen, shown, late if right else foreseen))
    return kept[::-1]
