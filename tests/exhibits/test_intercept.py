"""What an intercept shows before it is flown, and how far it is said to overshoot."""

import re

from vorlib.exhibits import intercept
from vorlib.exhibits.maneuvers.intercept_words import notes
from vorlib.views.drawing.svg import to_svg
from vorlib.views.drawing.theme import SCREEN


def words_drawn(exhibit):
    svg = to_svg(exhibit.draw(exhibit.state, SCREEN))
    return re.findall(r">([^<>]+)</text>", svg)


def test_an_overshoot_is_that_of_the_turn_and_not_of_the_swings_over_the_station():
    for distance_nm in (5.0, 6.0):
        exhibit = intercept(radial_deg=235.0, distance_nm=distance_nm, time_s=10.0)
        assert exhibit.state.overshoot_nm < 0.05
        assert "ends on the course" in exhibit.sentence


def test_before_play_the_intercept_is_set_up_and_not_told():
    words = intercept(radial_deg=240.0, distance_nm=11.0).sentence
    assert words.endswith("by the double-angle rule, heading 080. Press Play.")
    steps = notes(intercept(radial_deg=240.0, distance_nm=11.0).state)
    assert "the heading 080" in steps
    assert "You meet the course" not in steps


def test_the_steps_of_a_pilot_who_does_not_lead_the_turn_say_nothing_of_a_lead():
    played = {"angle_deg": 90.0, "time_s": 20.0}
    led, late = intercept(**played).state, intercept(**played, lead=False).state
    assert "Lead the turn" in notes(led)
    assert "Lead the turn" not in notes(late)


def test_turning_late_overshoots_by_about_the_lead():
    state = intercept(angle_deg=90.0, lead=False).state
    assert state.plan.lead_nm <= state.overshoot_nm < 1.3 * state.plan.lead_nm


def test_before_play_the_heading_the_angle_and_the_meeting_point_are_drawn():
    drawn = words_drawn(intercept(radial_deg=250.0, distance_nm=11.0))
    assert {"heading 100", "60°", "met 6.4 NM out"} <= set(drawn)
    assert not {"turn led", "turned late"} & set(drawn)


def test_a_cut_that_fails_is_drawn_as_far_as_it_leads():
    for angle_deg, heading in ((10.0, "050"), (20.0, "060")):
        exhibit = intercept(radial_deg=240.0, distance_nm=12.0, angle_deg=angle_deg)
        assert f"heading {heading}: no intercept" in words_drawn(exhibit)
        assert exhibit.state.problem in exhibit.sentence


def test_in_wind_the_way_to_the_course_is_the_track_and_no_angle_is_claimed_of_it():
    drawn = words_drawn(intercept(radial_deg=250.0, distance_nm=11.0, wind_kt=30.0))
    assert [words for words in drawn if words.startswith("track ")]
    assert not [words for words in drawn if words.endswith("°")]


def test_a_turn_led_and_one_begun_late_are_flown_beside_each_other():
    exhibit = intercept(radial_deg=240.0, distance_nm=5.0, angle_deg=90.0, both=True, time_s=150.0)
    assert {"turn led", "turned late"} <= set(words_drawn(exhibit))
    assert "the pilot ends on the course" in exhibit.sentence
    assert "Turned only when the needle centers, it goes 0.6 NM past" in exhibit.sentence
    assert exhibit.state.overshoot_nm < 0.05 < 0.5 < exhibit.state.other_overshoot_nm


def test_enlarged_the_overshoot_fills_a_good_part_of_the_map():
    late = intercept(radial_deg=240.0, distance_nm=5.0, angle_deg=90.0, lead=False, enlarged=True)
    drawn = words_drawn(late)
    assert {"course 040", "5 dots", "0.5 NM", "met 4.7 NM out"} <= set(drawn)


def test_one_overshoot_has_one_number():
    late = intercept(radial_deg=240.0, distance_nm=5.0, angle_deg=90.0, lead=False, time_s=200.0)
    assert re.findall(r"([\d.]+) NM past", late.sentence + notes(late.state)) == ["0.6"]


def test_a_course_on_the_far_side_is_called_so_and_no_other_angle_is_asked_for():
    exhibit = intercept(radial_deg=250.0, distance_nm=5.0, course_deg=220.0)
    assert "on the far side of the station" in exhibit.sentence
    assert "another angle" not in exhibit.sentence


def test_beyond_ninety_degrees_the_message_says_why():
    exhibit = intercept()
    exhibit.set(angle_deg=100)
    assert "beyond 90 you would fly back" in exhibit.control("angle_deg").message
