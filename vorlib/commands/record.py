"""``vorlib record``: add to, print, export or delete a student's record of training."""

from __future__ import annotations

import argparse
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from vorlib.commands.options import FORCE, PAPER, add_command
from vorlib.core.caution import CAUTION
from vorlib.core.words import spoken_count

if TYPE_CHECKING:
    from vorlib.practice.record.record import Record

__all__ = ["add_parser", "run"]

HERE = "Names and answers stay on this machine, in"
KINDS = (".pdf", ".csv", ".json")


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib record`` to the commands."""
    record = add_command(
        commands,
        "record",
        summary="print, export or delete a student's record of training",
        description="Show a student's record of training on the ground; add to it, print it, "
        "export it or delete it. Without --student, list the students who have a record. A record "
        "is not an endorsement.",
        examples='--student "A. Pilot" --taught 05\n--student "A. Pilot" --out record.pdf\n'
        '--student "A. Pilot" --delete',
    )
    add = record.add_argument
    add("--student", metavar="NAME", help="the student's name")
    add("--bring-in", type=Path, metavar="FILE", help="the student's exported answers, JSON or CSV")
    add("--taught", metavar="LESSON", help="the number of a lesson to enter as taught, such as 05")
    add("--flight", metavar="TEXT", help="the name of a flight to enter as debriefed")
    add("--on", metavar="YYYY-MM-DD", help="the day of that lesson or flight (default: today)")
    add("--remark", default="", metavar="TEXT", help="a remark on that lesson or flight")
    add("--out", type=Path, metavar="FILE", help="the record (.pdf, .csv or .json)")
    add("--paper", **PAPER)
    add("--force", **FORCE)
    add("--delete", action="store_true", help="delete the record, after asking you")
    add(
        "--records",
        type=Path,
        metavar="FOLDER",
        help="the folder of the records (default: your own)",
    )
    record.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Add to a student's record, then show, print or delete it, as the options say.

    Raises
    ------
    ValueError
        If an option cannot be used, or there is no such record.
    OSError
        If a file cannot be read or written.
    """
    from vorlib.paper.page import page_size
    from vorlib.practice.record.learner import file_name
    from vorlib.practice.record.record import Record, learners

    size = page_size(options.paper)
    if options.out is not None:
        _check_out(options)
    names = learners(options.records)
    if options.student is None:
        print(f"records: {', '.join(names) if names else 'none'}")
        return
    # as the name was written first, whatever its capitals now
    here = {file_name(name): name for name in names}
    record = Record(here.get(file_name(options.student), options.student), options.records)
    if options.delete:
        _delete(record)
        return
    _add(record, options)
    if not record.path.exists():
        raise ValueError(f"there is no record of {record.learner} in {record.path.parent}")
    print(CAUTION)
    print(_words(record))
    if options.out is not None:
        from vorlib.io.atomic import write_whole

        print(f"written: {write_whole(options.out, _file(record, options.out, size.name))}")
    print(f"{HERE} {record.path}")


def _check_out(options: argparse.Namespace) -> None:
    """Refuse a file that cannot hold the record, before anything is entered."""
    from vorlib.io.outputs import check_outputs

    kind = options.out.suffix.casefold()
    if kind not in KINDS:
        raise ValueError(f"--out must end in .pdf, .csv or .json, got {options.out.name!r}")
    check_outputs(
        {"--out": options.out}, [options.bring_in], kinds={"--out": kind}, force=options.force
    )


def _add(record: Record, options: argparse.Namespace) -> None:
    """Add exported answers, a lesson taught or a flight debriefed."""
    from vorlib.briefing.files import day_from_words
    from vorlib.practice.record.exchange import read_export
    from vorlib.practice.training.entries import TrainingEntry, add_entries, lesson_taught

    day = day_from_words(options.on) if options.on else date.today()
    entries = []
    if options.taught:
        entries.append(lesson_taught(options.taught, day, options.remark))
    if options.flight:
        entries.append(TrainingEntry(day, "flight", options.flight, options.remark))
    if not entries and (options.on or options.remark):
        raise ValueError("--on and --remark belong to --taught or --flight")
    if options.bring_in is not None:
        count = record.bring_in(read_export(options.bring_in))
        print(f"brought in: {spoken_count(count, 'new answer')}")
    if entries:
        add_entries(record, *entries)


def _file(record: Record, out: Path, paper: str) -> bytes:
    """Return the record in the format of the file's name."""
    from vorlib.paper.classroom.training_record import training_pdf
    from vorlib.paper.page import page_size
    from vorlib.practice.training.files import training_csv, training_json
    from vorlib.practice.training.training_record import training_record_of

    training = training_record_of(record)
    match out.suffix.casefold():
        case ".pdf":
            return training_pdf(training, date.today(), page_size(paper))
        case ".csv":
            return training_csv(training).encode("utf-8-sig")  # the mark of UTF-8 for spreadsheets
        case _:
            return training_json(training, date.today()).encode()


def _words(record: Record) -> str:
    """Return the record in a few lines."""
    from vorlib.practice.training.training_record import training_record_of
    from vorlib.views.classroom.training_words import training_words

    return training_words(training_record_of(record))


def _delete(record: Record) -> None:
    """Delete the record once the name is typed, and print what was deleted."""
    from vorlib.practice.training.deleting import delete_record, what_is_kept

    kept = what_is_kept(record)
    print(
        f"The record of {record.learner} in {record.path} holds {kept}. Deleting cannot be undone."
    )
    try:
        typed = input(f"To delete it, type the name {record.learner}: ")
    except EOFError:
        typed = ""
    if " ".join(typed.split()).casefold() != record.learner.casefold():
        print("Nothing was deleted.")
        return
    print(delete_record(record))
