"""Marking says right, close, wrong or not understood, and names the mistake behind an answer."""

import pytest

from vorlib.practice.questions.answers import DIRECTION
from vorlib.practice.questions.question import Misconception, Question, mark


def a_question(*mistakes, tolerance=1.0):
    return Question(
        kind="example",
        prompt="You are on the 214 radial. Which course leads to the station?",
        form=DIRECTION,
        answer=34.0,
        tolerance=tolerance,
        tolerance_why="A course is read to the nearest degree.",
        hints=("one", "two", "three"),
        worked="034",
        element="PA.VI.B",
        level="understanding",
        misconceptions=mistakes,
    )


RECIPROCAL = Misconception("the reciprocal", 214.0, "It is on the same line.", "Which way is it?")


@pytest.mark.parametrize("text", ["034", "34", "033", "035 inbound", "R-034"])
def test_an_answer_within_the_tolerance_is_right(text):
    marking = mark(a_question(RECIPROCAL), text)
    assert marking.verdict == "right"
    assert "034" in marking.message


def test_an_answer_just_at_the_tolerance_is_right_despite_the_last_digits():
    question = a_question()
    assert mark(question, "35.0000000001").verdict == "right"
    assert mark(question, "35.01").verdict != "right"


def test_an_answer_twice_the_tolerance_away_is_not_right():
    assert mark(a_question(), "036").verdict == "close"


def test_close_ends_at_three_tolerances():
    # half a point in the check flight: README and the report say so
    assert mark(a_question(), "037").verdict == "close"
    assert mark(a_question(), "31").verdict == "close"
    assert mark(a_question(), "37.01").verdict == "wrong"


def test_close_says_why_the_tolerance_is_what_it_is():
    assert "nearest degree" in mark(a_question(), "036").message


def test_an_answer_far_off_that_was_not_foreseen_is_wrong_without_a_name():
    marking = mark(a_question(RECIPROCAL), "120")
    assert (marking.verdict, marking.misconception) == ("wrong", None)


def test_a_foreseen_mistake_is_named_with_why_and_where_to_look_again():
    marking = mark(a_question(RECIPROCAL), "214")
    assert marking.verdict == "wrong"
    assert marking.misconception is RECIPROCAL
    for words in (RECIPROCAL.name, RECIPROCAL.why_tempting, RECIPROCAL.look_again):
        assert words in marking.message


@pytest.mark.parametrize("text", ["", "   "])
def test_a_blank_is_not_wrong_but_not_yet_written(text):
    marking = mark(a_question(), text)
    assert (marking.verdict, marking.message) == ("not understood", "Nothing is written yet.")


def test_nonsense_is_not_wrong_but_not_understood():
    marking = mark(a_question(), "over there")
    assert marking.verdict == "not understood"
    assert marking.message == "I need a direction, such as 040 or N."


@pytest.mark.parametrize("text", ["214", "036", "120", "over there", ""])
def test_marking_never_gives_the_answer_away(text):
    assert "34" not in mark(a_question(RECIPROCAL), text).message


def test_a_question_is_ambiguous_when_one_text_could_mean_two_things():
    near = Misconception("near", 36.0, "", "")
    assert a_question(RECIPROCAL).is_unambiguous
    assert not a_question(near).is_unambiguous
    assert a_question(near, tolerance=0.9).is_unambiguous
