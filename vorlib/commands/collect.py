"""``vorlib collect``: the records of a class, from the homes of its learners."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from vorlib.core.caution import CAUTION

__all__ = ["add_parser", "run"]


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib collect`` to the commands."""
    collect = commands.add_parser(
        "collect",
        help="collect the records of a class on one server",
        description="Write the practice record of every learner on this server into one folder, "
        "for the page Class results. Run it as somebody who may read the learners' homes.",
        epilog=CAUTION,
    )
    add = collect.add_argument
    add("homes", type=Path, nargs="+", metavar="HOME", help="learners' homes: /home/jupyter-*")
    add("--to", type=Path, metavar="FOLDER", required=True, help="the class's folder")
    collect.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Collect the records, say how many they are, and what was left out.

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
        raise ValueError("no records there: name the learners' homes, such as /home/jupyter-*")
    options.to.mkdir(mode=0o700, parents=True, exist_ok=True)
    write_all({options.to / name: text for name, text in found.files.items()})
    print(f"{len(found.files)} records are in {options.to}")
