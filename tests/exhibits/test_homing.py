"""What is said of homing and tracking near the station, where a needle grows restless."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from vorlib.exhibits import homing
from vorlib.exhibits.maneuvers.homing_flights import HomingCase, both_flights, outcome
from vorlib.exhibits.replay.replay import Replay
from vorlib.vor.receiver import Receiver

SQUARE_FROM_LEFT = 304.0  # of the course 034


def test_without_wind_tracking_needs_no_correction_however_the_needle_swings_at_the_end():
    words = homing(radial_deg=270.0, wind_kt=0.0, time_s=60.0).sentence
    assert "Tracking needs no correction" in words
    assert "into the wind" not in words


def test_before_play_the_race_is_set_up_and_not_told():
    words = homing(radial_deg=214.0, wind_from_deg=304.0, wind_kt=30.0).sentence
    assert words.endswith("wind 304 at 30 knots. One homes, the other tracks. Press Play.")


def test_the_heading_that_tracking_holds_is_that_of_the_way_and_not_of_the_last_moment():
    # 15 kt square from the left at 100 kt: asin(0.15) = 8.6 degrees
    words = homing(radial_deg=214.0, wind_from_deg=304.0, wind_kt=15.0, time_s=60.0).sentence
    assert "Tracking holds heading 025, 9 degrees into the wind" in words


def test_homing_that_takes_longer_than_is_drawn_is_late_and_not_lost():
    # 20 NM at 100 kt in 90 kt square across: 20 x 100 / (100^2 - 90^2) hours
    words = homing(wind_from_deg=SQUARE_FROM_LEFT, wind_kt=90.0, time_s=60.0).sentence
    assert "Homing does not arrive within 40 minutes: it takes about 63 minutes." in words
    assert "never" not in words


def test_a_wind_that_the_triangle_can_hold_is_not_too_strong():
    # 95 kt square across of 100: asin(0.95) = 72 degrees, 100 cos 72 = 31 knots
    words = homing(wind_from_deg=SQUARE_FROM_LEFT, wind_kt=95.0, time_s=60.0).sentence
    assert "Homing does not arrive within 40 minutes: it takes about 123 minutes." in words
    assert "Heading 322 holds the straight course, 72 degrees into the wind, at 31 knots" in words
    assert "tracking does not arrive within 40 minutes" in words
    assert "too strong" not in words


def test_a_slow_headwind_needs_no_correction():
    words = homing(wind_from_deg=34.0, wind_kt=80.0, time_s=60.0).sentence
    assert "Heading 034 holds the straight course at 20 knots over the ground" in words


def test_a_tracking_pilot_blown_off_at_the_start_passes_by():
    start = {"distance_nm": 4.0, "wind_kt": 90.0, "wind_from_deg": 100.0, "airspeed_kt": 120.0}
    words = homing(**start, time_s=60.0).sentence
    assert "misses the station" in words


@settings(max_examples=12, deadline=None)
@given(
    wind_from_deg=st.integers(1, 360).map(float),
    wind_kt=st.integers(0, 100).map(float),
    distance_nm=st.integers(4, 25).map(float),
    airspeed_kt=st.integers(80, 120).map(float),
)
def test_a_wind_slower_than_the_airspeed_lets_both_arrive_sooner_or_later(**start):
    state = homing(**start).state
    words = homing(**start, time_s=60.0).sentence
    slower = start["wind_kt"] < start["airspeed_kt"]
    assert math.isfinite(state.homing_minutes) == slower
    home = outcome(dict(state.replays)["homing"], state.radial_deg)
    if slower:
        assert state.triangle is not None
        assert "too strong" not in words
        assert "never" not in words
        assert "No heading" not in words
        if home.arrived and home.minutes < 40.0:  # but for the first turn and the cone
            assert home.minutes == pytest.approx(state.homing_minutes, abs=1.0)
        else:
            assert state.homing_minutes > 39.0


@pytest.mark.parametrize(("miss_nm", "arrived"), [(0.45, True), (0.55, False), (1.5, False)])
def test_who_comes_within_half_a_mile_has_arrived(miss_nm, arrived):
    # The flight to Quillon as seen from a station that stands so far beside its track.
    _, held = both_flights(HomingCase("QLN", 220.0, 10.0, 3500.0, 100.0, 40.0, 10.0))
    beside = replace(held.station, position=held.station.position_on(310.0, miss_nm))
    flight, course_deg, _ = held.flown
    seen = held.flown._replace(reading=Receiver(course_deg).read(beside, flight.position))
    assert outcome(Replay(beside, seen), 220.0).arrived is arrived


def test_the_groundspeed_is_that_of_the_triangle_at_the_heading_of_the_moment():
    exhibit = homing("PLX", radial_deg=270.0, wind_from_deg=180.0, wind_kt=50.0)
    assert "over the ground" not in exhibit.sentence
    exhibit.set(pilot="tracking", time_s=300.0)  # 50 kt square across of 100: cos 30 degrees
    assert "at 87 knots over the ground" in exhibit.sentence
    speeds = [exhibit.state.groundspeed_kt]
    exhibit.set(pilot="homing")
    for time_s in (60.0, 400.0, 800.0):  # the nose swings into the wind
        exhibit.set(time_s=time_s)
        speeds.append(exhibit.state.groundspeed_kt)
    assert speeds[1] > speeds[2] > speeds[3]
