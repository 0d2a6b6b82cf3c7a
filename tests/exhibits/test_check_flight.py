"""The check flight in a notebook: what is on the page, and what each press does."""

import os
import sys

import pytest

from vorlib.exhibits.check_flight.exhibit import check_flight
from vorlib.exhibits.check_flight.report import report_page
from vorlib.exhibits.check_flight.widget import show_question, time_left
from vorlib.exhibits.learner import recording
from vorlib.exhibits.learner.recording import RecordKeeper
from vorlib.practice.check_flight.plan import check_flight_plan
from vorlib.practice.check_flight.session import CheckFlights
from vorlib.practice.record import learner as learner_module
from vorlib.practice.record.record import Record

NAME = "Wenna Dorrick"


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    """Records lie in a folder of the test's own, and nobody has given a name."""
    monkeypatch.setattr(learner_module.platformdirs, "user_data_path", lambda _: tmp_path)
    monkeypatch.setattr(recording, "_session", RecordKeeper())
    return tmp_path / "records"


def press(exhibit, button, **more):
    """Do what the browser does when a button is pressed."""
    exhibit.widget._handle_custom_msg({"press": button, **more}, [])


@pytest.fixture
def begun(folder):
    exhibit = check_flight(seed=8)
    press(exhibit, "begin", name=NAME)
    return exhibit


def right(exhibit):
    question = exhibit.session.plan[exhibit.widget.place - 1].question
    return question.form.show(question.answer)


def kept(number):
    return CheckFlights(Record(NAME)).open().given[number - 1].text


# ---- before it is begun


def test_it_writes_nothing_before_it_is_begun_under_a_name(folder):
    exhibit = check_flight()
    assert exhibit._repr_mimebundle_()["text/plain"].split() == exhibit.sentence.split()
    assert "24 questions" in exhibit.sentence
    press(exhibit, "begin", name=" ")
    assert "Give your name" in exhibit.widget.message
    press(exhibit, "begin", name="a/b")
    assert "letters, digits" in exhibit.widget.message
    press(exhibit, "beat")
    assert exhibit.widget.phase == "start"
    assert not folder.exists()


def test_an_ident_is_played_and_stands_in_words_for_a_page_without_sound(begun):
    for place, planned in enumerate(begun.session.plan, start=1):
        show_question(begun.widget, begun.session, place)
        assert ("<audio" in begun.widget.sound) == (planned.kind == "ident_heard")
        assert ("Without sound" in begun.widget.sound) == (planned.kind == "ident_heard")


def test_what_is_no_seed_is_refused_at_once():
    with pytest.raises(ValueError, match="seed must be 0 or more"):
        check_flight(seed=-1)


def test_there_is_no_last_report_before_one_was_handed_in(folder):
    exhibit = check_flight()
    press(exhibit, "last", name=NAME)
    assert "No check flight has been handed in" in exhibit.widget.message
    assert not folder.exists()


# ---- the test


def test_the_page_shows_the_question_the_stage_and_the_minutes_left(begun):
    first = check_flight_plan(8)[0]
    assert begun.widget.prompt == f"Question 1 of 24. {first.question.prompt}"
    assert begun.sentence == begun.widget.prompt
    assert begun.widget.stage == first.stage
    assert begun.widget.clock == "30 minutes left"
    assert begun.widget.answered == [False] * 24


def test_a_picture_comes_with_its_words(begun):
    number = next(n for n, p in enumerate(check_flight_plan(8), 1) if p.question.figure)
    press(begun, "turn", to=number, text="")
    assert begun.widget.picture.startswith("<svg")
    assert begun.widget.picture_words in begun.sentence


def test_a_kept_answer_is_on_the_disk_and_neither_marked_nor_hinted_at(begun):
    answer = right(begun)
    press(begun, "keep", text=answer)
    assert kept(1) == answer
    assert begun.widget.place == 2
    assert begun.widget.status == "Your answer to question 1 is saved."
    wrong = "359" if answer != "359" else "001"
    press(begun, "turn", to=1, text="")
    press(begun, "keep", text=wrong)
    assert begun.widget.status == "Your answer to question 1 is saved."
    assert kept(1) == wrong


def test_nonsense_gets_help_beside_the_box_and_the_question_stays(begun):
    for button, more in (("keep", {}), ("turn", {"to": 2}), ("pause", {}), ("hand in", {})):
        press(begun, button, text="over there", **more)
        assert begun.widget.message.startswith("I need a direction")
        assert (begun.widget.place, begun.widget.phase) == (1, "running")
        assert begun.widget.status == ""  # nothing is called saved beside it
        assert ("empty the box" in begun.widget.message) == (button != "keep")
    press(begun, "keep", text="")
    assert begun.widget.message.startswith("Nothing is written yet")
    press(begun, "turn", to=2, text="")
    assert (begun.widget.place, begun.widget.message) == (2, "")


def test_what_stands_in_the_box_is_kept_when_one_moves_on(begun):
    answer = right(begun)
    press(begun, "turn", to=5, text=f" {answer} ")
    assert kept(1) == answer
    assert begun.widget.answered[:2] == [True, False]
    press(begun, "turn", to=1, text="")
    assert begun.widget.answer == answer


def test_a_pause_covers_the_question_in_the_sentence_too(begun):
    press(begun, "pause", text="")
    assert begun.widget.phase == "paused"
    assert check_flight_plan(8)[0].question.prompt not in begun.sentence
    press(begun, "go on", text="")
    assert begun.widget.phase == "running"


def test_a_beat_leaves_what_is_being_typed_and_said_alone(begun):
    press(begun, "keep", text="over there")
    said = begun.widget.message
    press(begun, "beat")
    assert begun.widget.message == said
    press(begun, "hand in", text="")
    sure = begun.widget.sure
    press(begun, "beat")
    assert begun.widget.sure == sure


