"""A lesson prepared: what is read and said, what follows from a choice, and what is written."""

import re
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

import pytest
from geographiclib.geodesic import Geodesic

from vorlib.briefing.saved import read_lesson
from vorlib.core.caution import CAUTION
from vorlib.exhibits import prepare
from vorlib.exhibits.instructor.prepare import PrepareState, draw, sentence
from vorlib.io.text import LARGEST_MB
from vorlib.paper.lesson import lesson_sheets
from vorlib.stations import archipelago
from vorlib.views.drawing.theme import PROJECTOR, SCREEN

NAV_BASE = Path(__file__).parents[1] / "data" / "faa_nav_base.csv"
OWN = """ident,name,lat_deg,lon_deg,elevation_ft,declination_deg,frequency_mhz,service
ZED,Zeddar,30.0,-40.0,100,-12,112.30,L
YEW,Yewan,30.4,-40.3,250,-14,115.60,H
"""
FIELDS = "ident,name,lat_deg,lon_deg,elevation_ft\nX1,Zeddar Field,30.2,-40.0,80\n"


@pytest.fixture
def lesson():
    return prepare()


@pytest.fixture
def own(tmp_path):
    """Return a function that writes a file: its path."""

    def write(text, name="stations.csv"):
        path = tmp_path / name
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return str(path)

    return write


def control(exhibit, field):
    return exhibit.control(field)


def said(exhibit, field):
    """Return what stands under a control, without its markup."""
    return re.sub(r"<[^>]+>", " ", control(exhibit, field).note.html)


def texts(items):
    for item in items:
        yield from texts(item.items) if hasattr(item, "items") else [getattr(item, "text", "")]


def shown(state, theme=SCREEN):
    return " ".join(texts(draw(state, theme).items))


def idents(exhibit):
    return [station.ident for station in used(exhibit)]


def used(exhibit):
    """Return the stations of the lesson."""
    return [notes.listed.station for notes in exhibit.card.stations]


# --- without files --------------------------------------------------------------------------------


def test_at_first_it_shows_the_card_of_the_invented_islands(lesson):
    assert set(idents(lesson)) == set(archipelago.STATIONS)
    assert "Lesson card" in shown(lesson.state)
    assert "all invented" in lesson.sentence
    assert "108 radial of Quillon, 6.1 NM from it" in lesson.sentence


def test_the_pages_are_those_that_are_printed(lesson):
    sheets = lesson_sheets(lesson.card, coasts=archipelago.ISLANDS)
    assert [page.title for page in lesson.pages] == [sheet.title for sheet in sheets]
    for page, sheet in zip(lesson.pages, sheets, strict=True):
        assert [*filter(None, texts(page.items))] == [*filter(None, texts(sheet.items))]


def test_the_pages_are_turned_round_and_round(lesson):
    count = len(lesson.pages)
    for turn, page in ((0, 1), (1, 2), (count, 1), (-1, count)):
        state = PrepareState(page=1 + turn)
        assert f"page {page} of {count}" in shown(state)


def test_the_handout_has_no_answers(lesson):
    numbers = "".join(shown(PrepareState(page=page, answers=False)) for page in (1, 2, 3))
    assert "the learner's sheet" in numbers
    assert all(notes.signs not in numbers for notes in lesson.card.stations)
    assert "handout" in sentence(PrepareState(answers=False))


def test_for_a_projector_the_type_is_larger_and_nothing_is_lost():
    def largest(theme):
        return max(
            getattr(item, "size", 0)
            for group in draw(PrepareState(), theme).items
            for item in group.items[1].items
        )

    assert largest(PROJECTOR) > 1.1 * largest(SCREEN)
    everything = " ".join(shown(PrepareState(page=page), PROJECTOR) for page in range(1, 6))
    assert all(notes.listed.station.name in everything for notes in prepare().card.stations)
    assert CAUTION.split(". ")[0] in everything


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"altitude_ft": 1500.0}, "At 1,500 ft"),
        ({"center": "46.4, -29.5"}, "Tessarin"),
        ({"on": "2027-03-01"}, "for 2027-03-01"),
        ({"idents": "plx, tsx"}, "2 stations"),
    ],
)
def test_the_sentence_follows_every_choice(lesson, change, words):
    lesson.set(**change)
    assert words in lesson.sentence


