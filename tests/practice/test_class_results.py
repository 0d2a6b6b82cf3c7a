"""A class's records are read whole, and say who misunderstands what and what to teach again."""

import csv
import io
import os
import sys
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from paper.test_page import texts

from vorlib.core.caution import CAUTION
from vorlib.io.text import FileError
from vorlib.paper.classroom.class_sheet import class_pages
from vorlib.paper.page import A4, LETTER
from vorlib.practice.classroom.choosing import HandedIn, between, handed_in, read_class_list
from vorlib.practice.classroom.demo_class import (
    FEW_DAYS,
    HARD,
    HELD,
    PUT_RIGHT,
    demo_class,
    write_demo_class,
)
from vorlib.practice.classroom.folder import ClassRecords, FileLeftOut, read_class
from vorlib.practice.classroom.progress import class_progress, learner_progress
from vorlib.practice.classroom.results import ClassFinding, ClassResults, Score
from vorlib.practice.classroom.results_csv import results_csv
from vorlib.practice.classroom.teaching import (
    NeedsYou,
    needs_you,
    nobody_right,
    teach_again,
    too_little,
)
from vorlib.practice.learning.attempt import SOLUTION_SHOWN, Attempt
from vorlib.practice.learning.diagnosis import diagnose
from vorlib.practice.learning.lessons import NOTEBOOKS
from vorlib.practice.questions.registry import all_kinds, draw
from vorlib.practice.record.exchange import Export, as_csv, as_json, write_export
from vorlib.views.classroom.words import (
    list_words,
    needs_you_words,
    nobody_right_words,
    progress_words,
    score_words,
    summary_words,
    teach_again_words,
)
from vorlib.views.drawing.layout import extent

MONDAY = datetime(2026, 5, 4, 12, tzinfo=UTC)
TURN, NONE = "a quarter turn", "no turn at all"
FORESEEN = draw("reciprocal", 0).foreseen


def answers(*shown, kind="reciprocal", begin=MONDAY, foreseen=FORESEEN, who=""):
    """Return answers a minute apart which showed these misconceptions, or "" for none."""
    return tuple(
        Attempt(
            kind,
            number,
            "wrong" if name else "right",
            name,
            foreseen,
            answered_at=begin + timedelta(minutes=number),
            key=f"{who} {kind} {begin} {number}",
        )
        for number, name in enumerate(shown)
    )


def results(**learners):
    """Return the results of learners by name, each with answers."""
    return ClassResults(ClassRecords(tuple(Export(n, a) for n, a in learners.items())))


# ---- the folder


def test_every_record_of_a_folder_is_read_whether_json_or_csv(tmp_path):
    for name, suffix in (("Wenna", "json"), ("Ansa", "csv"), ("Bevil", "CSV")):
        write_export(Export(name, answers("", TURN, who=name)), tmp_path / f"{name}.{suffix}")
    records = read_class(tmp_path)
    assert [one.learner for one in records.learners] == ["Ansa", "Bevil", "Wenna"]
    assert records.learners[2].attempts == answers("", TURN, who="Wenna")
    assert records.left_out == ()


def test_a_learner_who_exported_twice_has_each_answer_counted_once_and_in_order(tmp_path):
    given = answers("", TURN, "", NONE)
    write_export(Export("Wenna Dorrick", given[2:]), tmp_path / "late.json")
    write_export(Export("wenna dorrick", given[:3]), tmp_path / "early.csv")
    (one,) = read_class(tmp_path).learners
    assert one.attempts == given


BAD = [
    ("cut.json", as_json(Export("Ansa", answers("", "")))[:-50], "cut short, damaged or not JSON"),
    ("other.json", '{"cells": []}', "not an export of a record"),
    ("names.csv", "name,mark\nAnsa,1\n", "not an export of a record: it has no column 'learner'"),
    ("empty.csv", "", "not an export of a record"),
    ("photo.jpg", "JFIF", r"must end in .json or .csv"),
    (
        "mad.csv",
        as_csv(Export("Ansa", answers(""))).replace("right", "maybe"),
        "line 2: verdict must be one of",
    ),
]


