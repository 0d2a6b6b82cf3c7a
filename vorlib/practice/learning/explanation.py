"""What best explains a learner's answers: misconceptions held, slips alone, or guessing.

An explanation is a set of misconceptions, usually empty, which gives each answer a likelihood. If a
question foresees one of the set, the learner gives the answer it leads to, or one of several such
answers; otherwise the right one. One answer in ten is thoughtless anyway. Each misconception held
has a price, because misconceptions are rarer than slips. A guesser gives every answer without
thought. Weights are natural logarithms: 2 means odds of 7 to 1.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from functools import cached_property, lru_cache
from typing import NamedTuple

from vorlib.practice.learning.attempt import Attempt

THOUGHTLESS = 0.1  # share of the answers of a learner who does not guess
CARELESS = 0.1  # likelihood of a wrong answer that nobody foresaw, such as a slip in a sum
ANY_BY_CHANCE = 0.25  # at least: of many possible answers, only a few are tempting
TWICE = 2  # showing a mistake this often may still be slips
FIRST_HELD, NEXT_HELD = 6.0, 1.1  # prices: after a first misconception, others are likelier
FITTED = 3.5  # credit to guessing for each misconception that the best explanation fits
DECIDED = 2.0  # least advantage over an explanation without the misconception
ALONE_DECIDED = 2.9  # the same for a single one: three slips in a row are not enough
PUT_RIGHT = 4.6  # least weight of late answers against a misconception
LATEST = 8  # answers for or against each that count: older ones may be outdated
GUESS_LATEST = 20  # answers that show whether a learner guesses
GUESS_LEAST = 8  # fewer show nothing

NOTHING: frozenset[str] = frozenset()
UNFORESEEN = frozenset(("",))  # shown by a wrong answer that no misconception leads to


def likelihood(foreseen: frozenset[str], shown: frozenset[str], held: frozenset[str]) -> float:
    """Return the likelihood of an answer from a learner who holds some misconceptions.

    Parameters
    ----------
    foreseen
        The misconceptions that the question foresees.
    shown
        Those that lead to the answer; none for the right answer.
    held
        Those that the learner holds.
    """
    if shown == UNFORESEEN:
        return CARELESS
    at_work = held & foreseen
    meant = len(shown & at_work) / len(at_work) if at_work else float(not shown)
    return (1.0 - THOUGHTLESS) * meant + THOUGHTLESS * by_chance(foreseen, shown)


def by_chance(foreseen: frozenset[str], shown: frozenset[str]) -> float:
    """Return the likelihood of an answer from a learner who guesses.

    It is 1 for the right answer to a question that foresees no mistake. Mistakes that lead to the
    same answer count as one choice.
    """
    if shown == UNFORESEEN:
        return ANY_BY_CHANCE
    answers = len(foreseen - shown) + (2 if shown else 1)
    return max(1.0 / answers, ANY_BY_CHANCE)


def price(held: Collection[str]) -> float:
    """Return by how much an explanation has to be better than slips alone."""
    return FIRST_HELD + NEXT_HELD * (len(held) - 1) if held else 0.0


@lru_cache(maxsize=4096)
def _log_likelihood(
    foreseen: frozenset[str], shown: frozenset[str], at_work: frozenset[str]
) -> float:
    return math.log(likelihood(foreseen, shown, at_work))


class _Given(NamedTuple):
    """An answer: what its question foresees, what it shows, and for what it still counts."""

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
        The first answer to each question, in order of time; close ones do not count.
    """

    def __init__(self, tries: Sequence[Attempt]) -> None:
        self._given = _up_to_date(tries)
        self._where: dict[str, list[int]] = {}  # numbers of the answers that could show it
        self._showed: Counter[str] = Counter()
        for number, given in enumerate(self._given):
            for name in given.at_stake:
                self._where.setdefault(name, []).append(number)
            self._showed.update(sorted(given.shown))  # every run gives the same order

    @cached_property
    def best(self) -> frozenset[str]:
        """The explanation with the greatest likelihood less its price.

        The search starts from several sets, because one misconception can hide two that explain
        more.
        """
        begins = (NOTHING, *(frozenset((name,)) for name in self._often))
        return max(map(self._climb, begins), key=self._worth)

    @cached_property
    def _often(self) -> tuple[str, ...]:
        """The misconceptions that showed too often to be slips."""
        return tuple(n for n, times in self._showed.items() if n and times > TWICE)

    @cached_property
    def held(self) -> tuple[str, ...]:
        """The misconceptions clearly held and not put right lately, the strongest first."""
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
        """Yield explanations one step from the best, and by how much each is better than the best.

        Parameters
        ----------
        names
            The misconceptions that may be added.
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
        """Return, for each answer, the gain in log likelihood from one more misconception held."""
        more = held | {name}
        answers = [self._given[number] for number in self._where.get(name, ())]
        return [given.log_likelihood(more) - given.log_likelihood(held) for given in answers]

    def _gain(self, held: frozenset[str], name: str) -> float:
        """Return the gain of a set from one more misconception, less its price."""
        return sum(self._steps(held, name)) - (NEXT_HELD if held else FIRST_HELD)

    def _climb(self, held: frozenset[str], without: str = "") -> frozenset[str]:
        """Return the best explanation found by steps that add one, remove one, or do both."""
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
        """Return by how much the best explanation beats the best one without a misconception."""
        fewer = self.best - {name}
        other = self._climb(fewer, without=name)
        return self._worth(self.best) - self._worth(other)

    def _worth(self, held: frozenset[str]) -> float:
        return sum(given.log_likelihood(held) for given in self._given) - price(held)

    def _is_put_right(self, name: str) -> bool:
        """Tell whether the latest answers are evidence against a misconception held before."""
        lately = lowest = 0.0
        for step in reversed(self._steps(self.best - {name}, name)):
            lately += step
            lowest = min(lowest, lately)
        return lowest < -PUT_RIGHT


def _up_to_date(tries: Sequence[Attempt]) -> list[_Given]:
    """Return the answers that still count, in their order.

    A right answer counts against the misconceptions that its question foresees, a wrong one for
    those that it shows, as long as it is among the latest that do either.
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
