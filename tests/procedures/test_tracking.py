"""Holding a radial: how far off, which heading, and the bracket."""

import numpy as np
import pytest

import vorlib as v
from vorlib.procedures.tracking import (
    Bracket,
    hold_course,
    off_course_nm,
    off_course_rule_nm,
    one_in_sixty_deg,
)


def test_a_dot_at_thirty_miles_is_a_mile() -> None:
    # Common practice, 200 ft per dot per NM; exact 1.047.
    assert off_course_rule_nm(1.0, 30.0) == pytest.approx(1.0)
    assert off_course_rule_nm(3.0, 30.0) == pytest.approx(3.0)
    assert off_course_nm(1.0, 30.0) == pytest.approx(1.047, abs=1e-3)


def test_one_degree_is_a_mile_at_sixty() -> None:
    # Pilot's Handbook (FAA-H-8083-25C), chapter 16, angle of intercept: 1 NM at 60, 2 at 120, 0.5
    # at 30.
    for distance, off in [(60.0, 1.0), (120.0, 2.0), (30.0, 0.5)]:
        assert one_in_sixty_deg(off, distance) == pytest.approx(1.0)
        assert np.degrees(np.arctan(off / distance)) == pytest.approx(1.0, rel=0.05)


def test_one_in_sixty_stays_within_a_tenth_up_to_thirty_degrees() -> None:
    angles = np.arange(1.0, 31.0)
    rule = one_in_sixty_deg(60.0 * np.tan(np.radians(angles)), 60.0)
    assert np.abs(rule / angles - 1.0).max() < 0.16
    assert abs(rule[9] / angles[9] - 1.0) < 0.06
    with pytest.raises(ValueError, match="distance_nm must be more than 0 NM"):
        one_in_sixty_deg(1.0, 0.0)


def test_a_contest_problem_by_one_in_sixty() -> None:
    # A collegiate contest of 2021: 3.6 SM off after 118 NM of 300 SM; closing angle 2.9 degrees by
    # the rule, 2.774 exact.
    off, flown, left = 3.6, 118.0 * 1.15078, 300.0 - 118.0 * 1.15078
    assert one_in_sixty_deg(off, flown) + one_in_sixty_deg(off, left) == pytest.approx(
        2.9, abs=0.05
    )


def test_wind_from_the_right_is_corrected_to_the_right() -> None:
    # Pilot's Handbook (FAA-H-8083-25C), chapter 16, tracking: course 350, wind from the right; 10
    # degrees is too much and 5 holds, which at 100 kt is a crosswind of 8.7 kt.
    holding = hold_course(350.0, 100.0, v.Wind(80.0, 8.7))
    assert holding.triangle.heading_deg == pytest.approx(355.0, abs=0.05)
    assert "Correct 5 degrees to the right: heading 355 holds 350." in holding.steps


def test_the_bracket_halves_as_the_handbook_teaches() -> None:
    # Instrument Flying Handbook (FAA-H-8083-15B), chapter 9, tracking: 20 degrees, then half.
    bracket = Bracket(350.0)
    assert bracket.heading_deg == 350.0
    off = bracket.look(0.8)
    assert off.heading_deg == 10.0
    assert off.look(0.4) == off
    held = off.look(0.0)
    assert held.heading_deg == 360.0
    too_much = held.look(-0.6)
    assert too_much.heading_deg == 350.0
    assert too_much.look(0.0).heading_deg == 355.0


def test_a_correction_that_loses_against_the_wind_is_doubled() -> None:
    losing = Bracket(350.0, held_deg=0.0, step_deg=5.0).look(0.6)
    assert losing.heading_deg == 355.0
    assert losing.look(1.0) == losing
    assert losing.look(1.2).heading_deg == 360.0
    assert losing.look(1.2).look(1.8).heading_deg == 10.0


def test_the_bracket_speaks() -> None:
    bracket = Bracket(350.0)
    assert "watch where the needle goes" in bracket.words
    assert "turn 20 degrees toward it, heading 010" in bracket.look(0.8).words
    assert "keep 10 degrees to the right" in bracket.look(0.8).look(0.0).words
