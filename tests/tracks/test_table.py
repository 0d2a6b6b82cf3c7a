"""A table of points is read by a declared mapping of its columns, or says what to put right."""

import re

import numpy as np
import pytest

import vorlib as v
from tracks.written import COLUMNS, START, at, north, row, table
from vorlib.earth.variation import variation_deg
from vorlib.io.text import FileError
from vorlib.tracks import Columns, read_track
from vorlib.tracks.table import found_in

GOOD = [row(*point) for point in north()]


def read(text, columns=None, **options):
    return read_track(text if isinstance(text, bytes) else text.encode(), columns, **options)


def refused(text, columns=None, **options):
    with pytest.raises(FileError) as caught:
        read(text, columns, **options)
    return str(caught.value)


def changed(column, cell, line=4):
    """Return a good table with one cell changed."""
    rows = [dict(zip(COLUMNS.split(","), good.split(","), strict=True)) for good in GOOD]
    rows[line - 2][column] = cell
    return table(*(",".join(cells.values()) for cells in rows))


def test_the_columns_of_the_library_are_read_undeclared():
    recording = read(table(*GOOD))
    np.testing.assert_array_equal(recording.flight.time_s, [0, 1, 2, 3, 4])
    np.testing.assert_array_equal(recording.flight.position.lat_deg, [p[1] for p in north()])
    np.testing.assert_allclose(recording.flight.position.altitude_ft, 1000.0 / 0.3048)
    assert recording.start == START


def test_other_columns_are_declared_and_those_not_needed_are_passed_over():
    text = table(
        "1,46.0,-30.0,2026-06-01T09:00:00Z,300,A",
        "2,46.01,-30.0,2026-06-01T09:00:18Z,330,B",
        header="Nr,Lat,Lon,Time (UTC),Alt m,Remark",
    )
    mapping = Columns(
        time="Time (UTC)", lat_deg="Lat", lon_deg="Lon", altitude="Alt m", altitude_unit="m"
    )
    recording = read(text, mapping)
    np.testing.assert_allclose(recording.flight.position.altitude_ft, [984.25, 1082.68], atol=0.01)
    np.testing.assert_array_equal(recording.flight.time_s, [0.0, 18.0])


def test_columns_are_declared_in_words_and_told_in_them():
    declared = "time=When, lat_deg=Lat,lon_deg=Lon,altitude=Height,altitude_unit=m"
    columns = Columns.from_words(declared)
    assert (columns.time, columns.altitude, columns.altitude_unit) == ("When", "Height", "m")
    assert Columns.from_words(columns.words) == columns
    assert Columns.from_words("") == Columns()
    assert Columns().words == ""


def test_a_recorded_heading_is_kept_and_its_lack_is_told():
    rows = [f"{good},{heading}" for good, heading in zip(GOOD, (10, 11, "", 13, 14), strict=True)]
    text = table(*rows, header=f"{COLUMNS},hdg")
    recording = read(text, Columns(true_heading_deg="hdg"))
    np.testing.assert_allclose(recording.flight.true_heading_deg, [10, 11, 360, 13, 14])
    assert recording.notes[1:] == ("1 heading missing: taken as the track, without wind.",)


@pytest.mark.parametrize(
    ("cell", "zone"),
    [
        ("2026-06-01T09:00:00Z", "UTC"),
        ("2026-06-01T09:00:00Z", "Asia/Tokyo"),
        ("2026-06-01T11:00:00+02:00", "UTC"),
        ("2026-06-01 05:30:00.000-03:30", "UTC"),
        ("2026-06-01 18:00:00", "Asia/Tokyo"),
        ("20260601T090000Z", "UTC"),
    ],
)
def test_times_have_a_zone_of_their_own_or_the_one_declared(cell, zone):
    later = cell.replace("00:00", "00:07", 1).replace("30:00", "30:07").replace("0000Z", "0007Z")
    text = table(f"{cell},46,-30,1000", f"{later},46,-30,1000")
    recording = read(text, Columns(zone=zone))
    assert recording.start == START
    np.testing.assert_allclose(recording.flight.time_s, [0.0, 7.0])


