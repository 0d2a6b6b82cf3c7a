"""How well a learner knows each kind of question, and what to practice next.

Spaced repetition after Leitner: a kind is due again 1, 2, 4, 8 and at last 16 days after it was
right, one step further for each day on which it was right, and back to the start when it was not.
The doubling is common practice. Days are those of UTC, as in the record.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Literal

from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.learning.diagnosis import diagnose

RECENT = 100  # answers looked at for misconceptions
INTERVALS_DAYS = (0, 1, 2, 4, 8, 16)  # until a kind is due again, by days right in a row
LAST_STEP = len(INTERVALS_DAYS) - 1

State = Literal["not attempted", "wrong", "right"]


@dataclass(frozen=True)
class Mastery:
    """How a learner stands with a kind of question.

    Attributes
    ----------
    answered, right
        How many answers there were, and how many of them were right.
    last
        Day of the last one.
    days_right
        On how many days, counted up to 5, it was right without the solution since it was last
        close or wrong.
    """

    answered: int
    right: int
    last: date
    days_right: int

    @property
    def state(self) -> State:
        """Whether the kind has been right since it last went wrong."""
        return "right" if self.days_right else "wrong"

    @property
    def due(self) -> date:
        """Day on which the kind is due again."""
        return self.last + timedelta(days=INTERVALS_DAYS[min(self.days_right, LAST_STEP)])


@dataclass(frozen=True)
class Summary:
    """A learner's record in short.

    Attributes
    ----------
    by_kind
        How the learner stands with each kind of question answered so far, by its name.
    recent
        The latest answers, oldest first.
    """

    by_kind: Mapping[str, Mastery] = field(default_factory=dict)
    recent: tuple[Attempt, ...] = ()

    @property
    def answered(self) -> int:
        """How many answers there are."""
        return sum(one.answered for one in self.by_kind.values())

    def state(self, kind: str) -> State:
        """Return how a kind of question stands."""
        return self.by_kind[kind].state if kind in self.by_kind else "not attempted"


def agenda(summary: Summary, kinds: Sequence[str], today: date) -> tuple[str, ...]:
    """Return kinds of question in the order in which to practice them.

    First those that showed a misconception which the learner still holds, then what is due, the
    longest overdue first, then what was never attempted, then the rest as it comes due.
    """
    held = set(diagnose(summary.recent))
    showed = {attempt.kind for attempt in summary.recent if held & set(attempt.shown)}

    def urgency(kind: str) -> tuple[int, int]:
        if kind in showed:
            return 0, 0
        if kind not in summary.by_kind:
            return 2, 0
        days_left = (summary.by_kind[kind].due - today).days
        return (1 if days_left <= 0 else 3), days_left

    return tuple(sorted(kinds, key=urgency))
