"""Every instruction of a lesson is one that a browser test carries out, word for word."""

import pytest
from instructions import NOTEBOOKS, TABLES, asked, table

LESSONS = sorted(path.stem for path in NOTEBOOKS.glob("[0-9]*.ipynb"))


def test_every_lesson_has_a_table_of_its_instructions():
    assert sorted(path.stem for path in TABLES.glob("*.toml")) == LESSONS


@pytest.mark.parametrize("lesson", LESSONS)
def test_each_instruction_has_its_row_and_no_row_is_left_over(lesson):
    rows = {
        (round_, words)
        for round_, told in table(lesson).items()
        for words in told
        if words != "exhibit"
    }
    given = asked(lesson)
    assert {one for one, is_numbered in given.items() if is_numbered} - rows == set(), "no row"
    assert rows - set(given) == set(), "these are not in the notebook"
