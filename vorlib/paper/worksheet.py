"""A worksheet: its questions, drawn from a topic and a seed, and the code that finds them again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from random import Random
from secrets import randbelow

from vorlib.core.arguments import quoted
from vorlib.paper.sheet_code import SheetCode, questions_mark
from vorlib.practice.learning.topic import Topic
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import MAXIMUM_DRAWS, SEEDS, draw

__all__ = ["Worksheet", "new_seed", "whole_number"]

RANGES = {"count": (1, 100), "seed": (0, 999_999)}  # a longer seed would be a burden to type
NEW_SEEDS = 9_999  # few figures to type


def new_seed() -> int:
    """Return a seed by chance, short to type."""
    return 1 + randbelow(NEW_SEEDS)


def whole_number(name: str, words: str) -> int:
    """Return the number that is written, for the "count" or the "seed" of a worksheet."""
    if not words.strip().isdecimal():
        raise ValueError(f"the {name} must be {_range(name)}, got {words!r}")
    return int(words)


def _range(name: str) -> str:
    low, high = RANGES[name]
    return f"a whole number from {low} to {high:,}"


@dataclass(frozen=True)
class _Worksheet:
    topic: str
    count: int
    seed: int


class Worksheet(_Worksheet):
    """Questions on a topic, none twice, of each kind as many as of any other or one more or less.

    Parameters
    ----------
    topic
        In words, as `Topic.read` takes them.
    count
        How many questions, 1 to 100.
    seed
        The same seed gives the same questions, 0 to 999,999.

    Raises
    ------
    ValueError
        If there is no such topic, or a number is out of range.
    """

    def __init__(self, topic: str, count: int, seed: int) -> None:
        super().__init__(Topic.read(topic).name, count, seed)
        for name, value in (("count", count), ("seed", seed)):
            low, high = RANGES[name]
            if not low <= value <= high:
                raise ValueError(f"the {name} must be {_range(name)}, got {value}")

    @classmethod
    def of_code(cls, words: str) -> Worksheet:
        """Return the worksheet that has a code at its head.

        Raises
        ------
        ValueError
            If the code is mistyped, or if this version of vorlib draws other questions.
        """
        code = SheetCode.read(words)
        worksheet = cls(code.topic, code.count, code.seed)
        if worksheet.code != str(code):
            raise ValueError(
                f"the code {quoted(words)} belongs to other questions than these: it has a slip of "
                "typing in it, or another version of vorlib printed the sheet"
            )
        return worksheet

    @cached_property
    def questions(self) -> tuple[Question, ...]:
        """The questions, in the order of their numbers."""
        drawn: list[Question] = []
        chance = Random(f"worksheet/{self.topic}/{self.seed}")
        kinds = Topic.read(self.topic).kinds
        while len(drawn) < self.count:
            fresh = list(_round(kinds, chance, drawn))
            if not fresh:
                raise ValueError(
                    f"the count must be at most {len(drawn)}, got {self.count}: "
                    f"{self.topic} has no more different questions"
                )
            drawn += fresh
        return tuple(drawn[: self.count])

    @cached_property
    def code(self) -> str:
        """By which the worksheet is found again."""
        mark = questions_mark(question.spelled for question in self.questions)
        return str(SheetCode(self.topic, self.count, self.seed, mark))


def _round(kinds: tuple[str, ...], chance: Random, drawn: list[Question]) -> Iterator[Question]:
    """Yield a new question of each kind that has one, in a shuffled order."""
    for kind in chance.sample(kinds, len(kinds)):
        known = [(q.prompt, q.figure) for q in drawn if q.kind == kind]
        for _ in range(MAXIMUM_DRAWS):
            question = draw(kind, chance.randrange(SEEDS))
            if (question.prompt, question.figure) not in known:
                yield question
                break