@pytest.mark.parametrize(("name", "text", "reason"), BAD, ids=[name for name, *_ in BAD])
def test_a_damaged_or_foreign_file_is_named_with_the_reason_and_left_out(
    name, text, reason, tmp_path
):
    write_export(Export("Wenna", answers("")), tmp_path / "wenna.json")
    (tmp_path / name).write_text(text)
    records = read_class(tmp_path)
    assert [one.learner for one in records.learners] == ["Wenna"]
    (left_out,) = records.left_out
    assert left_out.file == name
    assert reason in left_out.reason
    assert not left_out.reason.startswith(name)


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere no file can be called so")
def test_a_file_with_an_odd_name_is_named_in_one_line_of_text(tmp_path):
    for name in (b"a\nb.csv", b"caf\xe9.txt"):
        Path(tmp_path, os.fsdecode(name)).write_text("x")
    files = read_class(tmp_path).left_out
    assert [one.file for one in files] == ["a?b.csv", "caf?.txt"]
    for one in files:
        assert one.reason.isprintable()


def test_a_file_in_another_encoding_is_told_what_to_do(tmp_path):
    text = as_csv(Export("Ren\N{LATIN SMALL LETTER E WITH ACUTE}", answers("")))
    (tmp_path / "r.csv").write_bytes(text.encode("latin-1"))
    (left_out,) = read_class(tmp_path).left_out
    assert "not UTF-8 text" in left_out.reason


def test_folders_inside_are_named_and_what_the_system_keeps_is_passed_over(tmp_path):
    (tmp_path / "old.json").mkdir()
    (tmp_path / ".DS_Store").write_text("")
    (left_out,) = read_class(tmp_path).left_out
    assert left_out == FileLeftOut(
        "old.json", "a folder, not a file: put the files of all learners into one folder"
    )


def test_a_folder_that_is_not_there_is_refused(tmp_path):
    (tmp_path / "file").write_text("")
    for name in ("nowhere", "file"):
        with pytest.raises(ValueError, match="there is no folder"):
            read_class(tmp_path / name)


# ---- who misunderstands what


def test_a_learner_holds_what_the_diagnosis_says_and_nothing_else():
    shown = [(), ("",), (TURN,), (TURN, TURN, TURN), (TURN, TURN, TURN, "", "", "")]
    for given in (answers(*names) for names in shown):
        (one,) = results(Wenna=given).learners
        assert one.holds == diagnose(given)
        holding = {n for n in FORESEEN if one.about(n).finding is ClassFinding.HOLDS}
        assert holding == set(diagnose(given))


def test_the_table_tells_holding_from_a_slip_from_none_from_never_asked():
    (one,) = results(Wenna=answers(TURN, TURN, TURN, NONE, "", "", "")).learners
    found = [one.about(name).finding for name in (NONE, FORESEEN[2], "width taken for radius")]
    assert found == [ClassFinding.SHOWED, ClassFinding.CLEAR, ClassFinding.NOT_ASKED]
    assert one.about(TURN).finding is ClassFinding.SHOWED
    (other,) = results(Ansa=answers(*[TURN] * 5, NONE, "")).learners
    assert other.about(TURN).finding is ClassFinding.HOLDS
    assert (other.about(TURN).showed, other.about(TURN).asked) == (5, 6)


def test_what_was_put_right_long_enough_ago_is_not_shown_any_more():
    (one,) = results(Wenna=answers(TURN, TURN, TURN, *[""] * 8)).learners
    assert one.about(TURN).finding is ClassFinding.CLEAR


def test_a_second_try_at_the_same_question_is_no_evidence():
    first = answers(TURN, TURN)
    again = tuple(replace(a, key=f"{a.key} again", verdict="right") for a in first)
    (one,) = results(Wenna=first + again).learners
    assert one.about(TURN).asked == 2


