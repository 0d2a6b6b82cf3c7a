"""Lines drawn with no more points than they need."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from vorlib.core.arguments import FloatArray

__all__ = ["DRAWN_WITHIN", "corners"]

DRAWN_WITHIN = 0.4  # of a picture unit, by which a thinned line may leave the true one


def corners(x: FloatArray, y: FloatArray, within: float) -> NDArray[np.intp]:
    """Return the indices of the points that keep a line within a distance of all of them.

    The Douglas-Peucker method (from memory): a stretch is cut at its farthest point until none is
    farther than `within` from the straight line between the ends.
    """
    kept, spans = {0, len(x) - 1}, [(0, len(x) - 1)]
    while spans:
        first, last = spans.pop()
        if last - first < 2:
            continue
        along = np.array([x[last] - x[first], y[last] - y[first]])
        dx, dy = x[first + 1 : last] - x[first], y[first + 1 : last] - y[first]
        length = float(np.hypot(*along))
        if length < within:
            off = np.hypot(dx, dy)
        else:
            off = np.abs(dx * along[1] - dy * along[0]) / length
        farthest = int(np.argmax(off))
        if off[farthest] > within:
            middle = first + 1 + farthest
            kept.add(middle)
            spans += [(first, middle), (middle, last)]
    return np.array(sorted(kept))
