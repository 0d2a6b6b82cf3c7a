"""Every instruction of a lesson is one that a browser test carries out, word for word."""

import pytest
from instructions import TABLES, asked, table

LESSONS = sorted(path.stem for path in TABLES.glob("*.toml"))


@pytest.mark.parametrize("lesson", LESSONS)
def test_each_instruction_has_its_row_and_no_row_is_left_over(lesson):
    rows = {
        (round_, words)
        for round_, told in table(lesson).items()
        for words in told
        if words != "exhibit"
    }
    given = asked(lesson)
    paragraphs = {(round_, words) for round_, told in given.items() for words in told}
    numbered = {(round_, words) for round_, words in paragraphs if given[round_][words]}
    assert numbered - rows == set(), "these have no row"
    assert rows - paragraphs == set(), "these are not in the notebook"