def test_the_most_widely_held_comes_first_and_what_nobody_showed_is_left_out():
    here = results(
        Ansa=answers(NONE, NONE, NONE, TURN),
        Bevil=answers(NONE, NONE, NONE, NONE),
        Corrin=answers(TURN, TURN, TURN),
    )
    assert here.misconceptions == (NONE, TURN)
    assert here.who(NONE, ClassFinding.HOLDS) == ("Ansa", "Bevil")
    assert here.asked(NONE) == 3


def test_without_names_the_findings_stay():
    here = results(Ansa=answers(TURN, TURN, TURN, who="9"), Bevil=answers("", who="1"))
    hidden = here.without_names()
    assert [one.name for one in hidden.learners] == ["Learner 1", "Learner 2"]
    assert hidden.who(TURN, ClassFinding.HOLDS) == ("Learner 2",)  # not in the order of the names
    assert "Ansa" not in list_words(hidden)


def test_without_names_a_file_left_out_does_not_tell_one():
    records = ClassRecords((), (FileLeftOut("ansa.txt", "must end in .json, got 'ansa.txt'"),))
    assert "ansa" not in str(ClassResults(records).without_names().left_out)


# ---- what to do about it


def test_what_to_teach_again_says_how_many_hold_it_and_where_to_go_back_to():
    here = results(
        Ansa=answers(TURN, TURN, TURN),
        Bevil=answers(TURN, TURN, TURN),
        Corrin=answers(TURN, ""),
        Dessa=answers("", kind="sensing", foreseen=("other",)),
    )
    (again,) = teach_again(here)
    assert (again.misconception, again.held_by, again.showed_by) == (
        TURN, ("Ansa", "Bevil"), ("Corrin",)
    )  # fmt: skip
    assert again.asked == 3
    assert again.lesson == "01"
    mistake = next(m for m in draw("reciprocal", 0).misconceptions if m.name == TURN)
    assert (again.why_tempting, again.look_again) == (mistake.why_tempting, mistake.look_again)
    words = teach_again_words(here)
    assert words.startswith(f"1. {TURN}: held by 2 of the 3 asked, and 1 more showed it\n")
    assert "Go back to lesson 1, Radials." in words
    assert mistake.look_again in words
    assert again.question.prompt in words


def test_a_kind_of_question_that_is_no_longer_there_is_no_hindrance():
    gone = answers("lost", "lost", "lost", kind="gone", foreseen=("lost", "other"))
    here = results(Ansa=gone, Bevil=gone, Corrin=gone)
    (again,) = teach_again(here)
    assert (again.lesson, again.question) == ("", None)
    assert teach_again_words(here) == "1. lost: held by 3 of the 3 asked"
    assert [one.question for one in nobody_right(here)] == [None] * 3
    assert "gone, put to 3 learners" in nobody_right_words(here)


def test_who_holds_most_needs_the_instructor_first_then_who_is_right_least():
    both = answers(TURN, TURN, TURN) + answers(
        "x", "x", "x", kind="sensing", foreseen=("x",), begin=MONDAY + timedelta(hours=1)
    )
    here = results(
        Ansa=answers(*[TURN] * 5, ""),
        Bevil=both,
        Corrin=answers(TURN, TURN, TURN),
        Dessa=answers(*[""] * 12),
    )
    assert [one.learner for one in needs_you(here)] == ["Bevil", "Corrin", "Ansa"]
    assert needs_you(here)[2] == NeedsYou("Ansa", (TURN,), Score(1, 6))
    assert needs_you_words(here, most=1) == (
        "Bevil: holds 2; 0 of the latest 6 right at the first try"
    )


def test_who_is_mostly_wrong_without_a_known_misconception_is_not_forgotten():
    unforeseen = tuple(replace(a, verdict="wrong") for a in answers(*[""] * 10))
    here = results(Ansa=unforeseen, Bevil=unforeseen[:9])
    assert [one.learner for one in needs_you(here)] == ["Ansa"]
    assert "holds no known misconception; 0 of the latest 10" in needs_you_words(here)


def test_who_answered_little_is_not_called_clean():
    here = results(Ansa=answers(*[""] * 9), Bevil=answers(*[""] * 10))
    assert too_little(here) == (("Ansa", 9),)
    assert list_words(here) == (
        "No misconception found: Bevil.\nToo few questions tried to tell: Ansa (9)."
    )


