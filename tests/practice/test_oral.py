"""Questions to ask a class aloud: what they are about, in which order, and read by the back row."""

import pytest

from vorlib.practice import all_kinds, draw, kinds_of_lesson
from vorlib.practice.classroom.demo_class import demo_class
from vorlib.practice.classroom.oral import MOST_ASKED, OralSubject, oral_questions
from vorlib.practice.classroom.results import ClassResults
from vorlib.practice.classroom.teaching import teach_again
from vorlib.practice.questions.misconceptions import RADIAL_LEADS_TO
from vorlib.practice.questions.standards import ELEMENTS, LOST_SIGNAL, PASSAGE
from vorlib.views.classroom.oral_question import COVERED, HIGH, LEAST_TYPE, oral_picture, oral_words
from vorlib.views.drawing.layout import extent
from vorlib.views.drawing.primitives import Group, Text
from vorlib.views.drawing.theme import SCREEN


@pytest.fixture(scope="module")
def results():
    return ClassResults(demo_class())


def test_questions_are_of_the_lesson_the_element_or_the_misconception_that_was_chosen():
    by_lesson = oral_questions(OralSubject.read("05"), 1)
    assert {one.question.kind for one in by_lesson} == set(kinds_of_lesson("05"))
    for code in (PASSAGE, LOST_SIGNAL):
        by_element = oral_questions(OralSubject.read(code), 1)
        assert {one.question.element for one in by_element} == {code}
    by_belief = oral_questions(OralSubject.read(RADIAL_LEADS_TO.name), 1)
    assert all(RADIAL_LEADS_TO.name in one.question.foreseen for one in by_belief)
    for asked in (by_lesson, by_belief):
        assert len({one.question.prompt for one in asked}) == MOST_ASKED
    assert oral_questions(OralSubject.read("05"), 2) != by_lesson
    with pytest.raises(ValueError, match="the topic must be a lesson"):
        OralSubject.read("soaring")


def test_every_element_that_questions_serve_can_be_asked_about():
    assert all(OralSubject.read(code).kinds for code in ELEMENTS)


def test_the_weak_points_of_the_class_come_first_and_the_most_widely_held_before_others(results):
    asked = oral_questions(OralSubject.read("all"), 1, results)
    weak = [again.misconception for again in teach_again(results)]
    names = [one.why.partition(":")[0] for one in asked if one.why]
    assert list(dict.fromkeys(names)) == weak[: len(set(names))]
    assert (
        asked[0].why
        == f"{weak[0]}: {len(teach_again(results)[0].held_by)} of 30 in the class hold it"
    )
    for one, name in zip(asked, names, strict=False):
        assert name in one.question.foreseen
    assert not any(one.why for one in asked[len(names) :])
    learners = [one.name for one in results.learners]
    assert not any(name in one.why for one in asked for name in learners)


def types(items):
    for item in items:
        if isinstance(item, Group):
            yield from types(item.items)
        elif isinstance(item, Text):
            yield item.size


@pytest.mark.parametrize("kind", all_kinds())
def test_every_question_fits_the_projector_in_type_for_the_back_row_and_keeps_its_answer(kind):
    # 600 units are shown 620 pixels high and more at 1280 x 720, so none is below 20 pixels
    for seed in range(3):
        question = draw(kind, seed)
        for revealed in (False, True):
            picture = oral_picture(question, "Question 1 of 20", revealed, SCREEN)
            assert min(types(picture.items)) >= LEAST_TYPE - 0.01
            for item in picture.items:
                in_group = isinstance(item, Group)
                foot = item.y + extent(item.items[0])[3] if in_group else extent(item)[3]
                assert foot <= HIGH
            words = oral_words(question, "Question 1 of 20", revealed)
            assert (COVERED in words) != revealed
            told = question.worked.removeprefix(f"{question.answer}. ")  # said once
            assert (told in words) == revealed
