"""The debrief of recorded flights whose truth is known."""

import json
from dataclasses import replace
from datetime import UTC, datetime
from functools import lru_cache
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from flights import QLN, WIND, cut, flown_with_noise

import vorlib as v
from vorlib.aircraft.flight import Flight
from vorlib.core.angles import difference_deg
from vorlib.debrief.findings import LIMIT_DEG
from vorlib.debrief.phases import FlightPhase
from vorlib.debrief.recorded import HeadingSource, debrief_recording
from vorlib.debrief.selection_estimate import Estimate
from vorlib.debrief.wind.correction import wind_correction as correction_of
from vorlib.tracks.example import example_flight
from vorlib.tracks.selections import Selection
from vorlib.views.drawing.thinning import corners

TRUTH = json.loads((Path(__file__).parents[1] / "data" / "example_flight_truth.json").read_text())


@lru_cache
def example():
    recording, selections = example_flight()
    return debrief_recording(recording.flight, selections, start=recording.start)


@lru_cache
def made(*, heading=False):
    flight, selections, _ = flown_with_noise(heading=heading)
    return debrief_recording(flight, selections)


# ---- the example flight against what is known of it (tests/data/example_flight_truth.json)


def phases_of(truth):
    """Return the phases found of a leg that is known: two where the recorder was silent."""
    return [
        (phase, correction)
        for phase, correction in zip(example().found.phases, example().corrections, strict=True)
        if truth["begin_s"] - 15.0 <= phase.begin_s and phase.end_s <= truth["end_s"] + 15.0
    ]


@pytest.mark.parametrize("truth", TRUTH["tracked"], ids=lambda truth: truth["name"])
def test_the_radial_held_is_told_within_three_tenths_of_a_degree(truth):
    found = phases_of(truth)
    seconds = np.array([phase.end_s - phase.begin_s for phase, _ in found])
    off = [float(difference_deg(p.mean_radial_deg, truth["mean_radial_deg"])) for p, _ in found]
    assert abs(np.average(off, weights=seconds)) < 0.3
    assert {p.flag.name for p, _ in found} == {truth["flag"]}


@pytest.mark.parametrize("truth", TRUTH["tracked"], ids=lambda truth: truth["name"])
def test_the_wind_correction_is_told_within_a_degree_and_a_half(truth):
    for _, correction in phases_of(truth):
        assert correction.used_deg == pytest.approx(truth["mean_correction_deg"], abs=1.5)
        assert correction.needed_deg == pytest.approx(truth["mean_correction_deg"], abs=1.5)


@pytest.mark.parametrize("truth", TRUTH["passages"], ids=lambda truth: truth["station"])
def test_a_passage_is_told_within_three_seconds(truth):
    name = {"QLN": "Quillon", "PLX": "Pelladine"}[truth["station"]]
    (passed,) = [p for p in example().found.passages if p.station_name == name]
    assert passed.time_s == pytest.approx(truth["from_shown_s"], abs=3.0)
    assert passed.nearest_s == pytest.approx(truth["closest_s"], abs=3.0)
    assert passed.overhead


def test_the_wind_is_told_within_3_kt_and_10_degrees():
    wind = example().wind.wind
    assert wind is not None
    assert abs(float(difference_deg(wind.from_deg, TRUTH["wind_from_true_deg"]))) < 10.0
    assert float(wind.speed_kt) == pytest.approx(TRUTH["wind_kt"], abs=3.0)


def test_the_overshoot_is_told_in_degrees_and_miles():
    first = example().found.intercepts[0]
    assert first.overshoot_deg == pytest.approx(TRUTH["overshoot"]["largest_deg"], abs=0.2)
    assert first.overshoot_nm == pytest.approx(TRUTH["overshoot"]["largest_nm"], abs=0.03)


def test_the_headings_estimated_from_the_wind_are_those_flown():
    found = example()
    assert found.heading is HeadingSource.ESTIMATED
    second = np.round(found.seen.time_s).astype(int)
    known = np.array(TRUTH["each_second"]["heading_deg"])
    tracking = found.phase == FlightPhase.TRACKING
    # known by the compass; estimated true
    heading = found.flight.true_heading_deg - TRUTH["variation_deg"]
    off = difference_deg(heading[tracking], known[second[tracking]])
    assert np.percentile(abs(off), 95) < 5.0


