"""The wind triangle against handbooks and against itself."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

import vorlib as v
from vorlib.aircraft.wind import CALM, WindLayers, components_kt, track

DIRECTION, AIRSPEED = st.floats(0.0, 360.0), st.floats(60.0, 250.0)
WIND_KT = st.floats(0.0, 50.0)


def test_the_handbook_example_gives_88_knots() -> None:
    # Pilot's Handbook (FAA-H-8083-25C), chapter 16, wind triangle: TC 090, wind 045/40, TAS 120: GS
    # 88. True heading 076 and correction 14 left from memory.
    answer = v.wind_triangle(90.0, 120.0, 45.0, 40.0)
    assert answer.groundspeed_kt == pytest.approx(88.0, abs=0.5)
    assert answer.correction_deg == pytest.approx(-14.0, abs=0.5)
    assert answer.heading_deg == pytest.approx(76.0, abs=0.5)


# US Navy P-305 section 507 and its drill: course, airspeed, wind, printed groundspeed by the
# manual's shortcut (the wind's component added), and the exact triangle (computed).
DRILL = [
    (85, 140, 220, 35, 165, 162.54),
    (340, 150, 120, 20, 165, 164.77),
    (246, 165, 180, 10, 161, 160.68),
    (360, 96, 90, 15, 96, 94.82),
    (212, 116, 50, 35, 148, 148.78),
    (131, 204, 40, 40, 204, 200.74),
]


@pytest.mark.parametrize(("course", "airspeed", "wind_from", "wind", "shortcut", "exact"), DRILL)
def test_shortcut_and_exact_groundspeed_are_told_apart(
    course: float, airspeed: float, wind_from: float, wind: float, shortcut: float, exact: float
) -> None:
    head, _ = components_kt(course, v.Wind(wind_from, wind))
    assert airspeed - head == pytest.approx(shortcut, abs=1.5)
    answer = v.wind_triangle(course, airspeed, wind_from, wind)
    assert answer.groundspeed_kt == pytest.approx(exact, abs=0.01)


def test_wind_found_from_heading_and_track_agrees_with_a_manual() -> None:
    # A United States manual of the 1940s, exercise 16: TAS 165, TH 104, TC 094, GS 146: 154/34.
    found = v.wind_from(104.0, 165.0, 94.0, 146.0)
    assert found.from_deg == pytest.approx(154.0, abs=1.0)
    assert found.speed_kt == pytest.approx(34.0, abs=1.5)


@given(DIRECTION, AIRSPEED, DIRECTION, WIND_KT)
def test_the_heading_that_holds_a_course_makes_that_track(
    course: float, airspeed: float, wind_from: float, wind_kt: float
) -> None:
    answer = v.wind_triangle(course, airspeed, wind_from, wind_kt)
    flown = track(answer.heading_deg, airspeed, v.Wind(wind_from, wind_kt))
    assert abs(v.difference_deg(flown.track_deg, course)) < 1e-6
    assert flown.groundspeed_kt == pytest.approx(answer.groundspeed_kt)


@given(DIRECTION, AIRSPEED, DIRECTION, st.floats(1.0, 50.0))
def test_the_wind_is_found_again_from_the_flight(
    heading: float, airspeed: float, wind_from: float, wind_kt: float
) -> None:
    flown = track(heading, airspeed, v.Wind(wind_from, wind_kt))
    found = v.wind_from(heading, airspeed, flown.track_deg, flown.groundspeed_kt)
    assert found.speed_kt == pytest.approx(wind_kt, abs=1e-9)
    assert abs(v.difference_deg(found.from_deg, wind_from)) < 1e-6


@given(DIRECTION, AIRSPEED, DIRECTION, WIND_KT, DIRECTION)
def test_turning_the_world_turns_the_heading_and_keeps_the_speed(
    course: float, airspeed: float, wind_from: float, wind_kt: float, turn: float
) -> None:
    here = v.wind_triangle(course, airspeed, wind_from, wind_kt)
    turned = v.wind_triangle(course + turn, airspeed, wind_from + turn, wind_kt)
    assert abs(v.difference_deg(turned.heading_deg, here.heading_deg + turn)) < 1e-6
    assert turned.groundspeed_kt == pytest.approx(here.groundspeed_kt, abs=1e-6)


@given(DIRECTION, AIRSPEED, st.floats(-180.0, 180.0), WIND_KT)
def test_a_mirrored_wind_mirrors_the_correction(
    course: float, airspeed: float, angle: float, wind_kt: float
) -> None:
    one = v.wind_triangle(course, airspeed, course + angle, wind_kt)
    other = v.wind_triangle(course, airspeed, course - angle, wind_kt)
    assert one.correction_deg == pytest.approx(-other.correction_deg, abs=1e-9)


@given(DIRECTION, AIRSPEED)
def test_in_calm_air_heading_is_track(heading: float, airspeed: float) -> None:
    flown = track(heading, airspeed, CALM)
    assert abs(v.difference_deg(flown.track_deg, heading)) < 1e-9
    assert flown.groundspeed_kt == pytest.approx(airspeed)


@given(DIRECTION, AIRSPEED, DIRECTION, WIND_KT)
def test_three_times_airspeed_and_wind_is_three_times_the_groundspeed(
    course: float, airspeed: float, wind_from: float, wind_kt: float
) -> None:
    assume(wind_kt < airspeed)
    one = v.wind_triangle(course, airspeed, wind_from, wind_kt)
    three = v.wind_triangle(course, 3 * airspeed, wind_from, 3 * wind_kt)
    assert three.groundspeed_kt == pytest.approx(3 * one.groundspeed_kt)
    assert three.correction_deg == pytest.approx(one.correction_deg, abs=1e-9)


def test_many_courses_are_answered_at_once() -> None:
    answer = v.wind_triangle(np.arange(1.0, 361.0), 100.0, 270.0, 20.0)
    assert answer.heading_deg.shape == (360,)
    assert answer.groundspeed_kt.min() == pytest.approx(80.0)


BAD = [
    ((360, 50, 270, 60), "true_airspeed_kt must be more than the crosswind, which is 60 kt"),
    ((360, 60, 270, 60), "more than the crosswind"),
    ((360, 50, 10, 60), "no progress along the course against a headwind of 59.08"),
    ((360, 0, 270, 10), "true_airspeed_kt must be more than 0 kt, got 0"),
    ((360, 100, 270, -5), "wind_kt must be 0 kt or more, got -5"),
    (([90, 360], 50, 270, 60), "crosswind, which is 60 at index 1 kt"),
]


@pytest.mark.parametrize(("arguments", "message"), BAD, ids=[m for _, m in BAD])
def test_a_course_that_cannot_be_held_is_refused_in_words(arguments, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        v.wind_triangle(*arguments)


def test_winds_change_with_the_layer() -> None:
    layers = WindLayers(((0.0, v.Wind(270.0, 10.0)), (3000.0, v.Wind(300.0, 25.0))))
    assert layers.at(-100.0).speed_kt == layers.at(2999.0).speed_kt == 10.0
    assert layers.at(3000.0).speed_kt == 25.0
    assert layers.seconds_at(2500.0, 500.0) == pytest.approx(60.0)
    assert layers.seconds_at(2500.0, 0.0) == np.inf
    with pytest.raises(ValueError, match="rising order"):
        WindLayers(((3000.0, CALM), (0.0, CALM)))
