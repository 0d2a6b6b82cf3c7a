"""The instructor's page of plans, syllabus and masters: chosen, shown and written."""

import pytest
from exhibits.test_worksheets import answers, press
from paper.test_page import texts

from vorlib.exhibits.instructor.teaching_sheets import draw, teaching_sheets
from vorlib.views.drawing.theme import PROJECTOR, SCREEN


@pytest.fixture(scope="module")
def page():
    return teaching_sheets()


def test_it_shows_the_plan_of_the_lesson_that_is_chosen_and_says_so(page):
    page.set(shown="Lesson plan", lesson="06", minutes="45")
    assert "Lesson plan: 6. Tracking in wind" in texts(draw(page.state, SCREEN))
    assert "Lesson plan: 6. Tracking in wind" in texts(draw(page.state, PROJECTOR))
    assert page.sentence.startswith("Lesson plan 6. Tracking in wind: 45 minutes in 9 steps")
    before = page.state.plan.asked
    press(page, "Other questions")
    assert page.state.plan.asked != before


def test_an_order_that_cannot_be_taught_is_answered_and_the_last_good_one_stays(page):
    page.set(shown="Syllabus", order="1 2 3 8")
    assert "4 lessons in 3 h" in page.sentence
    page.set(order="1 2 4")
    assert any("needs lesson 03" in answer for answer in answers(page))
    assert page.state.order == ("01", "02", "03", "08")
    page.set(minutes="half")
    assert any("15 to 180 whole minutes" in answer for answer in answers(page))


def test_its_buttons_write_each_sheet_into_the_folder_that_is_named(page, tmp_path):
    page.set(folder=str(tmp_path), lesson="05", minutes="", order="")
    for button in ("plan, homework and key", "the syllabus"):
        press(page, f"Write {button} (PDF)")
    names = sorted(path.stem for path in tmp_path.iterdir())
    assert names == ["homework-05", "homework-05_key", "lesson-plan-05", "syllabus"]


def test_masters_are_turned_page_by_page(page):
    page.set(shown="Masters")
    assert "Compass rose" in texts(draw(page.state, SCREEN))
    press(page, "Next page")
    assert "Blank dials" in texts(draw(page.state, SCREEN))
    assert "wind triangle" in page.sentence