def test_the_radials_of_each_second_are_those_flown():
    seen = example().seen
    second = np.round(seen.time_s).astype(int)
    known = np.array(TRUTH["each_second"]["radial_deg"])[second]
    far = seen.distance_nm > 2.0
    assert np.max(abs(difference_deg(seen.radial_deg[far], known[far]))) < 0.6


def test_nothing_is_found_across_the_silence_of_the_recorder():
    found, (begin, end) = example(), TRUTH["silence_s"]
    for phase in found.found.phases:
        assert not phase.begin_s < begin + 1.0 < end - 1.0 < phase.end_s
    for span in found.spans:
        times = found.seen.time_s[[span.begin, span.end - 1]]
        assert not times[0] < begin + 1.0 < end - 1.0 < times[1]
    assert any("Nothing was recorded from" in note for note in found.notes)


# ---- what is being done


def test_a_flight_to_a_station_and_on_is_an_intercept_tracking_a_passage_and_tracking():
    phase = [span.phase for span in made().spans if made().seen.course_deg[span.begin] == 40.0]
    order = [one for one in phase if one not in (FlightPhase.OTHER, FlightPhase.TURN)]
    assert order == [
        FlightPhase.INTERCEPTING,
        FlightPhase.TRACKING,
        FlightPhase.PASSAGE,
        FlightPhase.TRACKING,
    ]


def test_the_spans_hold_every_moment_once():
    spans = made().spans
    assert spans[0].begin == 0
    assert spans[-1].end == made().seen.time_s.size
    assert all(one.end == other.begin for one, other in pairwise(spans))


def test_a_turn_off_the_course_ends_its_tracking():
    n, turned = 600, 400
    heading = np.where(np.arange(n) < turned, 220.0, 310.0) + QLN.declination_deg
    east, north = np.cumsum(np.sin(np.radians(heading))), np.cumsum(np.cos(np.radians(heading)))
    begin = QLN.position_on(220.0, 5.0, 3500.0)
    lat = begin.lat_deg + north * 51.4 / 111_200.0
    lon = begin.lon_deg + east * 51.4 / (111_200.0 * np.cos(np.radians(46.0)))
    flight = Flight(
        np.arange(float(n)), v.Position(lat, lon, 3500.0 + 0.0 * lat), heading, heading, 0 * heading
    )
    found = debrief_recording(flight, [Selection(0.0, QLN, 220.0)])
    (phase,) = found.found.phases
    assert phase.end_s == pytest.approx(turned, abs=6.0)
    assert phase.largest_off_deg < 0.5


# ---- what is measured


def test_deviations_are_told_in_degrees_dots_and_miles_and_against_the_standards_limit():
    phase = made().found.phases[1]
    seen = made().seen
    part = (seen.time_s >= phase.begin_s) & (seen.time_s <= phase.end_s)
    off = abs(seen.deviation_deg[part])
    assert phase.largest_off_deg == off.max()
    assert phase.mean_away_deg == pytest.approx(off.mean(), rel=0.01)
    miles = seen.distance_nm[part] * np.sin(np.radians(off))
    assert phase.largest_off_nm == pytest.approx(miles.max())
    assert phase.within_limit == pytest.approx(np.mean(off <= LIMIT_DEG), abs=0.01)
    words = " ".join(made().sentences)
    assert f"{off.max():.1f} degrees ({off.max() / 2:.1f} dots" in words
    assert "It was within three quarters of full scale for 100 % of the time" in words


def test_the_limit_is_information_with_its_document_and_no_verdict():
    (limit,) = [words for words in made().sentences if words.startswith("Three quarters")]
    assert "for information, not a verdict" in limit
    assert "Instrument Rating ACS (FAA-S-ACS-8C), area V, task A" in limit
    assert "edition not checked" in limit


# ---- where headings come from


def test_a_heading_that_was_recorded_is_used_and_said():
    found = made(heading=True)
    assert found.heading is HeadingSource.RECORDED
    assert all("by the heading recorded" in c.words for c in found.corrections)
    assert not any("heading was not recorded" in note for note in found.notes)


def test_recorded_and_estimated_headings_give_the_same_correction():
    for one, other in zip(made().corrections, made(heading=True).corrections, strict=True):
        assert one.used_deg == pytest.approx(other.used_deg, abs=1.5)
        assert one.heading is HeadingSource.ESTIMATED


