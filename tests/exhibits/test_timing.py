"""The timing exhibit: rule and truth side by side."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from vorlib.exhibits import timing
from vorlib.exhibits.position.timing import TimingState, sentence


def test_the_rule_in_the_picture_is_the_rule():
    run = TimingState(angle_deg=10.0).run
    assert run.rule_min == pytest.approx(60.0 * run.run_min / 10.0)
    assert "The rule says 6.9 minutes and 12.7 NM" in sentence(TimingState())


def test_in_calm_air_the_wing_tip_rule_is_good_to_a_few_per_cent_up_to_30_degrees():
    errors = [TimingState(angle_deg=a).run.error_percent for a in (5.0, 10.0, 20.0, 30.0)]
    assert max(map(abs, errors)) < 6.0


def test_of_time_and_distance_it_is_said_which_the_rule_gets_right():
    assert "the rule's time is right, its distance 4 percent too long" in sentence(TimingState())
    wide = TimingState(angle_deg=45.0)
    assert "time is 11 percent too short, its distance 6 percent too short" in sentence(wide)
    equal = TimingState(rule="isosceles", angle_deg=30.0)  # only the turn cuts its corner
    assert "time is 1 percent too short, its distance right" in sentence(equal)


def test_a_wind_from_the_station_makes_the_way_home_longer_than_the_rule_says():
    state = TimingState(wind_from_deg=270.0, wind_kt=25.0)
    assert state.run.error_percent < -15.0
    assert "too short" in sentence(state)


def test_the_isosceles_rule_is_the_time_flown():
    state = TimingState(rule="isosceles", angle_deg=30.0)
    assert state.run.rule_min == state.run.run_min
    assert "doubles to 60" in sentence(state)


def test_a_wind_that_holds_the_aircraft_is_answered_beside_its_control():
    exhibit = timing(airspeed_kt=70.0, angle_deg=60.0, wind_from_deg=360.0)
    before = exhibit.state
    exhibit.set(wind_kt=60)
    (message,) = (c.message for c in exhibit.controls if c.field == "wind_kt")
    assert "the wind holds the aircraft" in message
    assert exhibit.state == before


@given(
    heading=st.floats(1, 360),
    distance=st.floats(5, 20),
    rule=st.sampled_from(["wing tip", "isosceles"]),
)
@settings(max_examples=25, deadline=None)
def test_the_station_is_left_of_the_nose_at_the_start(heading, distance, rule):
    state = TimingState(rule=rule, heading_deg=heading, distance_nm=distance, angle_deg=20.0)
    bearing = state.radial_deg + 180.0
    off = math.remainder(state.heading_deg - bearing, 360.0)
    assert off == pytest.approx(90.0 if rule == "wing tip" else 20.0)


def test_dragging_the_start_keeps_the_station_on_the_wing_tip():
    exhibit = timing()
    exhibit.drag("aircraft", (200.0, 200.0), (150.0, 120.0))
    state = exhibit.state
    assert math.remainder(state.heading_deg - state.radial_deg - 180.0, 360.0) == pytest.approx(90)
    assert state.distance_nm != 12.0


@pytest.mark.parametrize("fields", [{"station": "XXX"}, {"rule": "guess"}, {"angle_deg": 0.0}])
def test_what_makes_no_run_is_refused(fields):
    with pytest.raises(ValueError, match="must be"):
        TimingState(**fields)
