"""Thin lines to the points they need."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from vorlib.core.arguments import FloatArray

__all__ = ["DRAWN_WITHIN", "corners"]

DRAWN_WITHIN = 0.4  # of a picture unit, by which a thinned line may leave the true one


def corners(x: FloatArray, y: FloatArray, within: float) -> NDArray[np.intp]:
    """Return the indices of the points that keep a line within a distance of all of them.

    The Douglas-Peucker method (from memory): a segment is cut at its farthest point until none is
    farther than `within` from the straight line between the ends.
    """
    places = x + 1j * y
    kept, spans = {0, len(places) - 1}, [(0, len(places) - 1)]
    while spans:
        first, last = spans.pop()
        if last - first < 2:
            continue
        along = complex(places[last] - places[first])
        away = places[first + 1 : last] - places[first]
        length = abs(along)
        if length < within:
            off, least = abs(away), within
        else:  # the area of the parallelogram, so that nothing has to be divided
            off, least = abs((away * along.conjugate()).imag), within * length
        farthest = int(off.argmax())
        if off[farthest] > least:
            middle = first + 1 + farthest
            kept.add(middle)
            spans += [(first, middle), (middle, last)]
    return np.array(sorted(kept))
