"""A practice set asks each kind in turn, nothing twice, and counts the mistakes by name."""

from collections import Counter

import pytest

from vorlib.practice import PracticeSet

KINDS = ("reciprocal", "centred_radial", "sensing")


def test_every_kind_comes_up_equally_often():
    practice = PracticeSet(KINDS, count=9, seed=1)
    assert len(practice) == 9
    assert Counter(question.kind for question in practice) == dict.fromkeys(KINDS, 3)


def test_no_question_comes_twice():
    prompts = [question.prompt for question in PracticeSet(("reciprocal",), count=60, seed=3)]
    assert len(set(prompts)) == 60


def test_the_same_seed_gives_the_same_set_and_another_seed_another():
    def prompts(seed):
        return [question.prompt for question in PracticeSet(KINDS, count=6, seed=seed)]

    assert prompts(1) == prompts(1)
    assert prompts(1) != prompts(2)


def test_a_misconception_is_counted_by_name_and_a_right_answer_once():
    practice = PracticeSet(("reciprocal",), count=2, seed=1)
    first, _ = practice
    mistake = first.misconceptions[0]
    for _ in range(2):
        practice.mark(first, first.form.show(mistake.would_answer))
        practice.mark(first, first.form.show(first.answer))
    practice.mark(first, "nonsense")
    assert practice.tally == {mistake.name: 2}
    assert practice.right == 1
    assert practice.summary() == f"1 of 2 right. Look again at: {mistake.name} (2)."


def test_a_set_just_begun_has_nothing_right_and_nothing_to_look_at_again():
    assert PracticeSet(KINDS, count=3, seed=1).summary() == "0 of 3 right."


def test_a_set_needs_kinds_it_knows_and_a_count_it_can_fill():
    with pytest.raises(ValueError, match="at least one kind"):
        PracticeSet((), count=1, seed=1)
    with pytest.raises(ValueError, match="count must be 1 or more, got 0"):
        PracticeSet(KINDS, count=0, seed=1)
    with pytest.raises(ValueError, match="kind must be one of"):
        PracticeSet(("loop",), count=1, seed=1)
    with pytest.raises(ValueError, match="count must be smaller: 'reciprocal'"):
        PracticeSet(("reciprocal",), count=400, seed=1)
