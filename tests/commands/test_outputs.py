"""What a command writes never harms what is there."""

import os
import stat

import pytest

from vorlib import cli
from vorlib.io.outputs import check_outputs

PDF, NOTEBOOK = b"%PDF-1.4\n", b'{"cells": []}'


def test_a_pdf_replaces_a_pdf_and_nothing_else(tmp_path):
    for name, there in (("old.pdf", PDF), ("empty.pdf", b"")):
        (tmp_path / name).write_bytes(there)
        check_outputs({"--out": tmp_path / name})
    mine = tmp_path / "mine.pdf"
    mine.write_bytes(b"my thesis")
    with pytest.raises(
        FileExistsError, match="does not hold PDF: name another file, or give --force"
    ):
        check_outputs({"--out": mine})
    check_outputs({"--out": mine}, force=True)


@pytest.mark.parametrize("there", [PDF, NOTEBOOK, b"SQLite format 3\0"])
def test_a_table_replaces_no_other_kind_of_file(tmp_path, there):
    path = tmp_path / "seconds.csv"
    path.write_bytes(there)
    with pytest.raises(FileExistsError, match="does not hold CSV"):
        check_outputs({"--csv": path}, kinds={"--csv": ".csv"})
    path.write_bytes(b"time,dots\n1,2\n")
    check_outputs({"--csv": path}, kinds={"--csv": ".csv"})


def test_an_output_is_no_input_by_whatever_name_and_no_other_output(tmp_path):
    track = tmp_path / "track.gpx"
    track.write_bytes(PDF)
    (tmp_path / "link.pdf").hardlink_to(track)
    with pytest.raises(ValueError, match="--out and an input must be two files"):
        check_outputs({"--out": tmp_path / "link.pdf"}, [None, track], force=True)
    twice = {"--out": tmp_path / "a.pdf", "--handout": tmp_path / "." / "a.pdf"}
    with pytest.raises(ValueError, match="--handout and --out must be two files"):
        check_outputs(twice)


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such files")
def test_no_folder_and_no_special_file_is_replaced_even_by_force(tmp_path):
    os.mkfifo(tmp_path / "pipe.pdf")
    (tmp_path / "folder.pdf").mkdir()
    for name in ("pipe.pdf", "folder.pdf"):
        with pytest.raises(OSError, match="name"):
            check_outputs({"--out": tmp_path / name}, force=True)
    assert stat.S_ISFIFO((tmp_path / "pipe.pdf").stat().st_mode)


@pytest.mark.parametrize(
    "words",
    [
        "prepare --out NAME",
        "prepare --out card.pdf --handout NAME",
        "worksheets --topic 05 --out NAME",
        "worksheets --topic 05 --out sheet.pdf --card NAME",
        "worksheets --key-for 1 --out NAME",
        "plan 05 --out NAME",
        "class-results . --out NAME",
        "class-results . --csv NAME",
        "debrief --out NAME",
        "debrief --out debrief.pdf --csv NAME",
        "assignment --seed 7 --out NAME",
    ],
)
def test_every_command_refuses_before_it_works(words, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    for name in ("notes", "notes.txt", "mine.pdf", "mine.csv", "mine.ipynb"):
        (tmp_path / name).write_bytes(b"\0 my own")
        if "--key-for" in words and name == "mine.pdf":
            continue
        assert cli.main(words.replace("NAME", name).split()) == 1
        assert "must end in" in (said := capsys.readouterr().err) or (
            "--force" in said or "code" in said
        )
    assert all(path.read_bytes() == b"\0 my own" for path in tmp_path.iterdir())
