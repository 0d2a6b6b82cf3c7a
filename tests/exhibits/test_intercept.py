"""How far an intercept is said to overshoot."""

from vorlib.exhibits import intercept


def test_an_overshoot_is_that_of_the_turn_and_not_of_the_swings_over_the_station():
    for distance_nm in (5.0, 6.0):
        exhibit = intercept(radial_deg=235.0, distance_nm=distance_nm)
        assert exhibit.state.overshoot_nm < 0.05
        assert "ends on the course" in exhibit.sentence


def test_turning_late_overshoots_by_about_the_lead():
    state = intercept(angle_deg=90.0, lead=False).state
    assert state.plan.lead_nm <= state.overshoot_nm < 1.3 * state.plan.lead_nm
