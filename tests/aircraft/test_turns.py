"""Turns against the handbook's tables."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import vorlib as v
from vorlib.aircraft.turns import STANDARD_RATE_DEG_S, bank_for_rate_deg, turn_lead_nm


@pytest.mark.parametrize(("speed", "rate", "circle_s"), [(120.0, 5.25, 68.6), (240.0, 2.63, 137.0)])
def test_rate_of_turn_is_that_of_the_handbook(speed: float, rate: float, circle_s: float) -> None:
    # Pilot's Handbook (FAA-H-8083-25C), chapter 5, rate of turn: 30 degrees of bank.
    assert v.turn_rate_deg_s(speed, 30.0) == pytest.approx(rate, abs=0.01)
    assert 360.0 / v.turn_rate_deg_s(speed, 30.0) == pytest.approx(circle_s, abs=0.5)


def test_twice_the_speed_is_four_times_the_radius() -> None:
    # Pilot's Handbook (FAA-H-8083-25C), chapter 5, radius of turn: 2,215 and 8,861 ft by its
    # rounded constant; exact 2,208.3.
    slow, fast = v.turn_radius_nm(120.0, 30.0), v.turn_radius_nm(240.0, 30.0)
    assert fast == pytest.approx(4.0 * slow)
    assert slow * 6076.12 == pytest.approx(2215.0, rel=4e-3)


def test_standard_rate_at_150_knots_needs_eight_tenths_of_a_mile() -> None:
    # US Navy P-871 takes half a percent of groundspeed, 0.75 NM; exact 0.796 at 3 degrees a second.
    radius = v.turn_radius_nm(150.0, bank_for_rate_deg(150.0, STANDARD_RATE_DEG_S))
    assert radius == pytest.approx(0.796, abs=1e-3)
    assert radius == pytest.approx(0.005 * 150.0, abs=0.05)


@pytest.mark.parametrize(("speed", "bank"), [(100.0, 15.0), (180.0, 25.0)])
def test_rules_of_thumb_for_standard_rate_bank_come_near(speed: float, bank: float) -> None:
    # Rules of thumb: 15 percent of the airspeed at 100 kt; airspeed / 10 + 7 at 180 kt.
    assert bank_for_rate_deg(speed) == pytest.approx(bank, abs=1.5)


def test_lead_for_45_degrees_is_about_a_third_of_that_for_90() -> None:
    # US Navy P-1215: one third; geometry 0.293.
    assert turn_lead_nm(0.8, 45.0) / turn_lead_nm(0.8, 90.0) == pytest.approx(1 / 3, abs=0.05)


@given(st.floats(50.0, 400.0), st.floats(1.0, 60.0))
def test_rate_times_radius_is_speed(speed: float, bank: float) -> None:
    rate = np.radians(v.turn_rate_deg_s(speed, bank)) * 3600.0
    assert rate * v.turn_radius_nm(speed, bank) == pytest.approx(speed)
    assert bank_for_rate_deg(speed, v.turn_rate_deg_s(speed, bank)) == pytest.approx(bank)


def test_level_wings_do_not_turn_and_have_no_radius() -> None:
    assert v.turn_rate_deg_s(100.0, 0.0) == 0.0
    with pytest.raises(ValueError, match="bank_deg must be more than 0 degrees, got 0"):
        v.turn_radius_nm(100.0, 0.0)


@pytest.mark.parametrize("bank", [90.0, -90.0, 120.0])
def test_a_bank_of_90_is_refused(bank: float) -> None:
    with pytest.raises(ValueError, match="bank_deg must be from"):
        v.turn_rate_deg_s(100.0, bank)
    with pytest.raises(ValueError, match="bank_deg must be from"):
        v.turn_radius_nm(100.0, bank)


def test_without_airspeed_there_is_no_turn() -> None:
    with pytest.raises(ValueError, match="speed_kt must be more than 0 kt, got 0"):
        v.turn_rate_deg_s(0.0, 20.0)
