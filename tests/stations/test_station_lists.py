"""Real stations from published files: what is kept, what is left out and why, how old it is."""

import csv
import io
import re
from datetime import date
from pathlib import Path

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic

from vorlib.core.caution import CAUTION
from vorlib.earth.geodesic import Position
from vorlib.io.text import LARGEST_MB, FileError
from vorlib.stations import declination_words, listed, load_stations, ourairports
from vorlib.vor.station import Station

NAV_BASE = Path(__file__).parents[1] / "data" / "faa_nav_base.csv"
TEXT = NAV_BASE.read_text(encoding="utf-8")
ON = date(2026, 6, 1)
OWN = (
    "ident,name,lat_deg,lon_deg,elevation_ft,declination_deg,frequency_mhz,service\n"
    "QLN,Quillon,46.0167,-30.1439,640,-9,113.4,L\n"
)


def nav_base(change=None):
    """Return the FAA's extract as rows of dicts, changed and written again."""
    rows = list(csv.DictReader(io.StringIO(TEXT)))
    if change is not None:
        change(rows)
    out = io.StringIO()
    writer = csv.DictWriter(out, rows[0])
    writer.writeheader()
    writer.writerows(rows)
    return load_stations(io.StringIO(out.getvalue()))


def changed(**cells):
    """Return the list with cells of its first row, AKO in line 2, changed."""
    return nav_base(lambda rows: rows[0].update(cells))


def open_layout(*rows):
    """Return what is read from a file in the OurAirports layout."""
    lines = [",".join(ourairports.NEEDED), *rows]
    return load_stations(io.StringIO("\n".join(lines)))


def open_row(ident="QLN", kind="VOR-DME", khz=113400, lat=46.0, slaved="-9", use="LO"):
    return (
        f'1,{ident}_VOR,{ident},Quillon,{kind},{khz},{lat},-30.1,640,XX,113400,"081X",{lat},-30.1,'
        f"640,{slaved},-9.6,{use},MEDIUM,XX01"
    )


# --- the FAA's table ------------------------------------------------------------------------------


def test_the_vors_of_the_faas_table_are_kept_and_the_rest_counted_by_reason():
    stations = load_stations(NAV_BASE)
    idents = [listed.station.ident for listed in stations.stations]
    assert idents == ["AKO", "ALS", "BJC", "BOI", "DEN", "DVV"]
    assert stations.left_out == {
        "VOT, not a VOR": 3,
        "TACAN, not a VOR": 1,
        "DME, not a VOR": 1,
        "NDB, not a VOR": 2,
        "NDB/DME, not a VOR": 1,
    }
    assert not stations.faults


def test_a_station_has_the_values_that_the_faa_publishes():
    ako = load_stations(NAV_BASE).one("ako")
    station = ako.station  # NAV_BASE.csv, effective 2026-05-14, row AKO
    assert (station.name, ako.kind, station.frequency_mhz) == ("Akron", "VOR/DME", 114.4)
    assert (station.declination_deg, ako.declination_year, station.service) == (13.0, 1965, "VH")
    place = station.position
    assert (place.lat_deg, place.lon_deg, place.altitude_ft) == (40.15555508, -103.17971469, 4623.2)


def test_a_declination_to_the_west_is_negative():
    assert changed(MAG_VARN_HEMIS="W").one("AKO").station.declination_deg == -13.0


def test_a_station_that_is_shut_down_is_kept_and_off_the_air():
    assert not changed(NAV_STATUS="SHUTDOWN").one("AKO").station.on_the_air


def test_a_vor_without_a_declination_is_left_out_rather_than_given_todays_variation():
    stations = changed(MAG_VARN="")
    assert stations.left_out["a VOR without a station declination"] == 1
    with pytest.raises(ValueError, match="'AKO'"):
        stations.one("AKO")


def test_what_the_table_leaves_open_is_filled_in_and_told():
    stations = changed(ALT_CODE="", ELEV="")
    assert stations.one("AKO").station.service == "L"
    assert stations.assumed == {
        "no service volume given, taken as L": 1,
        "no elevation given, taken as 0 ft": 1,
    }


