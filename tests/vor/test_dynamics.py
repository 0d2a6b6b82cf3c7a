"""How needle and flag follow in time."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from vorlib.vor.dynamics import delayed, lagged


def test_after_one_time_constant_a_needle_has_covered_63_percent_of_a_step() -> None:
    time_s = np.array([0.0, 1e-9, 3.0])
    assert lagged(time_s, [0.0, 1.0, 1.0], 3.0)[-1] == pytest.approx(1 - np.exp(-1.0), abs=1e-6)


@given(st.lists(st.floats(0.01, 5.0), min_size=2, max_size=30), st.floats(0.1, 10.0))
def test_more_samples_of_a_held_value_change_nothing(steps: list[float], constant: float) -> None:
    time_s = np.concatenate([[0.0], np.cumsum(steps)])
    value = np.where(time_s > 0.0, 1.0, 0.0)
    assert lagged(time_s, value, constant)[-1] == pytest.approx(
        1.0 - np.exp(-time_s[-1] / constant), abs=1e-9
    )


def test_without_a_time_constant_the_needle_follows_at_once() -> None:
    np.testing.assert_array_equal(lagged([0.0, 1.0], [2.0, -2.0], 0.0), [2.0, -2.0])


def test_a_flag_changes_only_when_the_new_state_has_lasted() -> None:
    state = [1, 0, 1, 1, 0, 0, 0, 0]
    np.testing.assert_array_equal(delayed(np.arange(8.0), state, 2.0), [1, 1, 1, 1, 1, 1, 0, 0])
    np.testing.assert_array_equal(delayed(np.arange(8.0), state, 0.0), state)


def test_no_samples_give_no_samples() -> None:
    assert lagged([], [], 2.0).shape == delayed([], [], 2.0).shape == (0,)


@pytest.mark.parametrize("times", [[0.0, 0.0], [1.0, 0.5], [[0.0, 1.0]]])
def test_times_that_do_not_increase_are_refused(times: list[float]) -> None:
    with pytest.raises(ValueError, match="increasing times"):
        lagged(times, np.zeros(np.shape(times)), 1.0)
