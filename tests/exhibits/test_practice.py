"""Practice in a notebook: what is said beside the box and below it, and what the buttons do."""

import pytest

from vorlib.exhibits.practice import practice


@pytest.fixture
def exhibit():
    return practice("centred_radial", "sensing", count=3, seed=1)


def press(exhibit, button, **more):
    """Do what the browser does when a button is pressed."""
    exhibit.widget._handle_custom_msg({"press": button, **more}, [])


def right_answer(exhibit):
    return exhibit.question.form.show(exhibit.question.answer)


def test_it_begins_with_the_first_question_and_nothing_else(exhibit):
    shown = exhibit.widget
    assert shown.prompt == f"Question 1 of 3. {exhibit.question.prompt}"
    assert shown.message == shown.feedback == shown.hints == shown.tally == ""


def test_saved_without_a_kernel_it_is_the_first_question_in_words(exhibit):
    assert exhibit._repr_mimebundle_()["text/plain"] == exhibit.widget.prompt


def test_a_right_answer_is_followed_by_the_worked_solution(exhibit):
    press(exhibit, "check", text=right_answer(exhibit))
    assert exhibit.widget.feedback.startswith("Right: ")
    assert exhibit.question.worked in exhibit.widget.feedback
    assert exhibit.widget.tally == "1 of 3 right."


def test_a_foreseen_mistake_is_named_and_counted_but_not_solved(exhibit):
    mistake = exhibit.question.misconceptions[0]
    press(exhibit, "check", text=exhibit.question.form.show(mistake.would_answer))
    assert mistake.name in exhibit.widget.feedback
    assert exhibit.question.worked not in exhibit.widget.feedback
    assert f"{mistake.name} (1)" in exhibit.widget.tally


def test_nonsense_is_answered_beside_the_box_and_not_counted(exhibit):
    press(exhibit, "check", text="over there")
    assert exhibit.widget.message.startswith("I need ")
    assert exhibit.widget.feedback == exhibit.widget.tally == ""
    press(exhibit, "check", text=right_answer(exhibit))
    assert exhibit.widget.message == ""


def test_three_hints_come_one_by_one(exhibit):
    for number, hint in enumerate(exhibit.question.hints, start=1):
        assert exhibit.widget.has_hint
        press(exhibit, "hint")
        assert exhibit.widget.hints.splitlines()[-1] == f"Hint {number}: {hint}"
    assert not exhibit.widget.has_hint


def test_next_clears_the_page_but_keeps_the_tally(exhibit):
    first = exhibit.question
    press(exhibit, "hint")
    press(exhibit, "check", text=right_answer(exhibit))
    press(exhibit, "next")
    assert exhibit.question != first
    assert exhibit.widget.prompt.startswith("Question 2 of 3. ")
    assert exhibit.widget.hints == exhibit.widget.feedback == ""
    assert exhibit.widget.has_hint
    assert exhibit.widget.tally == "1 of 3 right."


def test_after_the_last_question_there_is_no_next(exhibit):
    press(exhibit, "next")
    press(exhibit, "next")
    assert not exhibit.widget.has_next
    last = exhibit.question
    press(exhibit, "next")
    assert exhibit.question is last
    press(exhibit, "check", text=right_answer(exhibit))
    assert exhibit.widget.feedback.endswith("That was the last question.")


def test_an_unknown_kind_is_answered_with_those_there_are():
    with pytest.raises(ValueError, match="kind must be one of"):
        practice("loop")
    with pytest.raises(ValueError, match="at least one kind"):
        practice()
