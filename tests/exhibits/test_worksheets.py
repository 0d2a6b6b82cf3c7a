"""Printed practice on an instructor's page: chosen, shown, written, and found again."""

import pytest
from paper.test_page import texts

from vorlib.core.caution import CAUTION
from vorlib.exhibits.instructor.worksheets import WorksheetsState, draw, worksheets
from vorlib.paper.worksheet import Worksheet
from vorlib.views.drawing.layout import extent
from vorlib.views.drawing.theme import PROJECTOR, SCREEN


@pytest.fixture
def page():
    return worksheets()


def answers(page):
    """Return what is said beside the controls."""
    return [control.message for control in page.controls if control.message]


def press(page, label):
    for control in page.controls:
        buttons = getattr(control, "buttons", {})
        button = buttons.get(label) or getattr(control, "button", None)
        if button is not None and button.description == label:
            button.click()


def test_it_shows_the_first_page_of_the_sheet_as_it_will_be_printed(page):
    shown = texts(draw(page.state, SCREEN))
    assert {"Problem sheet", f"code {page.code}", "page 1 of 5"} <= set(shown)
    assert CAUTION in " ".join(shown)


def test_the_sentence_says_topic_questions_pages_and_code(page):
    page.set(topic="06", count="1", paper="Letter")
    assert page.sentence.startswith("Tracking in wind: 1 question on 1 page of Letter, and an")
    assert page.code in page.sentence


@pytest.mark.parametrize("shown", ["Problem sheet", "Answer key", "In-flight card"])
@pytest.mark.parametrize("theme", [SCREEN, PROJECTOR], ids=["screen", "projector"])
@pytest.mark.parametrize("topic", ["02", "all"])
def test_every_sheet_fits_its_frame_on_the_screen_and_for_the_back_row(topic, shown, theme):
    picture = draw(WorksheetsState(topic=topic, shown=shown), theme)
    left, top, right, bottom = extent(picture.items[0])
    assert left >= -1.0
    assert top >= -1.0
    assert right <= picture.width + 1.0
    assert bottom <= picture.height + 1.0


def test_pages_are_turned_round_and_round(page):
    for number in (2, 3, 4, 5, 1):
        press(page, "Next page")
        assert f"page {number} of 5" in texts(draw(page.state, SCREEN))
    press(page, "Previous page")
    assert "page 5 of 5" in texts(draw(page.state, SCREEN))


def test_other_questions_have_another_seed(page):
    before = page.code
    press(page, "Other questions")
    assert page.code != before or page.state.seed == 7


@pytest.mark.parametrize(
    ("entry", "words"),
    [
        ({"topic": "nowhere"}, "the topic must be a lesson"),
        ({"count": "0"}, "from 1 to 100"),
        ({"count": "ten"}, "'ten'"),
        ({"seed": "-1"}, "the seed must be a whole number"),
        ({"seed": "9" * 5000}, "the seed must be a whole number from 0 to 999,999, got '999"),
        ({"found": "05-20-8-YYT"}, "typing error"),
    ],
)
def test_a_wrong_entry_is_answered_beside_its_box_and_the_last_good_one_stays(page, entry, words):
    before = page.state
    page.set(**entry)
    assert any(words in answer for answer in answers(page))
    assert page.state == before


@pytest.mark.parametrize("topic", ["08", "04+05", "all", "sensing"])
def test_a_code_brings_back_its_sheet_and_a_change_forgets_the_code(page, topic):
    sheet = Worksheet(topic, 5, 123_456)
    page.set(found=sheet.code.lower())
    assert not answers(page)
    assert (page.state.topic, page.state.count, page.state.seed) == (topic, 5, 123_456)
    assert page.code == sheet.code
    page.set(seed="8")
    assert page.state.found == ""


def test_a_question_is_swapped_by_choosing_its_number_and_the_swaps_can_be_taken_back(page):
    before = page.state.worksheet.questions
    page.control("swaps").list.index = 3
    assert page.state.swaps == (3,)
    assert page.state.worksheet.questions[2] != before[2]
    assert page.control("swaps").list.index == 0
    press(page, "Undo swaps")
    assert page.state.worksheet.questions == before


def test_a_locked_sheet_is_found_again_with_its_secret_only(page):
    assert "Whoever has this code can make the key" in page.sentence
    press(page, "Lock with a new secret")
    assert "takes the secret" in page.sentence
    code, secret = page.code, page.state.secret
    assert secret not in " ".join(texts(draw(page.state, SCREEN)))
    page.set(variant="B")
    assert page.code.startswith("05-20-7B-")
    page.set(secret="")
    page.set(found=code)
    assert any("only with the secret" in answer for answer in answers(page))
    page.set(secret=secret)
    page.set(found=code)
    assert page.code == code


def test_nothing_is_written_before_a_button_is_pressed_and_then_it_says_where(page, tmp_path):
    page.set(count="2", folder=str(tmp_path))
    assert not list(tmp_path.iterdir())
    press(page, "Write sheet and key (PDF)")
    name = f"worksheet-{page.code}"
    assert {path.name for path in tmp_path.iterdir()} == {f"{name}.pdf", f"{name}-key.pdf"}
    press(page, "Write the card (PDF)")
    assert (tmp_path / "in-flight-card-05.pdf").read_bytes().startswith(b"%PDF-")


def test_a_folder_that_is_not_there_is_named(page, tmp_path):
    page.set(folder=str(tmp_path / "none"))
    assert any("there is no folder" in answer for answer in answers(page))
