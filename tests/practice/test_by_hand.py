"""What is right, written as a pilot reads it: no finer than a needle, a ring or a map."""

import re

import pytest

from vorlib.practice import all_kinds, draw, mark
from vorlib.practice.questions.by_hand import counts_as_right, written

FINE = re.compile(r"\d\.\d{3}|\d{2,}\.\d[1-9]")


@pytest.mark.parametrize("kind", all_kinds())
def test_answer_and_limits_in_the_key_are_right_themselves_and_not_finer_than_can_be_read(kind):
    for question in (draw(kind, seed) for seed in range(40)):
        shown, limits = written(question, question.answer), counts_as_right(question)
        assert mark(question, shown).verdict == "right"
        assert not FINE.search(shown)
        assert not FINE.search(limits)
        if limits == "this alone":
            continue
        low, _, high = limits.partition(" to ")
        last = high.rpartition(" ")[2]
        low = low if low.endswith(last) or high.isdecimal() else f"{low} {last}"
        assert mark(question, low).verdict == mark(question, high).verdict == "right", limits


def test_days_and_degrees_that_are_counted_have_one_answer_alone():
    for kind in ("check_days", "two_receivers", "intercept_angle", "reciprocal"):
        assert {counts_as_right(draw(kind, seed)) for seed in range(20)} == {"this alone"}
