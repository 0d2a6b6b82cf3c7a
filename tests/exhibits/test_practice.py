"""Practice in a notebook: the words beside the box, below it, and what the keyboard does."""

import pytest

from vorlib.exhibits.practice import practice


@pytest.fixture
def exhibit():
    return practice("centred_radial", "sensing", count=3, seed=1)


def answer(exhibit, text):
    exhibit.box.value = text
    return exhibit.check()


def right_answer(exhibit):
    return exhibit.question.form.show(exhibit.question.answer)


def test_it_begins_with_the_first_question_and_nothing_else(exhibit):
    assert exhibit.question.prompt in exhibit.prompt.value
    assert "Question 1 of 3" in exhibit.prompt.value
    assert exhibit.feedback.words == exhibit.hints.words == exhibit.tally.words == ""


def test_saved_without_a_kernel_it_is_the_first_question_in_words(exhibit):
    bundle = exhibit._repr_mimebundle_()
    assert bundle["text/plain"] == f"Question 1 of 3. {exhibit.question.prompt}"


def test_a_right_answer_is_followed_by_the_worked_solution(exhibit):
    answer(exhibit, right_answer(exhibit))
    assert exhibit.feedback.words.startswith("Right: ")
    assert exhibit.question.worked in exhibit.feedback.words
    assert exhibit.tally.words == "1 of 3 right."


def test_a_foreseen_mistake_is_named_and_counted_but_not_solved(exhibit):
    mistake = exhibit.question.misconceptions[0]
    answer(exhibit, exhibit.question.form.show(mistake.would_answer))
    assert mistake.name in exhibit.feedback.words
    assert exhibit.question.worked not in exhibit.feedback.words
    assert f"{mistake.name} (1)" in exhibit.tally.words


def test_nonsense_is_answered_beside_the_box_and_not_counted(exhibit):
    answer(exhibit, "over there")
    assert "I need " in exhibit.message.value
    assert 'role="alert"' in exhibit.message.value
    assert exhibit.feedback.words == exhibit.tally.words == ""
    answer(exhibit, right_answer(exhibit))
    assert exhibit.message.value == ""


def test_what_is_written_is_shown_as_words_and_never_as_markup():
    exhibit = practice("off_course_distance", count=1)
    answer(exhibit, "2 <b>x</b>")
    assert "<b>" not in exhibit.message.value


def test_three_hints_come_one_by_one(exhibit):
    for number, hint in enumerate(exhibit.question.hints, start=1):
        assert not exhibit.hint_button.disabled
        exhibit.hint()
        assert exhibit.hints.words.splitlines()[-1] == f"Hint {number}: {hint}"
    assert exhibit.hint_button.disabled


def test_next_clears_the_page_but_keeps_the_tally(exhibit):
    first = exhibit.question
    exhibit.hint()
    answer(exhibit, right_answer(exhibit))
    exhibit.next()
    assert exhibit.question != first
    assert exhibit.box.value == exhibit.hints.words == exhibit.feedback.words == ""
    assert exhibit.tally.words == "1 of 3 right."


def test_after_the_last_question_there_is_no_next(exhibit):
    exhibit.next()
    exhibit.next()
    assert exhibit.next_button.disabled
    last = exhibit.question
    exhibit.next()
    assert exhibit.question is last
    answer(exhibit, right_answer(exhibit))
    assert exhibit.feedback.words.endswith("That was the last question.")


def test_enter_checks_the_answer(exhibit):
    exhibit.box.value = right_answer(exhibit)
    exhibit.box._handle_custom_msg({"event": "submit"}, [])
    assert exhibit.feedback.words.startswith("Right: ")


def test_an_unknown_kind_is_answered_with_those_there_are():
    with pytest.raises(ValueError, match="kind must be one of"):
        practice("loop")
    with pytest.raises(ValueError, match="at least one kind"):
        practice()