def test_where_nothing_is_received_it_is_said_with_what_to_do(lesson):
    lesson.set(center="30, -30")
    assert "no station is received" in lesson.sentence
    assert "choose another area, or a higher altitude" in lesson.sentence
    assert "QLN 9" in said(lesson, "idents")  # more than 900 NM away


# --- files ----------------------------------------------------------------------------------------


def test_it_says_what_was_read_what_was_left_out_how_old_it_is_and_the_caution(lesson):
    lesson.set(stations=str(NAV_BASE), on="2026-08-01")
    words = said(lesson, "stations")
    assert "6 VOR stations from the FAA's NAV_BASE.csv".replace("'", "&#x27;") in words
    assert "Left out: 1 DME, not a VOR; 2 NDB, not a VOR" in words
    assert "79 days before 2026-08-01. That is more than 56 days: it is out of date" in words
    assert CAUTION in words
    assert "out of date" in lesson.sentence
    assert "out of date" in shown(lesson.state)


def test_the_caution_stands_there_before_any_file_is_given(lesson):
    assert CAUTION in said(lesson, "stations")


def test_a_row_that_was_left_out_for_a_fault_is_told_with_line_and_column(lesson, own):
    text = NAV_BASE.read_text(encoding="utf-8").replace("40.15555508,103", "95.0,103", 1)
    lesson.set(stations=own(text))
    assert "line 2: LAT_DECIMAL must be from -90 to 90 degrees, got 95" in said(lesson, "stations")


def test_new_stations_bring_the_area_to_where_they_are_and_well_above_them(lesson):
    lesson.set(stations=str(NAV_BASE))
    assert lesson.card.center.received or lesson.card.stations[0].at_center.distance_nm < 1.0
    highest = max(s.listed.station.position.altitude_ft for s in lesson.card.stations[:1])
    assert lesson.state.altitude_ft >= highest + 3000.0
    lesson.set(stations="")
    assert set(idents(lesson)) == set(archipelago.STATIONS)
    assert lesson.card.lesson.on == archipelago.TODAY


def test_the_area_stays_when_the_new_stations_are_round_it(lesson, own):
    lesson.set(stations=own(OWN), center="30.1, -40.1")
    center = lesson.state.center
    lesson.set(stations=own(OWN.replace("Yewan", "Yewen")))
    assert lesson.state.center == center


def test_stations_are_chosen_by_ident_and_the_area_goes_to_them(lesson):
    lesson.set(stations=str(NAV_BASE))
    lesson.set(idents="boi")
    assert idents(lesson) == ["BOI"]
    assert lesson.card.stations[0].at_center.distance_nm < 1.0
    lesson.set(idents="")
    assert idents(lesson) == ["BOI"]  # the others are beyond the horizon


def test_without_idents_the_nearest_to_the_middle_are_used_and_named(lesson):
    lesson.set(stations=str(NAV_BASE), center="40.0, -104.8")
    places = ((s.ident, s.position.lat_deg, s.position.lon_deg) for s in used(lesson))
    away = {i: Geodesic.WGS84.Inverse(40.0, -104.8, *at)["s12"] / 1852.0 for i, *at in places}
    assert idents(lesson) == sorted(away, key=away.get)
    words = ", ".join(f"{ident} {nm:.0f} NM" for ident, nm in away.items())
    # ALS is above the horizon in part of the area, but promised nowhere in it
    assert f"Nearest to the middle: {words}, ALS 166 NM, BOI 553 NM." in said(lesson, "idents")


