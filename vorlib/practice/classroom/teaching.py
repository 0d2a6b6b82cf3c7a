"""Decide what to do about a class's results: what to teach again, and whom to help first."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from vorlib.practice.classroom.results import (
    ClassFinding,
    ClassResults,
    Learner,
    Score,
    is_right,
    score,
)
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import all_kinds, draw

LATELY = 20  # first answers that say how a learner does now
ENOUGH = 10  # fewer say too little
NOBODY_OF = 3  # learners asked, before "nobody was right" means anything


@dataclass(frozen=True)
class TeachAgain:
    """A misconception to come back to.

    Attributes
    ----------
    misconception
        Its name.
    held_by, showed_by
        Names of the learners who hold it, and of those who showed it without holding it.
    asked
        How many learners were asked what could show it.
    lesson
        Number of the lesson to go back to: the first with the kind of question that showed it most.
    why_tempting, look_again
        Why it is easily made, and what to look at again.
    question
        A question of that kind that showed it. It is None, and the three above are empty, if this
        vorlib no longer has such a question.
    """

    misconception: str
    held_by: tuple[str, ...]
    showed_by: tuple[str, ...]
    asked: int
    lesson: str = ""
    why_tempting: str = ""
    look_again: str = ""
    question: Question | None = None


@dataclass(frozen=True)
class NeedsYou:
    """A learner to help: the misconceptions held, and how many of the latest were right."""

    learner: str
    holds: tuple[str, ...]
    lately: Score


@dataclass(frozen=True)
class NobodyRight:
    """A question that nobody got right at the first try, and to how many it was put."""

    kind: str
    seed: int
    asked: int
    question: Question | None


def teach_again(results: ClassResults) -> tuple[TeachAgain, ...]:
    """Return the misconceptions that somebody holds, the most widely held first."""
    return tuple(
        _teach(results, name)
        for name in results.misconceptions
        if results.who(name, ClassFinding.HOLDS)
    )


def needs_you(results: ClassResults) -> tuple[NeedsYou, ...]:
    """Return the learners who hold a misconception or are mostly wrong, the neediest first."""
    learners = [NeedsYou(one.name, one.holds, lately(one)) for one in results.learners]
    needy = [
        one
        for one in learners
        if one.holds or (one.lately.answered >= ENOUGH and one.lately.share < 0.5)
    ]
    return tuple(sorted(needy, key=lambda one: (-len(one.holds), one.lately.share)))


def too_little(results: ClassResults) -> tuple[tuple[str, int], ...]:
    """Return the learners of whom nothing can be said yet, with how many questions they tried."""
    counts = [(one.name, len(one.first_tries)) for one in results.learners]
    return tuple((name, tried) for name, tried in counts if tried < ENOUGH)


def lately(learner: Learner) -> Score:
    """Return how many of a learner's latest first answers were right."""
    return score(learner.first_tries[-LATELY:])


def nobody_right(results: ClassResults) -> tuple[NobodyRight, ...]:
    """Return the questions put to 3 learners or more that none got right, the most asked first."""
    asked: Counter[tuple[str, int]] = Counter()
    right = set()
    for attempt in _first_tries(results):
        asked[attempt.kind, attempt.seed] += 1
        if is_right(attempt):
            right.add((attempt.kind, attempt.seed))
    return tuple(
        NobodyRight(kind, seed, times, question_of(kind, seed))
        for (kind, seed), times in asked.most_common()
        if times >= NOBODY_OF and (kind, seed) not in right
    )


def question_of(kind: str, seed: int) -> Question | None:
    """Return the question that was asked, or None if this vorlib has no such kind any longer."""
    return draw(kind, seed) if kind in all_kinds() else None


def _teach(results: ClassResults, name: str) -> TeachAgain:
    about = (
        results.who(name, ClassFinding.HOLDS),
        results.who(name, ClassFinding.SHOWED),
        results.asked(name),
    )
    showing = [attempt for attempt in _first_tries(results) if name in attempt.shown]
    often = Counter(attempt.kind for attempt in showing)
    for attempt in sorted(showing, key=lambda one: -often[one.kind]):
        question = question_of(attempt.kind, attempt.seed)
        if question and (misconception := _misconception(question, name)):
            lesson = min(all_kinds()[attempt.kind].lessons)
            why, where = misconception.why_tempting, misconception.look_again
            return TeachAgain(name, *about, lesson, why, where, question)
    return TeachAgain(name, *about)


def _misconception(question: Question, name: str) -> Misconception | None:
    return next((m for m in question.misconceptions if m.name == name), None)


def _first_tries(results: ClassResults) -> Iterator[Attempt]:
    for learner in results.learners:
        yield from learner.first_tries
