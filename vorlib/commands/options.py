"""Parsers of commands, and the options that several of them have."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path
from textwrap import fill
from typing import Any

from vorlib.core.caution import CAUTION
from vorlib.core.limits import (
    FASTEST_KT,
    HIGHEST_FT,
    LOWEST_FT,
    LOWEST_PLANNED_FT,
    SLOWEST_KT,
    SMALLEST_NM,
    WIDEST_NM,
)

__all__ = [
    "AIRSPEED",
    "ALTITUDE",
    "FIELDS",
    "FORCE",
    "NUMBER",
    "PAPER",
    "PLANNED_ALTITUDE",
    "RADIUS",
    "STATIONS",
    "VARIATION",
    "WHOLE",
    "WIND",
    "add_command",
]

MOST = 999_999_999
HELP_COLUMNS = 78  # as argparse has it for a window of 80


def add_command(
    commands: argparse._SubParsersAction[argparse.ArgumentParser],
    name: str,
    *,
    summary: str,
    description: str,
    examples: str,
) -> argparse.ArgumentParser:
    """Return the parser of a new command, whose help ends with examples and the caution.

    Parameters
    ----------
    commands
        The commands that it joins.
    name
        What is typed after ``vorlib``.
    summary, description
        What it does, for the list of commands and for its own help.
    examples
        What may follow its name, an example a line.
    """
    lines = "".join(f"  vorlib {name} {line}".rstrip() + "\n" for line in examples.split("\n"))
    return commands.add_parser(
        name,
        help=summary,
        description=fill(description, HELP_COLUMNS),
        epilog=f"examples:\n{lines}\n{fill(CAUTION, HELP_COLUMNS)}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )


def _quantity(low: float, high: float, unit: str) -> Callable[[str], float]:
    """Return a reader of numbers within bounds, for an option."""
    allowed = f"must be from {low:,.0f} to {high:,.0f} {unit}"

    def read(text: str) -> float:
        try:
            value = float(text)
        except ValueError:
            value = low - 1.0
        if not low <= value <= high:  # NaN fails too
            raise argparse.ArgumentTypeError(f"{allowed}, got {text!r}")
        return value

    return read


def _whole(low: int) -> Callable[[str], int]:
    """Return a reader of whole numbers, *low* or more."""

    def read(text: str) -> int:
        if not (text.isascii() and text.isdecimal() and low <= int(text[:12]) <= MOST):
            raise argparse.ArgumentTypeError(
                f"must be a whole number from {low} to {MOST:,}, got {text!r}"
            )
        return int(text)

    return read


# Keywords of `add_argument`.
ALTITUDE: dict[str, Any] = {"type": _quantity(LOWEST_FT, HIGHEST_FT, "ft"), "metavar": "FT"}
PLANNED_ALTITUDE: dict[str, Any] = {
    "type": _quantity(LOWEST_PLANNED_FT, HIGHEST_FT, "ft"),
    "metavar": "FT",
}
AIRSPEED: dict[str, Any] = {"type": _quantity(SLOWEST_KT, FASTEST_KT, "kt"), "metavar": "KT"}
RADIUS: dict[str, Any] = {"type": _quantity(SMALLEST_NM, WIDEST_NM, "NM"), "metavar": "NM"}
VARIATION: dict[str, Any] = {"type": _quantity(-180.0, 180.0, "degrees"), "metavar": "DEG"}
WIND: dict[str, Any] = {"metavar": "DEG/KT"}
NUMBER: dict[str, Any] = {"type": _whole(1), "metavar": "N"}
WHOLE: dict[str, Any] = {"type": _whole(0), "metavar": "N"}
STATIONS: dict[str, Any] = {
    "type": Path,
    "metavar": "FILE",
    "help": "stations: NAV_BASE.csv (FAA), navaids.csv (OurAirports), or a table of your own "
    "(default: the invented islands)",
}
FIELDS: dict[str, Any] = {
    "type": Path,
    "metavar": "FILE",
    "help": "fields to fly to, a table: ident,name,lat_deg,lon_deg,elevation_ft",
}
PAPER: dict[str, Any] = {"default": "A4", "help": "A4 or Letter (default: A4)"}
FORCE: dict[str, Any] = {
    "action": "store_true",
    "help": "replace existing files of another kind",
}
