"""The code at the head of a worksheet: short enough to type, and it detects typing errors.

``05-20-7-KXR`` is the topic, the number of questions and the seed, then a check letter and two
letters that tell these questions from others. ``05-20-7B-3.12-KXRT`` is variant B with questions 3
and 12 swapped for others; four letters at the end mean that the code needs a secret.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable
from dataclasses import dataclass

from vorlib.core.arguments import quoted

__all__ = ["FIRST", "LETTERS", "LOCKED_MARK", "OPEN_MARK", "SheetCode", "questions_mark"]

LETTERS = "ABCDEFGHJKLMNPRSTUVWXYZ"  # without I, O and Q, which are easily misread; 23, a prime
SIGNS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ+-_."
_PATTERN = re.compile(
    r"(?P<topic>[A-Z0-9_+]+)-(?P<count>\d{1,6})-(?P<seed>\d{1,6})(?P<variant>[A-Z]?)"
    r"(?:-(?P<swaps>\d{1,3}(?:\.\d{1,3})*))?-(?P<check>[A-Z])(?P<mark>[A-Z]{2,3})"
)
OPEN_MARK, LOCKED_MARK = 2, 3  # letters
FIRST = "A"  # the variant that is not written


@dataclass(frozen=True)
class SheetCode:
    """The contents of a code.

    Attributes
    ----------
    topic, count, seed
        What the questions were drawn from.
    mark
        Letters from `questions_mark` that tell the questions from others: three if the code needs
        a secret, else two.
    variant, swaps
        The variant for a neighbor, and the numbers of the swapped questions, each repeated as
        often as it was swapped.
    """

    topic: str
    count: int
    seed: int
    mark: str
    variant: str = FIRST
    swaps: tuple[int, ...] = ()

    @property
    def is_locked(self) -> bool:
        """Whether the code needs a secret."""
        return len(self.mark) == LOCKED_MARK

    def __str__(self) -> str:
        variant = "" if self.variant == FIRST else self.variant
        swaps = f"-{'.'.join(map(str, self.swaps))}" if self.swaps else ""
        body = f"{self.topic.upper()}-{self.count}-{self.seed}{variant}{swaps}"
        return f"{body}-{_check_letter(body)}{self.mark}"

    @classmethod
    def read(cls, words: str) -> SheetCode:
        """Return the contents of a typed code; case and spaces do not matter.

        Raises
        ------
        ValueError
            If it is not a code, or has a typing error.
        """
        plain = words.replace("\N{EN DASH}", "-").replace("\N{MINUS SIGN}", "-").upper().strip()
        plain = re.sub(r"\s*([-+])\s*", r"\1", plain).replace(" ", "_")
        match = _PATTERN.fullmatch(plain)
        if match is None:
            raise ValueError(f"the code must be such as 05-20-7-KXR, got {quoted(words)}")
        body = plain.rpartition("-")[0]
        if _check_letter(body) != match["check"]:
            raise ValueError(
                f"the code {quoted(words)} has a typing error in it: type it as at the top of the "
                "sheet"
            )
        return cls(
            match["topic"].lower(),
            int(match["count"]),
            int(match["seed"]),
            match["mark"],
            match["variant"] or FIRST,
            tuple(map(int, match["swaps"].split("."))) if match["swaps"] else (),
        )


def questions_mark(texts: Iterable[str], letters: int = OPEN_MARK) -> str:
    """Return a short digest of texts, as letters."""
    digest = hashlib.sha256("\n".join(texts).encode()).digest()
    number = int.from_bytes(digest[:8])
    return "".join(LETTERS[number // 23**place % 23] for place in range(letters))


def _check_letter(body: str) -> str:
    """Return a check letter that changes with any one digit and with any two digits swapped.

    It is a weighted sum modulo a prime; each place has twice the weight of the next.
    """
    total = 0
    for sign in body:
        total = (2 * total + SIGNS.index(sign)) % len(LETTERS)
    return LETTERS[total]
