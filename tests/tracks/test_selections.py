"""What was selected when: at each moment, and read from a table."""

import io
from datetime import UTC, datetime, timedelta, timezone

import numpy as np
import pytest

from vorlib.io.text import FileError
from vorlib.stations.archipelago import STATIONS
from vorlib.tracks.selections import Selection, check_belong, read_selections, selected_at, time_of

QLN, PLX = STATIONS["QLN"], STATIONS["PLX"]
START = datetime(2026, 6, 1, 9, 12, tzinfo=UTC)


def read(text: str, start=START):
    return read_selections(io.StringIO(text), STATIONS, start)


# ---- at each moment


def test_a_selection_holds_until_the_next_and_before_the_first_there_is_none():
    chosen = [Selection(100.0, QLN, 40.0), Selection(200.0, PLX, 180.0, until_s=500.0)]
    found = selected_at(chosen, [0.0, 100.0, 199.9, 200.0, 499.0, 900.0])
    assert [s.ident for s in found.station] == ["QLN", "QLN", "QLN", "PLX", "PLX", "PLX"]
    np.testing.assert_array_equal(found.course_deg, [40.0, 40.0, 40.0, 180.0, 180.0, 180.0])
    np.testing.assert_array_equal(found.number, [-1, 0, 0, 1, 1, -1])


@pytest.mark.parametrize("nothing", [",", "off,", "OFF,off"])
def test_an_empty_row_or_off_ends_a_selection(nothing):
    first, second = read(f"time,station,course\n0,QLN,30\n500,{nothing}\n900,PLX,180\n")
    assert (first.until_s, second.until_s) == (500.0, np.inf)


def test_a_log_may_have_semicolons_between_its_cells():
    assert read("time;station;course\n0;QLN;30\n") == read("time,station,course\n0,QLN,30\n")


def test_the_order_of_the_sequence_does_not_matter_but_for_one_time():
    late, early = Selection(200.0, PLX, 180.0), Selection(0.0, QLN, 40.0)
    assert selected_at([late, early], [10.0]).course_deg == 40.0
    again = Selection(200.0, PLX, 190.0)
    assert selected_at([early, late, again], [300.0]).course_deg == 190.0


def test_without_a_selection_there_is_nothing_to_hold_a_flight_against():
    with pytest.raises(ValueError, match="at least one"):
        selected_at([], [0.0])


def test_a_course_of_0_is_360():
    assert Selection(0.0, QLN, 0.0).course_deg == 360.0


# ---- from a table


def test_times_are_seconds_of_the_flight_a_clock_or_a_day_and_a_time():
    rows = "754,QLN,030\n09:20,QLN,110\n9:30:30,PLX,180\n2026-06-01T11:40:00+02:00,plx,0\n"
    found = read(f"time,station,course\n{rows}")
    assert [one.time_s for one in found] == [480.0, 754.0, 1110.0, 1680.0]
    assert [one.station.ident for one in found] == ["QLN", "QLN", "PLX", "PLX"]
    assert [one.course_deg for one in found] == [110.0, 30.0, 180.0, 360.0]


def test_a_clock_past_midnight_is_the_next_day_and_one_before_the_start_is_before_it():
    late = datetime(2026, 6, 1, 23, 50, tzinfo=UTC)
    assert time_of("00:10", late) == 1200.0
    assert time_of("23:45", late) == -300.0
    assert time_of("23:45", late.astimezone(timezone(timedelta(hours=-2)))) == -300.0


def test_columns_may_stand_in_any_order():
    (one,) = read("course,time,station\n030,0,QLN\n")
    assert one == Selection(0.0, QLN, 30.0)


@pytest.mark.parametrize(
    ("row", "words"),
    [
        ("noon,QLN,030", "line 2: time must be seconds of the flight such as 754, or a UTC clock"),
        ("0912,QLN,030", "got '0912'"),  # a clock without its colon would be 15 minutes
        ("25:00,QLN,030", "got '25:00'"),
        ("0,ZZZ,030", f"line 2: station must be one of {', '.join(STATIONS)}, got 'ZZZ'"),
        ("0,QLN,361", "line 2: course must be from 0 to 360 degrees, got 361"),
        ("0,QLN,north", "line 2: course must be a number"),
        ("0,QLN,nan", "line 2: course must be finite"),
        ("0,QLN", "line 2: there must be 3 cells"),
        ("=1+1,QLN,030", "line 2: time must not begin with '='"),
        ("0,=QLN,030", "line 2: station must not begin with '='"),
    ],
)
def test_a_bad_cell_is_named_with_its_line_and_column(row, words):
    with pytest.raises(FileError) as error:
        read(f"time,station,course\n{row}\n")
    assert words in str(error.value)


def test_every_bad_row_is_named():
    with pytest.raises(FileError) as error:
        read("time,station,course\n0,QLN,400\n10,QLN,40\n20,ZZZ,40\n")
    assert [message.partition(":")[0] for message in error.value.messages] == ["line 2", "line 4"]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "line 1: the header must be time,station,course, got nothing"),
        ("when,station,course\n0,QLN,30\n", "got when,station,course"),
        ("time,station,course\n", "no selection"),
    ],
)
def test_a_file_without_a_header_or_a_row_is_refused(text, words):
    with pytest.raises(FileError, match=words):
        read(text)


def test_a_clock_needs_to_know_when_the_flight_began():
    with pytest.raises(FileError, match="line 2: time must be seconds of the flight, whose start"):
        read("time,station,course\n09:20,QLN,30\n", start=None)


def test_a_log_in_local_time_does_not_belong_to_the_flight():
    log = [Selection(-7 * 3600.0 + time_s, QLN, 30.0) for time_s in (0.0, 700.0)]
    with pytest.raises(ValueError, match=r"last selection is 6\.8 h before the flight begins"):
        check_belong(log, 1800.0)
    log = [Selection(3600.0 + time_s, QLN, 30.0) for time_s in (0.0, 700.0)]
    with pytest.raises(ValueError, match=r"the first selection is 0\.5 h after the flight ends"):
        check_belong(log, 1800.0)


def test_what_was_selected_before_the_flight_belongs_to_it():
    check_belong([Selection(-7200.0, QLN, 30.0)], 1800.0)
    check_belong([Selection(-300.0, QLN, 30.0), Selection(-60.0, QLN, 40.0)], 1800.0)
    check_belong([Selection(-7200.0, QLN, 30.0), Selection(60.0, QLN, 40.0)], 1800.0)
