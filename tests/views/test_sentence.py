"""The live sentence: it says what the reading says, and in the trade's words."""

import math
import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from views.drawn import STATION, read

from vorlib.core.angles import compass_point
from vorlib.views.sentence import (
    in_words,
    needle_words,
    off_sentence,
    reading_sentence,
    sentence,
    unassured_sentence,
    where_sentence,
)
from vorlib.vor.receiver import Flag, Reason, Receiver

directions = st.floats(0.1, 360.0)


def test_the_example_of_six_degrees_reads_three_dots():
    there, reading = read(214, 12.4, 40)
    assert sentence(STATION, there, 40, reading) == (
        "You are 12.4 NM southwest of Varrow on its 214 radial. With 040 selected the flag reads "
        "TO and the needle stands 3 dots left: the course line is to the left of someone flying "
        "040."
    )


@given(
    radial_deg=directions,
    distance_nm=st.floats(0.1, 60.0),
    course_deg=st.floats(-720.0, 720.0),
    altitude_ft=st.floats(600.0, 17000.0),
)
def test_the_sentence_agrees_with_the_reading(radial_deg, distance_nm, course_deg, altitude_ft):
    there, reading = read(radial_deg, distance_nm, course_deg, altitude_ft)
    words = sentence(STATION, there, course_deg, reading)

    place = re.match(r"You are ([\d.]+) NM ([a-z-]+) of Varrow on its (\d{3}) radial\.", words)
    assert float(place[1]) == pytest.approx(float(reading.distance_nm), abs=0.0501)
    assert place[2] == compass_point(radial_deg)
    assert 1 <= int(place[3]) <= 360
    assert abs((int(place[3]) - float(reading.radial_deg) + 180) % 360 - 180) <= 0.501

    selected, flag = re.search(r"With (\d{3}) selected the flag reads (\w+)", words).groups()
    assert abs((int(selected) - course_deg + 180) % 360 - 180) <= 0.501
    assert 1 <= int(selected) <= 360
    assert Flag[flag] == reading.flag
    assert (reading.flag == Flag.OFF) == (str(reading.reason).lower() in words.lower()
                                          and reading.reason != Reason.NONE)  # fmt: skip

    side = "left" if reading.deviation_deg < 0 else "right"
    other = "right" if side == "left" else "left"
    if reading.reason == Reason.LINE_OF_SIGHT:
        assert "a centered needle under OFF means nothing" in words
        assert "dots" not in words
    elif reading.pegged:
        assert f"full {side}" in words
    elif "the needle is centered" in words:
        assert abs(reading.dots) < 0.05
    else:
        number = re.search(rf"the needle stands ([\d.]+) dots? {side}", words)
        assert float(number[1]) == pytest.approx(abs(float(reading.dots)), abs=0.0501)
    if reading.flag != Flag.OFF and "on the course line" not in words:
        assert f"the course line is to the {side} of someone flying {selected}" in words
        assert other not in words.split("selected")[1]
    live_and_unassured = reading.flag != Flag.OFF and not reading.assured
    assert ("Nobody promises this needle" in words) == live_and_unassured
    assert "-0" not in words
    assert "000" not in words


@given(radial_deg=directions, course_deg=directions, distance_nm=st.floats(5.0, 30.0))
def test_the_side_is_where_the_course_line_lies_on_the_map(radial_deg, course_deg, distance_nm):
    _, reading = read(radial_deg, distance_nm, course_deg)
    words = reading_sentence(course_deg, reading)
    if "course line is to the" not in words:
        return
    # On a flat map with the station at the origin and the course up, someone at x east of the
    # course line has the line to the left.
    x = distance_nm * math.sin(math.radians(radial_deg - course_deg))
    assert ("to the left" in words) == (x > 0)


@pytest.mark.parametrize(
    ("dots", "pegged", "words"),
    [
        (0.0, False, "the needle is centered"),
        (-0.0, False, "the needle is centered"),
        (-0.04, False, "the needle is centered"),
        (1.0, False, "the needle stands 1 dot right"),
        (-1.5, False, "the needle stands 1.5 dots left"),
        (3.0, False, "the needle stands 3 dots right"),
        (5.0, True, "the needle stands full right, more than five dots"),
        (-5.0, True, "the needle stands full left, more than five dots"),
    ],
)
def test_the_needle_is_said_in_dots(dots, pegged, words):
    _, reading = read(214, 12.4, 40)
    assert needle_words(replace(reading, dots=dots, pegged=pegged)) == words


def test_straight_over_the_station_no_side_is_named():
    _, reading = read(214, 0.0, 40)
    words = reading_sentence(40, reading)
    assert "the needle has nothing to show" in words
    assert not re.search("right|left", words)


@pytest.mark.parametrize(
    ("radial_deg", "distance_nm", "altitude_ft", "on_the_air", "reason"),
    [
        (130, 12.0, 4500, True, Reason.ABEAM),
        (214, 0.3, 9500, True, Reason.CONE),
        (214, 80.0, 1500, True, Reason.LINE_OF_SIGHT),
        (214, 12.0, 4500, False, Reason.OFF_THE_AIR),
    ],
    ids=lambda value: getattr(value, "name", ""),
)
def test_an_off_flag_comes_with_its_reason_and_advice(
    radial_deg, distance_nm, altitude_ft, on_the_air, reason
):
    station = replace(STATION, on_the_air=on_the_air)
    there = station.position_on(radial_deg, distance_nm, altitude_ft)
    reading = Receiver(40).read(station, there)
    words = reading_sentence(40, reading)
    assert "the flag reads OFF" in words
    assert words.endswith(off_sentence(reading))
    assert off_sentence(reading).lower().startswith(str(reason))
    assert "course line" not in words  # a needle under OFF points to no line


def test_a_needle_outside_the_service_volume_is_told_and_not_to_be_relied_on():
    there, reading = read(214, 45.0, 40, 9500.0)
    caution = (
        "Nobody promises this needle: you are outside the service volume of a VOR of class "
        f"{STATION.service} (40 NM at this height). Do not rely on it."
    )
    assert sentence(STATION, there, 40, reading).endswith(caution)
    assert "the flag reads TO" in sentence(STATION, there, 40, reading)
    assert reading_sentence(40, reading).endswith(
        "you are outside the station's service volume. Do not rely on it."
    )
    assert unassured_sentence(read(214, 39.0, 40, 9500.0)[1]) == ""


def test_a_flag_that_shows_needs_no_reason():
    _, reading = read(214, 12.4, 40)
    assert off_sentence(reading) == ""


def test_overhead_there_is_no_radial():
    there = STATION.position_on(90, 0.01, 9000)
    assert where_sentence(STATION, there) == "You are over Varrow, where every radial meets."


@pytest.mark.parametrize("radial_deg", [359.7, 360.0, 0.3])
def test_north_is_said_as_360(radial_deg):
    assert "on its 360 radial" in where_sentence(STATION, STATION.position_on(radial_deg, 12.0))


def test_words_beside_a_picture_are_broken_between_words():
    lines = in_words("You are on the radial. " * 9).splitlines()
    assert lines[0].startswith("In words: You")
    assert max(map(len, lines)) <= 90
