"""Practice in a notebook: what is said beside the box and below it, and what the buttons do."""

import os
import re
import sqlite3

import pytest

from vorlib.core.angles import format_direction
from vorlib.exhibits.learner import recording
from vorlib.exhibits.learner.practice import Practice, practice
from vorlib.exhibits.learner.recording import RecordKeeper
from vorlib.practice import PracticeSet, all_kinds, kinds_of_lesson
from vorlib.practice.learning.attempt import SOLUTION_SHOWN, Attempt
from vorlib.practice.record import learner as learner_module
from vorlib.practice.record.exchange import Export, as_json, read_export
from vorlib.practice.record.record import Record
from vorlib.views.classroom.question_figure import figure_words
from vorlib.views.drawing.theme import PROJECTOR
from vorlib.views.sentence import in_lines

KINDS = ("centred_radial", "sensing")


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    """Records lie in a folder of the test's own, and nobody has given a name."""
    monkeypatch.setattr(learner_module.platformdirs, "user_data_path", lambda _: tmp_path)
    monkeypatch.setattr(recording, "_session", RecordKeeper())
    return tmp_path / "records"


@pytest.fixture
def exhibit(folder):
    return practice(*KINDS, count=3, seed=1)


def press(exhibit, button, **more):
    """Do what the browser does when a button is pressed."""
    exhibit.widget._handle_custom_msg({"press": button, **more}, [])


def right_answer(exhibit):
    return exhibit.question.form.show(exhibit.question.answer)


def mistaken(exhibit):
    return exhibit.question.form.show(exhibit.question.misconceptions[0].would_answer)


def test_it_begins_with_the_first_question_and_nothing_else(exhibit):
    shown = exhibit.widget
    assert shown.prompt == f"Question 1 of 3. {exhibit.question.prompt}"
    assert shown.message == shown.feedback == shown.hints == shown.tally == ""


def test_saved_without_a_kernel_it_is_the_first_question_in_words_with_its_picture(exhibit):
    saved, shown = exhibit._repr_mimebundle_(), exhibit.widget
    assert saved["text/plain"] == in_lines(f"{shown.prompt} {shown.picture_words}")
    told = " ".join(re.findall(">([^<]+)</text>", saved["image/svg+xml"]))
    assert told.startswith(shown.prompt)
    assert "FROM" in told or "TO" in told


def test_saved_without_a_kernel_a_question_in_words_alone_has_no_picture():
    words = practice("reciprocal", count=1)
    saved = words._repr_mimebundle_()
    assert saved["text/plain"] == in_lines(words.sentence)
    assert words.sentence == words.widget.prompt
    assert "image/svg+xml" not in saved


def test_the_picture_comes_with_its_question_and_goes_with_it():
    exhibit = practice("needle_reading", "reciprocal", count=4)
    seen = set()
    for _ in range(4):
        figure, shown = exhibit.question.figure, exhibit.widget
        assert bool(figure) == bool(shown.picture) == bool(shown.picture_words)
        if figure:
            assert shown.picture_words == figure_words(figure)
            assert format_direction(figure.dials[0].course_deg) in shown.picture
        seen.add(bool(figure))
        press(exhibit, "next")
    assert seen == {True, False}


def test_the_projector_has_larger_type_and_the_same_question():
    exhibit = practice("needle_reading", count=1)
    shown = exhibit.widget
    prompt, words, usual = shown.prompt, shown.picture_words, shown.picture
    shown.projector = True
    assert f'font-size="{PROJECTOR.big_size:g}"' in shown.picture
    assert f'font-size="{PROJECTOR.big_size:g}"' not in usual
    assert (shown.prompt, shown.picture_words) == (prompt, words)
    shown.projector = False
    assert shown.picture == usual


def test_a_right_answer_is_followed_by_the_worked_solution(exhibit):
    press(exhibit, "check", text=right_answer(exhibit))
    assert exhibit.widget.feedback.startswith("Right: ")
    assert exhibit.question.worked in exhibit.widget.feedback
    assert exhibit.widget.tally == "1 of 3 right."


def test_a_foreseen_mistake_is_named_and_counted_but_not_solved(exhibit):
    mistake = exhibit.question.misconceptions[0]
    press(exhibit, "check", text=exhibit.question.form.show(mistake.would_answer))
    assert mistake.name in exhibit.widget.feedback
    assert exhibit.question.worked not in exhibit.widget.feedback
    assert f"{mistake.name} (1)" in exhibit.widget.tally


