"""What an instructor prints before a lesson, from a terminal."""

import pytest

import vorlib.paper.teaching.files  # noqa: F401  before a fake is put in place of what it imports
from vorlib.cli import main
from vorlib.core.caution import CAUTION
from vorlib.teaching import lesson_notebook


@pytest.mark.parametrize(
    ("words", "name", "pages"),
    [
        (["5", "--paper", "letter", "--minutes", "45"], "lesson-plan-05.pdf", 1),
        (["--all", "--seed", "2"], "lesson-plans.pdf", 2),
        (["--syllabus", "--order", "01, 2 3"], "syllabus.pdf", 1),
        (["--masters"], "masters.pdf", 5),
    ],
    ids=lambda value: value[0] if isinstance(value, list) else "",
)
def test_each_sheet_is_written_under_a_name_of_its_own(
    words, name, pages, tmp_path, monkeypatch, capsys
):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(lesson_notebook, "lesson_numbers", lambda *_: ("01", "14"))  # all is long
    assert main(["plan", *words]) == 0
    said = capsys.readouterr().out
    assert CAUTION in said
    assert f"written: {name}" in said
    assert b"/Count %d" % pages in (tmp_path / name).read_bytes()


def test_homework_is_written_with_its_key_and_the_plan_in_one_go(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert main(["plan", "05", "--homework", "homework.pdf"]) == 0
    names = sorted(path.stem for path in tmp_path.iterdir())
    assert names == ["homework", "homework_key", "lesson-plan-05"]


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (["99"], "the lesson must be one of 01"),
        (["05", "--minutes", "3"], "the minutes must be 9 or more"),
        (["05", "--minutes", "99999"], "and at most 480, got 99999"),
        (["05", "--order", "01"], "--order belongs to --syllabus"),
        (["--all", "--minutes", "45"], "--minutes belongs to the plan of one lesson"),
        (["--masters", "--seed", "1"], "--seed belongs to lesson plans"),
        (["--all", "--homework", "x.pdf"], "--homework belongs to the plan of one lesson"),
        (["05", "--homework", "no/x.pdf"], "no"),
        (["--syllabus", "--order", "01,03"], "lesson 03 (Where am I?) needs lesson 02"),
        (["--masters", "--paper", "A5"], "A4, Letter"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else "",
)
def test_what_cannot_be_printed_is_refused_with_the_reason(words, why, tmp_path, capsys):
    assert main(["plan", *words, "--out", str(tmp_path / "x.pdf")]) == 1
    assert why in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []
