"""Where a function crosses zero."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from vorlib.core.roots import crossing


@given(st.floats(0.001, 0.999), st.sampled_from([1.0, -1.0]), st.floats(0.2, 5.0))
def test_the_crossing_is_found_and_not_before_it(root: float, sign: float, power: float) -> None:
    def curved(x: float) -> float:
        return sign * math.copysign(abs(x - root) ** power, x - root)

    found = crossing(curved, 0.0, 1.0, 1e-6)
    assert 0.0 <= found - root <= 1e-6 + 1e-12


@pytest.mark.parametrize("power", [1.0, 2.0, 3.0])
def test_a_smooth_crossing_takes_few_looks(power: float) -> None:
    asked = []

    def curved(x: float) -> float:
        asked.append(x)
        return math.exp(power * x) - 2.0

    crossing(curved, 0.0, 1.0, 1e-6)
    assert len(asked) < 14
