"""Directions, differences and how they are spoken."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from vorlib.core.angles import (
    compass_point,
    difference_deg,
    format_direction,
    mean_direction_deg,
    reciprocal_deg,
    wrap_180,
    wrap_360,
)

ANY_ANGLE = st.floats(-1e6, 1e6)

DIRECTIONS = [
    (0.0, 360.0, "north is 360"),
    (360.0, 360.0, "360 stays"),
    (720.0, 360.0, "two turns are north"),
    (-90.0, 270.0, "anticlockwise from north is west"),
    (-0.0, 360.0, "minus zero is north"),
    (-1e-20, 360.0, "a tiny negative is north, not beyond it"),
    (359.999, 359.999, "just short of north stays"),
    (1e-12, 1e-12, "just past north stays"),
]


@pytest.mark.parametrize(("angle", "expected", "why"), DIRECTIONS, ids=[w for *_, w in DIRECTIONS])
def test_a_direction_is_in_the_half_open_circle(angle: float, expected: float, why: str) -> None:
    assert wrap_360(angle) == expected


DIFFERENCES = [
    (10.0, 350.0, 20.0, "clockwise across north"),
    (350.0, 10.0, -20.0, "anticlockwise across north"),
    (180.0, 0.0, 180.0, "opposite is plus 180"),
    (0.0, 180.0, 180.0, "opposite is plus 180 from the other side too"),
    (40.0, 40.0, 0.0, "the same is zero"),
    (360.0, 0.0, 0.0, "360 and 0 are the same"),
]


@pytest.mark.parametrize(
    ("to", "start", "expected", "why"), DIFFERENCES, ids=[w for *_, w in DIFFERENCES]
)
def test_a_difference_is_the_shorter_turn(
    to: float, start: float, expected: float, why: str
) -> None:
    assert difference_deg(to, start) == expected


@given(ANY_ANGLE)
def test_wrapping_keeps_the_direction_and_its_range(angle: float) -> None:
    direction, signed = float(wrap_360(angle)), float(wrap_180(angle))
    assert 0.0 < direction <= 360.0
    assert -180.0 < signed <= 180.0
    for wrapped in (direction, signed):
        turns = (angle - wrapped) / 360.0
        assert turns == pytest.approx(round(turns), abs=1e-9)


@given(ANY_ANGLE)
def test_the_reciprocal_of_the_reciprocal_is_the_direction(angle: float) -> None:
    assert difference_deg(reciprocal_deg(reciprocal_deg(angle)), angle) == pytest.approx(
        0, abs=1e-8
    )


@given(st.lists(st.floats(-60.0, 60.0), min_size=1, max_size=9), st.floats(0.0, 360.0))
def test_turning_every_direction_turns_the_mean(spread: list[float], turn: float) -> None:
    mean = mean_direction_deg(spread)
    turned = mean_direction_deg(np.array(spread) + turn)
    assert difference_deg(turned, mean + turn) == pytest.approx(0.0, abs=1e-7)


def test_directions_that_cancel_have_no_mean() -> None:
    with pytest.raises(ValueError, match="cancel"):
        mean_direction_deg([90.0, 270.0])
    with pytest.raises(ValueError, match="at least one"):
        mean_direction_deg([])


SPOKEN = [(360.0, "360"), (0.4, "360"), (359.6, "360"), (5.0, "005"), (-90.0, "270"), (0.6, "001")]


@pytest.mark.parametrize(("direction", "expected"), SPOKEN)
def test_a_direction_is_spoken_in_three_digits(direction: float, expected: str) -> None:
    assert format_direction(direction) == expected


def test_compass_points_change_half_way_between_their_directions() -> None:
    assert compass_point(22.4) == "north"
    assert compass_point(22.6) == "northeast"
    assert compass_point(337.6) == "north"


@pytest.mark.parametrize("bad", [np.nan, np.inf, -np.inf, "forty", None])
def test_what_is_not_a_finite_number_is_refused(bad: object) -> None:
    with pytest.raises(ValueError, match="angle_deg must be"):
        wrap_360(bad)  # type: ignore[arg-type]


def test_shapes_are_kept_and_empty_arrays_stay_empty() -> None:
    assert wrap_360(np.zeros((2, 3))).shape == (2, 3)
    assert wrap_180([]).shape == (0,)
