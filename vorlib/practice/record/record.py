"""A learner's record: every answer given, in one file of the learner's own that stays here.

An answer is on the disk before `Record.add` returns. Answers are only ever added: the file itself
refuses to change or drop one. The way out is `Record.delete`, which removes the file.
"""

import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

from vorlib.io.sqlite import Store, StoreError
from vorlib.practice.learning.attempt import SEPARATOR, SOLUTION_SHOWN, Attempt
from vorlib.practice.learning.mastery import LAST_STEP, RECENT, Mastery, Summary
from vorlib.practice.questions.misconceptions import present_names
from vorlib.practice.record.exchange import Export
from vorlib.practice.record.learner import PREFIX, SUFFIX, default_folder, file_name, tidy_name
from vorlib.practice.record.schema import APPLICATION_ID, STEPS

COLUMNS = "key, answered_at, kind, seed, verdict, misconception, hints, taken_s, foreseen"

# Of each kind: how many answers, how many right, when the last one was, and on how many days, up to
# the last step of the intervals, it was right without the solution since it last was not right.
MASTERIES = f"""
WITH marks AS (
    SELECT kind, verdict, COUNT(*) AS times, MAX(answered_at) AS last_at
    FROM answer GROUP BY kind, verdict
), kinds AS (
    SELECT kind, SUM(times) AS answered,
           SUM(CASE WHEN verdict = 'right' THEN times ELSE 0 END) AS rights,
           MAX(last_at) AS last_at,
           MAX(CASE WHEN verdict = 'right' THEN '' ELSE last_at END) AS wrong_at
    FROM marks GROUP BY kind
)
SELECT kind, answered, rights, last_at, (
    SELECT COUNT(*) FROM (
        SELECT DISTINCT substr(answered_at, 1, 10) FROM answer
        WHERE answer.kind = kinds.kind AND verdict = 'right' AND answered_at > wrong_at
          AND hints < {SOLUTION_SHOWN} LIMIT {LAST_STEP}
    )
) FROM kinds ORDER BY kind
"""


class RecordError(StoreError):
    """A record could not be read or written; what was in it is still there."""


class Record:
    """The record of one learner, in a file which is made with the first answer.

    Parameters
    ----------
    learner
        The learner's name; capitals make no difference.
    folder
        Where records lie; None for the user's own data folder.

    Raises
    ------
    ValueError
        If the name cannot be one; the message says what is allowed.
    """

    def __init__(self, learner: str, folder: str | Path | None = None) -> None:
        self.learner = tidy_name(learner)
        self.path = (default_folder() if folder is None else Path(folder)) / file_name(learner)
        self.store = _store(self.path)

    def add(self, *attempts: Attempt) -> int:
        """Add answers, all or none, and return how many are new; then they are on the disk.

        An answer that is there already, by its key, is not added again.

        Raises
        ------
        RecordError
            If they cannot be written: nothing was added and nothing lost.
        """
        with self.writing() as database:
            added = insert(database, attempts)
        return added

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """Give a transaction to write in, in a file that holds the learner's name.

        Raises
        ------
        RecordError
            If it cannot be written: nothing was added and nothing lost.
        """
        with self.store.writing() as database:
            if database.execute("SELECT COUNT(*) FROM learner").fetchone() == (0,):
                database.execute("INSERT INTO learner VALUES (?)", (self.learner,))
            yield database

    def attempts(self) -> list[Attempt]:
        """Return every answer in the order of time; none when there is no file yet.

        Raises
        ------
        RecordError
            If the file cannot be read.
        """
        with self.store.reading() as database:
            return [] if database is None else _attempts(database, limit=-1)

    def summary(self) -> Summary:
        """Return how the learner stands, counted where the answers lie.

        Raises
        ------
        RecordError
            If the file cannot be read.
        """
        with self.store.reading() as database:
            if database is None:
                return Summary()
            rows = database.execute(MASTERIES)
            return Summary(
                {
                    kind: Mastery(answered, right, _day(last_at), days_right)
                    for kind, answered, right, last_at, days_right in rows
                },
                tuple(_attempts(database, limit=RECENT)),
            )

    def bring_in(self, export: Export) -> int:
        """Add the answers of an export, all or none, and return how many are new.

        Raises
        ------
        ValueError
            If it is that of another learner.
        RecordError
            If the record cannot be written.
        """
        if file_name(export.learner) != self.path.name:
            raise ValueError(f"learner must be {self.learner}, got the answers of {export.learner}")
        return self.add(*export.attempts)

    def delete(self) -> None:
        """Remove the learner's file and all that is in it.

        Raises
        ------
        RecordError
            If it cannot be removed.
        """
        try:
            # the journal last: SQLite drops a journal whose file is gone
            self.path.unlink(missing_ok=True)
            self.path.with_name(f"{self.path.name}-journal").unlink(missing_ok=True)
        except OSError as error:
            raise RecordError(f"the record {self.path} could not be deleted: {error}") from error


def insert(database: sqlite3.Connection, attempts: Iterable[Attempt]) -> int:
    """Add answers within a transaction and return how many are new."""
    marks = ", ".join("?" * len(COLUMNS.split(",")))
    statement = f"INSERT INTO answer ({COLUMNS}) VALUES ({marks}) ON CONFLICT (key) DO NOTHING"
    before = database.total_changes
    database.executemany(statement, [_row(attempt) for attempt in attempts])
    return database.total_changes - before


def learners(folder: str | Path | None = None) -> list[str]:
    """Return the names of the learners who have a record, in their order.

    Raises
    ------
    RecordError
        If a record cannot be read.
    """
    names = []
    where = default_folder() if folder is None else Path(folder)
    for path in where.glob(f"{PREFIX}*{SUFFIX}"):
        with _store(path).reading() as database:
            if database is not None:
                names += [name for (name,) in database.execute("SELECT name FROM learner")]
    return sorted(names, key=str.casefold)


def _store(path: Path) -> Store:
    return Store(path, "record", "practice", APPLICATION_ID, STEPS, RecordError)


def _row(attempt: Attempt) -> tuple[Any, ...]:
    return (
        attempt.key,
        # in one zone and of one width, so that sorting the text sorts the times
        attempt.answered_at.astimezone(UTC).isoformat(timespec="microseconds"),
        attempt.kind,
        attempt.seed,
        attempt.verdict,
        attempt.misconception,
        attempt.hints,
        attempt.taken_s,
        SEPARATOR.join(attempt.foreseen),
    )


def _attempts(database: sqlite3.Connection, limit: int) -> list[Attempt]:
    """Return the latest answers, oldest first; a limit below 0 is none."""
    rows: Iterable[tuple[Any, ...]] = database.execute(
        f"SELECT {COLUMNS} FROM answer ORDER BY answered_at DESC, number DESC LIMIT ?", (limit,)
    )
    return [
        Attempt(
            kind,
            seed,
            verdict,
            SEPARATOR.join(_names(misconception)),
            _names(foreseen),
            hints,
            taken_s,
            datetime.fromisoformat(str(answered_at)),
            key,
        )
        for key, answered_at, kind, seed, verdict, misconception, hints, taken_s, foreseen in rows
    ][::-1]


def _names(text: str) -> tuple[str, ...]:
    """Return the misconceptions that a text names, as they are called now."""
    return present_names(text.split(SEPARATOR)) if text else ()


def _day(answered_at: str) -> date:
    return date.fromisoformat(str(answered_at)[:10])  # in a damaged file it may be empty
