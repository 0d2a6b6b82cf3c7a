"""The texts of the predictions: each whole, and refused in words when it is not."""

import pytest

from vorlib.exhibits import predict
from vorlib.practice.learning.predictions import (
    PredictionError,
    lessons,
    prediction_text,
    read_predictions,
)

WHOLE = """
[[prediction]]
id = "02-1"
question = "What does the needle do?"
choices = ["it swings", "nothing"]
answer = "nothing"
reasons = ["the nose turned", "place and ring stayed"]
reason = "place and ring stayed"
because = "The heading plays no part."
"""


def test_a_file_gives_its_predictions_by_id():
    (text,) = read_predictions(WHOLE, "02").values()
    assert (text.id, text.answer, text.choices) == ("02-1", "nothing", ("it swings", "nothing"))


@pytest.mark.parametrize("lesson", lessons())
def test_every_lesson_has_whole_predictions(lesson):
    assert prediction_text(f"{lesson}-1").because


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("[[prediction]]", "[[prediction", "predictions of 02: not TOML"),
        ("[[prediction]]", "[[question]]", r"must be tables \[\[prediction\]\]"),
        ('answer = "nothing"', "", "'02-1': must have answer, because,"),
        ('id = "02-1"', 'id = "02-1"\nhint = "no"', "'02-1': must have .* got .*hint"),
        ('id = "02-1"', "", "without id': must have"),
        ('"02-1"', '"02-2"', "ids must be 02-1, got 02-2"),
        ('"02-1"', '"03-1"', "ids must be 02-1, got 03-1"),
        ('"02-1"', "21", "every text must be there"),
        ('answer = "nothing"', 'answer = "perhaps"', "answer must be one of .* got 'perhaps'"),
        ('["it swings", "nothing"]', '["nothing"]', "choices must be two or more that differ"),
        ('["it swings", "nothing"]', '["nothing", "nothing"]', "choices must be two or more"),
        ('["it swings", "nothing"]', '"nothing"', "choices must be a list, got 'nothing'"),
        ('"it swings"', '" "', "every text must be there, none blank"),
        ('reason = "place and ring stayed"', "", "'02-1': must have .*reason, reasons"),
        ('reason = "place', 'reason = "the place', "reason must be one of .* got 'the place"),
        ('["the nose turned", ', "[", "reasons must be two or more that differ"),
        ('"the nose turned"', "7", "every text must be there"),
    ],
)
def test_what_is_wrong_with_a_prediction_is_said(old, new, words):
    assert old in WHOLE
    with pytest.raises(PredictionError, match=words):
        read_predictions(WHOLE.replace(old, new), "02")


@pytest.mark.parametrize("wrong", ["", "02", "99-1", "02-x", "../02-1", "02-01"])
def test_what_is_no_id_is_answered_with_the_lessons(wrong):
    with pytest.raises(PredictionError, match=r"such as .02-1.*00, 01, 02"):
        predict(wrong)


def test_a_number_beyond_the_last_is_answered_with_the_ids():
    with pytest.raises(PredictionError, match=r"one of 02-1, 02-2, .*got '02-77'"):
        predict("02-77")


def test_a_prediction_is_covered_with_its_own_choices():
    asked = predict("02-2")
    assert asked.choices == prediction_text("02-2").choices
    assert prediction_text("02-2").because not in asked.sentence
