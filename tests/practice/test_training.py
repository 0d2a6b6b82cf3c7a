"""The record of training: what was covered, what was held and put right, and its deletion."""

import csv
import io
import json
from datetime import UTC, date, datetime, timedelta

import pytest
from paper.test_page import texts

from vorlib.core.caution import CAUTION
from vorlib.paper.classroom.training_record import training_pages
from vorlib.paper.page import LETTER
from vorlib.practice import Attempt, Export, Record, all_kinds, draw
from vorlib.practice.check_flight.example import example_report
from vorlib.practice.questions.standards import ELEMENTS
from vorlib.practice.training.deleting import delete_record, what_is_kept
from vorlib.practice.training.entries import (
    TrainingEntry,
    add_entries,
    entries_of,
    flight_debriefed,
    lesson_taught,
)
from vorlib.practice.training.files import training_csv, training_json
from vorlib.practice.training.training_record import (
    NO_ENDORSEMENT,
    element_of,
    training_record,
    training_record_of,
)
from vorlib.views.classroom.training_words import training_sentence, training_words

MONDAY = date(2026, 6, 1)
NAME = "radial thought to lead to the station"


def answers(day, verdicts, kind="bearing_to_station", first_seed=0):
    """Return first answers of a day, wrong by one misconception or right."""
    at = datetime(2026, 6, 1, 17, tzinfo=UTC) + timedelta(days=day)
    return [
        Attempt(
            kind, first_seed + n, "right" if right else "wrong", "" if right else NAME, (NAME,),
            answered_at=at + timedelta(minutes=n),
        )
        for n, right in enumerate(verdicts)
    ]  # fmt: skip


@pytest.fixture
def record():
    """A student who held a misconception on Monday and had put it right on Thursday."""
    attempts = answers(0, [False] * 4) + answers(3, [True] * 4, first_seed=10)
    attempts += answers(3, [True], "lead_degrees")
    entries = (
        lesson_taught("5", MONDAY, "leads on the board"),
        TrainingEntry(date(2026, 6, 5), "flight", "Quillon to Marrow Sound", "turned late"),
    )
    return training_record(Export("Wenna Dorrick", tuple(attempts)), entries, [example_report()])


def test_a_lesson_is_covered_when_it_was_taught_and_when_it_was_practiced(record):
    first, fifth = record.lessons
    assert (first.number, first.practiced) == ("01", (MONDAY, date(2026, 6, 4)))
    assert str(first.score) == "4 of 8"
    assert [entry.day for entry in fifth.taught] == [MONDAY]
    assert fifth.practiced == (date(2026, 6, 4),)


def test_results_stand_by_element_of_the_standard_in_its_order(record):
    codes = [one.code for one in record.elements]
    assert codes == [code for code in ELEMENTS if code in codes]
    assert sum(one.score.answered for one in record.elements) == record.score.answered == 9


@pytest.mark.parametrize("kind", all_kinds())
def test_all_questions_of_a_kind_serve_one_element(kind):
    assert {draw(kind, seed).element for seed in range(12)} == {element_of(kind)}


def test_a_misconception_is_held_from_the_day_that_shows_it_to_the_day_that_puts_it_right(record):
    (belief,) = record.beliefs
    assert (belief.name, belief.since, belief.until) == (NAME, MONDAY, date(2026, 6, 4))
    assert record.held == ()
    assert record.put_right == (belief,)


def test_paper_words_and_files_say_the_same_and_that_it_is_no_endorsement(record):
    shown = " ".join(text for page in training_pages(record, MONDAY) for text in texts(page))
    rows = list(csv.DictReader(io.StringIO(training_csv(record))))
    whole = json.loads(training_json(record, MONDAY))
    words = training_words(record)
    for said in (shown, words, rows[0]["remark"], whole["endorsement"]):
        assert NO_ENDORSEMENT in " ".join(said.split())
    assert CAUTION in shown
    assert whole["caution"] == CAUTION
    for said in (shown, words, training_csv(record), json.dumps(whole)):
        for part in ("Quillon to Marrow Sound", "turned late", NAME, "PA.VI.B.S3", "2026-06-04"):
            assert part in said
    assert {row["part"] for row in rows} == {
        *("student", "taught", "practiced", "element", "misconception"),
        *("check flight", "flight"),
    }
    assert "put right: radial thought" in training_sentence(record)
    assert len(training_pages(record, MONDAY, LETTER)) == 1


def test_a_record_without_answers_says_that_there_is_nothing_yet():
    empty = training_record(Export("Tobin Askerel", ()))
    shown = [text for page in training_pages(empty, MONDAY) for text in texts(page)]
    assert shown.count("Nothing yet.") == 5
    assert "lessons covered none" in training_sentence(empty)


def test_entries_lie_in_the_file_of_the_answers_and_go_with_it(tmp_path):
    kept = Record("Wenna Dorrick", tmp_path)
    kept.add(*answers(0, [True, True]))
    late, early = (
        TrainingEntry(date(2026, 6, 5), "flight", "home"),
        lesson_taught("05", MONDAY),
    )
    add_entries(kept, late, early)
    add_entries(kept, late)  # twice is once
    assert entries_of(kept) == (early, late)
    assert training_record_of(kept).flights == (late,)
    assert what_is_kept(kept) == "2 answers, 0 check flights and 2 entries"
    said = delete_record(kept)
    assert said.startswith("Deleted: 2 answers, 0 check flights and 2 entries of Wenna Dorrick")
    assert list(tmp_path.iterdir()) == []
    assert entries_of(kept) == ()
    with pytest.raises(ValueError, match="there is no record of Wenna Dorrick"):
        delete_record(kept)


def test_a_flight_is_entered_with_what_was_found_in_it_as_far_as_it_fits():
    found = ("The needle left the middle. " * 4).strip(), "x" * 250
    entry = flight_debriefed("home.gpx", datetime(2026, 6, 5, 9, tzinfo=UTC), found)
    assert (entry.day, entry.about, entry.remark) == (date(2026, 6, 5), "home.gpx", found[0])


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"what": "endorsement"}, "a lesson or a flight"),
        ({"about": " "}, "say which lesson"),
        ({"remark": "x" * 301}, "one line of at most 300"),
        ({"remark": "two\nlines"}, "one line"),
    ],
)
def test_an_entry_that_cannot_be_is_refused(wrong, words):
    whole = {"day": MONDAY, "what": "lesson", "about": "05"}
    with pytest.raises(ValueError, match=words):
        TrainingEntry(**(whole | wrong))
    with pytest.raises(ValueError, match="lesson must be one of 01, 02"):
        lesson_taught("99", MONDAY)
