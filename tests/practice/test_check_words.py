"""The report of a check flight in words: what it says at which points, and what it never says."""

from dataclasses import replace
from types import SimpleNamespace

import pytest

from vorlib.practice.check_flight.example import HOLDS, blueprint, example_report
from vorlib.practice.check_flight.plan import check_flight_plan
from vorlib.practice.check_flight.report import assess
from vorlib.practice.check_flight.words import (
    course,
    item_text,
    practice_line,
    report_words,
    score,
    slip_words,
    verdict,
)
from vorlib.practice.learning.lessons import NOTEBOOKS
from vorlib.practice.questions.registry import all_kinds


def report_with(right, wrong=0):
    """A report with so many right, so many mistaken, and the rest without an answer."""
    items = []
    for number, planned in enumerate(check_flight_plan(3), start=1):
        question = planned.question
        answer = question.answer if number <= right else question.misconceptions[0].would_answer
        given = question.form.show(answer) if number <= right + wrong else ""
        items.append(assess(number, planned, given))
    return replace(example_report(), items=tuple(items))


def test_the_invented_learner_is_found_out_by_his_report():
    report = example_report()
    assert {slip.name for slip in report.slips()} <= set(HOLDS)
    assert report.slips()[0].times >= 2
    assert "It may be a habit." in slip_words(report.slips()[0])
    assert "One habit may explain 2 of 4 wrong answers" in verdict(report)


def test_a_clean_paper_is_called_clean_and_any_other_sends_to_one_lesson_first():
    assert "Nothing was missed" in verdict(report_with(24))
    assert "lesson" not in verdict(report_with(24))
    for right in (23, 20, 16, 12):
        report = report_with(right)
        assert verdict(report).count("Begin with lesson") == 1
        assert f"Begin with lesson {report.to_revise()[0].title}" in verdict(report)


def test_a_habit_behind_several_answers_is_named_once():
    habit = example_report().slips()[0].name
    assert verdict(example_report()).count(habit) == 1
    assert [slip.name for slip in example_report().slips()].count(habit) == 1


@pytest.mark.parametrize(
    ("right", "wrong", "words"),
    [
        (24, 0, "You know this."),
        (18, 6, "You know most of this."),
        (16, 8, "There are gaps to close first."),
        (0, 24, "There are gaps to close first."),
        (11, 0, "Too few answers"),
    ],
)
def test_the_verdict_follows_the_points_and_says_what_to_do(right, wrong, words):
    assert verdict(report_with(right, wrong)).startswith(words)


def test_an_element_not_known_is_named_however_many_points_there_are():
    report = report_with(24)
    wrong = [
        replace(item, verdict="wrong") if item.element.endswith("S4") else item
        for item in report.items
    ]
    report = replace(report, items=tuple(wrong))
    assert report.points >= 22
    assert verdict(report).startswith("You know most of this. The gap: station passage.")


@pytest.mark.parametrize("report", [example_report(), report_with(24), report_with(0)])
def test_no_report_speaks_of_being_fit_to_fly_and_each_sends_to_the_instructor(report):
    words = report_words(report).casefold()
    assert "instructor" in words
    for phrase in ("fit to fly", "passed", "failed", "safe"):
        assert phrase not in words
    assert max(map(len, report_words(report).splitlines())) <= 92


def test_score_and_course_count_in_plain_words():
    report = replace(example_report(), pauses=0)
    assert score(report).startswith("18 of 24 points: 18 right, ")
    assert course(report).endswith("for 27 of 30 minutes, with no pause.")
    late = replace(report, pauses=1, items=(replace(report.items[0], late=True),))
    assert course(late).endswith("one pause. 1 answer came after the time, with 1 of the points.")


def test_what_to_revise_is_a_lesson_there_is_and_a_line_that_starts_practice():
    started = []
    for share in example_report().to_revise():
        assert share.name in NOTEBOOKS
        offered = SimpleNamespace(practice=lambda *kinds: started.extend(kinds))
        eval(practice_line(share), {"x": offered})
    assert started
    assert set(started) <= set(all_kinds())


def test_a_question_stands_in_the_report_with_answer_and_solution():
    item = next(item for item in example_report().items if item.misconception)
    text = " ".join(item_text(item).split())
    for words in (item.prompt, item.given, item.right_answer, item.worked, item.why_tempting):
        assert words in text


def test_the_blueprint_counts_every_question():
    lines = blueprint().splitlines()
    assert sum(int(line.split()[-1]) for line in lines[1:-1]) == 24
    assert lines[-1].split()[-1] == "24"
