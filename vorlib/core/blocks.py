"""A formula over long columns, worked out in blocks that stay in the processor's cache."""

import math
from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

from vorlib.core.arguments import FloatArray

BLOCK = 8192  # points worked on together


def in_blocks(
    formula: Callable[..., Sequence[FloatArray]],
    arguments: Sequence[FloatArray],
    shape: tuple[int, ...],
    results: int,
) -> FloatArray:
    """Return the *results* of *formula* for arguments that broadcast to *shape*, stacked."""
    size = math.prod(shape)
    if size <= BLOCK:  # one block: numpy broadcasts faster than we flatten
        whole = np.empty((results, *shape))
        for result, row in zip(whole, formula(*arguments), strict=True):
            result[...] = row
        return whole
    columns = [_column(argument, shape) for argument in arguments]
    solution = np.empty((results, size))
    for start in range(0, size, BLOCK):
        block = slice(start, min(start + BLOCK, size))
        rows = formula(*(c if c.size == 1 else c[block] for c in columns))
        for whole, row in zip(solution, rows, strict=True):
            whole[block] = row
    return solution.reshape(results, *shape)


def _column(values: Any, shape: tuple[int, ...]) -> FloatArray:
    """Flatten to the length of *shape*, but leave a single number single."""
    if np.size(values) == 1:
        return np.reshape(values, 1)
    return np.broadcast_to(values, shape).ravel()
