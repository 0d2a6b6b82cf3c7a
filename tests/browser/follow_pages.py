"""The lessons worked through: each instruction carried out as it is written, in order.

    pytest -n0 tests/browser/follow_pages.py

Run by itself, after the tests: it opens every lesson, and flies a whole flight second by second.
"""

import pytest
from hand import Hand
from instructions import TABLES, table


@pytest.mark.parametrize("lesson", sorted(path.stem for path in TABLES.glob("*.toml")))
def test_every_instruction_can_be_followed_and_the_sentence_says_what_comes(
    open_page, pages, lesson
):
    page = open_page(f"{lesson}.ipynb")
    for round_, told in table(lesson).items():
        hand = Hand(page, told.pop("exhibit", round_))
        for instruction, rows in told.items():
            for step, *findings in rows:
                try:
                    hand.do(step)
                    hand.find(findings)
                except Exception as error:
                    error.add_note(f"{round_}: {instruction}\n{step}")
                    raise
    pages.pop(f"{lesson}.ipynb").close()
