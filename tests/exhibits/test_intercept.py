"""How far an intercept is said to overshoot."""

from vorlib.exhibits import intercept
from vorlib.exhibits.maneuvers.intercept import notes


def test_an_overshoot_is_that_of_the_turn_and_not_of_the_swings_over_the_station():
    for distance_nm in (5.0, 6.0):
        exhibit = intercept(radial_deg=235.0, distance_nm=distance_nm, time_s=10.0)
        assert exhibit.state.overshoot_nm < 0.05
        assert "ends on the course" in exhibit.sentence


def test_before_play_the_intercept_is_set_up_and_not_told():
    words = intercept(radial_deg=240.0, distance_nm=11.0).sentence
    assert words.endswith("by the double-angle rule, heading 080. Press Play.")


def test_the_steps_of_a_pilot_who_does_not_lead_the_turn_say_nothing_of_a_lead():
    led, late = intercept(angle_deg=90.0).state, intercept(angle_deg=90.0, lead=False).state
    assert "Lead the turn" in notes(led)
    assert "Lead the turn" not in notes(late)


def test_turning_late_overshoots_by_about_the_lead():
    state = intercept(angle_deg=90.0, lead=False).state
    assert state.plan.lead_nm <= state.overshoot_nm < 1.3 * state.plan.lead_nm
