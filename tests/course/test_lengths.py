"""A lesson is read in one sitting: what its page says and prints, and how long it takes."""

import re

import nbformat
import pytest
from tools.save_notebooks import NOTEBOOKS

from vorlib.io.notebooks import SAYS_AGAIN
from vorlib.pages.page import NOT_ON_PAGES

LESSONS = sorted(NOTEBOOKS.glob("[0-9][0-9]_*.ipynb"))
MOST_WORDS, MOST_PRINTED = 900, 300
MINUTES = re.compile(r"\btakes about (\d+) minutes\b")
NOT_READ = re.compile(r"^#+ .*$|<[^>]*>|\]\([^)]*\)", re.M)  # headings, HTML, where a link leads


@pytest.fixture(params=LESSONS, ids=lambda path: path.stem)
def lesson(request):
    return nbformat.read(request.param, as_version=4)


@pytest.fixture
def cells(lesson):
    """The cells that a page shows."""
    return [cell for cell in lesson.cells if NOT_ON_PAGES not in cell.metadata.get("tags", [])]


def prose(cells):
    return "\n\n".join(cell.source for cell in cells if cell.cell_type == "markdown")


def printed(cells):
    """What the cells print, but for the sentence of an exhibit, which a page does not say again."""
    for cell in cells:
        for output in cell.get("outputs", []):
            if output.output_type == "stream" and not SAYS_AGAIN.fullmatch(cell.source):
                yield output.text


def words(text):
    """Count the words; a number or a sign is none."""
    return len([word for word in text.split() if re.search("[A-Za-z]", word)])


def test_a_lesson_is_short_enough_to_read(cells):
    assert words(NOT_READ.sub("", prose(cells))) <= MOST_WORDS


def test_what_it_prints_is_short_enough_to_read(cells):
    assert sum(map(words, printed(cells))) <= MOST_PRINTED


def test_its_head_says_how_long_it_takes(lesson, cells):
    (minutes,) = MINUTES.findall(" ".join(cells[0].source.split()))
    planned = lesson.metadata.get("vorlib", {}).get("minutes", minutes)
    assert int(minutes) == int(planned)
    assert 5 <= int(minutes) <= 90


def test_it_leads_to_the_words_and_the_sources_of_the_course(cells):
    assert "](glossary.ipynb)" in prose(cells)
    assert "](sources.ipynb)" in prose(cells)