def test_the_altitude_is_held_against_the_ground_and_elevation_data_is_used_when_given(lesson, own):
    assert "nothing is known of the ground" in said(lesson, "elevation")
    assert "the antenna of Tessarin, 2,960 ft" in said(lesson, "elevation")
    heights = "\n".join(["400 " * 60] * 60)
    head = "ncols 60\nnrows 60\nxllcorner -31\nyllcorner 45.5\ncellsize 0.03\n"
    lesson.set(elevation=own(head + heights, "ground.asc"), altitude_ft=2000.0)
    assert "heights taken as meters: from 1,312 to 1,312 ft" in said(lesson, "elevation")
    assert "The planned 2,000 ft is NOT above the antenna of Tessarin" in lesson.sentence
    everything = " ".join(shown(replace(lesson.state, page=n)) for n in (1, 2, 3))
    assert "clears it by 688 ft, less than 1,000 ft." in everything
    lesson.set(elevation_in="feet")
    assert "heights taken as feet: from 400 to 400 ft" in said(lesson, "elevation")
    lesson.set(elevation=own(head.replace("-31", "500000") + heights, "plane.asc"))
    assert "not in meters of a map projection" in control(lesson, "elevation").message


def test_a_station_that_is_restricted_or_hard_to_believe_is_remarked_on(lesson, own):
    lesson.set(stations=str(NAV_BASE), center="40.0, -104.8")
    assert "operational restricted" in said(lesson, "idents")
    lesson.set(stations=own(OWN.replace(",-12,", ",12,")))
    assert "ZED: the declination lies" in said(lesson, "idents")


def test_fields_wait_for_stations_and_are_used_with_them(lesson, own):
    lesson.set(fields=own(FIELDS, "fields.csv"))
    assert "1 field read; used as soon as there is a stations file." in said(lesson, "fields")
    assert "Quillon Field" in [place.name for place in lesson.card.fields]
    lesson.set(stations=own(OWN))
    assert [place.name for place in lesson.card.fields] == ["Zeddar Field"]
    assert "1 field read." in said(lesson, "fields")


def test_an_uploaded_file_is_read_as_one_whose_path_was_typed(lesson, own):
    upload = {"name": "home.csv", "content": memoryview(OWN.encode()), "type": "text/csv"}
    upload |= {"size": len(OWN), "last_modified": datetime(2026, 6, 1)}
    control(lesson, "stations").button.value = (upload,)
    assert sorted(idents(lesson)) == ["YEW", "ZED"]
    assert control(lesson, "stations").box.value == "home.csv"


def test_today_is_the_day_for_real_stations(lesson, own):
    lesson.set(stations=own(OWN))
    assert lesson.card.lesson.on == date.today()


