"""``vorlib assignment``: write a check flight to hand out with nbgrader."""

from __future__ import annotations

import argparse
from pathlib import Path

from vorlib.commands.options import FORCE, WHOLE, add_command

__all__ = ["add_parser", "run"]


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib assignment`` to the commands."""
    assignment = add_command(
        commands,
        "assignment",
        summary="write a check flight as an assignment for nbgrader",
        description="Write a check flight as a notebook that nbgrader can hand out, collect and "
        "grade. Write it into the folder source of your nbgrader course.",
        examples="--seed 7 --out source/check_flight/check_flight.ipynb",
    )
    add = assignment.add_argument
    add("--seed", **WHOLE, required=True, help="a whole number; the same gives the same questions")
    add("--out", type=Path, metavar="FILE", required=True, help="the assignment (.ipynb)")
    add("--force", **FORCE)
    assignment.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Write the assignment."""
    from vorlib.assignment import write_assignment
    from vorlib.io.outputs import check_outputs

    kinds = {"--out": ".ipynb"}
    check_outputs({"--out": options.out}, kinds=kinds, force=options.force)
    write_assignment(options.out, options.seed)
