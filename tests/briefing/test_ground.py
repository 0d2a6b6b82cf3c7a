"""The planned altitude against stations, fields and elevation data, and fixes worth teaching."""

import io
from dataclasses import replace

import pytest

from briefing.test_card import CARD, STATIONS, lesson
from vorlib.aircraft.wind import Wind
from vorlib.briefing import elevation_file
from vorlib.briefing.card import lesson_card
from vorlib.briefing.elevation_file import read_elevation
from vorlib.briefing.files import plan_lesson
from vorlib.briefing.ground import altitude_warnings, ground_along, highest_words
from vorlib.briefing.tasks import lesson_tasks
from vorlib.core.units import NO_BREAK
from vorlib.earth.geodesic import Position, direct
from vorlib.io.text import FileError
from vorlib.stations import listed
from vorlib.stations.archipelago import Airfield
from vorlib.vor.station import Station

CELL = 1.0 / 60.0


def grid_text(cells=(), rows=60, columns=120, west=-31.0, south=45.5, low=100, **head):
    """An .asc of low ground with single cells, by row from the north and column, set otherwise."""
    heights = [[str(low)] * columns for _ in range(rows)]
    for row, column, height in cells:
        heights[row][column] = str(height)
    facts = {"ncols": columns, "nrows": rows, "xllcorner": west, "yllcorner": south}
    facts |= {"cellsize": CELL, "NODATA_value": -9999} | head
    lines = [f"{name} {value}" for name, value in facts.items() if value is not None]
    return "\n".join([*lines, *(" ".join(row) for row in heights)]) + "\n"


def grid(*cells, **head):
    return read_elevation(io.StringIO(grid_text(cells, **head)))


def middle(row, column, west=-31.0, south=45.5, rows=60):
    """The middle of a cell."""
    return Position(south + (rows - row - 0.5) * CELL, west + (column + 0.5) * CELL)


def test_the_highest_ground_along_a_way_is_that_within_four_miles_of_it():
    west_end, east_end = middle(30, 20), middle(30, 100)
    way = (west_end, east_end)
    hill = grid((26, 60, 900))  # 4 cells north of the way: 4 NM
    assert hill.highest(way).height_ft == pytest.approx(900.0 / 0.3048)
    assert (hill.highest(way).place.lat_deg, hill.highest(way).place.lon_deg) == pytest.approx(
        (middle(26, 60).lat_deg, middle(26, 60).lon_deg)
    )
    beyond = grid((24, 60, 900), (30, 11, 950), (30, 109, 950))  # 6 NM to a side, past the ends
    assert beyond.highest(way).height_ft == pytest.approx(100.0 / 0.3048, abs=0.1)
    corner = (west_end, middle(30, 60), middle(55, 60))
    assert grid((50, 61, 700)).highest(corner).height_ft == pytest.approx(700.0 / 0.3048)


def test_ground_is_found_across_the_antimeridian():
    high = grid((30, 61, 800), west=179.0)  # 1.5 cells beyond 180
    way = (Position(46.0, 179.8), Position(46.0, -179.8))
    assert high.highest(way).height_ft == pytest.approx(800.0 / 0.3048)
    assert high.highest(way).place.lon_deg == pytest.approx(-179.975, abs=0.01)


def test_what_the_data_does_not_cover_is_said_and_nothing_is_guessed():
    way = (middle(30, 60), middle(30, 140))
    half = replace(lesson(), elevation=grid())
    assert "No data for" in ground_along(half, way)
    nowhere = (Position(10.0, -30.0), Position(10.0, -29.0))
    assert ground_along(half, nowhere) == "The elevation data has nothing within 4 NM of the way."
    holes = replace(lesson(), elevation=grid(*((30, n, -9999) for n in range(40, 80))))
    assert "No data for" in ground_along(holes, (middle(30, 40), middle(30, 79)))
    assert ground_along(lesson(), way) == ""


def test_each_task_says_the_highest_ground_on_its_way_and_the_clearance_over_it():
    high = lesson_card(lesson(elevation=grid(low=1000)))
    for task in lesson_tasks(high):
        assert "3,281 ft" in task.ground
        assert "clears it by 1,219 ft." in task.ground
    close = lesson_tasks(lesson_card(lesson(elevation=grid(low=1200))))
    assert all("by 563 ft, less than 1,000 ft." in task.ground for task in close)
    above = lesson_tasks(lesson_card(lesson(elevation=grid(low=1400))))
    assert all("the planned 4,500 ft is NOT above it." in task.ground for task in above)
    assert not any(task.ground for task in lesson_tasks(CARD))


def test_heights_are_taken_as_meters_unless_feet_are_said():
    assert grid(low=1000).range_ft[1] == pytest.approx(3280.84, abs=0.01)
    assert grid(low=1000).taken_as("feet").range_ft[1] == 1000.0
    with pytest.raises(ValueError, match="Meters or feet"):
        grid(low=12_000).taken_as("meters")
    with pytest.raises(ValueError, match="must be meters or feet, got 'yards'"):
        grid().taken_as("yards")