def test_a_question_that_nobody_got_right_is_told_when_three_tried_it():
    wrong, right = answers(TURN, ""), answers("", "")
    assert nobody_right(results(Ansa=wrong, Bevil=wrong)) == ()
    (one,) = nobody_right(results(Ansa=wrong, Bevil=wrong, Corrin=wrong))
    assert (one.kind, one.seed, one.asked) == ("reciprocal", 0, 3)
    assert draw("reciprocal", 0).worked in nobody_right_words(
        results(Ansa=wrong, Bevil=wrong, Corrin=wrong)
    )
    assert nobody_right(results(Ansa=wrong, Bevil=wrong, Corrin=right)) == ()


def test_an_answer_after_the_solution_was_shown_is_not_got_right():
    shown = tuple(replace(a, hints=SOLUTION_SHOWN) for a in answers(""))
    here = results(Ansa=shown, Bevil=shown, Corrin=shown)
    assert len(nobody_right(here)) == 1
    assert class_progress(here)[0].score == Score(0, 3)


# ---- progress


def test_progress_counts_first_tries_by_the_week_that_begins_on_monday():
    sunday, next_monday = MONDAY + timedelta(days=6), MONDAY + timedelta(days=7)
    here = results(
        Ansa=answers("", TURN)
        + answers("", kind="sensing", begin=sunday)
        + answers("", TURN, "", kind="best_pair", begin=next_monday),
        Bevil=answers(TURN),
    )
    by_week = class_progress(here, "week")
    assert [(one.begin, one.score) for one in by_week] == [
        (date(2026, 5, 4), Score(2, 4)),
        (date(2026, 5, 11), Score(2, 3)),
    ]
    assert [one.score for one in learner_progress(here.learners[1], "week")] == [Score(0, 1)]
    days = [one.begin for one in class_progress(here, "day")]
    assert days == [date(2026, 5, 4), date(2026, 5, 10), date(2026, 5, 11)]


def test_days_are_those_of_utc_wherever_the_answer_was_given():
    late = datetime.fromisoformat("2026-05-04T23:30:00-05:00")
    here = results(Ansa=answers("", begin=late))
    assert class_progress(here, "day")[0].begin == date(2026, 5, 5)


def test_a_percentage_is_given_only_with_twenty_answers_behind_it():
    assert score_words(Score(3, 4)) == "3 of 4"
    assert score_words(Score(15, 20)) == "15 of 20 (75 %)"
    assert score_words(Score(0, 0)) == "0 of 0"


# ---- nobody, nothing


def test_an_empty_folder_and_learners_without_answers_are_told_in_words(tmp_path):
    empty = ClassResults(read_class(tmp_path))
    assert summary_words(empty) == "No record was found."
    for here in (empty, results(Ansa=())):
        assert teach_again(here) == needs_you(here) == nobody_right(here) == ()
        assert class_progress(here) == ()
        assert "nothing answered yet" in progress_words(here)
        for words in (list_words, teach_again_words, needs_you_words, nobody_right_words):
            assert words(here)
    assert summary_words(results(Ansa=())).startswith("1 learner gave 0 answers.")


# ---- the demonstration class


@pytest.fixture(scope="module")
def demo():
    return ClassResults(demo_class())


def test_the_demonstration_class_is_diagnosed_as_it_was_made(demo):
    assert len(demo.learners) == 30
    assert {one.name: set(one.holds) for one in demo.learners} == {
        name: set(held) for name, held in HELD.items()
    }


def test_in_the_demonstration_class_some_put_a_misconception_right(demo):
    for name, misconception in PUT_RIGHT.items():
        one = next(learner for learner in demo.learners if learner.name == name)
        assert misconception in diagnose(one.attempts[:60])
        assert misconception not in one.holds


