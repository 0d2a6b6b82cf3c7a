"""A small local log of receiver checks: one SQLite file, in which an acknowledged entry stays.

Each entry is one transaction with SQLite's rollback journal, on the disk before `add` returns. Not
a write-ahead log, because without one the log is a single file, also in a network folder.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import date
from pathlib import Path
from typing import Any

import platformdirs

from vorlib.receiver_checks import LogEntry

CAUTION = (
    "For training on the ground, not for navigation: this page is an exercise, and the legal\n"
    "log is the operator's own. Current charts and publications, local rules and a licensed\n"
    "instructor come first."
)

APPLICATION_ID = 0x564F524C  # "VORL" in the file's header tells a log from other databases
SCHEMA_VERSION = 1
SCHEMA = """
CREATE TABLE entry (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    made_on TEXT NOT NULL,
    place TEXT NOT NULL,
    kind TEXT NOT NULL,
    error_deg REAL NOT NULL,
    signature TEXT NOT NULL,
    written_on TEXT NOT NULL,
    rules TEXT NOT NULL
)
"""
COLUMNS = "made_on, place, kind, error_deg, signature, written_on, rules"
WAIT_S = 10.0  # for another process that is writing


class CheckLogError(OSError):
    """The log could not be read or written; what was in it is still there."""


def default_path() -> Path:
    """Return where the log lies when no path is given: the user's own data folder."""
    return platformdirs.user_data_path("vorlib") / "receiver_checks.sqlite3"


class CheckLog:
    """The log in one file, which is made when the first entry is added.

    Parameters
    ----------
    path
        The file; None for `default_path`.
    """

    def __init__(self, path: str | Path | None = None) -> None:
        self.path = default_path() if path is None else Path(path)

    def add(self, entry: LogEntry) -> int:
        """Add an entry and return its number; once it returns, the entry is on the disk.

        Raises
        ------
        CheckLogError
            If it cannot be written: nothing was added and nothing lost.
        """
        values = (
            entry.made_on.isoformat(),
            entry.place.strip(),
            entry.kind,
            float(entry.error_deg),
            entry.signature.strip(),
            entry.written_on.isoformat(),
            entry.rules,
        )
        with self._refusals("written; the entry was not added"):
            self.path.parent.mkdir(parents=True, exist_ok=True)
            with closing(self._connect()) as database:
                database.execute("BEGIN IMMEDIATE")
                self._prepare(database)
                marks = ", ".join("?" * len(values))
                row = database.execute(f"INSERT INTO entry ({COLUMNS}) VALUES ({marks})", values)
                database.execute("COMMIT")
                return int(row.lastrowid or 0)

    def entries(self) -> list[LogEntry]:
        """Return every entry in the order written; none when there is no file yet.

        Raises
        ------
        CheckLogError
            If the file cannot be read.
        """
        with self._refusals("read"):
            if not self.path.exists() or self.path.stat().st_size == 0:
                return []
            with closing(self._connect()) as database:
                if _number(database, "schema_version") == 0:  # made, but nothing ever written
                    return []
                self._check(database)
                rows = database.execute(f"SELECT {COLUMNS} FROM entry ORDER BY number").fetchall()
            return [_entry(row) for row in rows]

    def as_text(self, today: date) -> str:
        """Return the log as a page to print: every item of every entry, and how it stands today."""
        lines = ["Receiver checks: training log", CAUTION, f"As of {today.isoformat()}", ""]
        for number, entry in enumerate(self.entries(), start=1):
            kind = entry.outcome.kind
            error = "difference" if kind.compares_receivers else "bearing error"
            signed = f"{entry.error_deg:g}" if kind.compares_receivers else f"{entry.error_deg:+g}"
            verdict = "pass" if entry.outcome.passed else "fail"
            lines += [
                f"{number}. {entry.made_on.isoformat()}  {entry.place}",
                f"   {kind.name}, {kind.paragraph}: limit {kind.limit_deg:g} degrees",
                f"   {error} {signed} degrees: {verdict}; {entry.standing(today)}",
                f"   signed {entry.signature}, written {entry.written_on.isoformat()}",
            ]
        if len(lines) == 4:
            lines.append("No entries yet.")
        return "\n".join(lines)

    def _connect(self) -> sqlite3.Connection:
        database = sqlite3.connect(self.path, timeout=WAIT_S, isolation_level=None)
        # FULL puts the entry on the disk before COMMIT returns, EXTRA the removal of the journal
        # as well: https://sqlite.org/pragma.html#pragma_synchronous (from memory)
        database.execute("PRAGMA synchronous = EXTRA")
        return database

    def _prepare(self, database: sqlite3.Connection) -> None:
        """Make the table in a new file; within the writer's transaction, so only one makes it."""
        if _number(database, "schema_version") == 0:
            database.execute(SCHEMA)
            database.execute(f"PRAGMA application_id = {APPLICATION_ID}")
            database.execute(f"PRAGMA user_version = {SCHEMA_VERSION}")
        self._check(database)

    def _check(self, database: sqlite3.Connection) -> None:
        if _number(database, "application_id") != APPLICATION_ID:
            raise CheckLogError(f"{self.path} is a database, but no log of receiver checks")
        version = _number(database, "user_version")
        if version != SCHEMA_VERSION:
            raise CheckLogError(
                f"the log {self.path} has version {version}, and this vorlib knows only version "
                f"{SCHEMA_VERSION}: install a newer vorlib"
            )

    @contextmanager
    def _refusals(self, what: str) -> Iterator[None]:
        """Turn whatever a disk or a database answers into one error in words."""
        try:
            yield
        except CheckLogError:
            raise
        except (sqlite3.Error, OSError, ValueError) as error:
            raise CheckLogError(
                f"the log {self.path} could not be {what}: {error}. Earlier entries are untouched."
            ) from error


def _entry(row: tuple[Any, ...]) -> LogEntry:
    made_on, place, kind, error_deg, signature, written_on, rules = row
    return LogEntry(
        date.fromisoformat(made_on),
        place,
        kind,
        error_deg,
        signature,
        date.fromisoformat(written_on),
        rules,
    )


def _number(database: sqlite3.Connection, pragma: str) -> int:
    return int(database.execute(f"PRAGMA {pragma}").fetchone()[0])
