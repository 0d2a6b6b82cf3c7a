"""What comes next: first what went wrong, then what is due, then what was never asked."""

from datetime import UTC, date, datetime, timedelta

import pytest

from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.learning.mastery import INTERVALS_DAYS, Mastery, Summary, agenda

TODAY = date(2026, 6, 1)
KINDS = ("a", "b", "c", "d")


def standing(days_right, days_ago=0):
    return Mastery(9, 5, TODAY - timedelta(days=days_ago), days_right)


def test_a_kind_is_due_again_after_twice_the_days_each_time():
    # Doubled intervals after Leitner: common practice.
    assert INTERVALS_DAYS == (0, 1, 2, 4, 8, 16)
    due = [(standing(days_right).due - TODAY).days for days_right in range(8)]
    assert due == [0, 1, 2, 4, 8, 16, 16, 16]


def test_a_kind_is_not_attempted_or_wrong_or_right():
    summary = Summary({"a": standing(0), "b": standing(1)})
    assert [summary.state(kind) for kind in "abc"] == ["wrong", "right", "not attempted"]
    assert summary.answered == 18


def test_without_a_record_the_kinds_stay_in_their_order():
    assert agenda(Summary(), KINDS, TODAY) == KINDS


def test_the_longest_overdue_comes_first_and_what_is_not_yet_due_last():
    summary = Summary({"a": standing(3, 1), "b": standing(1, 3), "c": standing(1, 9)})
    assert agenda(summary, KINDS, TODAY) == ("c", "b", "d", "a")
    assert agenda(summary, KINDS, TODAY + timedelta(days=30))[:3] == ("c", "b", "a")


def test_what_went_wrong_today_is_due_today():
    assert agenda(Summary({"d": standing(0)}), KINDS, TODAY) == ("d", "a", "b", "c")


def test_a_kind_that_showed_a_misconception_still_held_comes_before_all_else():
    noon = datetime(2026, 6, 1, 12, tzinfo=UTC)
    recent = tuple(Attempt("d", n, "wrong", "m", ("m", "n"), answered_at=noon) for n in range(3))
    summary = Summary({"a": standing(0, 30), "d": standing(1)}, recent)
    assert agenda(summary, KINDS, TODAY)[0] == "d"
    assert agenda(Summary(summary.by_kind, recent[:1]), KINDS, TODAY)[0] == "a"


@pytest.mark.parametrize("kinds", [(), ("b",), ("c", "b")])
def test_only_kinds_that_were_offered_come_up(kinds):
    assert sorted(agenda(Summary({"a": standing(0)}), kinds, TODAY)) == sorted(kinds)
