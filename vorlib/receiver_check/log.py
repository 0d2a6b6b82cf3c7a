"""A small local log of receiver checks: one SQLite file, in which an acknowledged entry stays."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Any

import platformdirs

from vorlib.io.sqlite import Store, StoreError
from vorlib.receiver_check.check import LogEntry

LOG_CAUTION = (
    "For training on the ground, not for navigation: this page is an exercise, and the legal\n"
    "log is the operator's own. Current charts and publications, local rules and a licensed\n"
    "instructor come first."
)

APPLICATION_ID = 0x564F524C  # "VORL" in the file's header tells a log from other databases
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


class CheckLogError(StoreError):
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
        self._store = Store(
            self.path, "log", "receiver checks", APPLICATION_ID, ((SCHEMA,),), CheckLogError
        )

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
        marks = ", ".join("?" * len(values))
        with self._store.writing() as database:
            row = database.execute(f"INSERT INTO entry ({COLUMNS}) VALUES ({marks})", values)
            number = int(row.lastrowid or 0)
        return number

    def entries(self) -> list[LogEntry]:
        """Return every entry in the order written; none when there is no file yet.

        Raises
        ------
        CheckLogError
            If the file cannot be read.
        """
        with self._store.reading() as database:
            if database is None:
                return []
            rows = database.execute(f"SELECT {COLUMNS} FROM entry ORDER BY number")
            return [_entry(row) for row in rows]

    def as_text(self, today: date) -> str:
        """Return the log as a page to print: every item of every entry, and its standing today."""
        return page(self.entries(), today)


def page(entries: Sequence[LogEntry], today: date) -> str:
    """Return entries as a page to print: every item of each, and its standing today."""
    lines = ["Receiver checks: training log", LOG_CAUTION, f"As of {today.isoformat()}", ""]
    for number, entry in enumerate(entries, start=1):
        kind = entry.outcome.kind
        error = "difference" if kind.compares_receivers else "bearing error"
        signed = f"{entry.error_deg:g}" if kind.compares_receivers else f"{entry.error_deg:+g}"
        unit = "degree" if abs(entry.error_deg) == 1.0 else "degrees"
        verdict = "pass" if entry.outcome.passed else "fail"
        lines += [
            f"{number}. {entry.made_on.isoformat()}  {entry.place}",
            f"   {kind.name}, {kind.paragraph}: limit {kind.limit_deg:g} degrees",
            f"   {error} {signed} {unit}: {verdict}; {entry.standing(today)}",
            f"   signed {entry.signature}, written {entry.written_on.isoformat()}",
        ]
    if not entries:
        lines.append("No entries yet.")
    return "\n".join(lines)


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
