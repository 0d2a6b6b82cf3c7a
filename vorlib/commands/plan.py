"""``vorlib plan``: what an instructor prints before a lesson, from the command line."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path

from vorlib.commands.options import FORCE, PAPER
from vorlib.core.caution import CAUTION

__all__ = ["add_parser", "run"]


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib plan`` to the commands."""
    plan = commands.add_parser(
        "plan",
        help="print a lesson plan, the syllabus, or masters for the board",
        description="Print the plan of a lesson on one page, those of the course, the syllabus, or "
        "masters for board and table, as PDF.",
        epilog=CAUTION,
    )
    what = plan.add_mutually_exclusive_group(required=True)
    what.add_argument("lesson", nargs="?", help="the number of a lesson, such as 05")
    what.add_argument("--all", action="store_true", help="a plan for each lesson of the course")
    what.add_argument("--syllabus", action="store_true", help="lessons and flights in their order")
    what.add_argument("--masters", action="store_true", help="blank pages to copy and draw on")
    add = plan.add_argument
    add("--order", metavar="NN,NN", help="the order of lessons in the syllabus, such as 01,02,03")
    add("--minutes", type=int, metavar="N", help="how long the lesson may take")
    add("--seed", type=int, metavar="N", help="draws the questions and the homework (default: 1)")
    add("--homework", type=Path, metavar="FILE", help="the learners' sheet; its key is beside it")
    add("--paper", **PAPER)
    add("--out", type=Path, metavar="FILE", help="the PDF (default: a name of its own, here)")
    add("--force", **FORCE)
    plan.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Write the PDF, and say where.

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
    """Return what is to be printed: the name of its file, and what writes it."""
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
    """Refuse an option that has nothing to do with what is printed."""
    if options.order is not None and not options.syllabus:
        raise ValueError("--order is for the syllabus: give --syllabus with it")
    if options.minutes is not None and options.lesson is None:
        raise ValueError("--minutes is for the plan of one lesson: give its number")
    if options.homework is not None and options.lesson is None:
        raise ValueError("--homework is for the plan of one lesson: give its number")
    if options.seed is not None and (options.syllabus or options.masters):
        raise ValueError("--seed is for lesson plans: they alone have questions")
