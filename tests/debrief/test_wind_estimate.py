"""The wind from a track: known winds, noise, turns, changes of speed, and refusals in words."""

import itertools
from dataclasses import replace

import numpy as np
import pytest
from flights import METERS_PER_DEG, flown_with_noise
from hypothesis import given, settings
from hypothesis import strategies as st

from vorlib.aircraft.flight import Aircraft, Flight, advance, record, start
from vorlib.aircraft.stretch import bank_toward
from vorlib.aircraft.wind import CALM, Wind
from vorlib.core.angles import difference_deg
from vorlib.debrief.wind.estimate import estimate_wind
from vorlib.earth.geodesic import Position
from vorlib.tracks.example import example_flight

HERE = Position(46.0, -30.0, 3500.0)


def flown(begin, headings, minutes, wind=CALM, speeds=None, noise_m=8.0, seed=1) -> Flight:
    """Return legs on true headings, joined by standard turns, one point a second."""
    states = [start(Position(begin.lat_deg, begin.lon_deg, 3500.0), headings[0])]
    speeds = speeds or [100.0] * len(headings)
    for heading, lasting, speed in zip(headings, minutes, speeds, strict=True):
        aircraft = Aircraft(speed)
        for _ in range(round(60.0 * lasting)):
            now = states[-1]
            turn = float(difference_deg(heading, now.true_heading_deg))
            states.append(advance(now, aircraft, 1.0, bank_toward(turn, aircraft), wind))
    flight = record(states, Aircraft(100.0), wind)
    rng, place, n = np.random.default_rng(seed), flight.position, flight.time_s.size
    lat = place.lat_deg + rng.normal(0.0, noise_m / METERS_PER_DEG, n)
    wide = METERS_PER_DEG * np.cos(np.radians(lat))
    noisy = Position(lat, place.lon_deg + rng.normal(0.0, noise_m, n) / wide, place.altitude_ft)
    return replace(flight, position=noisy, true_heading_deg=flight.true_track_deg)


@settings(max_examples=12, deadline=None)
@given(st.floats(1.0, 360.0), st.floats(10.0, 35.0), st.integers(0, 9))
def test_three_legs_give_a_noisy_flights_wind_within_3_kt_and_10_degrees(blows, knots, seed):
    flight = flown(HERE, [40.0, 150.0, 270.0], [5.0, 5.0, 5.0], Wind(blows, knots), seed=seed)
    found = estimate_wind(flight)
    assert found.wind is not None
    assert abs(float(difference_deg(found.wind.from_deg, blows))) < 10.0
    assert float(found.wind.speed_kt) == pytest.approx(knots, abs=3.0)
    assert found.true_airspeed_kt == pytest.approx(100.0, abs=3.0)


def test_the_example_flights_wind_is_its_wind():
    found = estimate_wind(example_flight().recording.flight)
    assert found.wind is not None
    # tests/data/example_flight_truth.json
    assert abs(float(difference_deg(found.wind.from_deg, 240.0))) < 10.0
    assert float(found.wind.speed_kt) == pytest.approx(20.0, abs=3.0)
    assert found.true_airspeed_kt == pytest.approx(105.0, abs=3.0)


def test_a_single_full_turn_tells_the_wind():
    wind = Wind(310.0, 25.0)
    flight = flown(HERE, [360.0, 120.0, 240.0, 360.0], [1.5, 0.7, 0.7, 1.5], wind)
    found = estimate_wind(flight)
    assert found.wind is not None
    assert abs(float(difference_deg(found.wind.from_deg, 310.0))) < 10.0
    assert float(found.wind.speed_kt) == pytest.approx(25.0, abs=3.0)


def test_one_leg_of_nine_at_another_airspeed_is_not_followed():
    legs = [40.0, 130.0, 250.0, 330.0, 40.0, 130.0, 250.0, 330.0, 10.0]
    speeds = [100.0] * 4 + [85.0] + [100.0] * 4
    found = estimate_wind(flown(HERE, legs, [5.0] * 9, Wind(250.0, 20.0), speeds))
    assert found.wind is not None
    assert float(found.wind.speed_kt) == pytest.approx(20.0, abs=3.0)
    assert found.share < 0.95


