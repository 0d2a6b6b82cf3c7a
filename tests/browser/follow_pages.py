"""The lessons worked through: each instruction carried out as it is written, in order.

    pytest -n0 tests/browser/follow_pages.py
    pytest -n0 tests/browser/follow_pages.py -k keyboard    # lessons 1 to 8, without a mouse

Run by itself, after the tests: it opens every lesson, and flies a whole flight second by second.
"""

import pytest
from hand import Hand
from instructions import TABLES, table
from keyboard import KeyboardHand, answer_everything

LESSONS = sorted(path.stem for path in TABLES.glob("*.toml"))


def follow(page, lesson, hand_of):
    """Carry out each instruction of a lesson, and look for what it lets one find."""
    for round_, told in table(lesson).items():
        hand = hand_of(page, told.pop("exhibit", round_))
        for instruction, rows in told.items():
            for step, *findings in rows:
                try:
                    hand.do(step)
                    hand.find(findings)
                except Exception as error:
                    error.add_note(f"{round_}: {instruction}\n{step}")
                    raise


@pytest.mark.parametrize("lesson", LESSONS)
def test_every_instruction_can_be_followed_and_the_sentence_says_what_comes(
    open_page, pages, lesson
):
    page = open_page(f"{lesson}.ipynb")
    follow(page, lesson, Hand)
    pages.pop(f"{lesson}.ipynb").close()


@pytest.mark.parametrize("lesson", LESSONS[1:9])
def test_a_keyboard_alone_does_every_task_predicts_and_answers(open_page, pages, lesson):
    page = open_page(f"{lesson}.ipynb")
    follow(page, lesson, KeyboardHand)
    assert answer_everything(page) >= 2
    pages.pop(f"{lesson}.ipynb").close()