@pytest.mark.parametrize(
    ("cells", "words"),
    [
        ({"LAT_DECIMAL": "x"}, "LAT_DECIMAL must be a number such as 46.5, got 'x'"),
        ({"LAT_DECIMAL": "-103.2", "LONG_DECIMAL": "40.2"}, "LAT_DECIMAL .*swapped"),
        ({"LONG_DECIMAL": "720"}, "LONG_DECIMAL must be from -360 to 360 degrees, got 720"),
        ({"LAT_DECIMAL": "nan"}, "LAT_DECIMAL must be finite, got nan"),
        ({"FREQ": "200"}, "FREQ in MHz must be from 108 to 117.95 MHz, got 200"),
        ({"MAG_VARN": "999"}, "MAG_VARN must be from 0 to 180 degrees, got 999"),
        ({"MAG_VARN_HEMIS": "X"}, "MAG_VARN_HEMIS must be E or W, got 'X'"),
        ({"ALT_CODE": "Z"}, "ALT_CODE: service must be one of"),
        ({"NAV_ID": "A1"}, "NAV_ID must be one to four capital letters, got 'A1'"),
        ({"EFF_DATE": "May"}, "EFF_DATE must be a day such as 2026/05/14, got 'May'"),
        ({"NAME": "=1+1"}, "NAME must not begin with '='"),
        ({"ELEV": "1e9"}, "ELEV must be from -1500 to 30000 ft"),
    ],
)
def test_a_row_that_cannot_be_read_is_left_out_and_told_with_line_and_column(cells, words):
    stations = changed(**cells)
    assert len(stations.stations) == 5
    (fault,) = stations.faults
    assert fault.startswith("line 2: ")
    assert re.search(words, fault)
    assert fault in stations.summary(ON)


def test_a_file_that_is_cut_off_is_refused_with_its_line():
    with pytest.raises(FileError, match=r"cut off: line 15: there must be 72 cells.* got \d"):
        load_stations(io.StringIO(TEXT[: TEXT.rindex("IHS") + 60].rsplit(",", 1)[0]))
    with pytest.raises(FileError, match="row 15: not comma-separated text"):
        load_stations(io.StringIO(TEXT[: TEXT.rindex("FORT CARSON") + 4]))


def test_a_table_without_any_vor_says_what_it_has():
    tests_only = [line for n, line in enumerate(TEXT.splitlines()) if not n or '"VOT"' in line]
    with pytest.raises(FileError, match=r"(?s)no VOR in the FAA's.*3 left out, VOT"):
        load_stations(io.StringIO("\n".join(tests_only)))


# --- other layouts --------------------------------------------------------------------------------


def test_the_open_layout_is_known_by_its_header_and_its_kilohertz_are_understood():
    stations = open_layout(open_row(), open_row("AAA", "NDB"), open_row("BBB", slaved=""))
    (kept,) = stations.stations
    assert (kept.station.frequency_mhz, kept.station.declination_deg) == (113.4, -9.0)
    assert (kept.kind, kept.station.service, kept.country) == ("VOR/DME", "L", "XX")
    assert stations.left_out == {
        "NDB, not a VOR": 1,
        "a VOR without a station declination": 1,
    }


@pytest.mark.parametrize(("header_end", "row_end"), [("", ""), (",", ""), (",", ","), ("", ",,")])
def test_a_comma_at_the_end_of_the_header_or_of_a_row_does_no_harm(header_end, row_end):
    lines = [",".join(ourairports.NEEDED) + header_end, open_row() + row_end]
    assert load_stations(io.StringIO("\n".join(lines))).one("QLN").station.frequency_mhz == 113.4


@pytest.mark.parametrize(("use", "service"), [("HI", "H"), ("BOTH", "H"), ("TERM", "T"), ("", "L")])
def test_a_service_volume_taken_for_a_use_is_told(use, service):
    stations = open_layout(open_row(use=use))
    assert stations.stations[0].station.service == service
    assert "service volume" in next(iter(stations.assumed))


def test_a_file_of_ones_own_is_read_strictly():
    assert load_stations(io.StringIO(OWN)).one("QLN").station.name == "Quillon"
    with pytest.raises(FileError, match="row 2: lat_deg"):
        load_stations(io.StringIO(OWN.replace("46.0167", "146")))
    with pytest.raises(FileError, match="row 2: name must not begin with '='"):
        load_stations(io.StringIO(OWN.replace("Quillon", "=cmd()")))