def test_nonsense_is_answered_beside_the_box_and_not_counted(exhibit):
    press(exhibit, "check", text="over there")
    assert exhibit.widget.message.startswith("I need ")
    assert exhibit.widget.feedback == exhibit.widget.tally == ""
    press(exhibit, "check", text=right_answer(exhibit))
    assert exhibit.widget.message == ""


def test_three_hints_come_one_by_one(exhibit):
    for number, hint in enumerate(exhibit.question.hints, start=1):
        assert exhibit.widget.has_hint
        press(exhibit, "hint")
        assert exhibit.widget.hints.splitlines()[-1] == f"Hint {number}: {hint}"
        assert exhibit.question.worked not in exhibit.widget.hints


def test_after_the_three_hints_the_solution_is_shown_when_asked_for(exhibit):
    for _ in range(3):
        assert exhibit.widget.hint_label == "Hint"
        press(exhibit, "hint")
    assert exhibit.widget.hint_label == "Show the solution"
    press(exhibit, "hint")
    assert exhibit.widget.hints.splitlines()[-1] == f"Solution: {exhibit.question.worked}"
    assert not exhibit.widget.has_hint
    press(exhibit, "next")
    assert exhibit.widget.hint_label == "Hint"


def test_next_clears_the_page_but_keeps_the_tally(exhibit):
    first = exhibit.question
    press(exhibit, "hint")
    press(exhibit, "check", text=right_answer(exhibit))
    press(exhibit, "next")
    assert exhibit.question != first
    assert exhibit.widget.prompt.startswith("Question 2 of 3. ")
    assert exhibit.widget.hints == exhibit.widget.feedback == ""
    assert exhibit.widget.has_hint
    assert exhibit.widget.tally == "1 of 3 right."


def test_only_after_a_right_answer_does_enter_go_on(exhibit):
    press(exhibit, "check", text=mistaken(exhibit))
    assert not exhibit.widget.is_right
    press(exhibit, "check", text=right_answer(exhibit))
    assert exhibit.widget.is_right
    press(exhibit, "next")
    assert not exhibit.widget.is_right


def test_after_the_last_question_there_is_no_next(exhibit):
    press(exhibit, "next")
    press(exhibit, "next")
    assert not exhibit.widget.has_next
    last = exhibit.question
    press(exhibit, "next")
    assert exhibit.question is last
    press(exhibit, "check", text=right_answer(exhibit))
    assert exhibit.widget.feedback.endswith("That was the last question.")


def test_an_unknown_kind_is_answered_with_those_there_are():
    with pytest.raises(ValueError, match=r"topic must be a lesson .*or a kind of question"):
        practice("loop")


def test_without_a_kind_it_is_all_of_them():
    assert practice().questions.kinds == tuple(all_kinds())


# ---- what comes next


def test_after_a_slip_one_more_question_is_added_once(exhibit):
    name = exhibit.question.misconceptions[0].name
    for _ in range(2):
        press(exhibit, "check", text=mistaken(exhibit))
        assert len(exhibit.questions) == 4
    assert exhibit.questions.state(exhibit.question) == "wrong"
    press(exhibit, "next")
    assert exhibit.widget.prompt.startswith("Question 2 of 4. ")
    assert name in {mistake.name for mistake in exhibit.question.misconceptions}


def test_a_slip_in_the_last_question_makes_it_not_the_last():
    exhibit = practice("reciprocal", count=1)
    assert not exhibit.widget.has_next
    press(exhibit, "check", text=mistaken(exhibit))
    assert "One more question is added" in exhibit.widget.feedback
    assert exhibit.widget.has_next


def test_the_learner_can_choose_a_kind_even_after_the_last_question(exhibit):
    assert [name for name, _ in exhibit.widget.kinds] == list(KINDS)
    for _ in range(4):
        press(exhibit, "next", kind="sensing")
        assert exhibit.question.kind == "sensing"
    press(exhibit, "next")
    press(exhibit, "next", kind="loop")  # not one of them: as planned
    assert exhibit.widget.prompt.startswith("Question 7 of 7. ")
    press(exhibit, "next", kind="centred_radial")
    assert exhibit.widget.prompt.startswith("Question 8 of 8. ")


# ---- the record


