"""Progress over time: how many first answers were right, by day or by week.

Days are those of UTC, as in the record; a week begins on its Monday.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, timedelta
from typing import Literal

from vorlib.practice.classroom.results import ClassResults, Learner, Score, score
from vorlib.practice.learning.attempt import Attempt

Span = Literal["day", "week"]


@dataclass(frozen=True)
class ProgressPeriod:
    """A day or a week: when it began, and how many first answers were right in it."""

    begin: date
    score: Score


def class_progress(results: ClassResults, by: Span = "week") -> tuple[ProgressPeriod, ...]:
    """Return the days or weeks in which anybody practiced, the earliest first."""
    return _periods((a for one in results.learners for a in one.first_tries), by)


def learner_progress(learner: Learner, by: Span = "week") -> tuple[ProgressPeriod, ...]:
    """Return the days or weeks in which one learner practiced, the earliest first."""
    return _periods(learner.first_tries, by)


def _periods(attempts: Iterable[Attempt], by: Span) -> tuple[ProgressPeriod, ...]:
    groups: dict[date, list[Attempt]] = {}
    for attempt in attempts:
        groups.setdefault(_begin(attempt, by), []).append(attempt)
    return tuple(ProgressPeriod(begin, score(group)) for begin, group in sorted(groups.items()))


def _begin(attempt: Attempt, by: Span) -> date:
    day = attempt.answered_at.astimezone(UTC).date()
    return day if by == "day" else day - timedelta(days=day.weekday())
