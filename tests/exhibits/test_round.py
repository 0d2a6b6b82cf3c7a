"""The instructor's round on a page: questions asked aloud, and the record of training."""

import pytest
from paper.test_page import texts

from vorlib.exhibits.instructor.oral import oral
from vorlib.exhibits.instructor.training import draw, training
from vorlib.practice import Attempt, Export
from vorlib.practice.record.exchange import write_export
from vorlib.views.drawing.theme import SCREEN


def button(exhibit, label):
    for control in exhibit.controls:
        for one in (*getattr(control, "buttons", {}).values(), getattr(control, "button", None)):
            if one is not None and one.description == label:
                return one
    raise KeyError(label)


def test_one_button_uncovers_each_answer_and_goes_on_to_the_end_and_another_goes_back():
    exhibit = oral("13")
    answer = exhibit.state.asked.question.worked.partition(". ")[2]  # after its letter
    back, on = button(exhibit, "Back"), button(exhibit, "Show the answer")
    assert back.disabled
    assert answer not in exhibit.sentence + exhibit.picture.svg + exhibit.picture.sentence
    on.click()
    assert answer in exhibit.sentence
    assert on.description == "Next question"
    back.click()
    assert answer not in exhibit.sentence
    for _ in range(2 * len(exhibit.state.questions)):
        on.click()
    assert exhibit.state.is_last
    assert on.disabled
    button(exhibit, "Other questions").click()
    assert (exhibit.state.number, exhibit.state.revealed) == (1, False)


def test_with_a_class_its_weak_points_come_first_without_names_and_why_is_told_with_the_answer():
    exhibit = oral("01", "demonstration")
    why = exhibit.state.asked.why
    assert "in the class hold it" in why
    assert why[1:] not in exhibit.sentence
    button(exhibit, "Show the answer").click()
    assert f"{why[0].upper()}{why[1:]}" in exhibit.sentence
    exhibit.set(records="/nowhere")
    assert "there is no folder" in exhibit.control("records").message


@pytest.fixture
def handed_in(tmp_path, monkeypatch):
    """A class folder with one record, on a machine of its own."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    folder = tmp_path / "class"
    folder.mkdir()
    answers = (Attempt("reciprocal", 1, "right"), Attempt("sensing", 1, "wrong"))
    write_export(Export("Wenna Dorrick", answers), folder / "w.json")
    return folder


def test_a_record_is_entered_shown_written_and_deleted_after_a_second_press(handed_in, tmp_path):
    exhibit = training(str(handed_in))
    entries = next(control for control in exhibit.controls if control.field == "changed")
    entries.about.value, entries.day.value = "5", "2026-06-01"
    entries.lesson.click()
    entries.about.value = "home over Quillon"
    entries.flight.click()
    assert "lessons covered 01, 05, 07;" in exhibit.sentence
    assert "Flights debriefed: 1. Not an endorsement." in exhibit.sentence
    assert "home over Quillon" in texts(draw(exhibit.state, SCREEN))
    entries.about.value = "99"
    entries.lesson.click()
    assert "the lesson must be one of" in entries.message
    exhibit.set(folder=str(tmp_path))
    for kind in ("PDF", "CSV", "JSON"):
        button(exhibit, f"Write the record ({kind})").click()
        assert (tmp_path / f"training-wenna-dorrick.{kind.lower()}").exists()
    entries.delete.click()
    assert "press once more" in entries.note.html
    assert exhibit.state.own.path.exists()
    entries.delete.click()
    assert "Deleted: 0 answers, 0 check flights and 2 entries" in entries.note.html
    assert not exhibit.state.own.path.exists()
    assert "lessons covered 01, 07;" in exhibit.sentence


def test_for_an_invented_student_nothing_is_kept():
    exhibit = training(student="Sorrel Inchmoor")
    entries = next(control for control in exhibit.controls if control.field == "changed")
    entries.delete.click()
    assert "invented" in entries.message
    assert exhibit.state.own is None
    assert exhibit.sentence.startswith("Sorrel Inchmoor: lessons covered 01, 02")