def test_noise_on_headings_is_no_turn_the_wrong_way():
    assert made(heading=True).found.wrong_turns == ()
    assert made().found.wrong_turns == ()


def test_noise_on_places_crosses_no_course_line_and_turns_no_aircraft():
    quiet, loud = (
        debrief_recording(flown_with_noise(noise_m).flight, flown_with_noise().selections).found
        for noise_m in (0.0, 12.0)
    )
    assert loud.crossings == pytest.approx(quiet.crossings, abs=2)
    assert loud.wrong_turns == quiet.wrong_turns == ()
    assert len(loud.phases) == len(quiet.phases)
    for one, other in zip(loud.phases, quiet.phases, strict=True):
        assert abs(float(difference_deg(one.mean_radial_deg, other.mean_radial_deg))) < 0.3


def test_without_heading_and_wind_the_correction_is_left_out_and_that_is_said():
    flight = cut(flown_with_noise().flight, 520.0, 1e9)
    found = debrief_recording(flight, flown_with_noise().selections)
    assert found.heading is HeadingSource.TRACK
    assert found.wind.wind is None
    assert {c.used_deg for c in found.corrections} == {None}
    assert "cannot be told: heading and wind are unknown" in " ".join(found.sentences)
    assert any("is your track" in note for note in found.notes)


# ---- gaps


def test_a_passage_within_a_gap_is_not_found():
    whole = made().found.passages
    flight = cut(flown_with_noise().flight, whole[0].nearest_s - 60.0, whole[0].time_s + 60.0)
    found = debrief_recording(flight, flown_with_noise().selections).found
    assert [p.station_name for p in whole] == ["Quillon", "Tessarin"]
    assert [p.station_name for p in found.passages] == ["Tessarin"]


def test_a_gap_is_time_neither_flown_nor_established():
    flight = cut(flown_with_noise().flight, 700.0, 800.0)
    found = debrief_recording(flight, flown_with_noise().selections).found
    assert found.duration_s == pytest.approx(made().found.duration_s - 102.0, abs=1.0)
    assert found.established_s == pytest.approx(made().found.established_s - 102.0, abs=1.0)


def test_a_short_silence_is_bridged():
    flight = cut(flown_with_noise().flight, 700.0, 710.0)
    found = debrief_recording(flight, flown_with_noise().selections).found
    assert len(found.phases) == len(made().found.phases)


# ---- what is entered


def test_a_flag_that_was_off_all_the_way_is_told_with_its_reason():
    silent = replace(QLN, on_the_air=False)
    found = debrief_recording(flown_with_noise().flight, [Selection(0.0, silent, 40.0)])
    assert "The flag was OFF all the way: station off the air." in found.sentences
    assert not any("OFF all the way" in note for note in made().notes)


def test_selections_after_the_flights_end_are_told():
    late = (*flown_with_noise().selections, Selection(99_999.0, QLN, 90.0))
    found = debrief_recording(flown_with_noise().flight, late)
    assert "1 of 3 selections comes after the flight's end" in found.notes[-1]


def test_selections_may_come_in_any_order_and_are_told_in_that_of_time():
    flight, selections, _ = flown_with_noise()
    found = debrief_recording(flight, selections[::-1])
    assert found.selections == selections
    assert found.sentences == made().sentences


def test_where_nothing_can_be_estimated_it_has_to_be_entered():
    with pytest.raises(ValueError, match="so enter it"):
        debrief_recording(flown_with_noise().flight, Estimate((), ()))


def test_a_flight_without_a_moment_is_refused():
    none = cut(flown_with_noise().flight, -1.0, 1e9)
    with pytest.raises(ValueError, match="at least one moment"):
        debrief_recording(none, flown_with_noise().selections)


@pytest.mark.parametrize("moments", [1, 2, 30])
def test_a_few_moments_have_a_clear_answer(moments):
    flight = cut(flown_with_noise().flight, moments - 0.5, 1e9)
    words = " ".join(debrief_recording(flight, flown_with_noise().selections).sentences)
    assert "nan" not in words
    assert words


