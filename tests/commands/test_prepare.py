"""``vorlib prepare``: a lesson card from the command line."""

import re
from pathlib import Path

import pytest

from vorlib import cli
from vorlib.aircraft.wind import Wind
from vorlib.briefing.saved import read_lesson
from vorlib.core.caution import CAUTION
from vorlib.io.text import LARGEST_MB

NAV_BASE = Path(__file__).parents[1] / "data" / "faa_nav_base.csv"


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
    plan = tmp_path / "card.plan.json"
    assert f"written: {plan}" in out
    assert read_lesson(plan).wind == Wind(250.0, 20.0)


def test_with_real_stations_it_says_what_was_left_out_how_old_they_are_and_the_caution(
    tmp_path, capsys
):
    fields = tmp_path / "fields.csv"
    fields.write_text("ident,name,lat_deg,lon_deg,elevation_ft\nA1,One,40.0,-104.5,5000\n")
    files = ("--stations", NAV_BASE, "--fields", fields)
    where = ("--center", "40,-104.8", "--altitude", "9500", "--date", "2026-08-01")
    status, out, _ = prepare(
        capsys, *files, *where, "--paper", "letter", "--out", tmp_path / "c.pdf"
    )
    assert status == 0
    for words in (
        "left out, NDB, not a VOR: 2",
        "BJC",
        "the list says 'operational restricted', read the station's notes",
        "more than 56 days",
        CAUTION,
        "written: ",
    ):
        assert words in out


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--stations", NAV_BASE), "choose a center"),
        (("--stations", NAV_BASE, "--center", "-104.8,40"), "latitude and longitude swapped?"),
        (("--stations", NAV_BASE, "--center", "-33.9,151.2"), "choose another area"),
        (("--stations", NAV_BASE, "--centre", "-33.9,151.2"), "choose another area"),
        (("--wind", "brisk"), "250/20"),
        (("--wind", "250/999"), "knots, 0 to 250, such as 250/20, got '250/999'"),
        (("--wind", "999/20"), "0 to 360"),
        (("--date", "May"), "2026-06-01"),
        (("--date", "2036-06-01"), "2029"),
        (("--paper", "A5"), "A4, Letter"),
        (("--idents", "ZZZ"), "ZZZ"),
        (("--stations", "none.csv", "--center", "40,-104"), "none.csv"),
    ],
)
def test_a_wrong_option_is_named_and_leaves_no_file(tmp_path, capsys, arguments, words):
    status, _, error = prepare(capsys, *arguments, "--out", tmp_path / "card.pdf")
    assert status == 1
    assert words in error
    assert "Traceback" not in error
    assert not list(tmp_path.iterdir())


HEADER = "ident,name,lat_deg,lon_deg,elevation_ft,declination_deg,frequency_mhz,service\n"
ROW = "QLN,Quillon,46.0,-30.1,640,-9,113.4,L\n"
FIELDS = "ident,name,lat_deg,lon_deg,elevation_ft\nX1,Field,46.2,-30.0,80\n"


@pytest.mark.parametrize(
    ("option", "data", "words"),
    [
        ("--stations", b"", "the file is empty"),
        ("--stations", b"\x89PNG\r\n\x1a\n\0\0", "not UTF-8 text (line 1: byte 1 is 0x89)"),
        ("--stations", (HEADER + ROW).encode("utf-16"), "not UTF-8 text (line 1"),
        ("--stations", (HEADER + ROW.replace("i", "\u00ef")).encode("cp1252"), "(line 2: byte"),
        ("--stations", (HEADER + ROW[:20]).encode(), "row 2: there must be 8 cells"),
        ("--stations", NAV_BASE.read_bytes()[:4000], "cut off: line 8: there must be 72 cells"),
        ("--stations", (HEADER + ROW.replace("Quillon", "=A1")).encode(), "row 2: name must not"),
        ("--stations", (HEADER + ROW.replace("46.0", "130")).encode(), "row 2: lat_deg must be"),
        (
            "--stations",
            (HEADER + ROW).replace(",", "\t").encode(),
            "line 1: the cells are separated by tabs",
        ),
        ("--fields", b"", "line 1: the columns"),
        ("--fields", b"PK\x03\x04", "not text (line 1 holds the control character 0x03)"),
        ("--fields", FIELDS.encode("utf-16"), "not UTF-8 text (line 1"),
        ("--fields", FIELDS[:-8].encode(), "row 2: there must be 5 cells"),
        ("--fields", (FIELDS + 'X2,"Field').encode(), "row 3: not comma-separated text"),
        ("--fields", FIELDS.replace("Field", "=A1").encode(), "row 2: name must not begin with"),
        ("--fields", FIELDS.replace("46.2", "-130").encode(), "row 2: lat_deg .*swapped"),
    ],
)
def test_a_file_that_cannot_be_used_is_told_where_and_why_and_leaves_no_file(
    tmp_path, capsys, option, data, words
):
    good = {"--stations": NAV_BASE, "--fields": tmp_path / "fields.csv"}
    good["--fields"].write_text(FIELDS)
    bad = tmp_path / "bad.csv"
    bad.write_bytes(data)
    files = [word for pair in (good | {option: bad}).items() for word in pair]
    sheets = ("--out", tmp_path / "card.pdf", "--handout", tmp_path / "handout.pdf")
    status, _, error = prepare(capsys, *files, "--center", "46,-30", *sheets)
    assert status == 1
    assert re.search(words.replace("(", r"\(").replace(")", r"\)"), error)
    assert "Traceback" not in error
    assert {path.name for path in tmp_path.iterdir()} == {"bad.csv", "fields.csv"}


