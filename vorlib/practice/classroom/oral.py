"""Draw questions to ask a class aloud, by lesson, element or misconception, weak points first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from random import Random

from vorlib.practice.classroom.results import ClassResults, score
from vorlib.practice.classroom.teaching import teach_again
from vorlib.practice.learning.topic import Topic
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import MAXIMUM_DRAWS, SEEDS, all_kinds, draw
from vorlib.practice.questions.standards import ELEMENTS

__all__ = ["MOST_ASKED", "OralQuestion", "OralSubject", "beliefs_by_kind", "oral_questions"]

MOST_ASKED = 20  # questions, more than a class has patience for
LOOKED_AT = 20  # draws of a kind, to see which misconceptions it can show
OF_EACH = 2  # questions on each weak point


@dataclass(frozen=True)
class OralSubject:
    """What is asked about.

    Attributes
    ----------
    words
        As they were read.
    kinds
        Kinds of question that are asked.
    belief
        The misconception that each question must be able to show; empty for any.
    """

    words: str
    kinds: tuple[str, ...]
    belief: str = ""

    @classmethod
    def read(cls, words: str) -> OralSubject:
        """Return the subject that is meant.

        Parameters
        ----------
        words
            The code of an element, the name of a misconception, or a topic as `Topic.read` takes
            it: lessons, a kind of question, or "all".

        Raises
        ------
        ValueError
            If there is no such subject.
        """
        if words in ELEMENTS:
            kinds = (kind for kind in all_kinds() if draw(kind, 1).element == words)
            return cls(words, tuple(kinds))
        showing = tuple(kind for kind, names in beliefs_by_kind().items() if words in names)
        if showing:
            return cls(words, showing, words)
        return cls(words, Topic.read(words).kinds)


@dataclass(frozen=True)
class OralQuestion:
    """A question, and why it was drawn, such as a widely held misconception; may be empty."""

    question: Question
    why: str = ""


@cache
def beliefs_by_kind() -> Mapping[str, frozenset[str]]:
    """Return of each kind of question the misconceptions that it can show."""
    return {
        kind: frozenset(name for seed in range(LOOKED_AT) for name in draw(kind, seed).foreseen)
        for kind in all_kinds()
    }


def oral_questions(
    subject: OralSubject, seed: int, results: ClassResults | None = None, count: int = MOST_ASKED
) -> tuple[OralQuestion, ...]:
    """Return questions to ask aloud, none twice.

    Parameters
    ----------
    subject
        What they are about.
    seed
        Another seed gives other questions.
    results
        Those of the class: then its own weak points come first, the most widely held before the
        others, and after them the kinds of question that it was right in least often.
    count
        How many, at most.
    """
    chance = Random(f"oral/{subject.words}/{seed}")
    asked: list[OralQuestion] = []
    for belief, why in _weak_points(subject, results):
        kinds = [kind for kind in subject.kinds if belief in beliefs_by_kind()[kind]]
        for kind in chance.sample(kinds, min(OF_EACH, len(kinds))):
            asked += _drawn(kind, belief, why, chance, asked)
    order = _weakest_first(subject.kinds, results, chance)
    while len(asked) < count:
        fresh = [one for kind in order for one in _drawn(kind, subject.belief, "", chance, asked)]
        if not fresh:
            break
        asked += fresh
    return tuple(asked[:count])


def _weak_points(subject: OralSubject, results: ClassResults | None) -> Iterator[tuple[str, str]]:
    """Yield the misconceptions of the class that the subject can show, and how many hold each."""
    showable = frozenset[str]().union(*(beliefs_by_kind()[kind] for kind in subject.kinds))
    for again in teach_again(results) if results else ():
        if again.misconception in showable and subject.belief in ("", again.misconception):
            held = f"{len(again.held_by)} of {again.asked} in the class hold it"
            yield again.misconception, f"{again.misconception}: {held}"


def _weakest_first(
    kinds: tuple[str, ...], results: ClassResults | None, chance: Random
) -> list[str]:
    """Return the kinds in a shuffled order, those the class was least often right in first."""
    shuffled = chance.sample(kinds, len(kinds))
    if results is None:
        return shuffled
    tries = [attempt for one in results.learners for attempt in one.first_tries]
    shares = {kind: score(a for a in tries if a.kind == kind) for kind in kinds}
    return sorted(shuffled, key=lambda kind: shares[kind].share if shares[kind].answered else 1.0)


def _drawn(
    kind: str, belief: str, why: str, chance: Random, asked: list[OralQuestion]
) -> list[OralQuestion]:
    """Return a new question of a kind that can show a misconception, or none where none is left."""
    prompts = {(one.question.prompt, one.question.figure) for one in asked}
    for _ in range(MAXIMUM_DRAWS):
        question = draw(kind, chance.randrange(SEEDS))
        is_new = (question.prompt, question.figure) not in prompts
        if is_new and (not belief or belief in question.foreseen):
            return [OralQuestion(question, why)]
    return []
