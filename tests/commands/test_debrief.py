"""``vorlib debrief``: a recorded flight debriefed from the command line."""

import csv
import re
from importlib.resources import files
from pathlib import Path

import numpy as np
import pytest

from vorlib import cli
from vorlib.briefing.files import plan_lesson
from vorlib.briefing.saved import lesson_json
from vorlib.core.caution import CAUTION
from vorlib.debrief.files import debrief_example, debrief_from_files
from vorlib.stations import load_stations

DATA = files("vorlib").joinpath("data")
GPX, LOG = (Path(str(DATA.joinpath(f"example_flight{end}"))) for end in (".gpx", "_selections.csv"))
NAV_BASE = Path(__file__).parents[1] / "data" / "faa_nav_base.csv"


def debrief(capsys, *arguments):
    """Return the exit status, the output and the error output."""
    status = cli.main(["debrief", *map(str, arguments)])
    return status, *capsys.readouterr()


def test_without_a_track_the_example_flight_is_debriefed_in_sentences(tmp_path, capsys):
    page = tmp_path / "debrief.pdf"
    status, out, _ = debrief(capsys, "--out", page)
    assert status == 0
    assert CAUTION in out
    assert "you tracked the 210 radial of Quillon inbound and held 209." in out
    assert "Wind estimated from the track: from 24" in out
    assert page.read_bytes().startswith(b"%PDF-")


def test_the_flight_is_written_second_by_second(tmp_path, capsys):
    table = tmp_path / "seconds.csv"
    status, out, _ = debrief(capsys, GPX, "--out", tmp_path / "d.pdf", "--csv", table)
    assert status == 0
    assert f"written: {table}" in out
    with table.open(newline="") as file:
        rows = list(csv.DictReader(file))
    assert rows[0]["time_utc"] == "2026-06-01T09:12:00Z"
    assert {"tracking", "passage", "turn", "intercepting"} <= {row["phase"] for row in rows}


def test_a_track_with_its_log_says_the_same_as_the_example(tmp_path, capsys):
    _, alone, _ = debrief(capsys, "--out", tmp_path / "one.pdf")
    _, named, _ = debrief(capsys, GPX, "--selections", LOG, "--out", tmp_path / "two.pdf")
    assert alone.replace("one.pdf", "") == named.replace("two.pdf", "")


def test_without_selections_they_are_estimated_and_that_is_said(tmp_path, capsys):
    _, out, _ = debrief(capsys, GPX, "--out", tmp_path / "debrief.pdf")
    assert "What was selected is estimated from the track." in out
    assert "the track kept to 180 to Pelladine" in out


def over_a_real_station(tmp_path):
    """Write a table of a flight along the 090 radial of a published station, in its own columns."""
    station = load_stations(NAV_BASE).stations[0].station
    nm = np.linspace(3.0, 15.0, 400)
    rows = []
    for second, away in enumerate(nm.tolist()):
        place = station.position_on(90.0, away)
        minutes, seconds = divmod(second, 60)
        rows.append(
            f"2026-06-01 10:{minutes:02d}:{seconds:02d},{float(place.lat_deg):.6f},"
            f"{float(place.lon_deg):.6f}"
        )
    track = tmp_path / "track.csv"
    track.write_text("\n".join(["When,Latitude,Longitude", *rows]))
    chosen = tmp_path / "selections.csv"
    chosen.write_text(f"time,station,course\n0,{station.ident},090\n")
    return station, track, chosen


def test_real_stations_bring_the_caution_and_the_age_of_the_data(tmp_path, capsys):
    station, track, chosen = over_a_real_station(tmp_path)
    declared = "time=When"
    files_ = ("--stations", NAV_BASE, "--selections", chosen, "--columns", declared)
    where = (track, *files_, "--altitude", "9500", "--out", tmp_path / "d.pdf")
    status, out, error = debrief(capsys, *where, "--paper", "Letter")
    assert status == 0, error
    assert CAUTION in out
    assert "The data took effect on" in out
    assert f"the 090 radial of {station.name} outbound and held 090.0" in out


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("none.gpx",), "none.gpx"),
        ((GPX, "--selections", "none.csv"), "none.csv"),
        ((GPX, "--stations", "none.csv"), "none.csv"),
        ((GPX, "--selections", GPX), "the header must be time,station,course"),
        ((GPX, "--stations", LOG), "line 1"),
        ((GPX, "--stations", NAV_BASE), "choose stations near it"),
        ((GPX, "--flight", "3"), "there is no number 3"),
        ((GPX, "--plan", GPX), "not a plan"),
        ((GPX, "--plan", "none.json"), "none.json"),
        ((GPX, "--beside-flight", "1"), "--beside-flight belongs to --beside"),
        ((GPX, "--columns", "latitude"), "lat_deg=Latitude"),
        ((GPX, "--columns", "color=red"), "'color=red'"),
        ((LOG,), "there is no column"),
        ((LOG,), "for example: --columns time=UTC,"),
        (("--paper", "A5"), "A4, Letter"),
        (("--flight", "2"), "--flight belongs to a recorded flight"),
        (("--csv", "none/seconds.csv"), "there is no folder none for seconds.csv"),
    ],
)
def test_what_cannot_be_used_is_named_and_leaves_no_file(
    tmp_path, capsys, monkeypatch, arguments, words
):
    monkeypatch.chdir(tmp_path)
    status, _, error = debrief(capsys, *arguments, "--out", tmp_path / "debrief.pdf")
    assert status == 1
    assert words in error
    assert "Traceback" not in error
    assert not list(tmp_path.iterdir())


