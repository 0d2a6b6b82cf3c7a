"""What the debrief estimates of the example flight is what was flown, but for the sensor."""

import json

import numpy as np
import pytest
from tools.make_example_flight import TRUTH

from vorlib.core.angles import difference_deg, mean_direction_deg
from vorlib.debrief.recorded import debrief_recording
from vorlib.stations.archipelago import STATIONS
from vorlib.tracks.example import example_flight


@pytest.fixture(scope="module")
def known():
    return json.loads(TRUTH.read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def debrief(known):
    example = example_flight()
    return debrief_recording(
        example.recording.flight,
        example.selections,
        start=example.recording.start,
        variation_deg=known["variation_deg"],
    )


def test_the_wind_is_found_within_three_knots_and_ten_degrees(debrief, known):
    found = debrief.wind.wind
    assert float(found.speed_kt) == pytest.approx(known["wind_kt"], abs=3.0)
    assert abs(difference_deg(found.from_deg, known["wind_from_true_deg"])) < 10.0
    assert debrief.wind.true_airspeed_kt == pytest.approx(known["true_airspeed_kt"], abs=3.0)


def test_every_course_that_was_tracked_is_found(debrief, known):
    found = {(one.station_name, one.course_deg, one.flag.name) for one in debrief.found.phases}
    assert found == {
        (STATIONS[one["station"]].name, one["course_deg"], one["flag"]) for one in known["tracked"]
    }


def test_each_radial_held_is_found_within_three_tenths_of_a_degree(debrief, known):
    flown = np.array(known["each_second"]["radial_deg"])
    for phase in debrief.found.phases:
        held = mean_direction_deg(flown[int(phase.begin_s) : int(phase.end_s) + 1])
        assert abs(difference_deg(phase.mean_radial_deg, held)) < 0.3


def test_each_correction_used_is_found_within_a_degree(debrief, known):
    used = {one["course_deg"]: one["mean_correction_deg"] for one in known["tracked"]}
    for phase, correction in zip(debrief.found.phases, debrief.corrections, strict=True):
        assert correction.used_deg == pytest.approx(used[phase.course_deg], abs=1.0)


def test_each_passage_is_found_within_three_seconds(debrief, known):
    for found, passed in zip(debrief.found.passages, known["passages"], strict=True):
        assert found.station_name == STATIONS[passed["station"]].name
        assert found.nearest_s == pytest.approx(passed["closest_s"], abs=3.0)
        assert found.time_s == pytest.approx(passed["from_shown_s"], abs=3.0)


def test_the_late_turn_is_found_with_its_size(debrief, known):
    first = debrief.found.intercepts[0]
    assert first.overshoot_deg == pytest.approx(known["overshoot"]["largest_deg"], abs=0.2)
    assert first.overshoot_nm == pytest.approx(known["overshoot"]["largest_nm"], abs=0.02)
