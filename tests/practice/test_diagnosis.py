"""A misconception is told from a slip: who holds one is found out, and who only slips is clean."""

import pytest

from practice.believers import LESSONS, holding, least, misconceptions, pool, sit
from vorlib.practice import kinds_of_lesson
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.learning.diagnosis import diagnose, first_tries, unsettled

FORESEEN = ("a quarter turn", "no turn at all")


def attempts(*shown, foreseen=FORESEEN):
    """Return answers to different questions which showed these misconceptions, or "" for none."""
    return [
        Attempt("reciprocal", seed, "wrong" if name else "right", name, foreseen)
        for seed, name in enumerate(shown)
    ]


# ---- the rule


def test_once_or_twice_is_a_slip_and_three_times_is_held():
    name = FORESEEN[0]
    assert diagnose([]) == ()
    assert diagnose(attempts(name)) == diagnose(attempts(name, name)) == ()
    assert diagnose(attempts(name, name, name)) == (name,)


def test_the_same_question_tried_again_is_no_further_evidence():
    once = attempts(FORESEEN[0])
    assert diagnose(once * 5) == ()
    assert first_tries(once * 5) == once


def test_three_slips_among_many_right_answers_are_slips():
    name = FORESEEN[0]
    assert diagnose(attempts(name, "", "", name, "", "", name)) == ()


def test_what_was_put_right_since_is_held_no_longer():
    name = FORESEEN[0]
    assert diagnose(attempts(*[name] * 5, "")) == (name,)
    assert diagnose(attempts(*[name] * 5, "", "")) == ()


def test_right_answers_to_questions_that_could_not_show_it_count_for_nothing():
    name = FORESEEN[0]
    elsewhere = attempts(*[""] * 9, foreseen=("width taken for radius",))
    assert diagnose(attempts(name, name, name) + elsewhere) == (name,)


def test_of_two_that_are_held_the_one_shown_more_often_comes_first():
    one, other = FORESEEN
    shown = [*attempts(*[one] * 3, foreseen=(one,)), *attempts(*[other] * 4, foreseen=(other,))]
    apart = [Attempt("reciprocal", n, a.verdict, a.misconception, a.foreseen)
             for n, a in enumerate(shown)]  # fmt: skip
    assert diagnose(apart) == (other, one)


def test_a_slip_asks_for_another_question_until_two_are_right_or_it_is_known_to_be_held():
    name = FORESEEN[0]
    assert unsettled(attempts("")) == ()
    assert unsettled(attempts(name)) == unsettled(attempts("", name, name)) == (name,)
    assert unsettled(attempts(name, "")) == (name,)
    assert unsettled(attempts(name, "", "")) == unsettled(attempts(name, name, name)) == ()


# ---- simulated learners

ENOUGH, SESSIONS = 0.95, 24  # the share of sessions that must end in the right diagnosis


def found(lesson, held):
    """Return in how many of the sessions exactly the held misconception was found."""
    wanted, kinds, answer = (held,) if held else (), kinds_of_lesson(lesson), holding(held)
    with pool():
        sets = [sit(kinds, answer, seed, f"{lesson}/{held}") for seed in range(SESSIONS)]
    return sum(diagnose(one.attempts) == wanted for one in sets)


@pytest.mark.parametrize("lesson", LESSONS)
def test_a_learner_who_holds_one_misconception_is_found_out_within_15_questions(lesson):
    times = {name: found(lesson, name) for name in misconceptions(lesson)}
    fewest = least(SESSIONS, ENOUGH)
    assert {name: count for name, count in times.items() if count < fewest} == {}
    assert sum(times.values()) >= ENOUGH * SESSIONS * len(times)


@pytest.mark.parametrize("lesson", LESSONS)
def test_a_learner_who_only_slips_is_called_clean(lesson):
    assert found(lesson, None) >= ENOUGH * SESSIONS
