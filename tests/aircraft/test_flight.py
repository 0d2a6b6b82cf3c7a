"""An aircraft through time: against closed forms and an independent integration."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import vorlib as v
from vorlib.aircraft.flight import Aircraft, FlightState, advance, record, start
from vorlib.aircraft.wind import CALM, WindLayers

HERE = v.Position(46.0, -30.0, 3000.0)
WIND = v.Wind(310.0, 25.0)
WGS84_A, WGS84_F = 6378137.0, 1 / 298.257223563  # kept apart from vorlib's own on purpose


def apart_m(one: FlightState, other: FlightState) -> float:
    """Distance between two states over the ground."""
    line = v.inverse(one.lat_deg, one.lon_deg, other.lat_deg, other.lon_deg)
    return float(line.distance_nm) * 1852.0


def integrated(
    state: FlightState, speed_kt: float, banks: list[tuple[float, float]], roll: float, wind: v.Wind
) -> tuple[float, float]:
    """Latitude and longitude by scipy's Runge-Kutta of order 8, from the equations of motion."""
    from scipy.integrate import solve_ivp  # takes as long to load as a hundred tests

    knot, e2 = 1852.0 / 3600.0, WGS84_F * (2 - WGS84_F)
    blow = [
        -float(wind.speed_kt) * knot * f(np.radians(float(wind.from_deg))) for f in (np.cos, np.sin)
    ]
    values = [np.radians(state.lat_deg), np.radians(state.lon_deg)]
    values += [np.radians(state.true_heading_deg), state.bank_deg]
    for target, seconds in banks:
        gap = target - values[3]
        rolling = min(abs(gap) / roll, seconds)
        for rate, span in ((np.sign(gap) * roll, rolling), (0.0, seconds - rolling)):

            def motion(_, y, rate=rate):
                root = np.sqrt(1 - e2 * np.sin(y[0]) ** 2)
                north = speed_kt * knot * np.cos(y[2]) + blow[0]
                east = speed_kt * knot * np.sin(y[2]) + blow[1]
                return [
                    north * root**3 / (WGS84_A * (1 - e2)),
                    east * root / (WGS84_A * np.cos(y[0])),
                    9.80665 * np.tan(np.radians(y[3])) / (speed_kt * knot),
                    rate,
                ]

            if span > 0:
                answer = solve_ivp(motion, (0, span), values, "DOP853", rtol=1e-12, atol=1e-14)
                values = list(answer.y[:, -1])
    return float(np.degrees(values[0])), float(np.degrees(values[1]))


def test_an_hour_with_turns_agrees_with_an_independent_integration() -> None:
    aircraft, state = Aircraft(120.0), start(HERE, 80.0)
    banks = [(0.0, 900.0), (15.0, 47.0), (0.0, 853.0), (-18.0, 140.0), (5.0, 600.0), (0.0, 1060.0)]
    lat, lon = integrated(state, 120.0, banks, aircraft.roll_rate_deg_s, WIND)
    for bank, seconds in banks:
        state = advance(state, aircraft, seconds, bank, WIND)
    assert state.time_s == pytest.approx(3600.0)
    line = v.inverse(state.lat_deg, state.lon_deg, lat, lon)
    assert float(line.distance_nm) * 1852.0 < 0.01  # asked for: 1 m


@settings(max_examples=25, deadline=None)
@given(st.floats(0.0, 360.0), st.floats(-20.0, 20.0), st.integers(2, 60))
def test_the_size_of_the_steps_does_not_change_the_way(
    heading: float, bank: float, steps: int
) -> None:
    aircraft, once = Aircraft(110.0), start(HERE, heading)
    often = once
    for _ in range(steps):
        often = advance(often, aircraft, 300.0 / steps, bank, WIND)
    once = advance(once, aircraft, 300.0, bank, WIND)
    assert apart_m(once, often) < 1e-3
    assert abs(v.difference_deg(once.true_heading_deg, often.true_heading_deg)) < 1e-9


def test_a_full_standard_turn_takes_two_minutes_and_comes_home_but_for_the_wind() -> None:
    bank = float(np.degrees(np.arctan(np.radians(3.0) * 100.0 * 1852 / 3600 / 9.80665)))
    turning = start(HERE, 360.0, bank_deg=bank)
    home = advance(turning, Aircraft(100.0), 120.0, bank)
    assert abs(v.difference_deg(home.true_heading_deg, 360.0)) < 1e-6
    assert apart_m(turning, home) < 2.0  # the meridians converge a little round the circle
    blown = advance(turning, Aircraft(100.0), 120.0, bank, WIND)
    assert apart_m(turning, blown) == pytest.approx(25.0 * 1852 / 30.0, rel=2e-3)


def test_the_radius_flown_is_that_of_the_handbook_formula() -> None:
    west = advance(start(HERE, 360.0, bank_deg=-20.0), Aircraft(100.0), 1.0, -20.0)
    half_s = 180.0 / float(v.turn_rate_deg_s(100.0, 20.0))
    across = advance(start(HERE, 360.0, bank_deg=-20.0), Aircraft(100.0), half_s, -20.0)
    assert west.true_heading_deg < 360.0
    diameter = 2.0 * float(v.turn_radius_nm(100.0, 20.0)) * 1852.0
    assert apart_m(start(HERE, 360.0), across) == pytest.approx(diameter, rel=1e-3)


