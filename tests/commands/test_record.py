"""``vorlib record``: a student's record of training from the command line."""

from datetime import UTC, datetime
from types import SimpleNamespace

import pytest

from vorlib import cli
from vorlib.commands.debrief import _enter
from vorlib.core.caution import CAUTION
from vorlib.practice import Attempt, Export
from vorlib.practice.record.exchange import write_export

AT = datetime(2026, 6, 1, 17, tzinfo=UTC)


@pytest.fixture
def run(tmp_path, capsys):
    """Run the command on records in a folder; return the exit status and what is said."""

    def run(*arguments):
        status = cli.main(["record", "--records", str(tmp_path / "records"), *arguments])
        out, error = capsys.readouterr()
        return status, out + error

    return run


@pytest.fixture
def handed_in(tmp_path):
    path = tmp_path / "wenna.json"
    write_export(
        Export("Wenna Dorrick", (Attempt("reciprocal", 1, "right", answered_at=AT),)), path
    )
    return str(path)


def test_a_record_is_brought_in_added_to_printed_and_deleted_when_its_name_is_typed(
    run, handed_in, tmp_path, monkeypatch
):
    wenna = ("--student", "Wenna Dorrick")
    assert run() == (0, "records: none\n")
    status, said = run(*wenna, "--bring-in", handed_in, "--taught", "5", "--on", "2026-06-02")
    assert status == 0
    assert "brought in: 1 new answer\n" in said
    assert "taught 2026-06-02" in said
    for ending, begins in ((".pdf", b"%PDF-"), (".csv", b"\xef\xbb\xbfpart,"), (".json", b"{")):
        out = tmp_path / f"record{ending}"
        status, said = run("--student", "wenna dorrick", "--flight", "home", "--out", str(out))
        assert status == 0
        assert CAUTION in said
        assert "not an endorsement" in said
        assert "stay on this machine" in said
        assert out.read_bytes().startswith(begins)
    assert run()[1] == "records: Wenna Dorrick\n"
    for typed in ("no", "Tobin"):
        monkeypatch.setattr("builtins.input", lambda question, typed=typed: typed)
        assert "Nothing was deleted." in run(*wenna, "--delete")[1]
    monkeypatch.setattr("builtins.input", lambda question: " wenna  dorrick ")
    assert "Deleted: 1 answer, 0 check flights and 4 entries" in run(*wenna, "--delete")[1]
    assert run() == (0, "records: none\n")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((), "there is no record of Tobin Askerel"),
        (("--delete",), "there is no record of Tobin Askerel"),
        (("--on", "2026-06-01"), "belong to --taught or --flight"),
        (("--taught", "99"), "the lesson must be one of"),
        (("--taught", "05", "--on", "June"), "the date must be such as 2026-06-01"),
        (("--taught", "05", "--out", "record.doc"), "must end in .pdf, .csv or .json"),
        (("--paper", "A5"), "A4, Letter"),
    ],
)
def test_what_cannot_be_done_is_named(run, arguments, words):
    status, said = run("--student", "Tobin Askerel", *arguments)
    assert status == 1
    assert words in said
    assert "Traceback" not in said


def test_the_answers_of_somebody_else_are_refused(run, handed_in):
    status, said = run("--student", "Tobin Askerel", "--bring-in", handed_in)
    assert status == 1
    assert "learner must be Tobin Askerel" in said


def test_a_debriefed_flight_is_entered_in_the_record_of_its_student(tmp_path, capsys, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    out = str(tmp_path / "debrief.pdf")
    assert cli.main(["debrief", "--out", out, "--to-record"]) == 1
    assert "needs --student" in capsys.readouterr().err
    _enter("Tobin Askerel", "home.gpx", SimpleNamespace(start=AT, sentences=["All as flown."]))
    assert cli.main(["record", "--student", "Tobin Askerel"]) == 0
    assert "flight 2026-06-01 home.gpx: All as flown." in capsys.readouterr().out
