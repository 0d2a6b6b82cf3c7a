"""A worksheet: its questions, drawn from a topic and a seed, and the code that finds them again.

For a sheet that is handed out a secret is drawn as well. The questions depend on it and the sheet
does not show it, so that the key cannot be made from the sheet.
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

RANGES = {"count": (1, 100), "seed": (0, 999_999)}  # a longer seed would be a burden to type
NEW_SEEDS = 9_999  # few figures to type
VARIANTS = "ABCD"  # neighbors to the left and right, in front and behind
SECRET = re.compile("[A-Z0-9]{8,24}")  # 8 letters by chance are 23**8, 78 thousand million
NEW_SECRET = 8


def new_seed() -> int:
    """Return a seed by chance, short to type."""
    return 1 + randbelow(NEW_SEEDS)


def new_secret() -> str:
    """Return a secret by chance."""
    return "".join(choice(LETTERS) for _ in range(NEW_SECRET))


def read_secret(words: str) -> str:
    """Return the secret that is typed, whatever its capitals, spaces and hyphens; empty for none.

    Raises
    ------
    ValueError
        If it is too short to be one, too long, or has other signs.
    """
    plain = re.sub(r"[\s-]", "", words).upper()
    if plain and not SECRET.fullmatch(plain):
        raise ValueError(f"the secret must be 8 to 24 letters and figures, got {words!r}")
    return plain


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
    variant: str = FIRST
    swaps: tuple[int, ...] = ()
    secret: str = ""


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
    variant
        "A" to "D": the same kinds of question in the same order, with other numbers.
    swaps
        Numbers of questions to be swapped for others of their kind, one as often as it is there.
    secret
        What the questions depend on besides; empty for a sheet whose code alone finds them.

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
        """Return the worksheet that has a code at its head.

        Parameters
        ----------
        words
            The code.
        secret
            The secret that belongs to it, if one does.

        Raises
        ------
        ValueError
            If the code is mistyped, its secret is missing or another one, or this version of vorlib
            draws other questions.
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
        """Return this sheet and those for its neighbors, so many in all.

        Raises
        ------
        ValueError
            If there are not so many.
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
        """The code by which the worksheet is found again."""
        letters = LOCKED_MARK if self.secret else OPEN_MARK
        mark = questions_mark((question.spelled for question in self.questions), letters)
        return str(SheetCode(self.topic, self.count, self.seed, mark, self.variant, self.swaps))

    def _chance(self, part: str = "") -> Random:
        """Return the source of chance of a part of the sheet; without a name, of its first draw."""
        parts = filter(None, ("worksheet", self.topic, str(self.seed), self.secret, part))
        return Random("/".join(parts))

    def _first_drawn(self) -> list[Question]:
        """Return the questions of the first variant before any is swapped."""
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
    """Return a question of a kind that is not known yet, if one comes up."""
    asked = [(q.prompt, q.figure) for q in known if q.kind == kind]
    for _ in range(MAXIMUM_DRAWS):
        question = draw(kind, chance.randrange(SEEDS))
        if (question.prompt, question.figure) not in asked:
            return question
    return None


def _others(
    questions: Sequence[Question], chance: Random, sheets: Sequence[Sequence[Question]]
) -> list[Question]:
    """Return for each question another of its kind, that stands on none of the sheets."""
    drawn: list[Question] = []
    for question in questions:
        drawn.append(_another(question, chance, [*sheets, drawn]))
    return drawn


def _another(question: Question, chance: Random, sheets: Sequence[Sequence[Question]]) -> Question:
    """Return another question of the same kind; the same one where there is none left."""
    known = [one for sheet in sheets for one in sheet]
    return _new(question.kind, chance, known) or question
