"""An answer that a learner gave: when, to which question, and what it showed."""

from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Literal, get_args
from uuid import uuid4

Mark = Literal["right", "close", "wrong"]
"""The mark of an answer that made sense."""

HINTS = 3  # each question has three
SOLUTION_SHOWN = HINTS + 1  # as if it were a fourth hint
SEPARATOR = "|"  # between names where several stand in one text; no name has one in it
YEARS = range(1970, 3000)  # a computer whose clock was never set is in 1970


def _now() -> datetime:
    return datetime.now(UTC)


def _new_key() -> str:
    return str(uuid4())


@dataclass(frozen=True)
class Attempt:
    """One answer.

    Attributes
    ----------
    kind, seed
        The question: `vorlib.practice.draw` makes it again.
    verdict
        "right", "close" or "wrong".
    misconception
        Name of the misconception behind it, or names with "|" between where several would lead to
        it; empty when there is none or it was not foreseen.
    foreseen
        Names of the misconceptions which the question would have shown.
    hints
        How many hints were shown before the answer: 0 to 3, and 4 with the solution.
    taken_s
        Seconds from the question to the answer.
    answered_at
        Moment of the answer, with its time zone.
    key
        Unlike that of every other answer, so that none is ever kept twice.

    Raises
    ------
    ValueError
        If a value cannot be: the message names it.
    """

    kind: str
    seed: int
    verdict: Mark
    misconception: str = ""
    foreseen: tuple[str, ...] = ()
    hints: int = 0
    taken_s: float = 0.0
    answered_at: datetime = field(default_factory=_now)
    key: str = field(default_factory=_new_key)

    def __post_init__(self) -> None:
        for name, value in (("kind", self.kind), ("key", self.key)):
            if not value:
                raise ValueError(f"{name} must not be empty")
        for value in (self.kind, self.key, *self.misconception.split(SEPARATOR), *self.foreseen):
            if not value.isprintable() or SEPARATOR in value:
                raise ValueError(f"a name must be one line without {SEPARATOR!r}, got {value!r}")
        if self.verdict not in get_args(Mark):
            raise ValueError(
                f"verdict must be one of {', '.join(get_args(Mark))}, got {self.verdict!r}"
            )
        if not 0 <= self.seed < 2**63:
            raise ValueError(f"seed must be 0 or more and below 2**63, got {self.seed}")
        if not 0 <= self.hints <= SOLUTION_SHOWN:
            raise ValueError(f"hints must be 0 to {SOLUTION_SHOWN}, got {self.hints}")
        if not 0.0 <= self.taken_s < float("inf"):
            raise ValueError(f"taken_s must be 0 or more seconds, got {self.taken_s}")
        if self.answered_at.tzinfo is None or self.answered_at.year not in YEARS:
            raise ValueError(
                f"answered_at must have a time zone and a year from {YEARS[0]} to {YEARS[-1]}, "
                f"got {self.answered_at.isoformat()}"
            )

    @property
    def shown(self) -> tuple[str, ...]:
        """Names of the misconceptions that would each lead to the answer."""
        return tuple(self.misconception.split(SEPARATOR)) if self.misconception else ()