def test_a_header_that_lacks_little_is_told_what_and_a_foreign_one_what_is_known():
    with pytest.raises(FileError, match=r"line 1: the FAA's .* needs these columns too: FREQ"):
        load_stations(io.StringIO(TEXT.replace('"FREQ"', '"F"')))
    with pytest.raises(FileError, match=r"line 1: .*no known layout.*begins with a, b"):
        load_stations(io.StringIO("a,b\n1,2\n"))
    with pytest.raises(FileError, match="empty"):
        load_stations(io.StringIO(""))


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"PK\x03\x04\0\0\0\0", "not text"),
        ("ä".encode("latin-1") + b"\n", "line 1: byte 1 is 0xe4"),
        (TEXT.encode("utf-16"), "not UTF-8 text"),
    ],
)
def test_a_file_that_is_not_text_is_refused(tmp_path, data, words):
    path = tmp_path / "stations.csv"
    path.write_bytes(data)
    with pytest.raises(FileError, match=words):
        load_stations(path)


def test_a_file_of_more_than_200_mb_is_refused_and_the_limit_named(tmp_path):
    path = tmp_path / "stations.csv"
    with path.open("wb") as file:
        file.truncate(LARGEST_MB * 1_000_000 + 1)
    with pytest.raises(FileError, match="larger than 200 MB"):
        load_stations(path)


# --- choosing -------------------------------------------------------------------------------------


def test_an_ident_that_repeats_is_listed_and_chosen_by_a_place():
    stations = open_layout(open_row("AAA"), open_row("AAA", lat=-20.0), open_row("BBB"))
    with pytest.raises(ValueError, match=r"(?s)2 stations have the ident 'AAA'.*line 2.*line 3"):
        stations.one("AAA")
    assert stations.one("AAA", near=Position(-21.0, -30.0)).line == 3
    assert len(stations.with_ident("aaa")) == 2


def many(count):
    rng = np.random.default_rng(4)
    lat = np.degrees(np.arcsin(rng.uniform(-1.0, 1.0, count)))
    lon = rng.uniform(-180.0, 180.0, count)
    return listed(
        [
            Station("ABC", Position(float(a), float(o)), 0.0, 113.4)
            for a, o in zip(lat, lon, strict=True)
        ],
        "chance",
    )


MANY = many(10_000)


@pytest.mark.parametrize("place", [(0.0, 180.0), (90.0, 0.0), (45.0, -30.0), (-60.0, 179.9)])
def test_the_nearest_are_those_that_geographiclib_finds_among_all(place):
    found = MANY.nearest(Position(*place), 5)
    every = sorted(
        Geodesic.WGS84.Inverse(*place, s.station.position.lat_deg, s.station.position.lon_deg)[
            "s12"
        ]
        / 1852.0
        for s in MANY.stations
    )
    assert [near.distance_nm for near in found] == pytest.approx(every[:5], abs=1e-6)


def test_only_stations_within_a_distance_are_given_when_one_is_asked_for():
    here = Position(40.0, -105.0)
    near = load_stations(NAV_BASE).nearest(here, 10, within_nm=25.0)
    assert [n.listed.station.ident for n in near] == ["BJC", "DVV", "DEN"]
    assert load_stations(NAV_BASE).nearest(here, 10, within_nm=1.0) == ()
    with pytest.raises(ValueError, match="count must be 1 or more, got 0"):
        MANY.nearest(here, 0)


# --- what is said of them -------------------------------------------------------------------------


def test_the_declination_is_kept_apart_from_todays_variation_and_the_difference_told():
    ako = load_stations(NAV_BASE).one("AKO")
    drift = float(ako.station.declination_drift_deg(ON))
    words = declination_words(ako, ON)
    assert "13 degrees east since 1965" in words
    assert f"{13.0 - drift:.1f} degrees east" in words
    assert f"{drift:.1f} degrees more than the radial" in words
    assert 6.0 < drift < 7.0  # 13 E published, 6.6 E by the World Magnetic Model 2025


@pytest.mark.parametrize(
    ("on", "age", "words"),
    [
        (date(2026, 5, 14), 0, "that very day"),
        (date(2026, 7, 9), 56, "56 days before 2026-07-09."),
        (date(2026, 7, 10), 57, "more than 56 days: it is out of date"),
        (date(2026, 5, 1), -13, "in 13 days: not yet valid"),
    ],
)
def test_the_age_of_the_data_is_said_and_that_it_is_out_of_date(on, age, words):
    stations = load_stations(NAV_BASE)
    assert stations.age_days(on) == age
    assert words in stations.age_words(on)
    assert ("out of date" in stations.age_words(on)) == (age > 56)


def test_a_file_without_a_date_says_so():
    stations = open_layout(open_row())
    assert stations.age_days(ON) is None
    assert "does not say how old" in stations.age_words(ON)


def test_real_stations_carry_the_caution():
    assert load_stations(NAV_BASE).summary(ON).endswith(CAUTION)
