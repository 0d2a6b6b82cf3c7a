"""Find at each moment when a condition last held, holds next, and how often it has changed."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from vorlib.aircraft.ground_track import BoolArray, IntArray

__all__ = ["following", "latest", "numbered"]


def latest(when: BoolArray) -> IntArray:
    """Return the index of the latest moment at which something was so; -1 before the first."""
    index: IntArray = np.maximum.accumulate(np.where(when, np.arange(when.size), -1))
    return index


def following(when: BoolArray) -> IntArray:
    """Return the index of the next moment at which something is so; their number after the last."""
    return when.size - 1 - latest(when[::-1])[::-1]


def numbered(*values: NDArray[np.generic]) -> IntArray:
    """Return the number, from 0, of the run over which all of the values stay the same."""
    changed = np.zeros(max(len(values[0]) - 1, 0), dtype=bool)
    for value in values:
        changed |= value[1:] != value[:-1]
    return np.concatenate([np.zeros(min(len(values[0]), 1), dtype=int), np.cumsum(changed)])
