"""Many questions of every kind: what is promised of one holds for each of them."""

import os
import re
from dataclasses import dataclass

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from vorlib.practice import all_kinds, draw, mark
from vorlib.practice.kinds.course.groundspeed import KNOTS
from vorlib.practice.kinds.indicator.needle_near_station import DOTS
from vorlib.practice.learning.attempt import HINTS
from vorlib.practice.questions.answers import (
    DEGREES,
    DIRECTION,
    DISTANCE,
    LEFT_RIGHT,
    MINUTES,
    SECONDS,
)
from vorlib.views.classroom.question_figure import figure_words
from vorlib.vor.receiver import ABEAM_HALF_WIDTH_DEG, DOTS_FULL_SCALE, Flag, Reason, Receiver

DRAWS = 2000 if os.environ.get("CI") else 200
CLEAR_DEG = 5.0  # between a reading that is asked about and the sector where the flag flips

NUMBER = re.compile(r"\d[\d,]*(?:\.\d+)?")
DIRECTION_IN_WORDS = re.compile(r"(?<![\d,.])\d{3}(?![\d,.]\d| (?:ft|kt|NM|seconds|minutes))\b")
QUANTITY = re.compile(r"([\d,]*\.?\d+) (NM|ft|kt|seconds|minutes|dots?)\b")
MOST = {"NM": 200, "ft": 60_000, "kt": 250, "seconds": 600, "minutes": 60, "dot": 1, "dots": 5}


@dataclass(frozen=True)
class Drawn:
    """Questions of one kind, and the readings made for them: flag, reason, degrees off abeam."""

    kind: str
    questions: list
    readings: list


# With a parameter of the module's scope pytest runs all tests of one kind before the next kind.
@pytest.fixture(scope="module", params=list(all_kinds()))
def drawn(request):
    """Return the questions of a kind, drawn once."""
    readings, read = [], Receiver.read

    def noted(receiver, station, there):
        reading = read(receiver, station, there)
        off_deg = abs((float(receiver.course_deg - reading.radial_deg) + 180.0) % 360.0 - 180.0)
        readings.append((reading.flag, reading.reason, abs(off_deg - 90.0)))
        return reading

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Receiver, "read", noted)
        questions = [draw(request.param, seed) for seed in range(DRAWS)]
    return Drawn(request.param, questions, readings)


def whole(drawn):
    """Yield each question with all that is told of it: the prompt and the figure in words."""
    for question in drawn.questions:
        words = figure_words(question.figure) if question.figure else ""
        yield question, f"{question.prompt} {words}"


def gives(question, words):
    """Tell whether the answer stands in some words."""
    if isinstance(question.answer, str):
        return question.answer.casefold() in words.casefold()
    size = question.answer if question.form is DIRECTION else abs(question.answer)
    numbers = [float(n.replace(",", "")) for n in NUMBER.findall(words)]
    return any(question.form.apart(n, size) <= question.tolerance + 1e-6 for n in numbers)


def test_no_text_counts_for_two_of_the_answer_and_the_mistakes(drawn):
    for question in drawn.questions:
        assert question.is_unambiguous
        wanted = {question.answer, *(m.would_answer for m in question.misconceptions)}
        assert len({question.form.show(answer) for answer in wanted}) == len(wanted)


def test_no_reading_behind_a_question_is_near_a_flip_of_the_flag(drawn):
    if drawn.kind == "whats_wrong":
        return  # looks at readings that it does not use; its dials are looked at below
    for flag, reason, off_deg in drawn.readings:
        if reason == Reason.NONE:
            assert off_deg > ABEAM_HALF_WIDTH_DEG + CLEAR_DEG
        elif reason == Reason.ABEAM:
            assert flag == Flag.OFF
            assert off_deg < ABEAM_HALF_WIDTH_DEG - 0.5


def test_every_needle_that_is_shown_is_centered_or_a_dot_off_and_short_of_full_scale(drawn):
    for question in drawn.questions:
        dials = question.figure.dials if question.figure else ()
        shown = {(dial.course_deg, dial.flag, dial.dots) for dial in dials}
        assert len(shown) == len(dials)
        for dial in dials:
            assert 0.0 < dial.course_deg <= 360.0
            if dial.flag != Flag.OFF:  # and so it is far from where the flag flips
                assert dial.dots == 0.0 or 1.0 <= abs(dial.dots) < DOTS_FULL_SCALE


