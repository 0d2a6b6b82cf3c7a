"""Options that several commands have; a number out of all reason is refused."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from typing import Any

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
    "FORCE",
    "NUMBER",
    "PAPER",
    "PLANNED_ALTITUDE",
    "RADIUS",
    "VARIATION",
    "WHOLE",
]

MOST = 999_999_999


def _quantity(low: float, high: float, unit: str) -> Callable[[str], float]:
    """Return a reader of numbers within bounds, for an option of the command line."""
    allowed = f"must be from {low:,.0f} to {high:,.0f} {unit}"

    def read(text: str) -> float:
        try:
            value = float(text)
        except ValueError:
            value = low - 1.0
        if not low <= value <= high:  # nor is what is no number
            raise argparse.ArgumentTypeError(f"{allowed}, got {text!r}")
        return value

    return read


def _whole(low: int) -> Callable[[str], int]:
    """Return a reader of whole numbers from a least one on."""

    def read(text: str) -> int:
        if not (text.isascii() and text.isdecimal() and low <= int(text[:12]) <= MOST):
            raise argparse.ArgumentTypeError(
                f"must be a whole number from {low} to {MOST}, got {text!r}"
            )
        return int(text)

    return read


# Each is given to `add_argument`.
ALTITUDE: dict[str, Any] = {"type": _quantity(LOWEST_FT, HIGHEST_FT, "ft"), "metavar": "FT"}
PLANNED_ALTITUDE: dict[str, Any] = {
    "type": _quantity(LOWEST_PLANNED_FT, HIGHEST_FT, "ft"),
    "metavar": "FT",
}
AIRSPEED: dict[str, Any] = {"type": _quantity(SLOWEST_KT, FASTEST_KT, "kt"), "metavar": "KT"}
RADIUS: dict[str, Any] = {"type": _quantity(SMALLEST_NM, WIDEST_NM, "NM"), "metavar": "NM"}
VARIATION: dict[str, Any] = {"type": _quantity(-180.0, 180.0, "degrees"), "metavar": "DEG"}
NUMBER: dict[str, Any] = {"type": _whole(1), "metavar": "N"}
WHOLE: dict[str, Any] = {"type": _whole(0), "metavar": "N"}
PAPER: dict[str, Any] = {"default": "A4", "help": "A4 or Letter (default: A4)"}
FORCE: dict[str, Any] = {
    "action": "store_true",
    "help": "replace files of another kind that are there",
}