@pytest.mark.parametrize(
    ("fault", "allowed"),
    [
        ({"zone": "Mars/Base"}, "zone must be a time zone"),
        ({"zone": "../../etc/passwd"}, "zone must be a time zone"),
        ({"altitude_unit": "yards"}, "altitude_unit must be 'ft' or 'm'"),
        ({"speed_unit": "mph"}, "speed_unit must be 'kt' or 'm/s' or 'km/h'"),
        ({"date_order": "ymd"}, "date_order must be 'mdy' or 'dmy'"),
        ({"time": "-"}, "the column of time must be named"),
    ],
)
def test_a_mapping_that_cannot_be_is_refused(fault, allowed):
    with pytest.raises(ValueError, match=allowed):
        Columns(**fault)


# ---- files as recorders leave them: the flight of `north`, whichever way it is written

# Each the same flight: 46.000, 46.001 and 46.002 north at 0, 2 and 4 seconds, at 1,000 m.
FILES = {
    "Unix time in seconds": """timestamp,lat,lng,alt (m)
1780304400,46.000,-30,1000
1780304402,46.001,-30,1000
1780304404,46.002,-30,1000
""",
    "Unix time in milliseconds": """Unix time,Latitude,Longitude,Altitude [ft]
1780304400000,46.000,-30,3280.84
1780304402000,46.001,-30,3280.84
1780304404000,46.002,-30,3280.84
""",
    "a panel: lines before the header, date and time apart": """#an airframe, a panel
#yyyy-mm-dd, hh:mm:ss, degrees, degrees, ft, kt
UTC Date, UTC Time, Latitude, Longitude, Alt GPS, Gnd Spd
2026-06-01, 09:00:00, 46.000, -30, 3280.84, 108
2026-06-01, 09:00:02, 46.001, -30, 3280.84, 108
2026-06-01, 09:00:04, 46.002, -30, 3280.84, 108
""",
    "semicolons and decimal commas": """number;time;lat;lon;altitude_m
1;01.06.2026 09:00:00;46,000;-30,0;1000,0
2;01.06.2026 09:00:02;46,001;-30,0;1000,0
3;01.06.2026 09:00:04;46,002;-30,0;1000,0
""",
    "tabs and half days": """date\ttime\tlat\tlon\talt_ft
2026/06/01\t9:00:00 AM\t46.000\t-30\t3280.84
2026/06/01\t9:00:02 AM\t46.001\t-30\t3280.84
2026/06/01\t9:00:04 AM\t46.002\t-30\t3280.84
""",
    "units below the names, a comma at the end": """time,lat,lon,alt_m
s,deg,deg,m
2026-06-01T09:00:00Z,46.000,-30,1000,
2026-06-01T09:00:02Z,46.001,-30,1000,
2026-06-01T09:00:04Z,46.002,-30,1000,
""",
    "seconds of the flight": """elapsed (s),lat,lon,alt_m
0.0,46.000,-30,1000
2.0,46.001,-30,1000
4.0,46.002,-30,1000
""",
}


@pytest.mark.parametrize("text", FILES.values(), ids=FILES)
def test_a_file_is_read_as_it_comes_and_what_was_read_is_told(text):
    recording = read(text)
    np.testing.assert_allclose(recording.flight.position.lat_deg, [46.0, 46.001, 46.002])
    np.testing.assert_allclose(recording.flight.position.altitude_ft, 1000.0 / 0.3048, atol=0.01)
    np.testing.assert_allclose(recording.flight.time_s, [0.0, 2.0, 4.0], atol=1e-6)
    assert recording.start == (None if "elapsed" in text else START)
    told = recording.notes[0]
    assert told.startswith("Columns read: time from ")
    assert all(name in text for name in re.findall(r"'([^']*)'", told))
    assert (" in m" in told) == ("(m)" in text or "_m" in text)


def test_seconds_of_the_flight_have_no_day():
    text = table(*(f"{i},46,-30,0,90" for i in range(3)), header="seconds,lat,lon,ele,mag hdg")
    assert read(text, Columns(magnetic_heading_deg="-")).start is None
    assert "needs the day" in refused(text)


