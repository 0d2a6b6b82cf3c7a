"""Velocities over the ground, and directions smoothed, of a flight that is known."""

import numpy as np
import pytest
from flights import cut, flown_with_noise

from vorlib.aircraft.ground_track import jitter_nm, over_ground, segments, smoothed_deg
from vorlib.core.angles import difference_deg


def test_a_silence_longer_than_the_limit_parts_a_flight():
    time_s = np.array([0.0, 10.0, 40.0, 71.0, 72.0])
    np.testing.assert_array_equal(segments(time_s, 30.0), [0, 0, 0, 1, 1])
    assert segments(np.array([])).size == 0


def test_velocities_are_those_flown():
    made = flown_with_noise(0.0)
    ground = over_ground(made.flight)
    straight = abs(made.flight.bank_deg) < 0.1
    off = difference_deg(ground.true_track_deg, made.flight.true_track_deg)
    assert np.percentile(abs(off[straight]), 99) < 0.5
    middle = straight[100:-100]
    assert np.all(abs(np.diff(ground.groundspeed_kt[100:-100])[middle[1:]]) < 3.0)


def test_no_velocity_is_taken_across_a_gap():
    flight = cut(flown_with_noise(0.0).flight, 300.0, 400.0)
    whole = over_ground(flown_with_noise(0.0).flight)
    parted = over_ground(flight)
    before, after = np.searchsorted(flight.time_s, [299.0, 401.0])
    assert parted.groundspeed_kt[before] == pytest.approx(whole.groundspeed_kt[299], abs=1.0)
    assert parted.groundspeed_kt[after] == pytest.approx(whole.groundspeed_kt[401], abs=1.0)


def test_a_moment_alone_between_two_gaps_has_no_velocity():
    flight = cut(cut(flown_with_noise(0.0).flight, 100.5, 199.5), 200.5, 299.5)
    alone = int(np.argmin(abs(flight.time_s - 200.0)))
    ground = over_ground(flight)
    assert not ground.known[alone]
    assert ground.groundspeed_kt[alone] == 0.0
    assert np.isfinite(ground.north_east_kt).all()


def test_smoothing_takes_noise_out_and_keeps_north_whole():
    rng = np.random.default_rng(1)
    time_s = np.arange(400.0)
    noisy = (rng.normal(0.0, 4.0, 400)) % 360.0
    smooth = smoothed_deg(time_s, noisy)
    assert np.std(difference_deg(smooth, 360.0)) < 2.0
    assert smooth.min() > 0.0


@pytest.mark.parametrize("noise_m", [2.0, 6.0, 12.0])
def test_by_how_much_places_jump_about_is_told_within_a_fifth(noise_m):
    made = flown_with_noise(noise_m)
    assert jitter_nm(made.flight) * 1852.0 == pytest.approx(noise_m, rel=0.2)


def test_a_flight_as_it_was_does_not_jump_about():
    made = flown_with_noise(0.0)
    assert jitter_nm(made.flight) * 1852.0 < 0.2
    assert jitter_nm(cut(made.flight, 3.5, 1e9)) == 0.0
