"""Deleting a student's record, and saying what was in it."""

from __future__ import annotations

from vorlib.core.words import spoken_count
from vorlib.practice.check_flight.session import CheckFlights
from vorlib.practice.record.record import Record
from vorlib.practice.training.entries import entries_of

__all__ = ["delete_record", "what_is_kept"]

ELSEWHERE_TOO = "What was printed, exported or handed in before is not: delete those files as well."


def what_is_kept(record: Record) -> str:
    """Return how much a record holds, such as "12 answers, 1 check flight and 3 entries".

    Raises
    ------
    ValueError
        If there is no such record.
    RecordError
        If it cannot be read.
    """
    if not record.path.exists():
        raise ValueError(f"there is no record of {record.learner} in {record.path.parent}")
    answers = spoken_count(len(record.attempts()), "answer")
    checks = spoken_count(len(CheckFlights(record).reports()), "check flight")
    entries = spoken_count(len(entries_of(record)), "entry", "entries")
    return f"{answers}, {checks} and {entries}"


def delete_record(record: Record) -> str:
    """Delete a record and return what was deleted, in words.

    Raises
    ------
    ValueError
        If there is no such record.
    RecordError
        If it cannot be deleted.
    """
    kept = what_is_kept(record)
    record.delete()
    return f"Deleted: {kept} of {record.learner}, and the file {record.path}. {ELSEWHERE_TOO}"