def test_nothing_is_written_before_an_answer_is_given_under_a_name(exhibit, folder):
    press(exhibit, "hint")
    press(exhibit, "next")
    press(exhibit, "check", text=right_answer(exhibit))
    press(exhibit, "check", text=right_answer(exhibit), name="  ")
    press(exhibit, "check", text="over there", name="Wenna")
    assert not folder.exists()
    press(exhibit, "check", text=right_answer(exhibit))
    assert [path.name for path in folder.iterdir()] == ["learner-wenna.sqlite3"]


def test_an_answer_under_a_name_is_in_the_record_with_all_it_showed(exhibit):
    press(exhibit, "hint")
    press(exhibit, "hint")
    press(exhibit, "check", text=mistaken(exhibit), name="Wenna")
    for _ in range(2):
        press(exhibit, "hint")
    press(exhibit, "check", text=right_answer(exhibit))
    wrong, right = Record("wenna").attempts()
    assert (wrong.verdict, wrong.hints) == ("wrong", 2)
    assert wrong.misconception == exhibit.question.misconceptions[0].name
    assert (right.verdict, right.hints, right.seed) == ("right", SOLUTION_SHOWN, wrong.seed)
    assert exhibit.widget.saved == "Answers are saved for Wenna."


def test_the_marking_is_shown_only_when_the_answer_is_on_the_disk(exhibit):
    on_disk = []
    exhibit.widget.observe(lambda _: on_disk.append(len(Record("Wenna").attempts())), "feedback")
    press(exhibit, "check", text=right_answer(exhibit), name="Wenna")
    assert on_disk == [1]


def test_a_name_is_asked_once_for_all_practice_of_a_notebook(exhibit):
    other = practice("reciprocal", count=2)
    assert exhibit.widget.asks_name
    assert other.widget.asks_name
    press(exhibit, "check", text=right_answer(exhibit), name=" Wenna  Dorrick ")
    for shown in (exhibit, other, practice("sensing")):
        assert not shown.widget.asks_name
        assert shown.widget.saved == "Answers are saved for Wenna Dorrick."
    press(other, "check", text=right_answer(other), name="Someone Else")
    assert len(Record("Wenna Dorrick").attempts()) == 2


def test_an_odd_name_is_answered_beside_the_box_and_nothing_marked(exhibit, folder):
    press(exhibit, "check", text=right_answer(exhibit), name="../boss")
    assert exhibit.widget.message.startswith("Learner's name may have letters")
    assert exhibit.widget.feedback == exhibit.widget.tally == ""
    assert not folder.exists()
    press(exhibit, "check", text=right_answer(exhibit), name="Boss")
    assert exhibit.widget.message == ""


def test_what_went_wrong_before_comes_first_when_the_learner_is_known():
    Record("Wenna").add(Attempt("sensing", 1, "wrong"), Attempt("centred_radial", 1, "right"))
    known = RecordKeeper()
    known.begin("Wenna")
    for seed in range(5):
        exhibit = Practice(PracticeSet(KINDS, count=4, seed=seed), known)
        assert [question.kind for question in exhibit.questions][:2] == ["sensing", KINDS[0]]


def test_a_name_given_later_orders_what_is_still_to_come():
    Record("Wenna").add(Attempt("sensing", 1, "wrong"), Attempt("reciprocal", 1, "right"))
    exhibit = practice("reciprocal", *KINDS, count=6, seed=1)
    first = exhibit.question
    press(exhibit, "check", text=right_answer(exhibit), name="Wenna")
    assert exhibit.question is first
    assert len(exhibit.questions) == 6
    press(exhibit, "next")
    due = ("sensing", "centred_radial", "reciprocal")
    assert exhibit.question.kind == next(kind for kind in due if kind != first.kind)


# ---- a record that refuses


def test_an_answer_that_cannot_be_saved_is_told_kept_and_saved_when_asked(exhibit, folder):
    folder.write_text("in the way")  # where the folder should be made
    press(exhibit, "check", text=right_answer(exhibit), name="Wenna")
    shown = exhibit.widget
    assert shown.saved.startswith("Not saved: the record ")
    assert "1 answer is kept here" in shown.saved
    assert shown.has_waiting
    assert shown.feedback.startswith("Right")  # it is marked all the same
    press(exhibit, "save")
    assert shown.has_waiting
    folder.unlink()
    press(exhibit, "save")
    assert not shown.has_waiting
    assert shown.saved == "Answers are saved for Wenna."
    assert len(Record("Wenna").attempts()) == 1


