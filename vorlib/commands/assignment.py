"""``vorlib assignment``: a check flight to hand out with nbgrader."""

from __future__ import annotations

import argparse
from pathlib import Path

from vorlib.commands.options import FORCE, WHOLE
from vorlib.core.caution import CAUTION

__all__ = ["add_parser", "run"]


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib assignment`` to the commands."""
    assignment = commands.add_parser(
        "assignment",
        help="write a check flight as an assignment for nbgrader",
        description="Write a check flight as a notebook with nbgrader's metadata, to be handed "
        "out, collected and graded with nbgrader, such as source/check/check.ipynb of a course.",
        epilog=CAUTION,
    )
    add = assignment.add_argument
    add("--seed", **WHOLE, required=True, help="the same seed, the same questions")
    add("--out", type=Path, metavar="FILE", required=True, help="the assignment, a notebook")
    add("--force", **FORCE)
    assignment.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Write the assignment."""
    from vorlib.assignment import write_assignment
    from vorlib.io.outputs import check_outputs

    kinds = {"--out": ".ipynb"}
    check_outputs({"--out": options.out}, kinds=kinds, force=options.force)
    write_assignment(options.out, options.seed)
