"""Deviations in words, as a debrief speaks of them."""

from __future__ import annotations

from vorlib.core.words import rounded, spoken_degrees, spoken_dots, spoken_times
from vorlib.vor.receiver import DEG_PER_DOT

__all__ = ["spoken_crossings", "spoken_off"]


def spoken_crossings(count: int) -> str:
    """Return how often a needle crossed, such as "crossed the center twice"."""
    return f"crossed the center {spoken_times(count)}" if count else "never crossed the center"


def spoken_off(off_deg: float, off_nm: float) -> str:
    """Return a deviation in degrees, dots and miles.

    >>> spoken_off(3.0, 0.42)
    '3 degrees (1.5 dots, 0.42 NM)'
    """
    dots = spoken_dots(off_deg / DEG_PER_DOT)
    return f"{spoken_degrees(off_deg, 1)} ({dots}, {rounded(off_nm, 2)} NM)"
