"""Learners who answer by a belief are found under its name; who slips or guesses holds nothing."""

from itertools import combinations

import pytest

from practice.believers import (
    LESSONS,
    RULES,
    by,
    guessing,
    least,
    lessons_of,
    pool,
    pooled,
    sit,
    slipping,
)
from vorlib.practice import all_kinds, kinds_of_lesson, mark
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.learning.diagnosis import diagnose, guesses
from vorlib.practice.questions.misconceptions import BELIEFS, RENAMED
from vorlib.practice.record.exchange import Export, as_json, from_json

SESSIONS = 24
OF_A_PAIR, BOTH = 16, 0.8
EVERY_RULE = pytest.mark.parametrize(("name", "rule"), RULES, ids=[r.__name__ for _, r in RULES])


@pytest.fixture(scope="module", autouse=True)
def from_a_pool():
    with pool():
        yield


def held(lesson, answer, sessions=SESSIONS):
    """Return what was found in each of the sessions."""
    return [
        set(diagnose(sit(kinds_of_lesson(lesson), answer, n).attempts)) for n in range(sessions)
    ]


@EVERY_RULE
def test_a_belief_is_foreseen_just_where_it_leads_astray(name, rule):
    for kind in all_kinds():
        for question in (pooled(kind, seed) for seed in range(40)):
            text = rule(question)
            if text is None or mark(question, text).verdict in ("right", "close"):
                assert name not in question.foreseen, question.prompt
            else:
                assert name in mark(question, text).names, question.prompt


@EVERY_RULE
def test_who_holds_a_belief_is_found_and_never_under_another_name(name, rule):
    for lesson in lessons_of(rule):
        found = held(lesson, by(rule))
        assert sum(one == {name} for one in found) >= 0.95 * SESSIONS, lesson
        assert all(one <= {name} for one in found), lesson


@pytest.mark.parametrize("lesson", LESSONS)
def test_who_slips_in_one_answer_of_ten_holds_nothing(lesson):
    assert not any(held(lesson, slipping(0.1)))


@pytest.mark.parametrize("lesson", LESSONS)
def test_who_guesses_is_said_to_guess_and_holds_nothing(lesson):
    attempts = [sit(kinds_of_lesson(lesson), guessing, n).attempts for n in range(SESSIONS)]
    assert sum(bool(diagnose(one)) for one in attempts) <= 0.05 * SESSIONS
    assert sum(guesses(one) for one in attempts) >= 0.95 * SESSIONS


@pytest.mark.parametrize("lesson", LESSONS)
def test_who_holds_two_beliefs_at_once_is_found_to_hold_both_and_no_other(lesson):
    rules = [one for one in RULES if lesson in lessons_of(one[1])]
    times = {}
    for (name, rule), (name2, rule2) in combinations(rules, 2):
        found = held(lesson, by(rule, rule2), OF_A_PAIR)
        times[name, name2] = sum(one == {name, name2} for one in found)
        assert all(one <= {name, name2} for one in found), (name, name2)
    assert sum(times.values()) >= BOTH * OF_A_PAIR * len(times)
    fewest = least(OF_A_PAIR, BOTH)
    assert not {pair: count for pair, count in times.items() if count < fewest}


def test_every_belief_that_two_kinds_can_show_stands_in_the_one_table():
    kinds: dict[str, set[str]] = {}
    for kind in all_kinds():
        for seed in range(40):
            for name in pooled(kind, seed).foreseen:
                kinds.setdefault(name, set()).add(kind)
    assert {name for name, where in kinds.items() if len(where) > 1} <= set(BELIEFS)
    assert not set(RENAMED) & set(kinds)
    assert set(RENAMED.values()) <= set(BELIEFS)


def test_an_old_record_is_read_with_the_names_of_today():
    old = Attempt("centred_radial", 1, "wrong", "the reciprocal", ("the reciprocal",))
    (now,) = from_json(as_json(Export("Wenna", (old,)))).attempts
    assert now.shown == now.foreseen == ("radial thought to lead to the station",)
