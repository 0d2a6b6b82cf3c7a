"""What pilots write is read as they mean it, and nonsense is answered with what is wanted."""

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from vorlib.core.angles import COMPASS_POINTS
from vorlib.core.units import FEET_PER_NM
from vorlib.practice.questions.answers import (
    COMPASS_POINT,
    DEGREES,
    DIRECTION,
    DISTANCE,
    FLAG,
    LEFT_RIGHT,
    MINUTES,
    SECONDS,
    SENSING,
)

DIRECTIONS = [
    ("360", 360),
    ("0", 360),
    ("000", 360),
    ("N", 360),
    ("north", 360),
    ("040", 40),
    ("40", 40),
    ("40°", 40),
    ("040 inbound", 40),
    ("inbound on 040", 40),
    ("R-214", 214),
    ("R 214", 214),
    ("r214", 214),
    ("214 radial", 214),
    ("radial 214", 214),
    ("heading 040", 40),
    ("040 M", 40),
    ("040 degrees magnetic.", 40),
    ("SW", 225),
    ("south-west", 225),
    ("southwest", 225),
    ("South West", 225),
    (" 12.5 ", 12.5),
    ("12,5", 12.5),
]


@pytest.mark.parametrize(("text", "degrees"), DIRECTIONS, ids=[text for text, _ in DIRECTIONS])
def test_a_direction_is_read_as_a_pilot_writes_it(text, degrees):
    assert DIRECTION.parse(text) == degrees


@pytest.mark.parametrize("text", ["", "to", "12 L", "-40", "040 050", "nan", "1e2", "radial", "?"])
def test_what_is_no_direction_is_answered_with_an_example(text):
    with pytest.raises(ValueError, match="I need a direction, such as 040 or N"):
        DIRECTION.parse(text)


def test_a_direction_beyond_360_is_told_the_range():
    with pytest.raises(ValueError, match="from 001 to 360: 394"):
        DIRECTION.parse("394")


@given(st.integers(1, 360))
def test_a_direction_that_is_shown_is_read_back(degrees):
    assert DIRECTION.parse(DIRECTION.show(degrees)) == degrees


def test_directions_either_side_of_north_are_close_together():
    assert DIRECTION.apart(359, 2) == 3


@pytest.mark.parametrize("point", COMPASS_POINTS)
def test_a_compass_point_may_be_words_initials_or_degrees(point):
    apart = point.replace("th", "th ").strip()
    initials = "".join(part[0] for part in apart.split())
    hyphened = apart.replace(" ", "-")
    for text in (point, apart, hyphened, initials, initials.upper(), f"{point} of Quillon"):
        assert COMPASS_POINT.parse(text) == point
    assert COMPASS_POINT.parse(str(45 * COMPASS_POINTS.index(point))) == point


@pytest.mark.parametrize("text", ["", "up", "north-north", "400"])
def test_what_is_no_compass_point_is_answered_with_an_example(text):
    with pytest.raises(ValueError, match="such as southwest or SW"):
        COMPASS_POINT.parse(text)


SIDES = [
    ("12 L", -12),
    ("12L", -12),
    ("L12", -12),
    ("2.5 left", -2.5),
    ("left 2.5", -2.5),
    ("4 degrees to the left", -4),
    ("4° right", 4),
    ("4 right of course", 4),
    ("0", 0),
]


@pytest.mark.parametrize(("text", "degrees"), SIDES, ids=[text for text, _ in SIDES])
def test_left_is_negative_and_right_is_positive(text, degrees):
    assert LEFT_RIGHT.parse(text) == degrees


def test_a_number_without_a_side_is_asked_for_its_side():
    with pytest.raises(ValueError, match=r"which side\? Write 4 left or 4 right"):
        LEFT_RIGHT.parse("4")


@pytest.mark.parametrize("text", ["", "left", "left 4 right", "-4", "four left", "4 dots left"])
def test_what_is_no_side_and_number_is_answered_with_an_example(text):
    with pytest.raises(ValueError, match="such as 4 left or 4 R"):
        LEFT_RIGHT.parse(text)


@pytest.mark.parametrize("text", ["to", "TO", " To. "])
def test_a_flag_is_read_in_any_letters(text):
    assert FLAG.parse(text) == "TO"


def test_an_unknown_word_is_answered_with_the_words_there_are():
    with pytest.raises(ValueError, match="TO, FROM, OFF"):
        FLAG.parse("maybe")
    with pytest.raises(ValueError, match="normal, reverse"):
        SENSING.parse("")


def test_two_words_are_the_same_or_infinitely_far_apart():
    assert FLAG.apart("TO", "TO") == 0
    assert FLAG.apart("TO", "OFF") == float("inf")


QUANTITIES = [
    (DISTANCE, "2.5", 2.5),
    (DISTANCE, "2,5 NM", 2.5),
    (DISTANCE, " .6 NM.", 0.6),
    (DISTANCE, "1 nautical miles", 1),
    (DISTANCE, "0,250", 0.25),
    (DISTANCE, "12,000 ft", 12000 / FEET_PER_NM),
    (DISTANCE, "6000 feet", 6000 / FEET_PER_NM),
    (SECONDS, "90", 90),
    (SECONDS, "90s", 90),
    (SECONDS, "1.5 min", 90),
]


@pytest.mark.parametrize(
    ("form", "text", "value"), QUANTITIES, ids=[text for _, text, _ in QUANTITIES]
)
def test_a_quantity_may_come_with_a_unit_and_is_converted(form, text, value):
    assert form.parse(text) == pytest.approx(value)


def test_one_of_a_unit_is_written_in_the_singular_and_read_again():
    assert (DEGREES.show(1.0), DEGREES.show(1.02), DISTANCE.show(1.0)) == (
        "1 degree",
        "1.02 degrees",
        "1 NM",
    )
    assert MINUTES.parse(MINUTES.show(1.0)) == 1.0


def test_an_unknown_unit_is_answered_with_the_unit_wanted():
    with pytest.raises(ValueError, match=r"unit 'km': give the answer in NM"):
        DISTANCE.parse("2 km")


@pytest.mark.parametrize("text", ["", "half", "-2", "1.2.3"])
def test_what_is_no_quantity_is_answered_with_an_example(text):
    with pytest.raises(ValueError, match=r"I need a number of NM, such as 2\.5"):
        DISTANCE.parse(text)


@given(st.text(max_size=20))
def test_any_text_is_either_read_or_refused_with_words(text):
    for form in (DIRECTION, COMPASS_POINT, LEFT_RIGHT, FLAG, SENSING, DISTANCE, SECONDS):
        with suppress(ValueError):
            form.parse(text)