def test_a_magnetic_heading_is_made_true_by_the_variation_of_day_and_place():
    text = table(*(f"{good},90" for good in GOOD), header=f"{COLUMNS},Mag Heading")
    heading = read(text).flight.true_heading_deg
    here = v.Position(46.0, -30.0)
    np.testing.assert_allclose(heading, 90.0 + variation_deg(here, START.date()), atol=0.01)


def test_a_magnetic_heading_of_a_day_whose_variation_is_unknown_is_left_out_on_request():
    old = [f"{good},90".replace("2026-", "2019-") for good in GOOD]
    text = table(*old, header=f"{COLUMNS},Mag Heading")
    assert "declare magnetic_heading_deg=- to leave it out" in refused(text)
    assert read(text, Columns(magnetic_heading_deg="-")).start.year == 2019


@pytest.mark.parametrize(("unit", "value"), [("kt", 120.0), ("m/s", 61.73), ("km/h", 222.24)])
def test_a_speed_is_in_the_unit_of_its_name_or_the_one_declared(unit, value):
    rows = [f"{good},{value}" for good in GOOD]
    np.testing.assert_allclose(
        read(table(*rows, header=f"{COLUMNS},speed ({unit})")).speed_kt, 120.0, atol=0.01
    )
    text = table(*rows, header=f"{COLUMNS},speed")
    np.testing.assert_allclose(read(text, Columns(speed_unit=unit)).speed_kt, 120.0, atol=0.01)
    if unit != "kt":
        assert read(text).speed_kt is None
        assert "is their unit right? They are not used." in read(text).notes[-1]


def test_a_time_without_its_day_is_asked_for_it_once():
    rows = [good.replace("2026-06-01T", "").replace("Z", "") for good in GOOD]
    words = refused(table(*rows))
    assert "holds a time without its day, '09:00:00': declare the column" in words
    assert words.count("without its day") == 1


def test_words_of_a_column_may_be_told_apart_by_capitals_alone():
    found, _ = found_in("timestamp,latDeg,lonDeg,AltMSL ft,groundSpeed kt\n", Columns())
    assert (found.lat_deg, found.altitude, found.speed) == ("latDeg", "AltMSL ft", "groundSpeed kt")


def test_a_day_that_may_be_read_in_two_ways_is_asked_about():
    text = table(*(good.replace("2026-06-01T", "06/01/2026 ") for good in GOOD))
    assert "declare date_order=mdy or date_order=dmy" in refused(text)
    assert read(text, Columns(date_order="mdy")).start == START
    assert read(text, Columns(date_order="dmy")).start.month == 1


def test_a_column_is_left_out_on_request():
    assert "no altitude was recorded" in refused(table(*GOOD), Columns(altitude="-"))


def test_rows_where_the_recorder_had_no_fix_are_left_out_and_told():
    recording = read(table(*GOOD[:2], f"{at(2)},,,", *GOOD[3:]))
    np.testing.assert_array_equal(recording.flight.time_s, [0, 1, 3, 4])
    assert "Left out: 1 point without a place, the first in line 4." in recording.notes


def test_missing_altitudes_are_taken_between_their_neighbors():
    rows = [f"{at(s)},46,-30,{ft}" for s, ft in enumerate((1000, "", 1200))]
    recording = read(table(*rows))
    np.testing.assert_allclose(recording.flight.position.altitude_ft, [1000, 1100, 1200])
    assert "1 altitude missing: taken between the neighbors." in recording.notes


def test_without_a_column_of_altitude_the_caller_gives_one():
    text = table(f"{at(0)},46,-30", f"{at(1)},46,-30", header="time,lat_deg,lon_deg")
    assert "no altitude was recorded" in refused(text)
    recording = read(text, altitude_ft=3500)
    np.testing.assert_array_equal(recording.flight.position.altitude_ft, 3500.0)
    assert "Altitude was not recorded: it is taken as 3,500 ft." in recording.notes
    with pytest.raises(ValueError, match="altitude_ft must be finite"):
        read(text, altitude_ft=float("nan"))


