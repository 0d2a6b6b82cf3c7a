"""What an instructor enters into a student's record: lessons taught, flights debriefed.

The entries lie in the file of the student's answers, and go with it when the record is deleted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Literal, get_args
from uuid import uuid4

from vorlib.practice.learning.lessons import NOTEBOOKS
from vorlib.practice.record.record import Record

__all__ = ["TrainingEntry", "add_entries", "entries_of", "flight_debriefed", "lesson_taught"]

What = Literal["lesson", "flight"]
LONGEST = 300  # characters of a remark


def _new_key() -> str:
    return str(uuid4())


@dataclass(frozen=True)
class TrainingEntry:
    """One thing done with a student.

    Attributes
    ----------
    day
        When.
    what
        "lesson" for one taught, "flight" for one debriefed.
    about
        The number of the lesson, or what the flight is called.
    remark
        What the instructor wants to be kept with it; may be empty.
    key
        Unlike that of every other entry.

    Raises
    ------
    ValueError
        If there is nothing to say what was done, or a text is too long or more than a line.
    """

    day: date
    what: What
    about: str
    remark: str = ""
    key: str = field(default_factory=_new_key)

    def __post_init__(self) -> None:
        if self.what not in get_args(What):
            raise ValueError(f"what was done must be a lesson or a flight, got {self.what!r}")
        if not self.about.strip():
            raise ValueError(f"say which {self.what} it was")
        for words in (self.about, self.remark):
            if not words.isprintable() or len(words) > LONGEST:
                raise ValueError(f"an entry is one line of at most {LONGEST} characters")


def lesson_taught(number: str, day: date, remark: str = "") -> TrainingEntry:
    """Return the entry of a lesson taught, by its number such as "05" or "5".

    Raises
    ------
    ValueError
        If there is no such lesson.
    """
    wanted = number.strip().zfill(2)
    if wanted not in NOTEBOOKS:
        raise ValueError(f"the lesson must be one of {', '.join(NOTEBOOKS)}, got {number!r}")
    return TrainingEntry(day, "lesson", wanted, remark)


def flight_debriefed(name: str, start: datetime | None, found: Sequence[str]) -> TrainingEntry:
    """Return the entry of a recorded flight, with as much of what was found as an entry holds.

    Parameters
    ----------
    name
        What the recording is called.
    start
        When the flight began; None where the recording does not say, and then it is today's.
    found
        What was found in it, in sentences.
    """
    remark = ""
    for sentence in found:
        longer = f"{remark} {sentence}".strip()
        if len(longer) > LONGEST:
            break
        remark = longer
    day = start.date() if start else date.today()
    return TrainingEntry(day, "flight", name, remark)


def add_entries(record: Record, *entries: TrainingEntry) -> None:
    """Add entries to a student's record, all or none.

    Raises
    ------
    RecordError
        If they cannot be written.
    """
    rows = [(e.key, e.day.isoformat(), e.what, e.about, e.remark) for e in entries]
    with record.writing() as database:
        database.executemany(
            "INSERT INTO training (key, day, what, about, remark) VALUES (?, ?, ?, ?, ?) "
            "ON CONFLICT (key) DO NOTHING",
            rows,
        )


def entries_of(record: Record) -> tuple[TrainingEntry, ...]:
    """Return the entries of a student's record, the earliest day first.

    Raises
    ------
    RecordError
        If the record cannot be read.
    """
    with record.store.reading() as database:
        if database is None:
            return ()
        rows = database.execute(
            "SELECT day, what, about, remark, key FROM training ORDER BY day, number"
        )
        return tuple(
            TrainingEntry(date.fromisoformat(day), what, about, remark, key)
            for day, what, about, remark, key in rows
        )
