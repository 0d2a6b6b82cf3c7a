"""Every sentence that the course says is one, whatever the numbers in it."""

import pytest
from sentences import (
    faults,
    label_faults,
    of_exhibit,
    of_findings,
    of_predictions,
    of_questions,
    of_reports,
)

from vorlib import exhibits
from vorlib.exhibits.base.registry import all_exhibits
from vorlib.practice import all_kinds

# A handful each; `tests/tools/sweep_sentences.py` draws hundreds.
STATES, QUESTIONS, FINDINGS = 12, 12, 600


@pytest.mark.parametrize("name", all_exhibits())
def test_an_exhibit_says_and_refuses_in_whole_sentences_with_rounded_numbers(name):
    assert list(of_exhibit(getattr(exhibits, name)(), STATES, seed=3)) == []


@pytest.mark.parametrize("kind", all_kinds())
def test_a_question_is_asked_hinted_worked_and_marked_in_whole_sentences(kind):
    assert list(of_questions(kind, QUESTIONS)) == []


def test_a_finding_is_a_whole_sentence_whatever_was_flown():
    assert list(of_findings(FINDINGS, seed=3)) == []


def test_predictions_and_reports_are_whole_sentences():
    assert [*of_predictions(), *of_reports()] == []


BAD = [
    ("Turn 1 degrees left.", "plural of one"),
    ("You are 0.0 NM from it.", "nothing told as a number"),
    ("The needle moves 0.0054 dots a second.", "unrounded"),
    ("It leads by -0 degrees.", "minus nothing"),
    ("The wind_kt is too large.", "an argument's name"),
    ("The wind is nan.", "Python"),
    ("Turn  left.", "doubled"),
    ("Turn left..", "doubled"),
    ("Turn to the the left.", "a word said twice"),
    ("turn left.", "no capital"),
    ("Turn left. then right.", "no capital"),
    ("Turn left", "no stop"),
    ("You hear --.- .-.. -.. It is right.", "Morse runs into a stop"),
]


@pytest.mark.parametrize(("words", "fault"), BAD)
def test_what_is_wrong_with_a_sentence_is_noticed(words, fault):
    assert fault in [found.partition(":")[0] for found in faults(words)]


@pytest.mark.parametrize(
    "words",
    [
        "Turn 1 degree left, 11 degrees in all.",
        "By 14 CFR 91.171 it is 4.0 degrees; 1 is enough.",
        "You hear (--.- .-.. -.). It is right.",
        "From 46.1234, -29.9876 it is 10.0 NM.",
    ],
)
def test_a_good_sentence_has_no_fault(words):
    assert list(faults(words)) == []
    assert list(label_faults(words)) == []
