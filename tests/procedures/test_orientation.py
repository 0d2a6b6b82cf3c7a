"""Where am I, and the way straight to the station."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

import vorlib as v
from vorlib.procedures.orientation import sensing_steps

QUILLON = v.Station("QLN", v.Position(46.0, -30.0), -9.0, 113.4, "Quillon", "H")

# Worked by hand: selected course, flag, dots, radial.
CASES = [
    (214.0, v.Flag.FROM, 0.0, 214.0, "centered with FROM: the course is the radial"),
    (34.0, v.Flag.TO, 0.0, 214.0, "centered with TO: the radial is the reciprocal"),
    (40.0, v.Flag.TO, -3.0, 214.0, "needle three dots left with TO"),
    (40.0, v.Flag.FROM, 2.0, 36.0, "needle two dots right with FROM"),
    (2.0, v.Flag.FROM, 2.0, 358.0, "across north"),
]


@pytest.mark.parametrize(
    ("course", "flag", "dots", "radial", "why"), CASES, ids=[w for *_, w in CASES]
)
def test_the_radial_is_told_by_course_flag_and_needle(
    course: float, flag: v.Flag, dots: float, radial: float, why: str
) -> None:
    assert v.orient(course, flag, dots).radial_deg == pytest.approx(radial)


@given(st.floats(0.0, 360.0), st.floats(0.0, 360.0), st.floats(3.0, 60.0))
def test_orientation_finds_the_radial_the_receiver_was_on(
    course: float, radial: float, distance: float
) -> None:
    reading = v.Receiver(course).read(QUILLON, QUILLON.position_on(radial, distance, 9000.0))
    if reading.flag is v.Flag.OFF or reading.pegged:
        return
    where = v.orient(course, reading.flag, reading.dots)
    assert abs(v.difference_deg(where.radial_deg, radial)) < 1e-6
    assert abs(v.difference_deg(where.bearing_to_deg, radial + 180.0)) < 1e-6


def test_the_steps_say_the_direction_in_words() -> None:
    words = " ".join(v.orient(34.0, v.Flag.TO, 0.0).steps)
    assert "214 radial, southwest of the station" in words
    assert "reciprocal" in words


def test_off_or_pegged_the_needle_does_not_tell_the_radial() -> None:
    with pytest.raises(ValueError, match="with OFF the needle says nothing"):
        v.orient(40.0, v.Flag.OFF, 0.0)
    with pytest.raises(ValueError, match="turn the course selector until the needle moves"):
        v.orient(40.0, v.Flag.TO, -5.0)


def test_straight_to_the_station_is_the_reciprocal_of_the_radial() -> None:
    way = v.direct_to(214.0, 360.0)
    assert way.course_deg == pytest.approx(34.0)
    assert way.turn_deg == pytest.approx(34.0)
    windy = v.direct_to(214.0, 360.0, 100.0, v.Wind(124.0, 20.0))
    assert windy.heading_deg == pytest.approx(34.0 + 11.54, abs=0.01)
    with pytest.raises(ValueError, match="crosswind"):
        v.direct_to(214.0, 360.0, 100.0, v.Wind(124.0, 120.0))


def test_reverse_sensing_is_told_with_its_cure() -> None:
    assert "select the reciprocal, 220" in " ".join(sensing_steps(220.0, 40.0, v.Flag.FROM))
    assert "turn toward the needle" in " ".join(sensing_steps(50.0, 40.0, v.Flag.FROM))
    assert "nothing to follow" in sensing_steps(50.0, 40.0, v.Flag.OFF)[0]