def test_an_answer_that_cannot_be_saved_is_saved_with_the_next_wherever_that_is(exhibit, folder):
    other = practice("reciprocal", count=2)
    folder.write_text("in the way")
    press(exhibit, "check", text=right_answer(exhibit), name="Wenna")
    press(other, "check", text=mistaken(other))
    assert "2 answers are kept here" in exhibit.widget.saved
    folder.unlink()
    press(other, "check", text=right_answer(other))
    assert not exhibit.widget.has_waiting
    assert [a.verdict for a in Record("Wenna").attempts()] == ["right", "wrong", "right"]


def test_a_full_record_is_told_in_words_and_takes_the_answer_when_there_is_room(
    exhibit, monkeypatch
):
    connect = sqlite3.connect

    def without_room(*arguments, **options):
        database = connect(*arguments, **options)
        database.execute("PRAGMA max_page_count = 1")
        return database

    press(exhibit, "check", text=right_answer(exhibit), name="Wenna")
    Record("Wenna").add(*(Attempt("sensing", n, "right") for n in range(100)))
    with monkeypatch.context() as full:
        full.setattr(sqlite3, "connect", without_room)
        while not exhibit.widget.has_waiting:  # until the last page is full
            press(exhibit, "check", text=right_answer(exhibit))
        assert "disk is full" in exhibit.widget.saved
    press(exhibit, "save")
    assert not exhibit.widget.has_waiting
    right = len(exhibit.questions.attempts)
    assert len(Record("Wenna").attempts()) == 100 + right


def test_a_record_that_cannot_be_read_is_told_and_practice_goes_on(folder):
    folder.mkdir()
    (folder / "learner-wenna.sqlite3").write_text("not a database " * 99)
    exhibit = practice("reciprocal", count=2)
    press(exhibit, "check", text=right_answer(exhibit), name="Wenna")
    assert "Not saved: " in exhibit.widget.saved
    assert exhibit.widget.feedback.startswith("Right")
    assert os.listdir(folder) == ["learner-wenna.sqlite3"]


# ---- the learner's own control over the record


@pytest.fixture
def known(exhibit):
    """A practice in which Wenna has answered the first question wrong."""
    press(exhibit, "check", text=mistaken(exhibit), name="Wenna")
    exhibit.widget.record_open = True
    return exhibit


@pytest.fixture
def sent(known, monkeypatch):
    """What is sent to the browser, in its order."""
    messages = []
    monkeypatch.setattr(known.widget, "send", messages.append)
    return messages


def test_what_is_kept_and_where_is_told_when_it_is_folded_out(known, folder):
    path = folder / "learner-wenna.sqlite3"
    assert known.widget.record == f"1 answer of Wenna in {path} and nowhere else."
    press(known, "check", text=right_answer(known))
    assert known.widget.record.startswith("2 answers of Wenna")
    known.widget.record_open = False
    assert known.widget.record == ""


@pytest.mark.parametrize("suffix", ["json", "csv"])
def test_the_record_goes_to_the_browser_as_a_file(known, sent, suffix, tmp_path):
    press(known, "export", **{"as": suffix})
    (file,) = sent
    assert file["download"] == f"learner-wenna.{suffix}"
    (tmp_path / file["download"]).write_text(file["text"], encoding="utf-8")
    assert read_export(tmp_path / file["download"]).attempts == tuple(Record("Wenna").attempts())
    assert "learner-wenna" in known.widget.record


def test_an_export_made_elsewhere_is_brought_in_and_one_of_another_learner_refused(known):
    reciprocals = [Attempt("reciprocal", seed, "right") for seed in (1, 2)]
    for learner, said in (("Wenna", "2 answers of mine.json added. "), ("Tobin", "")):
        text = as_json(Export(learner, tuple(reciprocals)))
        press(known, "bring in", name="mine.json", text=text)
        assert known.widget.record.startswith(said)
    assert "learner must be Wenna, got the answers of Tobin" in known.widget.record_message
    assert len(Record("Wenna").attempts()) == 3
    press(known, "bring in", name="mine.txt", text="")
    assert "must end in .json or .csv" in known.widget.record_message


