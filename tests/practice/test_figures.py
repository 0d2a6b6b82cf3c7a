"""What a question shows, as plain values."""

from dataclasses import replace

import numpy as np
import pytest

from vorlib.earth.geodesic import Position
from vorlib.practice.questions.figures import Dial, Map, QuestionFigure, Spot
from vorlib.stations.archipelago import STATIONS
from vorlib.vor.receiver import Flag, Receiver

STATION = STATIONS["QLN"]


def test_a_dial_shows_what_the_receiver_reads():
    there = STATION.position_on(214.0, 12.0, 4500.0)
    dial = Dial.of(400.0, Receiver(40.0).read(STATION, there), "B")
    assert dial == Dial(40.0, Flag.TO, -3.0, "B")


def test_far_off_the_course_the_needle_of_a_dial_is_at_full_scale():
    there = STATION.position_on(214.0, 12.0, 4500.0)
    assert Dial.of(90.0, Receiver(90.0).read(STATION, there)).dots == -5.0


@pytest.mark.parametrize(
    ("made", "words"),
    [
        (lambda: Dial(float("nan"), Flag.TO), "course_deg"),
        (lambda: Dial(40.0, Flag.TO, 5.5), "dots must be from -5 to 5"),
        (lambda: Spot(float("inf"), 12.0), "radial_deg"),
        (lambda: Spot(40.0, 0.0), "distance_nm"),
        (lambda: QuestionFigure(), "figure must show dials or a map"),
    ],
)
def test_what_cannot_be_shown_is_refused_by_name(made, words):
    with pytest.raises(ValueError, match=words):
        made()


def test_a_map_alone_is_a_figure():
    assert QuestionFigure(map=Map(STATION, (Spot(40.0, 12.0),))).dials == ()


def test_a_figure_is_spelled_the_same_whatever_its_numbers_are_made_of():
    there = replace(STATION, position=Position(*map(np.float64, (46.0, -30.0, 640.0))))
    spelled = {
        QuestionFigure((Dial(course, Flag.TO, dots),), Map(station, (Spot(radial, 12),))).spelled
        for course, dots, radial in ((40.0, 0.0, 214), (np.float64(40.0), -0.0, np.float64(214.0)))
        for station in (STATION, there)
    }
    assert spelled == {" 40.0 TO 0.0; QLN 25.0;  214.0 12.0 360.0"}


def test_another_needle_flag_course_or_place_is_spelled_otherwise():
    dials = [Dial(40.0, Flag.TO), Dial(40.0, Flag.FROM), Dial(40.0, Flag.TO, 1.5)]
    figures = [QuestionFigure((dial,)) for dial in (*dials, Dial(41.0, Flag.TO))]
    figures += [QuestionFigure(map=Map(STATION, (Spot(radial, 12.0),))) for radial in (40.0, 41.0)]
    assert len({figure.spelled for figure in figures}) == len(figures)