@given(st.floats(0.0, 360.0))
def test_in_calm_air_the_track_is_the_heading(heading: float) -> None:
    states = [start(HERE, heading)]
    states.append(advance(states[0], Aircraft(100.0), 60.0))
    flight = record(states, Aircraft(100.0))
    assert np.abs(v.difference_deg(flight.true_track_deg, flight.true_heading_deg)).max() < 1e-9


@settings(deadline=None)
@given(st.floats(-180.0, 180.0), st.floats(0.0, 360.0))
def test_turning_the_world_about_the_pole_turns_the_flight(turn: float, heading: float) -> None:
    moved = start(v.Position(46.0, -30.0 + turn, 3000.0), heading)
    one = advance(start(HERE, heading), Aircraft(), 600.0, 10.0, WIND)
    other = advance(moved, Aircraft(), 600.0, 10.0, WIND)
    assert other.lat_deg == pytest.approx(one.lat_deg, abs=1e-10)
    assert abs(v.wrap_180(other.lon_deg - one.lon_deg - turn)) < 1e-9


@settings(deadline=None)
@given(st.floats(1.0, 179.0), st.floats(-20.0, 20.0), st.floats(0.0, 360.0))
def test_a_mirrored_flight_is_the_mirror_image(heading: float, bank: float, wind: float) -> None:
    right = advance(start(HERE, heading), Aircraft(), 400.0, bank, v.Wind(wind, 20.0))
    left = advance(start(HERE, 360.0 - heading), Aircraft(), 400.0, -bank, v.Wind(-wind, 20.0))
    assert left.lat_deg == pytest.approx(right.lat_deg, abs=1e-10)
    assert left.lon_deg + 30.0 == pytest.approx(-(right.lon_deg + 30.0), abs=1e-9)


def test_three_times_speed_and_wind_is_a_third_of_the_time() -> None:
    slow = advance(start(HERE, 70.0), Aircraft(60.0), 1800.0, 0.0, v.Wind(310.0, 10.0))
    fast = advance(start(HERE, 70.0), Aircraft(180.0), 600.0, 0.0, v.Wind(310.0, 30.0))
    assert apart_m(slow, fast) < 1e-3


def test_bank_is_cut_to_the_limit_and_reached_at_the_roll_rate() -> None:
    aircraft = Aircraft(100.0, bank_limit_deg=20.0, roll_rate_deg_s=10.0)
    assert advance(start(HERE, 0.0), aircraft, 1.0, 45.0).bank_deg == pytest.approx(10.0)
    assert advance(start(HERE, 0.0), aircraft, 5.0, 45.0).bank_deg == 20.0


def test_a_climb_through_two_winds_is_carried_by_each_for_its_time() -> None:
    layers = WindLayers(((0.0, v.Wind(270.0, 10.0)), (4000.0, v.Wind(270.0, 40.0))))
    climbing = replace(start(HERE, 360.0), climb_ft_min=500.0)
    there = advance(climbing, Aircraft(100.0), 240.0, 0.0, layers)
    assert there.altitude_ft == pytest.approx(5000.0)
    still = advance(start(HERE, 360.0), Aircraft(100.0), 240.0)
    drift_m = apart_m(there, still)
    assert drift_m == pytest.approx((10.0 * 120 + 40.0 * 120) * 1852 / 3600, rel=1e-3)


def test_a_flight_crosses_the_antimeridian_unharmed() -> None:
    east = advance(start(v.Position(10.0, 179.9), 90.0), Aircraft(120.0), 600.0)
    assert east.lon_deg == pytest.approx(-179.76, abs=0.01)


def test_a_flight_to_the_pole_is_refused_in_words() -> None:
    with pytest.raises(ValueError, match="a heading can be flown between -89 and 89 degrees"):
        advance(start(v.Position(88.9, 0.0), 360.0), Aircraft(240.0), 3600.0)


def test_no_time_changes_nothing_and_time_does_not_run_backwards() -> None:
    state = start(HERE, 80.0)
    assert advance(state, Aircraft(), 0.0, 20.0) == state
    with pytest.raises(ValueError, match="seconds must be 0 s or more, got -1"):
        advance(state, Aircraft(), -1.0)


def test_a_flight_of_no_states_is_an_empty_flight() -> None:
    flight = record([], Aircraft(), CALM)
    assert flight.time_s.shape == flight.true_track_deg.shape == flight.position.shape == (0,)


BAD = [
    (lambda: Aircraft(0.0), "true_airspeed_kt must be more than 0 kt, got 0"),
    (lambda: Aircraft(100.0, bank_limit_deg=90.0), "bank_limit_deg must be from 1 to 60 degrees"),
    (lambda: advance(start(HERE, 0.0), Aircraft(), 1.0, np.nan), "bank_deg must be finite"),
    (lambda: start(v.Position([46.0, 47.0], -30.0), 0.0), "position must be one place"),
]


@pytest.mark.parametrize(("call", "message"), BAD, ids=[m for _, m in BAD])
def test_what_cannot_fly_is_refused(call, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        call()