def test_dials_to_choose_from_differ_by_the_flag_or_by_a_dot_and_more(drawn):
    for question in drawn.questions:
        dials = question.figure.dials if question.figure else ()
        for i, one in enumerate(dials):
            assert all(
                one.flag != other.flag or abs(one.dots - other.dots) >= 1.0 for other in dials[:i]
            )


def test_the_answer_as_it_is_written_is_understood_and_right(drawn):
    for question in drawn.questions:
        text = question.form.show(question.answer)
        assert question.form.apart(question.form.parse(text), question.answer) <= max(
            question.tolerance, 1e-6
        )
        assert mark(question, text).verdict == "right"


AS_WRITTEN = (
    (DIRECTION, "{:.0f}"),
    (LEFT_RIGHT, "{:.0f}"),
    (DEGREES, "{:.0f}"),
    (DISTANCE, "{:.1f}"),
    (SECONDS, "{:.0f}"),
    (MINUTES, "{:.1f}"),
    (KNOTS, "{:.0f}"),
)
READ_TO = ((LEFT_RIGHT, 0.5), (DEGREES, 0.4), (DIRECTION, 0.5), (DOTS, 0.25))  # a quarter of a dot


def of_form(table, form, default):
    """Return what a table has for a form of answer."""
    return next((entry for one, entry in table if one is form), default)


def test_an_answer_rounded_once_as_a_pilot_writes_it_stays_right(drawn):
    for question in drawn.questions:
        form, answer = question.form, question.answer
        if written := of_form(AS_WRITTEN, form, ""):
            text = written.format(abs(answer)) if form is LEFT_RIGHT else written.format(answer)
            side = f" {'left' if answer < 0 else 'right'}" if form is LEFT_RIGHT else ""
            assert mark(question, text + side).verdict == "right", (question.prompt, answer)


def test_nothing_is_asked_finer_than_a_needle_or_a_ring_can_be_read(drawn):
    for question in drawn.questions:
        assert question.tolerance >= of_form(READ_TO, question.form, 0.0), question.prompt


def test_the_answer_of_each_mistake_is_wrong_and_named_as_that_mistake(drawn):
    for question in drawn.questions:
        for mistake in question.misconceptions:
            marking = mark(question, question.form.show(mistake.would_answer))
            assert marking.verdict == "wrong"
            assert mistake in marking.shown


def test_there_are_three_hints_and_a_worked_solution_with_the_answer(drawn):
    for question in drawn.questions:
        assert len(set(question.hints)) == HINTS
        assert gives(question, question.worked), (question.answer, question.worked)


def test_all_words_are_one_line_of_plain_text(drawn):
    for question, told in whole(drawn):
        for words in (told.strip(), question.worked, question.tolerance_why, *question.hints):
            assert words.isprintable()
            assert "  " not in words
            assert not re.search(r"\bNone\b|\bnan\b|\binf\b|(?<![\w.])-0\b", words)


def test_directions_are_from_001_to_360_and_quantities_those_of_light_aircraft(drawn):
    for _, told in whole(drawn):
        directions = [int(text) for text in DIRECTION_IN_WORDS.findall(told)]
        assert all(1 <= direction <= 360 for direction in directions), told
        for size, unit in QUANTITY.findall(told):
            assert 0.0 < float(size.replace(",", "")) <= MOST[unit], told


def test_one_draw_in_twenty_and_more_is_a_question_of_its_own(drawn):
    assert len({told for _, told in whole(drawn)}) >= DRAWS / 20


# ---- whatever is typed

SCRAPS = st.lists(
    st.one_of(
        st.text(max_size=8),
        st.sampled_from(("040", "left", "R", "inbound", "1e999", "-0", "NM", "°", "½", "٣", ",")),
    ),
    max_size=5,
).map(" ".join)


@pytest.mark.parametrize("kind", all_kinds())
@settings(max_examples=60, deadline=None)
@given(text=st.one_of(st.text(), SCRAPS), seed=st.integers(0, 3))
def test_any_text_is_marked_or_not_understood_but_never_an_error(kind, text, seed):
    marking = mark(draw(kind, seed), text)
    assert marking.verdict in ("right", "close", "wrong", "not understood")
    assert marking.message
