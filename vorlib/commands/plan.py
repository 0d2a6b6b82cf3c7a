"""``vorlib plan``: print lesson plans, the syllabus and masters for the board."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path

from vorlib.commands.options import FORCE, NUMBER, PAPER, WHOLE, add_command
from vorlib.core.caution import CAUTION

__all__ = ["add_parser", "run"]


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib plan`` to the commands."""
    plan = add_command(
        commands,
        "plan",
        summary="print a lesson plan, the syllabus, or masters for the board",
        description="Print one of these as a PDF: the plan of a lesson, on one page; the plans of "
        "all lessons; the syllabus; or masters, blank pages to copy and draw on.",
        examples="05 --homework homework.pdf\n--all\n--syllabus --order 01,02,03,04\n--masters",
    )
    what = plan.add_mutually_exclusive_group(required=True)
    what.add_argument(
        "lesson", nargs="?", metavar="LESSON", help="the number of a lesson, such as 05"
    )
    what.add_argument("--all", action="store_true", help="print a plan for each lesson")
    what.add_argument(
        "--syllabus", action="store_true", help="print the lessons and flights in order"
    )
    what.add_argument(
        "--masters", action="store_true", help="print blank pages to copy and draw on"
    )
    add = plan.add_argument
    add("--order", metavar="NN,NN", help="the lessons of the syllabus in order, such as 01,02,03")
    add("--minutes", **NUMBER, help="how long the lesson may take, in minutes")
    add("--seed", **WHOLE, help="a whole number; the same gives the same questions (default: 1)")
    add(
        "--homework",
        type=Path,
        metavar="FILE",
        help="the learners' sheet (.pdf); its key is saved beside it",
    )
    add("--paper", **PAPER)
    add(
        "--out", type=Path, metavar="FILE", help="the PDF (default: named after its contents, here)"
    )
    add("--force", **FORCE)
    plan.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Write the PDF, and print its name.

    Raises
    ------
    ValueError
        If an option cannot be used.
    OSError
        If the file cannot be written.
    """
    from vorlib.io.outputs import check_outputs
    from vorlib.paper.worksheet_files import key_beside

    name, write = _wanted(options)
    out = options.out or Path(f"{name}.pdf")
    outputs = {"--out": out, "--homework": options.homework}
    if options.homework is not None:
        outputs["its key"] = key_beside(options.homework)
    check_outputs(outputs, force=options.force)
    written = write(out)
    print(CAUTION)
    for path in written:
        print(f"written: {path}")


def _wanted(options: argparse.Namespace) -> tuple[str, Callable[[Path], tuple[Path, ...]]]:
    """Return the default file name of what to print, and a function that writes it."""
    from vorlib.io.atomic import write_whole
    from vorlib.paper.page import page_size
    from vorlib.paper.teaching.files import (
        masters_pdf,
        plans_pdf,
        save_plan_and_homework,
        syllabus_pdf,
    )
    from vorlib.teaching.lesson_notebook import lesson_numbers
    from vorlib.teaching.plan import lesson_plan
    from vorlib.teaching.syllabus import read_order, syllabus

    size = page_size(options.paper)
    _refuse_unused(options)
    if options.masters:
        return "masters", lambda out: (write_whole(out, masters_pdf(size)),)
    if options.syllabus:
        order = syllabus(read_order(options.order or ""))
        return "syllabus", lambda out: (write_whole(out, syllabus_pdf(order, size)),)
    numbers = lesson_numbers() if options.all else (options.lesson,)
    seed = 1 if options.seed is None else options.seed
    plans = [lesson_plan(number, seed=seed, minutes=options.minutes) for number in numbers]
    name = "lesson-plans" if options.all else f"lesson-plan-{plans[0].lesson.number}"
    sheet = options.homework
    if sheet is not None:
        return name, lambda out: save_plan_and_homework(plans[0], out, sheet, size)
    return name, lambda out: (write_whole(out, plans_pdf(plans, size)),)


def _refuse_unused(options: argparse.Namespace) -> None:
    """Refuse an option that has no effect on what is printed.

    Raises
    ------
    ValueError
        If there is one.
    """
    if options.order is not None and not options.syllabus:
        raise ValueError("--order belongs to --syllabus: give both")
    if options.minutes is not None and options.lesson is None:
        raise ValueError("--minutes belongs to the plan of one lesson: give the lesson's number")
    if options.homework is not None and options.lesson is None:
        raise ValueError("--homework belongs to the plan of one lesson: give the lesson's number")
    if options.seed is not None and (options.syllabus or options.masters):
        raise ValueError(
            "--seed belongs to lesson plans, the only ones with questions: leave it out"
        )