def test_files_with_semicolons_and_decimal_commas_are_read_as_spreadsheets_save_them(
    tmp_path, capsys
):
    stations, fields = tmp_path / "stations.csv", tmp_path / "fields.csv"
    for path, text in ((stations, HEADER + ROW), (fields, FIELDS)):
        path.write_text(text.replace(",", ";").replace(".", ","), encoding="utf-8-sig")
    files = ("--stations", stations, "--fields", fields, "--center", "46,-30")
    status, out, error = prepare(capsys, *files, "--out", tmp_path / "card.pdf")
    assert (status, error) == (0, "")
    assert "1 VOR station from your own file." in out


def test_elevation_data_is_told_and_its_unit_wants_a_file(tmp_path, capsys):
    ground, card = tmp_path / "ground.asc", tmp_path / "card.pdf"
    head = "ncols 40\nnrows 40\nxllcorner -31\nyllcorner 45\ncellsize 0.05\n"
    ground.write_text(head + "\n".join(["900 " * 40] * 40))
    status, out, _ = prepare(capsys, "--elevation", ground, "--altitude", 2900, "--out", card)
    assert status == 0
    assert "heights taken as meters: from 2,953 to 2,953 ft" in out
    assert "The planned 2,900 ft is NOT above the antenna of Tessarin, 2,960 ft." in out
    for options, words in (
        (("--elevation-in", "feet"), "give both"),
        (("--elevation", ground, "--elevation-in", "yards"), "must be meters or feet"),
        (("--elevation", tmp_path / "none.asc"), "none.asc"),
    ):
        status, _, error = prepare(capsys, *options, "--out", card)
        assert status == 1
        assert words in error


def test_a_file_of_more_than_200_mb_is_refused_and_the_limit_named(tmp_path, capsys):
    large = tmp_path / "large.csv"
    with large.open("wb") as file:
        file.truncate(LARGEST_MB * 1_000_000 + 1)
    out = ("--out", tmp_path / "card.pdf")
    for files in (("--stations", large), ("--stations", NAV_BASE, "--fields", large)):
        status, _, error = prepare(capsys, *files, "--center", "40,-104", *out)
        assert status == 1
        assert "larger than 200 MB, the most that is read" in error
    assert [path.name for path in tmp_path.iterdir()] == ["large.csv"]


def test_fields_without_stations_are_refused_in_words(tmp_path, capsys):
    fields = tmp_path / "fields.csv"
    fields.write_text(FIELDS)
    status, _, error = prepare(capsys, "--fields", fields, "--out", tmp_path / "card.pdf")
    assert status == 1
    assert "fields need stations: the islands have their own fields" in error


def test_where_nothing_is_received_no_file_is_left_and_it_says_what_to_do(tmp_path, capsys):
    out = ("--out", tmp_path / "card.pdf")
    status, _, error = prepare(capsys, "--stations", NAV_BASE, "--center", "46,-30", *out)
    assert status == 1
    assert "choose another area, or a higher altitude" in error
    assert not list(tmp_path.iterdir())


def test_the_briefing_of_the_flight_goes_with_the_card(tmp_path, capsys):
    card, briefing = tmp_path / "card.pdf", tmp_path / "briefing.pdf"
    status, said, _ = prepare(capsys, "--out", card, "--briefing", briefing, "--student", "W. D.")
    assert status == 0
    assert f"written: {briefing}" in said
    assert b"/Count 1" in briefing.read_bytes()
    status, _, error = prepare(capsys, "--out", card, "--briefing", card)
    assert status == 1
    assert "--briefing and --out must be two files" in error


def test_card_and_handout_are_written_both_or_neither(tmp_path, capsys):
    card = tmp_path / "card.pdf"
    for handout, words in (
        (tmp_path / "none" / "handout.pdf", "there is no folder {0.parent} for handout.pdf"),
        (tmp_path, "{0} is a folder; name a file"),
        (card, "--handout and --out must be two files, got {0} for both"),
    ):
        status, _, error = prepare(capsys, "--out", card, "--handout", handout)
        assert status == 1
        assert words.format(handout) in error
        assert not list(tmp_path.iterdir())


def test_a_folder_that_is_not_there_is_named(tmp_path, capsys):
    status, _, error = prepare(capsys, "--out", tmp_path / "none" / "card.pdf")
    assert status == 1
    assert f"there is no folder {tmp_path / 'none'} for card.pdf" in error