def test_centers_and_corners_and_rows_broken_anywhere_give_the_same_grid():
    plain = grid((30, 60, 500))
    text = grid_text([(30, 60, 500)], xllcorner=None, yllcorner=None)
    head, body = text.split("NODATA_value")
    centers = f"XLLCENTER {-31.0 + CELL / 2}\nyllCenter {45.5 + CELL / 2}\n"
    other = read_elevation(io.StringIO(f"{head}{centers}\nNODATA_value{body}".replace(" ", "\n ")
                                       .replace("\n ", " ", 7)))  # fmt: skip
    assert (other.heights == plain.heights).all()
    assert (other.south_deg, other.west_deg) == pytest.approx((plain.south_deg, plain.west_deg))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "no heights"),
        ("ncols 2\nncols 2\n", "line 2: the head must have one each"),
        ("color red\n", "line 1: the head must have one each of ncols.*got 'color red'"),
        ("ncols two\n", "line 1: ncols must be a number"),
        (grid_text(ncols=2.5), "ncols must be a whole number of 1 or more, got 2.5"),
        (grid_text(nrows=-3), "nrows must be a whole number"),
        (grid_text(ncols=1e9), "more than 20,000,000, the most that are read"),
        (grid_text(xllcorner=500_000.0), "degrees of latitude and longitude, not in meters"),
        (grid_text(yllcorner=89.9), "degrees of latitude and longitude"),
        (grid_text(cellsize=30.0), "degrees of latitude and longitude"),
        (grid_text(cellsize=0.2), "at most 0.1 degrees, got 0.2"),
        (grid_text(cellsize=0.0), "cellsize must be more than 0"),
        (grid_text(xllcorner=None), "the head does not say xllcorner or xllcenter"),
        (
            grid_text([(5, 5, "high")]),
            "line 12: a height must be a number such as 46.5, got 'high'",
        ),
        (grid_text([(5, 5, "nan")]), "line 12: a height must be finite"),
        (grid_text([(5, 5, "1e99")]), "line 12: a height is too large"),
        (grid_text([(5, 5, "50000")]), "50,000, higher than any ground"),
        (grid_text([(5, 5, "-99999")]), "which value stands for no data"),
        (grid_text(low=-9999), "no height at all"),
        (grid_text()[:-50], "cut off: 7,1.. values, where 60 rows of 120 cells need 7,200"),
        (grid_text() + "7\n", "line 67: more values than 60 rows of 120 cells"),
        (b"PK\x03\x04", "not text"),
    ],
)
def test_an_elevation_file_that_cannot_be_used_is_told_where_and_why(text, words):
    source = io.BytesIO(text) if isinstance(text, bytes) else io.StringIO(text)
    with pytest.raises(FileError, match=words):
        read_elevation(source)


def test_a_line_without_end_is_refused_before_it_is_taken_apart(monkeypatch):
    monkeypatch.setattr(elevation_file, "LONGEST_ROW", 100)
    with pytest.raises(FileError, match="line 7 is longer than 100 characters"):
        grid()


# --- the altitude ---------------------------------------------------------------------------------


def mountains(altitude_ft=8500.0, wind=(250.0, 25.0), fields=()):
    """A lesson in invented mountains, two of its stations and a field as high as it or higher."""
    peak, low = Position(46.0, -30.0, 11800.0), Position(46.3, -30.4, 7900.0)
    stations = [
        Station("HGA", peak, -9.0, 113.4, "Highgate", "H"),
        Station("LWB", low, -9.0, 114.4, "Lowbar", "H"),
    ]
    plan = plan_lesson(
        listed(stations, "invented mountains"),
        [Airfield("F1", "Leadbeck", Position(46.2, -30.25, 9934.0)), *fields],
        Position(46.2, -30.2),
        altitude_ft=altitude_ft,
        wind=Wind(*wind),
        on=CARD.lesson.on,
    )
    return plan


def test_an_altitude_that_is_not_above_a_station_or_field_is_said_the_highest_first():
    assert altitude_warnings(mountains()) == (
        "The planned 8,500 ft is NOT above the antenna of Highgate, 11,800 ft.",
        "The planned 8,500 ft is NOT above the field Leadbeck, 9,934 ft.",
        "The planned altitude is only 600 ft above the antenna of Lowbar.",
    )
    assert "Highgate, 11,800 ft: 1,000 ft above it is 12,800 ft" in highest_words(mountains())
    assert highest_words(mountains()).endswith("as over mountains, 13,800 ft.")
    assert altitude_warnings(lesson()) == ()


