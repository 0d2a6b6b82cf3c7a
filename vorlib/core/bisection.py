"""When something that is not yet so becomes so, found by halving."""

from collections.abc import Callable


def turning_point(
    is_so: Callable[[float], bool], low: float, high: float, within: float = 1e-6
) -> float:
    """Return where a condition that is false at *low* and true at *high* has just become true.

    >>> round(turning_point(lambda x: x * x >= 2.0, 1.0, 2.0), 5)
    1.41421
    """
    while high - low > within:
        middle = (low + high) / 2.0
        low, high = (low, middle) if is_so(middle) else (middle, high)
    return high
