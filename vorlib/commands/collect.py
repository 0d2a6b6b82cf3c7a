"""``vorlib collect``: copy the records of a class from its learners' homes."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from vorlib.commands.options import add_command
from vorlib.core.words import spoken_count

__all__ = ["add_parser", "run"]


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib collect`` to the commands."""
    collect = add_command(
        commands,
        "collect",
        summary="collect the records of a class on one server",
        description="Copy the practice record of every learner on this server into one folder, "
        "for class-results. Run it as a user who may read the learners' home folders.",
        examples="/home/jupyter-* --to class",
    )
    add = collect.add_argument
    add("homes", type=Path, nargs="+", metavar="HOME", help="a learner's home folder")
    add("--to", type=Path, metavar="FOLDER", required=True, help="the folder for the records")
    collect.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Collect the records; say how many there are and what was left out.

    Raises
    ------
    OSError
        If they cannot be written.
    ValueError
        If there are none.
    """
    from vorlib.io.atomic import write_all
    from vorlib.practice.record.collect import collect

    found = collect(options.homes)
    for line in found.left_out:
        print(f"left out: {line}", file=sys.stderr)
    if not found.files:
        raise ValueError(
            "no practice record there: name the learners' home folders, such as /home/jupyter-*"
        )
    options.to.mkdir(mode=0o700, parents=True, exist_ok=True)
    write_all({options.to / name: text for name, text in found.files.items()})
    print(f"collected: {spoken_count(len(found.files), 'record')}, in {options.to}")