def test_the_demonstration_class_has_what_a_class_has(demo):
    assert [one.file for one in demo.left_out] == ["corrin-selwood (1).json", "timetable.csv"]
    assert [name for name, _ in too_little(demo)] == [n for n, days in FEW_DAYS.items() if not days]
    assert [(one.kind, one.seed) for one in nobody_right(demo)] == [HARD]
    weeks = [one.score.share for one in class_progress(demo)]
    assert weeks == sorted(weeks)
    assert summary_words(demo).startswith("30 learners gave 3,799 answers. 7 misconceptions")


def test_the_demonstration_class_is_the_same_each_time_and_leaves_nothing(tmp_path, monkeypatch):
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    assert demo_class() == demo_class()
    assert list(tmp_path.iterdir()) == []
    write_demo_class(tmp_path)
    assert len(list(tmp_path.iterdir())) == 30 + 3  # one exported twice, one damaged, one foreign


def test_every_lesson_with_questions_has_its_notebook():
    lessons = {lesson for kind in all_kinds().values() for lesson in kind.lessons}
    assert lessons <= set(NOTEBOOKS)


# ---- days, a class list, files of a spreadsheet


def test_answers_of_some_days_are_those_from_the_first_to_the_last_and_nobody_is_lost():
    late = answers("", TURN, begin=MONDAY + timedelta(days=3), who="late")
    records = ClassRecords((Export("Ansa", answers("", who="a") + late), Export("Bevil", ())))

    def counted(*days):
        return [len(one.attempts) for one in between(records, *days).learners]

    monday, thursday = date(2026, 5, 4), date(2026, 5, 7)
    assert counted() == [3, 0]
    assert counted(thursday) == [2, 0]
    assert counted(None, monday) == [1, 0]
    assert counted(monday, thursday) == [3, 0]
    with pytest.raises(ValueError, match="the last day must not be before the first"):
        between(records, thursday, monday)


def test_a_class_list_says_who_has_not_handed_in_and_who_is_not_on_it():
    names = read_class_list(io.StringIO("Name;group\n\nansa BERG;1\nBevil;2\nANSA BERG;1\n"))
    assert names == ("ansa BERG", "Bevil")
    records = ClassRecords((Export("Ansa Berg", ()), Export("Corrin", ())))
    assert handed_in(names, records) == HandedIn(("Bevil",), ("Corrin",))
    for text, words in (("", "holds no name"), ("Ansa\n<b>\n", "line 2: learner's name may have")):
        with pytest.raises(FileError, match=words):
            read_class_list(io.StringIO(text))


def test_a_record_that_a_spreadsheet_saved_with_semicolons_is_read(tmp_path):
    given = answers("", TURN, NONE)
    text = as_csv(Export("Wenna", given)).replace(",", ";").replace("0.0;", "0,0;")
    (tmp_path / "wenna.csv").write_text(text, "utf-8-sig")
    (one,) = read_class(tmp_path).learners
    assert one.attempts == given


def test_the_table_as_csv_says_what_is_held_behind_how_many_questions():
    here = results(Ansa=answers(TURN, TURN, TURN), Bevil=())
    head, ansa, bevil, corrin = csv.reader(io.StringIO(results_csv(here, ["=Corrin"])))
    assert head[-2:] == ["holds", TURN]
    assert ansa == ["Ansa", "yes", "3", "0", "3", "0", TURN, "holds 3/3"]
    assert bevil == ["Bevil", "yes", "0", "0", "0", "0", "", ""]
    assert corrin == ["'=Corrin", "no", "", "", "", "", "", ""]


def test_the_printed_results_say_the_days_who_is_missing_and_what_to_teach_again(demo):
    for size in (A4, LETTER):
        pages = class_pages(demo, size, missing=["Nobody Yet"], since=date(2026, 5, 4))
        said = " ".join(text for page in pages for text in texts(page))
        assert len(pages) <= 3
        for words in ("since 2026-05-04", "Not handed in (1): Nobody Yet.", CAUTION[:40]):
            assert words in said
        assert all(one.misconception in said for one in teach_again(demo))
        for page in pages:
            for item in page.items:
                assert extent(item)[3] <= size.height - 25.0
