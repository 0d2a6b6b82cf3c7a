"""``vorlib class-results``: report what a class's records show, and print worksheets for it."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from vorlib.commands.options import FORCE, PAPER, add_command
from vorlib.core.caution import CAUTION

if TYPE_CHECKING:
    from datetime import date

    from vorlib.paper.page import PageSize
    from vorlib.practice.classroom.choosing import HandedIn
    from vorlib.practice.classroom.results import ClassResults

__all__ = ["add_parser", "run"]


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib class-results`` to the commands."""
    results = add_command(
        commands,
        "class-results",
        summary="report who in a class misunderstands what",
        description="Report what the exported records in a folder show: which misconceptions "
        "learners hold, what to teach again, and who needs you first. The records are only read.",
        examples="class\nclass --from 2026-06-01 --out results.pdf\nclass --worksheets sheets",
    )
    add = results.add_argument
    add(
        "folder",
        type=Path,
        metavar="FOLDER",
        help="the folder that holds the class's exported records",
    )
    add("--out", type=Path, metavar="FILE", help="the results (.pdf)")
    add("--csv", type=Path, metavar="FILE", help="the results as a table (.csv)")
    add("--from", dest="since", metavar="YYYY-MM-DD", help="count only answers from this day on")
    add("--to", dest="until", metavar="YYYY-MM-DD", help="count only answers up to this day")
    add(
        "--class-list",
        type=Path,
        metavar="FILE",
        help="names, one a line, to find who has not handed in",
    )
    add("--numbers", action="store_true", help="show numbers instead of names, as for a projector")
    add(
        "--worksheets",
        type=Path,
        metavar="FOLDER",
        help="write here, for each misconception found, a worksheet that cures it and its key",
    )
    add("--paper", **PAPER)
    add("--force", **FORCE)
    results.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Report what the records show, and write the files asked for.

    Raises
    ------
    ValueError
        If an option cannot be used, or there is no such folder.
    OSError
        If a file cannot be opened or written.
    """
    from vorlib.briefing.files import day_from_words
    from vorlib.io.atomic import AnyPath, write_all
    from vorlib.paper.classroom.class_sheet import class_pdf
    from vorlib.paper.page import page_size
    from vorlib.practice.classroom.choosing import between, handed_in, read_class_list
    from vorlib.practice.classroom.folder import read_class
    from vorlib.practice.classroom.results import ClassResults
    from vorlib.practice.classroom.results_csv import results_csv

    size = page_size(options.paper)
    _check_outputs(options)
    since, until = (
        day_from_words(words) if words else None for words in (options.since, options.until)
    )
    records = read_class(options.folder)
    here = handed_in(read_class_list(options.class_list), records) if options.class_list else None
    results = ClassResults(between(records, since, until))
    missing = here.missing if here else ()
    if options.numbers:
        results, missing = results.without_names(), ()
    files: dict[AnyPath, bytes] = {}
    if options.out:
        files[options.out] = class_pdf(results, size, missing=missing, since=since, until=until)
    if options.csv:  # spreadsheets recognize UTF-8 by this mark
        files[options.csv] = results_csv(results, missing).encode("utf-8-sig")
    print(CAUTION)
    print("\n".join(_told(results, here, options.numbers, since, until)))
    for path in write_all(files):
        print(f"written: {path}")
    if options.worksheets:
        _write_worksheets(results, options.worksheets, size)


def _check_outputs(options: argparse.Namespace) -> None:
    """Refuse outputs that would do harm, or would lie among the records."""
    from vorlib.io.outputs import check_outputs

    outputs = {"--out": options.out, "--csv": options.csv}
    kinds = {"--csv": ".csv"}
    check_outputs(outputs, [options.class_list], kinds=kinds, force=options.force)
    folders = [path.parent for path in outputs.values() if path]
    if options.worksheets:
        if not options.worksheets.is_dir():
            raise ValueError(f"--worksheets must be an existing folder, got {options.worksheets}")
        folders.append(options.worksheets)
    if any(folder.resolve() == options.folder.resolve() for folder in folders):
        raise ValueError(f"{options.folder} is for the records only: write to another folder")


def _told(
    results: ClassResults,
    here: HandedIn | None,
    numbers: bool,
    since: date | None,
    until: date | None,
) -> Iterator[str]:
    """Yield what the records show, part by part."""
    from vorlib.views.classroom import words

    if since or until:
        yield f"Answers {words.days_words(since, until)}."
    yield words.summary_words(results)
    if here and numbers:
        yield f"Not handed in: {len(here.missing)}."
    elif here:
        yield words.missing_words(here.missing)
        if here.strangers:
            yield f"Not on the list: {', '.join(here.strangers)}."
    left_out = words.left_out_words(results)
    for title, told in (
        ("Teach again", words.teach_again_words(results)),
        ("Who needs you first", words.needs_you_words(results)),
        ("Learner by learner", words.list_words(results)),
        ("Files left out", left_out),
    ):
        if told and (results.learners or told is left_out):
            yield f"\n{title}\n{told}"


def _write_worksheets(results: ClassResults, folder: Path, size: PageSize) -> None:
    """Write a worksheet and its key for each misconception found, and print their names."""
    from vorlib.paper.classroom.ready_worksheet import save_ready_worksheet
    from vorlib.practice.classroom.teaching import teach_again

    for again in teach_again(results):
        if again.question:
            sheet, key = save_ready_worksheet(again, folder, size)
            print(f"written: {sheet} and {key.name}: {again.misconception}")
