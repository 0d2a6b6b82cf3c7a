"""``vorlib class-results``: a folder of records in, results and worksheets out."""

import csv
import io
import re
from datetime import UTC, datetime

import pytest

from vorlib import cli
from vorlib.core.caution import CAUTION
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.record.exchange import Export, write_export

NOON = datetime(2026, 5, 4, 12, tzinfo=UTC)


def results(capsys, *arguments):
    """Return the exit status, the output and the error output."""
    status = cli.main(["class-results", *map(str, arguments)])
    return status, *capsys.readouterr()


@pytest.fixture
def folder(tmp_path):
    """Two learners who take no turn at all, one file as a spreadsheet with semicolons saved it."""
    where = tmp_path / "class"
    where.mkdir()
    for name in ("Ansa Wick", "Bevil Roe"):
        attempts = tuple(
            Attempt("reciprocal", n, "wrong", "no turn at all", ("no turn at all",),
                    answered_at=NOON, key=f"{name}{n}", taken_s=2.5)
            for n in range(4)
        )  # fmt: skip
        write_export(Export(name, attempts), where / f"{name}.csv")
    rows = list(csv.reader(io.StringIO((where / "Ansa Wick.csv").read_text("utf-8"))))
    rows = [[cell.replace("2.5", "2,5") for cell in row] for row in rows]
    with (where / "Ansa Wick.csv").open("w", newline="", encoding="utf-8-sig") as file:
        csv.writer(file, delimiter=";").writerows(rows)
    (where / "notes.txt").write_text("no record")
    return where


def test_a_class_has_its_results_who_is_missing_and_for_each_misconception_the_sheet_that_cures_it(
    folder, tmp_path, capsys
):
    names, sheets = tmp_path / "list.txt", tmp_path / "sheets"
    names.write_text("Ansa Wick\nQuell Absent\n", encoding="utf-8")
    page, table = tmp_path / "r.pdf", tmp_path / "r.csv"
    sheets.mkdir()
    status, out, error = results(
        capsys, folder, "--out", page, "--csv", table, "--class-list", names,
        "--worksheets", sheets, "--from", "2026-01-01", "--paper", "Letter",
    )  # fmt: skip
    assert status == 0, error
    for words in (CAUTION, "2 learners gave 8 answers", "Answers since 2026-01-01.",
                  "Not handed in (1): Quell Absent.", "Not on the list: Bevil Roe.",
                  "1. no turn at all: held by 2 of the 2 asked", "Who needs you first",
                  "Files left out\nnotes.txt"):  # fmt: skip
        assert words in out
    assert page.read_bytes().startswith(b"%PDF-")
    with table.open(newline="", encoding="utf-8-sig") as file:
        told = [row[:2] for row in csv.reader(file)]
    assert told[1:] == [["Ansa Wick", "yes"], ["Bevil Roe", "yes"], ["Quell Absent", "no"]]
    (key,) = sheets.glob("worksheet-*-key.pdf")
    sheet = key.with_name(key.name.replace("-key", ""))
    assert sheet.exists()
    assert f"written: {sheet} and {key.name}: no turn at all" in out


def test_with_numbers_no_name_is_told_and_days_without_answers_hold_nothing(folder, capsys):
    status, out, _ = results(capsys, folder, "--numbers")
    assert status == 0
    assert not re.search("Ansa|Bevil", out)
    status, out, _ = results(capsys, folder, "--to", "2001-01-01")
    assert status == 0
    assert "Nobody is known to hold a misconception." in out


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("none",), "there is no folder 'none'"),
        (("class", "--from", "monday"), "the date must be such as 2026-06-01"),
        (("class", "--from", "2026-06-02", "--to", "2026-06-01"), "must not be before the first"),
        (("class", "--class-list", "none.txt"), "none.txt"),
        (("class", "--out", "class/r.pdf"), "class is for the records only"),
        (("class", "--out", "r.pdf", "--csv", "r.pdf"), "must be two files"),
        (("class", "--out", "none/r.pdf"), "there is no folder none for r.pdf"),
        (("class", "--worksheets", "none"), "--worksheets must be an existing folder"),
        (("class", "--paper", "A5"), "A4, Letter"),
    ],
)
def test_what_cannot_be_used_is_named_and_leaves_no_file(
    tmp_path, monkeypatch, capsys, arguments, words
):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "class").mkdir()
    status, _, error = results(capsys, *arguments)
    assert status == 1
    assert words in error
    assert [path.name for path in tmp_path.rglob("*")] == ["class"]