@pytest.mark.parametrize(
    ("lat", "lon"),
    [
        (np.linspace(89.8, 90.0, 300), np.zeros(300)),
        (np.zeros(300), v.wrap_180(np.linspace(179.9, 180.1, 300))),
    ],
    ids=["pole", "antimeridian"],
)
def test_over_the_pole_and_the_antimeridian_the_needle_is_what_geometry_says(lat, lon):
    station = v.Station("FAR", v.Position(float(lat[0]), float(lon[0])), 0.0, 113.4)
    along = np.full(300, 360.0 if lat[-1] > lat[0] else 90.0)
    flight = Flight(
        np.arange(300.0), v.Position(lat, lon, 9000.0 + 0.0 * lat), along, along, 0 * along
    )
    found = debrief_recording(flight, [Selection(0.0, station, float(along[0]))])
    assert np.max(abs(found.seen.deviation_deg[100:])) < 0.1
    assert found.groundspeed_kt[100] == pytest.approx(144.0, abs=4.0)


def test_the_day_and_time_of_a_moment_is_known_when_the_start_is():
    start = datetime(2026, 6, 1, 9, 12, tzinfo=UTC)
    assert example().start == start
    assert example().utc(90.0) == datetime(2026, 6, 1, 9, 13, 30, tzinfo=UTC)
    assert made().utc(90.0) is None


def test_the_wind_of_the_made_flight_is_its_wind():
    wind = made().wind.wind
    assert wind is not None
    assert abs(float(difference_deg(wind.from_deg, WIND.from_deg))) < 10.0


def test_the_flight_given_is_left_as_it_was():
    flight = replace(flown_with_noise().flight)
    before = flight.true_heading_deg.copy()
    debrief_recording(flight, flown_with_noise().selections)
    np.testing.assert_array_equal(flight.true_heading_deg, before)


def test_two_stations_with_one_ident_are_two():
    here = v.Station("DUP", QLN.position, QLN.declination_deg, 113.4, name="Here")
    there = v.Station("DUP", QLN.position_on(40.0, 12.0), 0.0, 114.4, name="There")
    flight = flown_with_noise().flight
    found = debrief_recording(flight, [Selection(0.0, here, 40.0), Selection(700.0, there, 40.0)])
    first = flight.time_s < 700.0
    for station, part in ((here, first), (there, ~first)):
        place = v.Position(flight.position.lat_deg[part], flight.position.lon_deg[part])
        np.testing.assert_allclose(found.seen.distance_nm[part], station.distance_nm(place))
    assert np.diff(found.seen.selection)[np.argmin(first) - 1] == 1


def test_a_correction_is_an_average_over_time_however_often_points_were_written():
    time_s = np.concatenate([np.arange(0.0, 60.0), np.arange(60.0, 121.0, 10.0)])
    track = np.full(time_s.size, 90.0)
    heading = track + np.where(time_s < 60.0, 10.0, 4.0)
    east = -30.0 + time_s / 3600.0
    place = v.Position(np.full(time_s.size, 46.0), east, np.full(time_s.size, 3000.0))
    flight = Flight(time_s, place, heading, track, 0.0 * track)
    phase = replace(made().found.phases[0], begin_s=0.0, end_s=120.0)
    used = correction_of(phase, flight, made().wind, HeadingSource.RECORDED).used_deg
    assert used == pytest.approx(7.0)  # a minute of 10 and a minute of 4


def test_a_recorder_that_writes_fewer_points_on_a_straight_line_changes_no_mean():
    recording, selections = example_flight()
    flight = recording.flight
    miles = 60.0 * flight.position.lat_deg, 42.0 * flight.position.lon_deg
    kept = np.union1d(corners(*miles, 0.01), np.arange(0, flight.time_s.size, 25))
    assert kept.size < flight.time_s.size / 10
    found = debrief_recording(flight_of(flight, kept), selections).found
    for some, every in zip(found.phases, example().found.phases, strict=True):
        assert some.mean_radial_deg == pytest.approx(every.mean_radial_deg, abs=0.1)
        assert some.mean_away_deg == pytest.approx(every.mean_away_deg, abs=0.1)
        assert some.mean_away_nm == pytest.approx(every.mean_away_nm, abs=0.02)


def flight_of(flight, kept):
    """Return the flight with fewer moments and no heading but its track."""
    place = flight.position
    track = flight.true_track_deg[kept]
    return Flight(
        flight.time_s[kept],
        v.Position(place.lat_deg[kept], place.lon_deg[kept], place.altitude_ft[kept]),
        track,
        track,
        0.0 * track,
    )
