"""A student's record of training: lessons, elements of the standard, misconceptions, flights.

It counts what was practiced and entered, and endorses nobody. Days are those of UTC.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, date
from functools import cache

from vorlib.practice.check_flight.report import CheckReport
from vorlib.practice.check_flight.session import CheckFlights
from vorlib.practice.classroom.results import Score, score
from vorlib.practice.classroom.teaching import LATELY
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.learning.diagnosis import diagnose, first_tries
from vorlib.practice.learning.lessons import lesson_title
from vorlib.practice.questions.registry import all_kinds, draw
from vorlib.practice.questions.standards import ELEMENTS
from vorlib.practice.record.exchange import Export
from vorlib.practice.record.record import Record
from vorlib.practice.training.entries import TrainingEntry, entries_of

__all__ = [
    "NO_ENDORSEMENT",
    "ElementResult",
    "HeldBelief",
    "LessonCovered",
    "TrainingRecord",
    "training_record",
    "training_record_of",
]

NO_ENDORSEMENT = (
    "This record is not an endorsement and signs nobody off. It says what was practiced on the "
    "ground. An instructor enters and signs what a rule requires, where the rule says."
)


@dataclass(frozen=True)
class LessonCovered:
    """A lesson: when it was taught, when its questions were practiced, and how that went.

    Attributes
    ----------
    number, title
        "05" and "Intercepting".
    taught
        The days it was taught, with what the instructor remarked.
    practiced
        The days on which questions of it were answered, in their order.
    score
        How many first tries were right.
    """

    number: str
    title: str
    taught: tuple[TrainingEntry, ...]
    practiced: tuple[date, ...]
    score: Score


@dataclass(frozen=True)
class ElementResult:
    """An element of the training standard: how many first tries were right, and lately."""

    code: str
    title: str
    score: Score
    lately: Score


@dataclass(frozen=True)
class HeldBelief:
    """A misconception that was held from a day on; `until` is when it was put right, or None."""

    name: str
    since: date
    until: date | None


@dataclass(frozen=True)
class TrainingRecord:
    """All that is known of a student's training.

    Attributes
    ----------
    student
        The name.
    lessons, elements, beliefs, flights, checks
        What was covered; results; misconceptions held and put right; flights debriefed; check
        flights handed in.
    score
        How many first tries were right in all.
    """

    student: str
    lessons: tuple[LessonCovered, ...]
    elements: tuple[ElementResult, ...]
    beliefs: tuple[HeldBelief, ...]
    flights: tuple[TrainingEntry, ...]
    checks: tuple[CheckReport, ...]
    score: Score

    @property
    def held(self) -> tuple[HeldBelief, ...]:
        """The misconceptions held now."""
        return tuple(belief for belief in self.beliefs if belief.until is None)

    @property
    def put_right(self) -> tuple[HeldBelief, ...]:
        """Those that were held once and no longer are, each as it was put right last."""
        last = {belief.name: belief for belief in self.beliefs}
        return tuple(belief for belief in last.values() if belief.until is not None)


def training_record_of(record: Record) -> TrainingRecord:
    """Return what a student's record on this machine holds.

    Raises
    ------
    RecordError
        If it cannot be read.
    """
    export = Export(record.learner, tuple(record.attempts()))
    return training_record(export, entries_of(record), CheckFlights(record).reports())


def training_record(
    export: Export,
    entries: Sequence[TrainingEntry] = (),
    checks: Sequence[CheckReport] = (),
) -> TrainingRecord:
    """Return the record of training that answers, entries and check flights make."""
    tries = first_tries(export.attempts)
    return TrainingRecord(
        export.learner,
        tuple(_lessons(tries, [entry for entry in entries if entry.what == "lesson"])),
        tuple(_elements(tries)),
        tuple(_beliefs(tries)),
        tuple(entry for entry in entries if entry.what == "flight"),
        tuple(checks),
        score(tries),
    )


def day_of(attempt: Attempt) -> date:
    """Return the day of an answer."""
    return attempt.answered_at.astimezone(UTC).date()


def _lessons(tries: Iterable[Attempt], taught: Sequence[TrainingEntry]) -> Iterable[LessonCovered]:
    """Yield the lessons taught or practiced; a question counts for the first lesson that asks it.

    Answers to questions that this vorlib no longer asks are left out.
    """
    answered: dict[str, list[Attempt]] = {entry.about: [] for entry in taught}
    for attempt in tries:
        if attempt.kind in all_kinds():
            lesson = min(all_kinds()[attempt.kind].lessons)
            answered.setdefault(lesson, []).append(attempt)
    for number, attempts in sorted(answered.items()):
        days = tuple(sorted(set(map(day_of, attempts))))
        of_it = tuple(entry for entry in taught if entry.about == number)
        yield LessonCovered(number, lesson_title(number), of_it, days, score(attempts))


def _elements(tries: Iterable[Attempt]) -> Iterable[ElementResult]:
    """Yield the elements that were asked, in the standard's order."""
    answered: dict[str, list[Attempt]] = {}
    for attempt in tries:
        if attempt.kind in all_kinds():
            answered.setdefault(element_of(attempt.kind), []).append(attempt)
    for code, title in ELEMENTS.items():
        if attempts := answered.get(code):
            yield ElementResult(code, title, score(attempts), score(attempts[-LATELY:]))


@cache
def element_of(kind: str) -> str:
    """Return the element of the standard that a kind of question serves: all of it serve one."""
    return draw(kind, 1).element


def _beliefs(tries: Sequence[Attempt]) -> Iterable[HeldBelief]:
    """Yield what was held at the end of each day: since when, and from when no longer."""
    since: dict[str, date] = {}
    for day in sorted(set(map(day_of, tries))):
        held = diagnose([attempt for attempt in tries if day_of(attempt) <= day])
        for name in [name for name in since if name not in held]:
            yield HeldBelief(name, since.pop(name), day)
        since |= {name: day for name in held if name not in since}
    for name, begun in since.items():
        yield HeldBelief(name, begun, None)