def test_a_station_above_the_aircraft_has_no_cone():
    highgate = next(n for n in lesson_card(mountains()).stations if n.listed.station.ident == "HGA")
    assert not highgate.has_cone


# --- stations, fields and fixes -------------------------------------------------------------------


def test_stations_out_of_reach_of_the_whole_area_are_not_used_unless_asked_for():
    quillon = STATIONS.one("QLN").station
    # above the horizon in part of the area, but promised nowhere in it
    unpromised = Station("OUT", quillon.position_on(360.0, 120.0), -9.0, 112.4, "Outside", "L")
    far = Station("FAR", Position(52.0, -45.0, 200.0), -12.0, 116.4, "Farside", "H")
    both = listed([quillon, unpromised, far], "a list")
    near = plan_lesson(both, center=Position(46.0, -30.0), on=CARD.lesson.on)
    assert [one.station.ident for one in near.stations] == ["QLN"]
    asked = plan_lesson(both, center=Position(46.0, -30.0), idents=["FAR"], on=CARD.lesson.on)
    assert [one.station.ident for one in asked.stations] == ["FAR"]
    (only,) = plan_lesson(both, center=Position(10.0, 10.0), on=CARD.lesson.on).stations
    assert only.station.ident == "QLN"  # by which it is said why nothing is received


def in_line(kind, *more):
    """A lesson whose field lies in line with its two stations, and others to go to."""
    one = Station("AAA", Position(46.0, -30.0, 100.0), -9.0, 113.4, "Anvil", "H")
    other = Station("BBB", one.position_on(91.0, 28.0), -9.0, 114.4, "Burrow", "H")
    fields = tuple(
        Airfield(f"F{radial}", f"Field {radial}", one.position_on(radial, nm))
        for radial, nm in ((91.0, 12.0), *more)
    )
    lat_deg, lon_deg = one.position.lat_deg, one.position.lon_deg
    return lesson_card(
        lesson(
            stations=listed([one, other], "two stations", kind).stations,
            fields=fields,
            center=direct(Position(lat_deg, lon_deg), 262.0, 9.0),
        )
    )


def cross_check(card):
    return next(task for task in lesson_tasks(card) if task.title == "Cross-check")


def test_a_cut_below_thirty_degrees_is_no_cross_check_and_dme_or_another_field_is_offered():
    alone = cross_check(in_line("VOR"))
    assert "no second station cuts at 30 degrees or more; the best, Burrow, cuts at" in alone.brief
    assert "Choose a field or an area with a station to one side" in alone.brief
    assert alone.answers == ()
    dme = cross_check(in_line("VOR/DME"))
    assert dme.brief.endswith("Fix yourself halfway by radial and DME of Anvil.")
    assert {a.question: a.expected for a in dme.answers}["radial of Anvil"] == "091"
    elsewhere = cross_check(in_line("VOR", (40.0, 28.0)))
    assert "On the way to Field 40.0 Burrow does, at" in elsewhere.brief
    assert "cut of the radials" in {a.question for a in cross_check(CARD).answers}


def test_a_pair_that_cuts_below_thirty_degrees_is_no_pair_and_it_is_said_why():
    for place in (in_line("VOR").center, *in_line("VOR", (91.0, 20.0)).fields):
        assert place.pair is None
        assert place.why_no_pair.startswith(
            ("the best two", "the stations reliable there lie on one")
        )
        assert len(place.received) == 2
    for place in (CARD.center, *CARD.fields):
        assert place.pair is None or place.pair.cut_deg >= 30.0
        assert bool(place.why_no_pair) == (place.pair is None)
        if place.pair:
            assert set(place.pair.stations) <= {one.station for one in place.received}


def test_the_steps_from_course_to_heading_add_up():
    for wind in ((250.0, 20.0), (20.0, 31.0), (140.0, 7.0), (360.0, 0.0)):
        for task in lesson_tasks(lesson_card(lesson(wind=Wind(*wind)))):
            for answer in task.answers:
                if "north)" not in answer.expected:
                    continue
                words = answer.expected.replace(NO_BREAK, " ").rpartition(", ")[2]
                heading, _, steps = words.partition(" (")
                first, _, last = steps.partition("; ")
                course, sign, turned, *_, own = first.split()
                north_sign, north, _ = last.split()
                assert (int(course) + int(sign + turned) - int(own)) % 360 == 0
                assert (int(own) + int(north_sign + north) - int(heading)) % 360 == 0


def test_a_wind_too_strong_is_said_in_a_pilots_words():
    for from_deg in range(0, 360, 30):
        storm = lesson_card(lesson(wind=Wind(float(from_deg), 161.8063)))
        briefs = " ".join(task.brief for task in lesson_tasks(storm) if not task.answers)
        assert "162 kt" in briefs
        assert "161.8" not in briefs
        assert "_kt" not in briefs
        assert "_deg" not in briefs
