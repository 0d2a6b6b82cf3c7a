"""One thing as it was planned and as it was flown, and the difference, in a pilot's words."""

from __future__ import annotations

from typing import NamedTuple

from vorlib.core.angles import spoken_side

__all__ = ["Compared", "more", "turned"]


class Compared(NamedTuple):
    """One thing as it was planned, as it was flown, and the difference, in words."""

    what: str
    planned: str
    flown: str
    difference: str


def more(amount: float, unit: str, decimals: int = 0) -> str:
    """Return how much more was flown than was planned, signed; "none" for what rounds to nothing.

    >>> more(12.4, "kt"), more(-0.04, "degrees", 1)
    ('+12 kt', 'none')
    """
    return f"{amount:+,.{decimals}f} {unit}" if round(amount, decimals) else "none"


def turned(degrees: float) -> str:
    """Return how far a direction was turned, to the right or to the left.

    >>> turned(-3.2)
    '3 degrees left'
    """
    size = round(abs(degrees))
    unit = "degree" if size == 1 else "degrees"
    return f"{size} {unit} {spoken_side(degrees)}" if size else "none"
