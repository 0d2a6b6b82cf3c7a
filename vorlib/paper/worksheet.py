"""A worksheet: its questions, drawn from a topic and a seed, and the code that restores them.

A sheet to hand out has a secret too. The questions depend on it and the sheet does not show it, so
nobody can print the key from the sheet alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from random import Random
from secrets import choice, randbelow

from vorlib.core.arguments import quoted
from vorlib.paper.sheet_code import (
    FIRST,
    LETTERS,
    LOCKED_MARK,
    OPEN_MARK,
    SheetCode,
    questions_mark,
)
from vorlib.practice.learning.topic import Topic
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import MAXIMUM_DRAWS, SEEDS, draw

__all__ = ["VARIANTS", "Worksheet", "new_secret", "new_seed", "read_secret", "whole_number"]

RANGES = {"count": (1, 100), "seed": (0, 999_999)}  # a longer seed would be tedious to type
LONGEST_NUMBER = 99  # digits; zeros may lead, but Python reads no more than 4,300
NEW_SEEDS = 9_999  # few digits to type
VARIANTS = "ABCD"  # four, so that neighbors at desks get different sheets
SECRET = re.compile("[A-Z0-9]{8,24}")  # 8 random letters give 23**8, or 78 billion, possibilities
NEW_SECRET = 8


def new_seed() -> int:
    """Return a random seed that is short to type."""
    return 1 + randbelow(NEW_SEEDS)


def new_secret() -> str:
    """Return a random secret."""
    return "".join(choice(LETTERS) for _ in range(NEW_SECRET))


def read_secret(words: str) -> str:
    """Return a typed secret, without regard to case, spaces and hyphens; empty for none.

    Raises
    ------
    ValueError
        If it is too short or too long, or has other characters.
    """
    plain = re.sub(r"[\s-]", "", words).upper()
    if plain and not SECRET.fullmatch(plain):
        raise ValueError(f"the secret must be 8 to 24 letters and figures, got {words!r}")
    return plain


def whole_number(name: str, words: str) -> int:
    """Return a number as typed for the "count" or the "seed" of a worksheet.

    Raises
    ------
    ValueError
        If it is not written in digits alone, or is out of range.
    """
    low, high = RANGES[name]
    digits = words.strip()
    if not digits.isdecimal() or len(digits) > LONGEST_NUMBER or not low <= int(digits) <= high:
        raise ValueError(f"the {name} must be {_range(name)}, got {quoted(words)}")
    return int(digits)


def _range(name: str) -> str:
    low, high = RANGES[name]
    return f"a whole number from {low} to {high:,}"


@dataclass(frozen=True)
class _Worksheet:
    topic: str
    count: int
    seed: int
    variant: str = FIRST
    swaps: tuple[int, ...] = ()
    secret: str = ""


class Worksheet(_Worksheet):
    """Different questions on a topic, spread as evenly as possible over its kinds of question.

    Parameters
    ----------
    topic
        As typed for `Topic.read`.
    count
        How many questions, 1 to 100.
    seed
        The same seed gives the same questions, 0 to 999,999.
    variant
        "A" to "D": the same kinds of question in the same order, with other numbers.
    swaps
        Numbers of questions to swap for others of their kind; a repeated number is swapped again.
    secret
        A secret on which the questions depend too; empty if the code alone restores them.

    Raises
    ------
    ValueError
        If there is no such topic or variant, or a number is out of range.
    """

    def __init__(
        self,
        topic: str,
        count: int,
        seed: int,
        variant: str = FIRST,
        swaps: Sequence[int] = (),
        secret: str = "",
    ) -> None:
        super().__init__(
            Topic.read(topic).name, count, seed, variant, tuple(sorted(swaps)), read_secret(secret)
        )
        for name, value in (("count", count), ("seed", seed)):
            low, high = RANGES[name]
            if not low <= value <= high:
                raise ValueError(f"the {name} must be {_range(name)}, got {value}")
        if variant not in VARIANTS or len(variant) != 1:
            raise ValueError(f"the variant must be one of {', '.join(VARIANTS)}, got {variant!r}")
        if not all(1 <= number <= count for number in swaps):
            raise ValueError(f"the swapped questions must be 1 to {count}, got {list(swaps)}")

    @classmethod
    def of_code(cls, words: str, secret: str = "") -> Worksheet:
        """Return the worksheet of a code.

        Parameters
        ----------
        words
            The code.
        secret
            The secret of the worksheet, if it has one.

        Raises
        ------
        ValueError
            If the code has a typing error, its secret is missing or wrong, or this version of
            vorlib draws other questions.
        """
        code = SheetCode.read(words)
        if code.is_locked and not secret:
            raise ValueError(
                f"the code {quoted(words)} makes its key only with the secret, which is on the "
                "key printed with the sheet"
            )
        secret = secret if code.is_locked else ""
        worksheet = cls(code.topic, code.count, code.seed, code.variant, code.swaps, secret)
        if worksheet.code != str(code):
            other = "the secret is wrong, the code" if code.is_locked else "it"
            raise ValueError(
                f"the code {quoted(words)} does not fit: {other} has a typing error in it, or "
                "another version of vorlib printed the sheet"
            )
        return worksheet

    def variants(self, count: int) -> tuple[Worksheet, ...]:
        """Return this sheet and others for neighbors, `count` in all.

        Raises
        ------
        ValueError
            If there are not that many variants.
        """
        if not 1 <= count <= len(VARIANTS):
            raise ValueError(f"the variants must be 1 to {len(VARIANTS)}, got {count}")
        return tuple(replace(self, variant=letter) for letter in VARIANTS[:count])

    @cached_property
    def questions(self) -> tuple[Question, ...]:
        """The questions, in the order of their numbers."""
        drawn = self._first_drawn()
        sheets = [drawn]
        for letter in VARIANTS[1 : VARIANTS.index(self.variant) + 1]:
            drawn = _others(drawn, self._chance(letter), sheets)
            sheets.append(drawn)
        for number in sorted(set(self.swaps)):
            chance = self._chance(f"{self.variant}/swap {number}")
            for _ in range(self.swaps.count(number)):
                drawn[number - 1] = _another(drawn[number - 1], chance, [*sheets, drawn])
        return tuple(drawn)

    @cached_property
    def code(self) -> str:
        """The code that restores the worksheet."""
        letters = LOCKED_MARK if self.secret else OPEN_MARK
        mark = questions_mark((question.spelled for question in self.questions), letters)
        return str(SheetCode(self.topic, self.count, self.seed, mark, self.variant, self.swaps))

    def _chance(self, part: str = "") -> Random:
        """Return the random source of a part of the sheet; without a name, of the first draw."""
        parts = filter(None, ("worksheet", self.topic, str(self.seed), self.secret, part))
        return Random("/".join(parts))

    def _first_drawn(self) -> list[Question]:
        """Return the questions of variant A before any swap."""
        drawn: list[Question] = []
        chance = self._chance()
        kinds = Topic.read(self.topic).kinds
        while len(drawn) < self.count:
            fresh = list(_round(kinds, chance, drawn))
            if not fresh:
                raise ValueError(
                    f"the count must be at most {len(drawn)}, got {self.count}: "
                    f"{self.topic} has no more different questions"
                )
            drawn += fresh
        return drawn[: self.count]


def _round(kinds: tuple[str, ...], chance: Random, drawn: list[Question]) -> Iterator[Question]:
    """Yield a new question of each kind that has one, in a shuffled order."""
    for kind in chance.sample(kinds, len(kinds)):
        question = _new(kind, chance, drawn)
        if question:
            yield question


def _new(kind: str, chance: Random, known: Sequence[Question]) -> Question | None:
    """Return a question of a kind that differs from the known ones, or None if none is found."""
    asked = [(q.prompt, q.figure) for q in known if q.kind == kind]
    for _ in range(MAXIMUM_DRAWS):
        question = draw(kind, chance.randrange(SEEDS))
        if (question.prompt, question.figure) not in asked:
            return question
    return None


def _others(
    questions: Sequence[Question], chance: Random, sheets: Sequence[Sequence[Question]]
) -> list[Question]:
    """Return, for each question, another of its kind that is on none of the sheets."""
    drawn: list[Question] = []
    for question in questions:
        drawn.append(_another(question, chance, [*sheets, drawn]))
    return drawn


def _another(question: Question, chance: Random, sheets: Sequence[Sequence[Question]]) -> Question:
    """Return another question of the same kind, or the same one if none is left."""
    known = [one for sheet in sheets for one in sheet]
    return _new(question.kind, chance, known) or question
