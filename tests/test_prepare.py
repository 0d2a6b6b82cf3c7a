"""``vorlib prepare``: a lesson card from the command line."""

from pathlib import Path

import pytest

from vorlib import cli
from vorlib.caution import CAUTION

NAV_BASE = Path(__file__).parent / "data" / "faa_nav_base.csv"


def prepare(capsys, *arguments):
    """Return the exit status, the output and the error output."""
    status = cli.main(["prepare", *map(str, arguments)])
    return status, *capsys.readouterr()


def test_without_files_card_and_handout_are_made_for_the_islands(tmp_path, capsys):
    card, handout = tmp_path / "card.pdf", tmp_path / "handout.pdf"
    status, out, _ = prepare(capsys, "--out", card, "--handout", handout, "--wind", "250/20")
    assert status == 0
    assert CAUTION in out
    assert card.read_bytes().startswith(b"%PDF-")
    assert handout.read_bytes().startswith(b"%PDF-")
    assert card.read_bytes() != handout.read_bytes()


def test_with_real_stations_it_says_what_was_left_out_how_old_they_are_and_the_caution(
    tmp_path, capsys
):
    fields = tmp_path / "fields.csv"
    fields.write_text("ident,name,lat_deg,lon_deg,elevation_ft\nA1,One,40.0,-104.5,5000\n")
    files = ("--stations", NAV_BASE, "--fields", fields)
    where = ("--centre", "40,-104.8", "--altitude", "9500", "--date", "2026-08-01")
    status, out, _ = prepare(capsys, *files, *where, "--paper", "letter", "--out", tmp_path / "c")
    assert status == 0
    for words in ("left out, NDB, not a VOR: 2", "more than 56 days", CAUTION, "written: "):
        assert words in out


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--stations", NAV_BASE), "centre must be given"),
        (("--wind", "brisk"), "250/20"),
        (("--date", "May"), "2026-06-01"),
        (("--date", "2036-06-01"), "2029"),
        (("--paper", "A5"), "A4, Letter"),
        (("--radius", "0"), "radius_nm"),
        (("--idents", "ZZZ"), "ZZZ"),
        (("--stations", "none.csv", "--centre", "40,-104"), "none.csv"),
    ],
)
def test_a_wrong_option_is_named_and_leaves_no_file(tmp_path, capsys, arguments, words):
    status, _, error = prepare(capsys, *arguments, "--out", tmp_path / "card.pdf")
    assert status == 1
    assert words in error
    assert "Traceback" not in error
    assert not list(tmp_path.iterdir())


def test_a_folder_that_is_not_there_is_named(tmp_path, capsys):
    status, _, error = prepare(capsys, "--out", tmp_path / "none" / "card.pdf")
    assert status == 1
    assert f"the folder {tmp_path / 'none'} for card.pdf is not there" in error