@pytest.mark.parametrize(
    ("column", "cell", "said"),
    [
        ("time", "noon", "line 4: time must be a day and a time such as 2026"),
        ("time", "2026-06-01", "line 4: time must be a day and a time such as 2026"),
        ("time", "1780304400", "line 4: '1780304400' is Unix time, those before it are day and t"),
        ("time", "9" * 400, "line 4: the time must be from 1980 to 2100"),
        ("time", "1781-06-01T09:00:00Z", "line 4: the time must be from 1980 to 2100, got 1781"),
        ("time", "", "line 4: time must be a day and a time such as 2026"),
        ("time", "0001-01-01T00:00:00+14:00", "line 4: the time must be from 1980"),
        ("time", "9999-12-31T23:59:59-14:00", "line 4: the time must be from 1980"),
        ("lat_deg", '"46,5"', "line 4: lat_deg must be a number such as 46.5, got '46,5'"),
        ("lat_deg", "46,5", "line 4: there must be 4 cells, one a column, got 5: are there deci"),
        ("lat_deg", "-130", "line 4: lat_deg must be from -90 to 90 degrees, got -130: are lat"),
        ("lat_deg", "nan", "line 4: lat_deg must be finite"),
        ("lat_deg", "", "line 4: lat_deg must be a number"),
        ("lon_deg", "361", "line 4: lon_deg must be from -360 to 360"),
        ("lon_deg", "W30", "line 4: lon_deg must be a number"),
        ("altitude_ft", "=HYPERLINK()", "line 4: altitude_ft must not begin with '='"),
        ("altitude_ft", "=1+1", "line 4: altitude_ft must not begin with '='"),
        ("altitude_ft", "inf", "line 4: altitude_ft must be finite"),
        ("altitude_ft", "200000", "line 4: the altitude must be from -2,000 to 100,000 ft"),
    ],
)
def test_a_bad_cell_is_named_with_line_column_and_what_is_allowed(column, cell, said):
    assert said in refused(changed(column, cell))


def test_every_bad_row_has_a_message_of_its_own_up_to_twenty():
    rows = ["x,46,-30,1000"] * 30
    assert len(refused(table(*rows)).splitlines()) == 20


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "the file is empty"),
        (" \n\n", "the file is empty"),
        (table(), "the file holds no point of a track"),
        ("\n".join(GOOD), "line 1: there is no column of time, of latitude, of longitude"),
        ("\n".join(GOOD), "is the header missing?"),
        (table(*GOOD, header="time,x,y,altitude_ft"), "no column of latitude, of longitude"),
        (table(*GOOD, header="time,lat_deg,lat_deg,lon_deg"), "'lat_deg' is given twice"),
        (table(*GOOD, header=f"{COLUMNS},time"), "line 1: the column 'time' is given twice"),
        (table(*GOOD)[:-25], "line 6: there must be 4 cells, one a column, got 2"),
        (table(GOOD[0], f'{at(1)},46,-30,"10'), "row 3: not comma-separated text"),
        (table(GOOD[0], "," * 100_001), "line 3 is longer than 100,000 characters"),
        (table(GOOD[0]), "the file holds one point"),
        (table(GOOD[0], GOOD[0]), "the file holds one point with a time of its own"),
    ],
)
def test_a_broken_table_is_refused_in_words(text, said):
    assert said in refused(text)


def test_utc_needs_no_table_of_zones(monkeypatch):
    monkeypatch.setattr("vorlib.tracks.columns.ZoneInfo", None)
    assert read(table("2026-06-01 09:00:00,46,-30,0", "2026-06-01 09:00:01,46,-30,0"))


def test_a_message_stays_short_however_long_the_cell():
    assert len(refused(changed("lat_deg", "4" * 90_000 + "x"))) < 1100
    assert len(refused(table("x", header="a" * 90_000))) < 1100


def test_binary_and_wrongly_encoded_tables_are_refused_with_the_line():
    assert "is not UTF-8 text (line 2" in refused(table("S\xfcd,46,-30,1000").encode("latin-1"))
    assert "not UTF-8 text (line 1: byte 1" in refused(table(*GOOD).encode("utf-16"))
    assert "zero byte" in refused(b"PK\x03\x04\x00\x00")


def test_too_many_points_are_refused_with_the_limit(monkeypatch):
    monkeypatch.setattr("vorlib.tracks.table.MOST_POINTS", 4)
    assert "line 6: more than 4 points" in refused(table(*GOOD))