def test_a_refusal_names_the_option_that_mends_it(tmp_path, capsys):
    low = tmp_path / "flight.gpx"
    low.write_text(re.sub(r"<ele>.*?</ele>", "", GPX.read_text(encoding="utf-8")), "utf-8")
    for track, option in ((low, "--altitude 5500"), (LOG, "--columns time=")):
        status, _, error = debrief(capsys, track, "--out", tmp_path / "debrief.pdf")
        assert status == 1
        assert f"for example: {option}" in error
        assert "altitude_ft)" not in error


def test_the_option_named_is_the_one_that_mends_that_flight_and_that_fault(tmp_path, capsys):
    def table(name, *rows):
        path = tmp_path / name
        path.write_text("\n".join(rows) + "\n", encoding="utf-8")
        return path

    day = table("day.csv", "time,lat,lon,alt_ft", "01/02/2026 09:00:00,46,-30,3000")
    magnetic = table(
        "magnetic.csv", "seconds,lat,lon,alt_ft,magnetic_heading_deg", "0,46,-30,3000,90"
    )
    two = table(
        "two.csv",
        "time,lat,lon,alt_ft",
        *(
            f"2026-06-0{day}T09:{minute:02}:00Z,{46 + minute / 50},-30,3000"
            for day in (1, 3)
            for minute in range(3)
        ),
    )
    beside = (GPX, "--beside", two, "--beside-out", tmp_path / "both.pdf")
    for arguments, named in (
        ((day,), ["for example: --columns date_order=mdy"]),
        ((magnetic,), ["for example: --columns magnetic_heading_deg=-"]),
        ((two,), ["for example: --flight 1"]),
        (beside, ["for example: --beside-flight 1"]),
    ):
        status, _, error = debrief(capsys, *arguments, "--out", tmp_path / "debrief.pdf")
        assert status == 1
        assert [line for line in error.splitlines() if line.startswith("for example")] == named


def test_an_output_is_never_an_input(tmp_path, capsys):
    track = tmp_path / "flight.gpx"
    track.write_bytes(GPX.read_bytes())
    for arguments in (("--out", track), ("--out", tmp_path / "d.pdf", "--csv", track)):
        status, _, error = debrief(capsys, track, *arguments)
        assert status == 1
        assert "and an input must be two files" in error
        assert track.read_bytes() == GPX.read_bytes()


def write_two_flights(path):
    """Write the example flight and, two days later, the same again into one file."""
    text = GPX.read_text(encoding="utf-8")
    first, last = text.index("<trkseg>"), text.index("</trkseg>") + len("</trkseg>")
    again = text[first:last].replace("2026-06-01T", "2026-06-03T")
    path.write_text(text[:last] + again + text[last:], encoding="utf-8")


def test_an_instructor_names_who_flew_strikes_plans_and_sets_two_flights_side_by_side(
    tmp_path, capsys
):
    page, both, two = (tmp_path / name for name in ("d.pdf", "both.pdf", "two.gpx"))
    write_two_flights(two)
    plan = tmp_path / "card.plan.json"
    plan.write_text(lesson_json(plan_lesson()), encoding="utf-8")
    planned = ("--plan", plan, "--planned-wind", "250/20", "--planned-altitude", 3500)
    who = ("--student", "A. Learner", "--aircraft", "trainer", "--strike", "1,2")
    beside = ("--beside", two, "--beside-flight", 2, "--beside-out", both)
    status, out, error = debrief(capsys, GPX, "--out", page, *who, *planned, *beside)
    assert status == 0, error
    assert f"written: {both}" in out
    for arguments, words in (
        (("--strike", "99"), "no finding 99"),
        (("--strike", "first"), "--strike must be numbers such as 2,5"),
        (("--beside", GPX), "--beside and --beside-out belong together"),
        (("--planned-wind", "gale"), "wind"),
    ):
        status, _, error = debrief(capsys, "--out", tmp_path / "e.pdf", *arguments)
        assert status == 1
        assert words in error
        assert not (tmp_path / "e.pdf").exists()


def test_page_and_table_must_be_two_files(tmp_path, capsys):
    one = tmp_path / "one.pdf"
    status, _, error = debrief(capsys, "--out", one, "--csv", one)
    assert status == 1
    assert "must be two files" in error
    assert not one.exists()


def test_a_table_that_cannot_be_written_leaves_no_page_either(tmp_path, capsys):
    folder = tmp_path / "seconds.csv"
    folder.mkdir()
    status, _, error = debrief(capsys, "--out", tmp_path / "d.pdf", "--csv", folder)
    assert status == 1
    assert "is a folder; name a file" in error
    assert list(tmp_path.iterdir()) == [folder]


def test_a_bad_cell_of_the_log_is_named_with_line_and_column(tmp_path, capsys):
    chosen = tmp_path / "selections.csv"
    chosen.write_text("time,station,course\n09:12,QLN,030\n09:20,QLN,=1\n")
    page = tmp_path / "d.pdf"
    status, _, error = debrief(capsys, GPX, "--selections", chosen, "--out", page)
    assert status == 1
    assert "line 3: course must not begin with '='" in error
    assert not page.exists()


def test_the_same_from_python():
    made = debrief_from_files(GPX, selections=LOG)
    assert made.stations is None
    assert made.debrief.sentences == debrief_example().debrief.sentences