def test_legs_at_airspeeds_of_their_own_tell_no_wind_rather_than_a_wrong_one():
    speeds = [100.0, 100.0, 80.0, 100.0, 115.0, 90.0]
    legs = [40.0, 130.0, 250.0, 330.0, 40.0, 90.0]
    found = estimate_wind(flown(HERE, legs, [5.0] * 6, Wind(250.0, 20.0), speeds))
    assert found.wind is None
    assert "its legs disagree" in found.words


def test_give_or_take_holds_for_most_noisy_flights():
    held = 0
    for seed, blows in itertools.product(range(4), (30.0, 150.0, 250.0)):
        found = estimate_wind(
            flown(HERE, [40.0, 150.0, 270.0], [4.0] * 3, Wind(blows, 20.0), seed=seed)
        )
        assert found.wind is not None
        off_kt = abs(float(found.wind.speed_kt) - 20.0)
        off_deg = abs(float(difference_deg(found.wind.from_deg, blows)))
        held += off_kt <= found.give_or_take_kt and off_deg <= found.give_or_take_deg
    assert held >= 10


@pytest.mark.parametrize("legs", [[40.0], [40.0, 220.0], [40.0, 60.0]])
def test_too_few_directions_tell_no_wind_and_it_is_said_why(legs):
    found = estimate_wind(flown(HERE, legs, [8.0] * len(legs), Wind(250.0, 20.0)))
    assert found.wind is None
    assert found.true_airspeed_kt is None
    assert "too few directions (northeast" in found.words


def test_a_known_airspeed_makes_two_directions_enough():
    wind = Wind(250.0, 20.0)
    flight = flown(HERE, [40.0, 110.0, 40.0], [6.0, 4.0, 4.0], wind)
    found = estimate_wind(flight, 100.0)
    assert found.wind is not None
    assert abs(float(difference_deg(found.wind.from_deg, 250.0))) < 10.0
    assert float(found.wind.speed_kt) == pytest.approx(20.0, abs=3.0)


def test_with_a_known_airspeed_one_leg_tells_the_headwind_and_nothing_of_the_crosswind():
    found = estimate_wind(flown(HERE, [40.0], [8.0], Wind(40.0, 20.0)), 100.0)
    assert found.wind is None
    assert "a headwind of about 20 kt along the track" in found.words
    assert "the crosswind itself it does not show" in found.words


def test_a_calm_is_told_as_too_little_to_say_from_where():
    found = estimate_wind(flown(HERE, [40.0, 150.0, 270.0], [5.0] * 3))
    assert found.wind is not None
    assert float(found.wind.speed_kt) < 3.0
    assert "too little to tell from where" in found.words


def test_standing_on_the_ground_tells_no_wind():
    n = 300
    still = np.full(n, 90.0)
    place = Position(np.full(n, 46.0), np.full(n, -30.0), np.zeros(n))
    found = estimate_wind(Flight(np.arange(float(n)), place, still, still, 0.0 * still))
    assert found.wind is None
    assert "too short" in found.words


def test_wild_points_of_a_recorder_do_not_make_wind():
    flight = flown(HERE, [40.0, 150.0, 270.0], [5.0] * 3, Wind(250.0, 20.0))
    lat = flight.position.lat_deg.copy()
    lat[100::150] += 0.5
    place = Position(lat, flight.position.lon_deg, flight.position.altitude_ft)
    found = estimate_wind(replace(flight, position=place))
    assert found.wind is not None
    assert float(found.wind.speed_kt) == pytest.approx(20.0, abs=3.0)


def test_ten_times_the_noise_is_admitted():
    quiet = estimate_wind(flown_with_noise(3.0).flight)
    loud = estimate_wind(flown_with_noise(30.0).flight)
    assert loud.give_or_take_kt > 2.0 * quiet.give_or_take_kt


def test_an_airspeed_must_be_positive():
    with pytest.raises(ValueError, match="true_airspeed_kt"):
        estimate_wind(flown(HERE, [40.0], [1.0]), 0.0)
