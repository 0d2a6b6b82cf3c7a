"""Lessons from start-up to shut-down, simulated apart from the library, and what is found in them.

`tests/tools/debrief_truth.py` holds 200 of them to the same limits.
"""

from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest
from lesson_truth import (
    ENDS_S,
    PASSED_S,
    RADIAL_DEG,
    STATION,
    WIND_DEG,
    WIND_KT,
    debriefed,
    judged,
)

import vorlib as v
from vorlib.aircraft.flight import Flight
from vorlib.debrief.airborne import airborne
from vorlib.debrief.phases import FlightPhase
from vorlib.debrief.recorded import debrief_recording
from vorlib.tracks.selections import Selection


@pytest.mark.parametrize("seed", range(8))
def test_a_lesson_is_told_as_it_was_flown_and_nothing_is_found_that_did_not_happen(seed):
    it = judged(seed, (1, 5)[seed % 2], height=seed % 4 < 3)
    for errors, limit in (
        (it.wind_kt, WIND_KT),
        (it.wind_deg, WIND_DEG),
        (it.radial_deg, RADIAL_DEG),
        (it.passed_s, PASSED_S),
        (it.begin_s, ENDS_S),
        (it.end_s, ENDS_S),
        (it.air_s, ENDS_S),
    ):
        assert np.all(np.abs(errors) <= limit)
    assert it.invented == []
    assert [words for words in it.missed if words != "wind"] == []


@lru_cache
def made(seed=0, *, height=True):
    """Return the debrief of a lesson recorded once a second."""
    return debriefed(seed, 1, height=height)


def part(flight, begin_s, end_s):
    """Return a flight between two times."""
    kept = (flight.time_s >= begin_s) & (flight.time_s <= end_s)
    place = flight.position
    return replace(
        flight,
        time_s=flight.time_s[kept],
        position=v.Position(*(np.asarray(c)[kept] for c in vars(place).values())),
        true_heading_deg=flight.true_heading_deg[kept],
        true_track_deg=flight.true_track_deg[kept],
        bank_deg=flight.bank_deg[kept],
    )


def found_nothing(debrief):
    found = debrief.found
    return not (
        found.intercepts or found.phases or found.passages or found.wrong_turns or found.unassured
    )


# ---- in the air


def test_time_flown_is_time_in_the_air():
    debrief, lesson, kept = made()
    silent_s = sum(end - begin for begin, end in kept.gaps)
    air_s = sum(down - up for up, down in lesson.truth.air) - silent_s
    assert debrief.found.duration_s == pytest.approx(air_s, abs=30.0)
    assert debrief.air.touches == lesson.truth.touches


def test_on_the_ground_nothing_is_found_whatever_was_selected():
    debrief, lesson, _ = made()
    before = part(debrief.flight, 0.0, lesson.truth.air[0][0] - 30.0)
    parked = debrief_recording(before, [Selection(0.0, STATION, 90.0)])
    assert found_nothing(parked)
    assert parked.found.duration_s == 0.0
    assert set(parked.phase.tolist()) == {FlightPhase.GROUND}
    assert "did not leave the ground" in parked.sentences[0]


@pytest.mark.parametrize("height", [True, False])
def test_in_circuits_nothing_is_found_whatever_was_selected(height):
    debrief, lesson, _ = made(3, height=height)
    assert lesson.truth.touches == 3
    last = lesson.truth.air[-1]
    circuit = (debrief.flight.time_s > last[0] + 10.0) & (debrief.flight.time_s < last[1] - 10.0)
    assert set(debrief.phase[circuit].tolist()) == {FlightPhase.CIRCUIT}
    assert not debrief.seen.judged[circuit].any()


def test_a_flight_recorded_in_the_air_alone_was_in_the_air():
    debrief, lesson, _ = made()
    up, down = max(lesson.truth.air, key=lambda pair: pair[1] - pair[0])
    assert airborne(part(debrief.flight, up + 120.0, down - 120.0)).flying.all()


# ---- by what was selected


def test_nothing_is_found_before_the_first_row_nor_after_off():
    debrief, lesson, _ = made()
    begin, end, *_ = lesson.truth.tracked[0]
    during = [Selection(begin + 30.0, STATION, debrief.selections[0].course_deg, end - 30.0)]
    (phase,) = debrief_recording(debrief.flight, during).found.phases
    assert phase.begin_s == pytest.approx(begin + 30.0, abs=2.0)
    assert phase.end_s == pytest.approx(end - 30.0, abs=2.0)


def test_tracking_ends_where_the_pilot_turns_off_the_line_and_navigating_with_it():
    debrief, lesson, _ = made(7)
    at, turned_s = debrief.seen.time_s, lesson.truth.tracked[-1][1]
    assert debrief.found.phases[-1].end_s == pytest.approx(turned_s, abs=10.0)
    assert not debrief.seen.judged[at > turned_s + 15.0].any()


def test_a_slow_drift_is_tracking_that_went_wrong_and_no_overshoot():
    n = 1500
    angle = np.where(np.arange(n) < 900, 6.0, -12.0)
    track = 220.0 + np.where(np.arange(n) < 60, 0.0, angle) + STATION.declination_deg
    begin = STATION.position_on(220.0, 5.0, 3500.0)
    north, east = np.cumsum(np.cos(np.radians(track))), np.cumsum(np.sin(np.radians(track)))
    lat = begin.lat_deg + north * 51.4 / 111_200.0
    lon = begin.lon_deg + east * 51.4 / (111_200.0 * np.cos(np.radians(46.2)))
    place = v.Position(lat, lon, np.full(n, 3500.0))
    flight = Flight(np.arange(float(n)), place, track, track, 0.0 * track)
    found = debrief_recording(flight, [Selection(0.0, STATION, 220.0)]).found
    (phase,) = found.phases
    assert phase.largest_off_deg > 4.0
    assert found.intercepts == ()
    assert found.wrong_turns == ()