def test_a_record_that_cannot_be_exported_is_told_at_the_control(known, sent, folder):
    (folder / "learner-wenna.sqlite3").write_text("not a database " * 99)
    press(known, "export", **{"as": "json"})
    assert "could not be read" in known.widget.record_message
    assert sent == []
    known.widget.record_open = False
    assert known.widget.record_message == ""


def test_another_name_begins_a_fresh_record_and_a_fresh_set(known, folder):
    first = known.question
    press(known, "next")
    press(known, "somebody else", name="Tobin Askerel")
    shown = known.widget
    assert (shown.learner, shown.saved) == ("Tobin Askerel", "Answers are saved for Tobin Askerel.")
    assert shown.prompt.startswith("Question 1 of 3. ")
    assert shown.tally == shown.feedback == shown.hints == ""
    press(known, "check", text=right_answer(known))
    assert [a.verdict for a in Record("Tobin Askerel").attempts()] == ["right"]
    assert [a.verdict for a in Record("Wenna").attempts()] == ["wrong"]
    assert first.kind in known.questions.kinds


def test_another_name_is_another_in_every_practice_of_the_notebook(known):
    other = practice("reciprocal", count=2)
    press(other, "check", text=right_answer(other))
    press(known, "somebody else", name="Tobin")
    assert other.widget.learner == "Tobin"
    assert other.widget.tally == ""
    assert other.questions.attempts == []


def test_without_a_name_nothing_is_kept_any_more(known, folder):
    press(known, "somebody else", name=" ")
    assert known.widget.asks_name
    assert known.widget.saved == "Nothing is saved for Wenna any more; what was saved is kept."
    press(known, "check", text=right_answer(known))
    assert len(Record("Wenna").attempts()) == 1
    press(known, "check", text=right_answer(known), name="Tobin")
    assert known.widget.saved == "Answers are saved for Tobin."


@pytest.mark.parametrize(
    ("name", "words"), [("../boss", "learner's name may have"), ("WENNA", "name must be another")]
)
def test_a_name_that_cannot_be_taken_is_told_at_the_control_and_changes_nothing(known, name, words):
    press(known, "somebody else", name=name)
    assert known.widget.record_message.startswith(words)
    assert known.widget.learner == "Wenna"
    assert known.questions.attempts


def test_answers_that_wait_are_not_left_behind_nor_given_to_somebody_else(known, folder):
    path = folder / "learner-wenna.sqlite3"
    aside = path.rename(folder / "aside")
    path.mkdir()  # in the way
    press(known, "check", text=right_answer(known))
    press(known, "somebody else", name="Tobin")
    assert known.widget.record_message.startswith("Not saved: ")
    assert known.widget.learner == "Wenna"
    path.rmdir()
    aside.rename(path)
    press(known, "somebody else", name="Tobin")
    assert known.widget.learner == "Tobin"
    assert len(Record("Wenna").attempts()) == 2
    assert Record("Tobin").attempts() == []


def test_deleting_asks_first(known, folder):
    press(known, "delete for good")  # without the question
    assert Record("Wenna").attempts()
    press(known, "delete")
    assert known.widget.record_sure == (
        "Delete the record of Wenna: 1 answer, with any check flight and entry of training? "
        "It cannot be undone."
    )
    assert Record("Wenna").attempts()
    press(known, "keep")
    assert known.widget.record_sure == ""
    press(known, "delete for good")
    assert Record("Wenna").attempts()


def test_a_deleted_record_leaves_nothing_and_nobody_is_recorded(known, folder):
    press(known, "delete")
    press(known, "delete for good")
    assert list(folder.iterdir()) == []
    shown = known.widget
    assert shown.asks_name
    assert shown.saved == "The record of Wenna is deleted."
    assert shown.tally == shown.feedback == shown.record == ""
    press(known, "check", text=right_answer(known))
    assert list(folder.iterdir()) == []


def test_a_record_that_cannot_be_deleted_is_told_at_the_control(known, folder):
    path = folder / "learner-wenna.sqlite3"
    path.unlink()
    path.mkdir()
    press(known, "delete")
    press(known, "delete for good")
    assert "could not be deleted" in known.widget.record_message
    assert known.widget.learner == "Wenna"


def test_a_lesson_is_named_by_its_number_and_kinds_may_be_added():
    assert practice("04").questions.kinds == kinds_of_lesson("04")
    added = practice("04", "sensing", "direct_course").questions.kinds
    assert added == (*kinds_of_lesson("04"), "sensing")
