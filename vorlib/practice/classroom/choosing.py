"""Choose what of a class to look at: the answers of some days, and who has handed in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date

from vorlib.core.arguments import ArgumentError
from vorlib.io.text import FileError, Source, read_text, spreadsheet_rows
from vorlib.practice.classroom.folder import ClassRecords
from vorlib.practice.record.learner import file_name, tidy_name

__all__ = ["HandedIn", "between", "handed_in", "read_class_list"]

LONGEST_LIST = 1000
HEADS = ("name", "learner", "student")  # of a column, not of a person


def between(
    records: ClassRecords, since: date | None = None, until: date | None = None
) -> ClassRecords:
    """Return the records with the answers of some days only, both included; days are those of UTC.

    A learner who gave none on them stays, without answers.

    Raises
    ------
    ValueError
        If the last day is before the first.
    """
    if since and until and until < since:
        raise ArgumentError(
            f"the last day must not be before the first, got {since} to {until}", argument="until"
        )
    first, last = since or date.min, until or date.max
    learners = tuple(
        replace(
            one,
            attempts=tuple(
                a for a in one.attempts if first <= a.answered_at.astimezone(UTC).date() <= last
            ),
        )
        for one in records.learners
    )
    return replace(records, learners=learners)


@dataclass(frozen=True)
class HandedIn:
    """A class list compared with the records: who is missing, and who is not on the list."""

    missing: tuple[str, ...]
    strangers: tuple[str, ...]


def handed_in(names: Sequence[str], records: ClassRecords) -> HandedIn:
    """Return who of a class list has handed in nothing, and who is not on it, in any case."""
    listed = {file_name(name): name for name in names}
    here = {file_name(one.learner): one.learner for one in records.learners}
    return HandedIn(
        tuple(name for key, name in listed.items() if key not in here),
        tuple(name for key, name in here.items() if key not in listed),
    )


def read_class_list(source: Source) -> tuple[str, ...]:
    """Return the names of a class list: one a line, or the first column of a table.

    Raises
    ------
    FileError
        If it is not text, holds no name or too many, or a line is no name; each is told.
    OSError
        If the file cannot be opened.
    """
    names: dict[str, str] = {}
    faults = []
    for line, cells in spreadsheet_rows(read_text(source)):
        if not cells[0] or (not names and cells[0].casefold() in HEADS):
            continue
        try:
            names.setdefault(file_name(cells[0]), tidy_name(cells[0]))
        except ValueError as error:
            faults.append(f"line {line}: {error}")
    if faults:
        raise FileError(*faults)
    if not names:
        raise FileError("the class list holds no name: write one a line")
    if len(names) > LONGEST_LIST:
        raise FileError(f"the class list has {len(names):,} names, more than {LONGEST_LIST:,}")
    return tuple(names.values())
