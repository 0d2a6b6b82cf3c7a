"""The command line: opens the course in a browser, prepares lessons and prints practice."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from importlib.metadata import version
from pathlib import Path

from vorlib.commands import course
from vorlib.core.caution import CAUTION

__all__ = ["main"]


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line and return its exit status: 0 for success, 1 for a failure it names."""
    parser = _parser()
    options = parser.parse_args(_joined(sys.argv[1:] if arguments is None else arguments))
    if options.run is None:
        parser.print_help()
        return 0
    try:
        options.run(options)
    except (OSError, ValueError) as error:
        print(f"vorlib: {error}", file=sys.stderr)
        return 1
    return 0


def _joined(arguments: Sequence[str]) -> list[str]:
    """Return the arguments, a centre that begins with a minus joined to its option.

    On its own a place such as -33.9,151.2 would be taken for an option.
    """
    joined: list[str] = []
    for word in arguments:
        if joined and joined[-1] == "--centre" and word[:1] == "-" and word[1:2].isdigit():
            joined[-1] = f"--centre={word}"
        else:
            joined.append(word)
    return joined


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="vorlib",
        description="A course in VOR navigation, in notebooks.",
        epilog=CAUTION,
    )
    parser.add_argument("--version", action="version", version=f"vorlib {version('vorlib')}")
    parser.set_defaults(run=None)
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    course.add_parser(commands)
    _add_prepare(commands)
    _add_worksheets(commands)
    _add_assignment(commands)
    _add_debrief(commands)
    return parser


def _add_prepare(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    prepare = commands.add_parser(
        "prepare",
        help="print a lesson card for a practice area",
        description="Print a lesson card for a practice area, and a handout without answers. With "
        "no stations it is made for the invented islands of the course.",
        epilog=CAUTION,
    )
    add = prepare.add_argument
    add("--stations", type=Path, metavar="FILE", help="NAV_BASE.csv, a navaids.csv, or your own")
    add("--fields", type=Path, metavar="FILE", help="ident,name,lat_deg,lon_deg,elevation_ft")
    add("--centre", metavar="LAT,LON", help="middle of the area (default: the first of --idents)")
    add("--idents", metavar="ID,ID", help="the stations to use (default: the nearest)")
    add("--radius", type=float, metavar="NM", help="of the practice area (default: 45)")
    add(
        "--altitude",
        type=float,
        metavar="FT",
        help="planned altitude above the sea (default: 4500)",
    )
    add("--airspeed", type=float, metavar="KT", help="planned true airspeed (default: 100)")
    add("--wind", metavar="DEG/KT", help="forecast wind, true, such as 250/20 (default: calm)")
    add("--date", metavar="YYYY-MM-DD", help="the day of the lesson (default: today)")
    add("--paper", default="A4", help="A4 or Letter (default: A4)")
    add("--out", type=Path, metavar="FILE", required=True, help="the lesson card, a PDF")
    add("--handout", type=Path, metavar="FILE", help="the learner's sheet without answers, a PDF")
    prepare.set_defaults(run=_prepare)


def _prepare(options: argparse.Namespace) -> None:
    from vorlib.commands.prepare import prepare  # here, so that the help appears at once

    prepare(options)


def _add_worksheets(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    worksheets = commands.add_parser(
        "worksheets",
        help="print a problem sheet with its answer key",
        description="Print a problem sheet and an answer key, each a PDF with the same code at its "
        "head, and a card without answers for the air. With --key-for the key is made again.",
        epilog=CAUTION,
    )
    add = worksheets.add_argument
    add("--topic", help="a lesson such as 05, several such as 05,06, a kind of question, or all")
    add("--count", metavar="N", help="how many questions, 1 to 100 (default: 20)")
    add("--seed", metavar="N", help="the same seed gives the same questions (default: a new one)")
    add("--paper", default="A4", help="A4 or Letter (default: A4)")
    add("--out", type=Path, metavar="FILE", required=True, help="the problem sheet, a PDF")
    add("--key", type=Path, metavar="FILE", help="the key (default: sheet_key.pdf for sheet.pdf)")
    add("--card", type=Path, metavar="FILE", help="a card with blanks to fill in the air, a PDF")
    add("--key-for", metavar="CODE", help="write to --out the key of the sheet with this code")
    worksheets.set_defaults(run=_worksheets)


def _worksheets(options: argparse.Namespace) -> None:
    from vorlib.commands.worksheets import worksheets  # here, so that the help appears at once

    worksheets(options)


def _add_debrief(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    debrief = commands.add_parser(
        "debrief",
        help="hold a recorded flight against what the needle must have shown",
        description="Say what was found in a recorded flight and print it on one page. Without a "
        "track it is the example flight of the course; without stations they are those of the "
        "invented islands; without selections they are estimated from the track.",
        epilog=CAUTION,
    )
    add = debrief.add_argument
    add("track", type=Path, nargs="?", metavar="TRACK", help="a GPX file or a table (CSV)")
    add("--stations", type=Path, metavar="FILE", help="NAV_BASE.csv, a navaids.csv, or your own")
    add("--selections", type=Path, metavar="FILE", help="time,station,course; times UTC or seconds")
    add("--out", type=Path, metavar="FILE", required=True, help="the debrief, a PDF")
    add("--csv", type=Path, metavar="FILE", help="the flight second by second, a table (CSV)")
    add("--flight", type=int, metavar="N", help="which flight, if the file holds several")
    add("--altitude", type=float, metavar="FT", help="where no altitude was recorded")
    add("--airspeed", type=float, metavar="KT", help="true airspeed, if it is known")
    add("--columns", metavar="NAME=COLUMN,...", help="of a table: lat_deg=Lat,altitude=Height,...")
    add("--variation", type=float, metavar="DEG", help="of the compass, east positive")
    add("--paper", default="A4", help="A4 or Letter (default: A4)")
    debrief.set_defaults(run=_debrief)


def _debrief(options: argparse.Namespace) -> None:
    from vorlib.commands.debrief import debrief  # here, so that the help appears at once

    debrief(options)


def _add_assignment(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    assignment = commands.add_parser(
        "assignment",
        help="write a check flight as an assignment for nbgrader",
        description="Write a check flight as a notebook with nbgrader's metadata, to be handed "
        "out, collected and graded with nbgrader, such as source/check/check.ipynb of a course.",
        epilog=CAUTION,
    )
    add = assignment.add_argument
    add("--seed", type=int, metavar="N", required=True, help="the same seed, the same questions")
    add("--out", type=Path, metavar="FILE", required=True, help="the assignment, a notebook")
    assignment.set_defaults(run=_assignment)


def _assignment(options: argparse.Namespace) -> None:
    from vorlib.commands.assignment import (
        write_assignment,  # here, so that the help appears at once
    )

    write_assignment(options.out, options.seed)


if __name__ == "__main__":
    sys.exit(main())
