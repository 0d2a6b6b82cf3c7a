"""numpy's functions by the same names for one plain number, at a hundredth of the cost.

A formula is written once, over `m`: numpy for arrays, this module's `ScalarMath` for single
floats. So a pilot's loop, which needs one reading at a time, costs microseconds and has no formulas
of its own.
"""

import math
from typing import Any

import numpy as np


class ScalarMath:
    """The part of numpy's namespace that vorlib's formulas use, for floats."""

    sin = staticmethod(math.sin)
    cos = staticmethod(math.cos)
    tan = staticmethod(math.tan)
    sqrt = staticmethod(math.sqrt)
    hypot = staticmethod(math.hypot)
    arctan2 = staticmethod(math.atan2)
    radians = staticmethod(math.radians)
    degrees = staticmethod(math.degrees)
    copysign = staticmethod(math.copysign)
    abs = staticmethod(abs)
    all = staticmethod(bool)
    any = staticmethod(bool)
    maximum = staticmethod(max)
    minimum = staticmethod(min)
    round = staticmethod(round)

    @staticmethod
    def where(condition: bool, yes: float, no: float) -> float:
        """Return *yes* or *no*."""
        return yes if condition else no


def namespace(*values: object) -> Any:
    """Return `ScalarMath` when every value is a single float, else numpy.

    >>> namespace(1.0, 2.0).__name__, namespace(1.0, np.zeros(2)).__name__
    ('ScalarMath', 'numpy')
    """
    for value in values:
        if not isinstance(value, float):
            return np
    return ScalarMath
