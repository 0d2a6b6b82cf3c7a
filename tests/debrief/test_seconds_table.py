"""A debriefed flight second by second: what the table holds, and that no cell is a formula."""

import csv
import io
import re
from dataclasses import replace

import numpy as np
from flights import QLN, flown_with_noise

from debrief.test_recorded import example, made
from vorlib.debrief.recorded import debrief_recording
from vorlib.debrief.report.seconds_table import COLUMNS, seconds_csv
from vorlib.tracks.selections import Selection
from vorlib.vor.receiver import Receiver

NUMBER = re.compile(r"-?\d+(\.\d+)?")


def rows(debrief):
    return list(csv.DictReader(io.StringIO(seconds_csv(debrief))))


def test_there_is_a_row_for_each_second_that_was_recorded_and_none_for_a_silence():
    found = example()
    seconds = np.array([float(row["time_s"]) for row in rows(found)])
    np.testing.assert_array_equal(seconds, found.seen.time_s)
    assert np.diff(seconds).max() == 70.0


def test_times_are_utc():
    table = rows(example())
    assert table[0]["time_utc"] == "2026-06-01T09:12:00Z"
    assert table[600]["time_utc"] == "2026-06-01T09:22:00Z"


def test_of_ten_moments_a_second_one_is_written():
    truth = flown_with_noise().truth
    table = rows(debrief_recording(truth, flown_with_noise().selections))
    assert len(table) == len({row["time_s"].partition(".")[0] for row in table})
    assert len(table) == int(truth.time_s[-1]) + 1


def test_a_row_says_what_the_receiver_reads_there():
    found = made()
    place, i = found.flight.position, 300
    row = rows(found)[i]
    there = type(place)(place.lat_deg[i], place.lon_deg[i], place.altitude_ft[i])
    reading = Receiver(40.0).read(QLN, there)
    assert (row["station"], row["course_deg"], row["flag"]) == ("QLN", "040", reading.flag.name)
    assert abs(float(row["needle_dots"]) - reading.dots) <= 0.005
    assert abs(float(row["deviation_deg"]) - reading.deviation_deg) <= 0.005
    assert abs(float(row["radial_deg"]) - reading.radial_deg) <= 0.005
    assert abs(float(row["distance_nm"]) - reading.distance_nm) <= 0.0005
    assert row["phase"] == "tracking"


def test_with_the_flag_off_there_is_no_needle_but_a_reason():
    off = [row for row in rows(made()) if row["flag"] == "OFF"]
    assert off
    assert {row["needle_dots"] for row in off} == {""}
    assert "inside the cone of confusion" in {row["reason"] for row in off}


def test_no_cell_begins_a_formula():
    named = replace(QLN, name="=HYPERLINK(1)")
    flight = flown_with_noise().flight
    table = seconds_csv(debrief_recording(flight, [Selection(0.0, named, 40.0)]))
    for line in csv.reader(io.StringIO(table)):
        for cell in line:
            assert not cell or cell[0].isalnum() or NUMBER.fullmatch(cell), cell


def test_every_row_has_a_cell_for_each_column():
    for line in csv.reader(io.StringIO(seconds_csv(made()))):
        assert len(line) == len(COLUMNS)
