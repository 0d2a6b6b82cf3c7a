"""The example flight is what its makers say: made again the same, and known to the truth."""

import json
from pathlib import Path

import numpy as np
import pytest
from tools.make_example_flight import GPX, LOG, POSITION_M, TRUTH, files

from vorlib.core.angles import difference_deg
from vorlib.core.caution import CAUTION
from vorlib.stations.archipelago import STATIONS
from vorlib.tracks import read_track
from vorlib.tracks.example import example_flight
from vorlib.tracks.selections import selected_at


@pytest.fixture(scope="module")
def made():
    return files()


@pytest.fixture(scope="module")
def known():
    return json.loads(TRUTH.read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def example():
    return example_flight()


def test_made_again_the_flight_is_the_same_to_the_last_digit_written(made, example):
    again = read_track(made[GPX].encode()).flight
    flight = example.recording.flight
    np.testing.assert_array_equal(again.time_s, flight.time_s)
    # Another processor's sine may end otherwise in its last bit, and so round the other way.
    np.testing.assert_allclose(again.position.lat_deg, flight.position.lat_deg, atol=1.5e-6)
    np.testing.assert_allclose(again.position.lon_deg, flight.position.lon_deg, atol=1.5e-6)
    np.testing.assert_allclose(again.position.altitude_ft, flight.position.altitude_ft, atol=0.5)
    assert made[LOG] == LOG.read_text(encoding="utf-8")


def same(one, other):
    """Compare what JSON holds, numbers within the last digit written."""
    if isinstance(one, dict):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    if isinstance(one, list):
        return len(one) == len(other) and all(map(same, one, other))
    return one == pytest.approx(other, abs=0.011) if isinstance(one, float) else one == other


def test_made_again_the_truth_is_the_same(made, known):
    assert same(json.loads(made[TRUTH]), known)


def test_the_flight_is_small_and_says_that_it_is_not_for_navigation():
    assert GPX.stat().st_size <= 400_000
    assert CAUTION in GPX.read_text(encoding="utf-8")


def test_the_flight_lasts_thirty_five_to_fifty_minutes_and_has_one_gap(example, known):
    assert 35 * 60 <= example.recording.flight.time_s[-1] <= 50 * 60
    (gap,) = example.recording.gaps
    assert [gap.begin_s, gap.begin_s + gap.seconds] == known["silence_s"]


def test_the_radials_recorded_are_those_flown_but_for_a_few_meters(example, known):
    flight = example.recording.flight
    selected = selected_at(example.selections, flight.time_s)
    idents = np.array([station.ident for station in selected.station])
    second = np.round(flight.time_s).astype(int)
    flown = np.array(known["each_second"]["radial_deg"])[second]
    for station in {ident: STATIONS[ident] for ident in idents}.values():
        # The log is written to whole seconds: its moments of change are left out.
        tuned = (idents == station.ident) & (abs(difference_deg(second, 1026)) > 1)
        place = flight.position
        off = difference_deg(station.radial_deg(place)[tuned], flown[tuned])
        meters = np.radians(off) * station.distance_nm(place)[tuned] * 1852.0
        assert abs(meters).max() < 5.0 * POSITION_M
        assert 0.3 * POSITION_M < meters.std() < 2.0 * POSITION_M


def test_the_debrief_will_have_something_to_say(known):
    assert known["overshoot"]["largest_deg"] > 2.0  # more than a dot
    assert [one["station"] for one in known["passages"]] == ["QLN", "PLX"]
    assert {(one["flag"], one["station"]) for one in known["tracked"]} == {
        ("TO", "QLN"),
        ("FROM", "QLN"),
        ("TO", "PLX"),
        ("FROM", "PLX"),
    }
    assert all(5.0 < abs(one["mean_correction_deg"]) < 12.0 for one in known["tracked"])


def test_the_instructor_wrote_down_every_selection(example):
    said = [(one.station.ident, one.course_deg) for one in example.selections]
    courses = [30.0, 110.0, 180.0, 133.0, 313.0]
    assert said == list(zip(["QLN", "QLN", "PLX", "PLX", "PLX"], courses, strict=True))
    assert example.selections[0].time_s == 0.0


def test_the_loader_finds_its_files_from_any_folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert example_flight().recording.start.hour == 9
    assert not list(Path(tmp_path).iterdir())
