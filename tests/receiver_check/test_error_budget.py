"""The error budget: what adds up, how, and what it is in miles."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from vorlib.receiver_check.error_budget import (
    ROUTE_BUDGET,
    ErrorBudget,
    half_width_nm,
)

ERRORS = st.floats(0, 10)


def test_the_components_of_a_route_make_5_726_degrees():
    # ICAO Doc 8168, volume II, part II, section 3, chapter 1, appendix B: 3.5, 2.7, 3.5, 1.0; root
    # of their squares is computed, to the three figures given
    assert ROUTE_BUDGET.root_sum_square_deg == pytest.approx(5.726, abs=5e-4)
    assert ROUTE_BUDGET.worst_case_deg == pytest.approx(10.7, abs=1e-12)


def test_a_route_5_nm_either_side_splays_from_49_8_nm():
    # ICAO Doc 8168, volume II, part II, section 3, chapter 1, 1.4.2: 5.0 NM as far as 49.8 NM;
    # exact tangent gives 49.86
    assert half_width_nm(ROUTE_BUDGET.root_sum_square_deg, 49.8) == pytest.approx(5.0, abs=0.01)


def test_a_receiver_just_inside_its_limit_is_2_nm_off_at_30_nm():
    # 1 in 60 (common practice): 4 x 30 / 60; the tangent gives 5 per cent more
    assert half_width_nm(4.0, 30.0) == pytest.approx(2.0, rel=0.06)


@given(station=ERRORS, receiver=ERRORS, reading=ERRORS, monitor=ERRORS)
def test_independent_errors_together_lie_between_the_greatest_and_the_sum(
    station, receiver, reading, monitor
):
    budget = ErrorBudget(station, receiver, reading, monitor)
    greatest = max(station, receiver, reading, monitor)
    assert greatest - 1e-9 <= budget.root_sum_square_deg <= budget.worst_case_deg + 1e-9


def test_halving_the_smallest_error_hardly_helps_and_halving_the_greatest_does():
    whole = ErrorBudget(1.0, 4.0, 2.0).root_sum_square_deg
    assert whole - ErrorBudget(0.5, 4.0, 2.0).root_sum_square_deg < 0.1
    assert whole - ErrorBudget(1.0, 2.0, 2.0).root_sum_square_deg > 1.5


@given(error=st.floats(0.1, 80), distance=st.floats(0, 200))
def test_the_width_is_the_distance_times_the_tangent(error, distance):
    width = half_width_nm(error, distance)
    assert width == pytest.approx(distance * math.tan(math.radians(error)), abs=1e-9)


def test_widths_take_arrays():
    assert half_width_nm(45.0, np.array([1.0, 2.0])) == pytest.approx([1.0, 2.0])


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: ErrorBudget(-1.0, 4.0, 2.0), "station_deg must be 0 degrees or more, got -1"),
        (lambda: ErrorBudget(1.0, float("nan"), 2.0), "receiver_deg must be finite"),
        (lambda: half_width_nm(90.0, 10.0), "error_deg must be from 0 to 89 degrees"),
        (lambda: half_width_nm(4.0, -1.0), "distance_nm must be 0 NM or more"),
    ],
)
def test_errors_and_distances_out_of_range_are_refused(make, message):
    with pytest.raises(ValueError, match=message):
        make()