# --- wrong entries --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("field", "entry", "words"),
    [
        ("stations", "none.csv", "Stations file: there is no file none.csv."),
        ("stations", ".", "Stations file: . cannot be read: "),
        ("idents", "QLN, ZZZ", "No station has the ident 'ZZZ'"),
        ("center", "-130, 46", "latitude must be from -90 to 90 degrees, got -130: .*swapped"),
        ("center", "46", "must be latitude,longitude such as 46.0,-30.0, got '46'"),
        ("center", "46, 400", "longitude must be from -360 to 360 degrees, got 400"),
        ("on", "1 June", "Date: the date must be such as 2026-06-01, got '1 June'."),
        ("on", "2040-06-01", "Enter a day from 2025-01-01 to 2029-12-31."),
        ("radius_nm", "0", "Enter a number from 5 to 150 NM"),
        ("altitude_ft", "high", "Enter a number from 500 to 18000 feet"),
        ("wind_kt", "-1", "Enter a number from 0 to 60 knots"),
        (
            "folder",
            "no/such/folder",
            "there is no folder no/such/folder. Make it, or name another.",
        ),
    ],
)
def test_a_wrong_entry_is_answered_beside_its_control_and_the_last_good_one_stays(
    lesson, field, entry, words
):
    before, wrong = lesson.state, control(lesson, field)
    good = wrong.box.value
    wrong.box.value = entry
    assert re.search(words, wrong.message)
    assert wrong.box.value == good
    assert lesson.state == before
    assert all(c.message == "" for c in lesson.controls if c is not wrong)


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "the file is empty"),
        (b"PK\x03\x04\0\0", "line 1 holds a zero byte"),
        (OWN.encode("utf-16"), "not UTF-8 text .line 1"),
        (OWN.replace("Zeddar", "Zeddär").encode("latin-1"), "not UTF-8 text .line 2: byte"),
        (OWN[:-20].encode(), "row 3: there must be 8 cells, one a column, got"),
        (OWN.replace("Zeddar", "=1+1").encode(), "row 2: name must not begin with '='"),
        (OWN.replace("30.0,-40.0", "-140.0,30.0").encode(), "row 2: lat_deg must be .* -90 to 90"),
        (b"a,b\n1,2\n", "line 1: the header matches no known layout"),
    ],
)
def test_a_file_that_cannot_be_used_is_told_where_and_why(lesson, own, content, words):
    before = lesson.state
    lesson.set(stations=own(content))
    message = control(lesson, "stations").message
    assert message.startswith("Stations file: ")
    assert re.search(words, message)
    assert lesson.state == before


def test_of_many_faults_the_first_are_told_and_the_rest_counted(lesson, own):
    lesson.set(stations=own(OWN + "X,X,north,0,0,0,113.4,L\n" * 30))
    lines = control(lesson, "stations").message.splitlines()
    assert len(lines) == 6
    assert lines[-1] == "and 26 more"


def test_a_file_of_more_than_200_mb_is_refused_and_the_limit_named(lesson, tmp_path):
    path = tmp_path / "large.csv"
    with path.open("wb") as file:
        file.truncate(LARGEST_MB * 1_000_000 + 1)
    lesson.set(stations=str(path))
    assert "larger than 200 MB, the most that is read" in control(lesson, "stations").message


# --- sheets ---------------------------------------------------------------------------------------


def buttons(exhibit):
    return {word: button for label, button in control(exhibit, "folder").buttons.items()
            for word in ("card", "handout") if word in label}  # fmt: skip


def test_nothing_is_written_until_a_folder_is_named(lesson, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    buttons(lesson)["card"].click()
    assert "name the folder" in control(lesson, "folder").message
    assert not list(tmp_path.iterdir())


def test_card_and_handout_go_to_the_folder_that_is_named_and_say_where(lesson, tmp_path):
    lesson.set(folder=str(tmp_path))
    for word in ("card", "handout"):
        buttons(lesson)[word].click()
        (path,) = tmp_path.glob(f"*{word}*.pdf")
        assert f"Written: {path}" in said(lesson, "folder")
        assert path.read_bytes().startswith(b"%PDF-")
    first, second = sorted(path.stem.split("2026-06-01")[1] for path in tmp_path.glob("*.pdf"))
    assert first == second  # the code that both carry
    (plan,) = tmp_path.glob("*.plan.json")
    assert plan.name.startswith("lesson-card-2026-06-01")
    assert read_lesson(plan).wind == lesson.card.lesson.wind


def test_a_sheet_that_cannot_be_written_leaves_nothing_and_says_why(lesson, tmp_path, monkeypatch):
    lesson.set(folder=str(tmp_path))

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("vorlib.io.atomic.os.fsync", full)
    buttons(lesson)["card"].click()
    assert "nothing was written" in control(lesson, "folder").message
    assert "no space left on device. Make room" in control(lesson, "folder").message
    assert not list(tmp_path.iterdir())


def test_a_lesson_without_any_station_received_is_not_written(lesson, tmp_path):
    lesson.set(folder=str(tmp_path), center="30, -30")
    buttons(lesson)["card"].click()
    assert "no station is received" in control(lesson, "folder").message
    assert not list(tmp_path.iterdir())
