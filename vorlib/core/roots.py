"""Find where a function crosses zero."""

from collections.abc import Callable


def crossing(function: Callable[[float], float], low: float, high: float, within: float) -> float:
    """Return where a function crosses zero, or a little after: no more than *within*.

    Parameters
    ----------
    function
        Has opposite signs at `low` and `high`, or is 0 at `high`.
    low, high, within
        The ends to look between, and how near to come.

    Notes
    -----
    False position in the Illinois form, which takes a few steps where halving takes twenty
    (M. Dowell and P. Jarratt, BIT 11, 1971; from memory).

    >>> round(crossing(lambda x: x * x - 2.0, 0.0, 2.0, 1e-9), 6)
    1.414214
    """
    at_low, at_high, side = function(low), function(high), 0
    while high - low > within and at_high != 0.0:
        middle = high - at_high * (high - low) / (at_high - at_low)
        # a step inside the end it would stick to, so that the other end comes up too
        middle = min(max(middle, low + within / 2.0), high - within / 2.0)
        value = function(middle)
        if (value < 0.0) == (at_low < 0.0) and value != 0.0:
            low, at_low = middle, value
            at_high, side = (at_high / 2.0 if side < 0 else at_high), -1
        else:
            high, at_high = middle, value
            at_low, side = (at_low / 2.0 if side > 0 else at_low), 1
    return high
