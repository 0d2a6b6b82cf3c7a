"""The command line: opens the course in a browser, prepares lessons and prints practice."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from importlib.metadata import version
from typing import NoReturn

from vorlib.commands import (
    assignment,
    class_results,
    collect,
    course,
    debrief,
    hub_config,
    plan,
    prepare,
    record,
    worksheets,
)
from vorlib.core.caution import CAUTION
from vorlib.io.text import printable, shortened
from vorlib.io.unused import leave_out_unused

__all__ = ["main"]

COMMANDS = (
    course,
    plan,
    prepare,
    worksheets,
    assignment,
    class_results,
    debrief,
    record,
    hub_config,
    collect,
)
"""The subcommands: each adds its parser, and imports what is slow to load only when it runs."""

LONGEST_LINE = 270  # characters of a refusal, which with the command's name stay below 300


class Parser(argparse.ArgumentParser):
    """A parser that refuses in a line that can be read, whatever was typed."""

    def error(self, message: str) -> NoReturn:
        """Say what is wrong with the words of a command line, and end."""
        super().error(shortened(message, LONGEST_LINE))


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line and return its exit status: 0 for success, 1 for a failure it names."""
    parser = _parser()
    options = parser.parse_args(_joined(sys.argv[1:] if arguments is None else arguments))
    if options.run is None:
        parser.print_help()
        return 0
    leave_out_unused()
    try:
        options.run(options)
    except (OSError, ValueError) as error:
        print(f"vorlib: {refusal(error)}", file=sys.stderr)
        return 1
    return 0


def refusal(error: OSError | ValueError) -> str:
    """Return an error in lines that can be read: one from the system with its file's name first."""
    words = str(error)
    if isinstance(error, OSError) and error.strerror and error.filename is not None:
        words = f"{printable(str(error.filename))}: {error.strerror.lower()}"
    return "\n".join(shortened(line, LONGEST_LINE) for line in words.splitlines())


def _parser() -> argparse.ArgumentParser:
    parser = Parser(
        prog="vorlib",
        description="A course in VOR navigation, in notebooks.",
        epilog=CAUTION,
    )
    parser.add_argument("--version", action="version", version=f"vorlib {version('vorlib')}")
    parser.set_defaults(run=None)
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    for command in COMMANDS:
        command.add_parser(commands)
    return parser


def _joined(arguments: Sequence[str]) -> list[str]:
    """Return the arguments, a center that begins with a minus joined to its option.

    On its own a place such as -33.9,151.2 would be taken for an option.
    """
    joined: list[str] = []
    for word in arguments:
        if joined and joined[-1] in prepare.CENTER and word[:1] == "-" and word[1:2].isdigit():
            joined[-1] += f"={word}"
        else:
            joined.append(word)
    return joined


if __name__ == "__main__":
    sys.exit(main())
