"""No lesson answers a question before it is asked: not in a heading, a text, a picture's sentence.

A learner reads from the top. What stands above a prediction, as written and as saved, must leave
its answer open; what stands below may tell it.
"""

import re
from itertools import takewhile

import nbformat
import pytest
from tools.save_notebooks import notebooks

from vorlib.practice.learning.predictions import (
    PredictionText,
    _of_lesson,
    lessons,
    prediction_text,
)

ASKED = re.compile(r'x\.predict\("([\w-]+)"')
ROUND = re.compile(r"^## (?:Round \d+:|\d+) ?(.*)$", re.M)
COMMON = {"with", "from", "that", "what", "when", "your", "round", "station", "needle", "course"}
FOLDED = "## In short\n\n<details>\n<summary>"


def plain(text):
    """Return a text as its words in lower case, so that line breaks and marks do not hide it."""
    return f" {' '.join(re.findall(r'[a-z0-9.]+', text.lower().replace('. ', ' ')))} "


def words(text):
    """Return the telling words of a text."""
    return set(re.findall(r"[a-z]{4,}", text.lower())) - COMMON


def saved(cell):
    """Return what a cell shows when it was saved, pictures' own text included."""
    shown = [cell.source]
    for output in cell.get("outputs", []):
        shown.append(output.get("text", ""))
        data = output.get("data", {})
        shown += [
            data.get("text/plain", ""),
            re.sub(r"<[^>]+>", " ", data.get("image/svg+xml", "")),
        ]
    return "\n".join(shown)


def sentence(cell):
    """Return the sentence that an exhibit shows before it is moved."""
    return "".join(o.get("data", {}).get("text/plain", "") for o in cell.get("outputs", []))


def asked():
    """Yield each prediction with the cells above it and those from its own to the explanation."""
    for path in notebooks():
        cells = nbformat.read(path, as_version=4).cells
        for number, cell in enumerate(cells):
            for found in ASKED.findall(cell.source):
                rest = takewhile(lambda cell: "### Explain" not in cell.source, cells[number:])
                yield pytest.param(prediction_text(found), cells[:number], [*rest], id=found)


def secrets(text: PredictionText):
    """Return the wordings that tell the answer: long answers, the reason, what explains it."""
    telling = [text.reason, *re.split(r"(?<=[.:;]) ", text.because)]
    if len(text.answer.split()) >= 3:
        telling.append(text.answer)
    return [plain(one) for one in telling if len(plain(one).split()) >= 3]


@pytest.mark.parametrize(("text", "above", "below"), list(asked()))
def test_nothing_above_a_prediction_tells_its_answer_or_explains_it(text, above, below):
    shown = plain("\n".join(map(saved, above)))
    assert [one for one in secrets(text) if one in shown] == []


@pytest.mark.parametrize(("text", "above", "below"), list(asked()))
def test_the_heading_over_a_prediction_says_no_more_than_its_question(text, above, below):
    headings = ROUND.findall("\n".join(c.source for c in above if c.cell_type == "markdown"))
    if headings:
        told = words(headings[-1]) & (words(text.answer) | words(text.reason))
        assert told <= words(text.question)


@pytest.mark.parametrize(("text", "above", "below"), list(asked()))
def test_a_cell_that_asks_was_saved_covered(text, above, below):
    shown = plain(saved(below[0]))
    assert "covered until you choose" in shown
    assert plain(text.because) not in shown
    assert plain(text.reason) not in shown


@pytest.mark.parametrize(("text", "above", "below"), list(asked()))
def test_what_to_try_below_a_prediction_does_not_begin_with_its_answer(text, above, below):
    exhibits = [cell for cell in below[1:3] if cell.cell_type == "code" or "### Try" in cell.source]
    sentences = plain("\n".join(sentence(cell) for cell in exhibits))
    assert [one for one in secrets(text) if one in sentences] == []
    if text.answer.isdecimal() and text.answer not in text.question:
        tried = [cell.source for cell in below[1:] if cell.cell_type == "markdown"]
        assert plain(text.answer) not in plain("\n".join([sentences, *tried]))


@pytest.mark.parametrize("path", notebooks(), ids=lambda path: path.stem)
def test_a_summary_is_folded_so_that_it_does_not_answer_the_practice(path):
    for cell in nbformat.read(path, as_version=4).cells:
        if cell.source.startswith("## In short") and not path.stem.startswith("00"):
            assert cell.source.startswith(FOLDED)


def all_predictions():
    """Return every prediction of the course."""
    return [text for lesson in lessons() for text in _of_lesson(lesson).values()]


def test_neither_the_right_answer_nor_the_right_reason_can_be_guessed_by_its_place():
    for several, one in (("choices", "answer"), ("reasons", "reason")):
        places = [getattr(p, several).index(getattr(p, one)) for p in all_predictions()]
        assert all(places.count(place) >= len(places) / 6 for place in (0, 1, 2))


def test_reasons_are_short_enough_for_a_button():
    assert max(len(reason) for p in all_predictions() for reason in p.reasons) <= 75
