"""Amounts in words, as a debrief speaks of them."""

from __future__ import annotations

from vorlib.vor.receiver import DEG_PER_DOT

__all__ = [
    "spoken_crossings",
    "spoken_dots",
    "spoken_off",
    "spoken_side",
    "spoken_time",
    "spoken_times",
]


def spoken_time(seconds: float) -> str:
    """Return a time in words: "45 s", "4 min 10 s".

    >>> spoken_time(45.4), spoken_time(250.0)
    ('45 s', '4 min 10 s')
    """
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes} min {rest} s" if minutes else f"{rest} s"


def spoken_times(count: int) -> str:
    """Return how often in words: "not once", "once", "3 times"."""
    return ("not once", "once", "twice")[count] if count < 3 else f"{count} times"


def spoken_crossings(count: int) -> str:
    """Return how often a needle crossed: "never crossed the center", "crossed the center twice"."""
    return f"crossed the center {spoken_times(count)}" if count else "never crossed the center"


def spoken_dots(dots: float) -> str:
    """Return an amount of needle in words, whichever side: "1 dot", "2.5 dots"."""
    number = f"{abs(dots):.1f}".removesuffix(".0")
    return f"{number} dot" if number == "1" else f"{number} dots"


def spoken_off(off_deg: float, off_nm: float) -> str:
    """Return a deviation in words, in degrees, dots and miles.

    >>> spoken_off(3.0, 0.42)
    '3.0 degrees (1.5 dots, 0.42 NM)'
    """
    return f"{off_deg:.1f} degrees ({spoken_dots(off_deg / DEG_PER_DOT)}, {off_nm:.2f} NM)"


def spoken_side(amount: float) -> str:
    """Return "right" for more than 0, else "left"."""
    return "right" if amount > 0 else "left"