def test_run_again_with_the_same_name_it_goes_on_where_it_was(begun, monkeypatch):
    press(begun, "keep", text=right(begun))
    press(begun, "turn", to=7, text="")
    monkeypatch.setattr(recording, "_session", RecordKeeper())  # a new kernel
    again = check_flight(seed=99)
    press(again, "begin", name=NAME.upper())
    assert again.session.seed == 8
    assert again.widget.place == 7
    assert again.widget.answered[0]
    assert again.widget.status.startswith("You go on with question 7")


def test_the_time_left_is_said_in_whole_minutes_and_hurries_nobody():
    assert time_left(61.0) == "2 minutes left"
    assert time_left(60.0) == "the last minute"
    assert "count" in time_left(0.0)


# ---- handing in


def test_before_it_is_handed_in_what_has_no_answer_is_named(begun):
    press(begun, "keep", text=right(begun))
    press(begun, "hand in", text="")
    assert begun.widget.sure.startswith("Without an answer: 2, 3, 4, ")
    press(begun, "not yet", text="")
    assert (begun.widget.sure, begun.widget.phase) == ("", "running")


def test_handed_in_it_shows_the_report_which_can_be_seen_again(begun, monkeypatch):
    for _ in range(24):
        press(begun, "keep", text=right(begun))
    press(begun, "hand in", text="")
    assert begun.widget.sure.startswith("All questions are answered.")
    press(begun, "hand in now", text="")
    assert begun.widget.phase == "done"
    assert "24 of 24 points" in begun.sentence
    assert begun.widget.report == report_page(begun.report)
    monkeypatch.setattr(recording, "_session", RecordKeeper())
    later = check_flight()
    press(later, "last", name=NAME)
    assert later.widget.report == begun.widget.report
    assert len(Record(NAME).attempts()) == 24


def test_the_report_links_to_the_lessons_and_speaks_of_knowledge_only(begun):
    press(begun, "hand in now", text="")
    page = begun.widget.report
    assert 'href="05_intercepting.ipynb"' in page
    assert ">05 Intercepting</a>" in page
    assert "05_intercepting<" not in page  # a lesson is called by its name, not by its file's
    assert page.count("<svg") == page.count('<div class="vorlib-figure"><svg') > 0  # fits the page
    assert "not for navigation" in page
    assert "instructor" in page
    assert "fit to fly" not in page.casefold()
    assert page.count("<details>") == 24


def test_another_window_that_handed_it_in_is_told_and_its_report_shown(begun):
    other = CheckFlights(Record(NAME))
    other.hand_in(other.open(), 1)
    press(begun, "keep", text=right(begun))
    assert begun.widget.phase == "done"
    assert "another window" in begun.widget.status


def test_a_full_disk_is_told_and_the_answer_can_be_kept_later(begun, monkeypatch):
    answer = right(begun)

    def refuse(*_):
        raise OSError("disk is full")

    with monkeypatch.context() as patch:
        patch.setattr("vorlib.practice.check_flight.store.keep_answer", refuse)
        press(begun, "keep", text=answer)
    assert begun.widget.message.startswith("Not saved: ")
    assert (begun.widget.place, kept(1)) == (1, "")
    press(begun, "keep", text=answer)
    assert kept(1) == answer


# ---- printing


def test_the_report_is_printed_where_the_learner_asks_and_nowhere_else(begun, tmp_path):
    press(begun, "hand in now", text="")
    for path, words in (
        ("", "Name the file"),
        (str(tmp_path / "none" / "x.pdf"), "there is no folder"),
        (str(tmp_path / "x.txt"), "must end in .pdf"),
    ):
        press(begun, "print", path=path)
        assert words in begun.widget.message
        assert begun.widget.status == ""
    said = []
    begun.widget.observe(lambda change: said.append(change["new"]), "status")
    press(begun, "print", path=str(tmp_path / "x.pdf"))
    assert said == [
        "Writing: this takes some seconds.",
        f"Written: {(tmp_path / 'x.pdf').resolve()}",
    ]
    assert (tmp_path / "x.pdf").read_bytes().startswith(b"%PDF")
    assert sorted(os.listdir(tmp_path)) == ["records", "x.pdf"]


@pytest.mark.skipif(sys.platform == "win32", reason="permissions of folders differ")
@pytest.mark.skipif(hasattr(os, "geteuid") and os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_that_refuses_the_pdf_is_told(begun, tmp_path):
    press(begun, "hand in now", text="")
    (tmp_path / "locked").mkdir(mode=0o500)
    press(begun, "print", path=str(tmp_path / "locked" / "x.pdf"))
    assert begun.widget.message.startswith("Nothing was written")


# ---- somebody else sits down


def test_somebody_else_sees_nothing_of_a_check_flight_and_the_learner_goes_on_later(begun):
    answer = right(begun)
    press(begun, "keep", text=answer)
    recording.this_session().change("Tobin Askerel")
    shown = begun.widget
    assert (shown.phase, shown.prompt, shown.answer, shown.report) == ("start", "", "", "")
    assert shown.status == "You are Tobin Askerel."
    press(begun, "keep", text=answer)
    assert "Begin a check flight first" in shown.message
    recording.this_session().change(NAME)
    press(begun, "begin")
    assert shown.place == 2
    assert kept(1) == answer


def test_with_the_record_deleted_a_name_is_asked_for_again(begun):
    recording.this_session().delete()
    assert begun.widget.asks_name
    assert (begun.widget.phase, begun.widget.status) == ("start", "")
