"""What the exhibits that fly show: statements about navigation."""

import re
from functools import partial

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from vorlib.aircraft.flight import Aircraft, start
from vorlib.aircraft.wind import Wind, wind_triangle
from vorlib.core.angles import difference_deg, reciprocal_deg
from vorlib.exhibits import homing, intercept, sensing, tracking
from vorlib.exhibits.maneuvers.homing_flights import outcome
from vorlib.exhibits.maneuvers.sensing_flight import Following
from vorlib.exhibits.maneuvers.tracking_flight import ByHand, Noting
from vorlib.exhibits.replay.replay import off_line_nm
from vorlib.procedures.flying import fly
from vorlib.procedures.panel import Patient
from vorlib.stations.archipelago import STATIONS
from vorlib.vor.receiver import Flag

DIRECTIONS = st.integers(1, 360).map(float)


def message(exhibit, field):
    return exhibit.control(field).message


def press(exhibit, words):
    buttons = (c.button for c in exhibit.controls if hasattr(c, "button"))
    next(b for b in buttons if b.description == words).click()


# ---- pilots who tell of many looks at once


@pytest.mark.parametrize(
    ("pilot", "radial_deg"),
    [
        (partial(Following, 34.0, 0.0), 214.0),
        (partial(Following, 34.0, 1.0), 218.0),  # the first of the looks worked out together
        (partial(Following, 34.0, 95.0), 218.0),
        (partial(Following, 214.0, 95.0), 218.0),
        (partial(ByHand, ((0.0, 50.0), (61.5, 20.0), (513.0, 40.0)), 34.0), 214.0),
        (Noting, 219.0),
    ],
)
def test_a_patient_pilot_flies_as_if_asked_at_every_look(pilot, radial_deg):
    tuned = STATIONS["QLN"]
    begin = start(tuned.position_on(radial_deg, 22.0, 3500.0), 34.0 + tuned.declination_deg)
    together, apart = pilot(), pilot()
    flown, asked = (
        fly(
            who, Aircraft(100.0), begin, tuned, 34.0, 700.0, wind=Wind(300.0, 20.0), looks_per_s=1.0
        )
        for who in (together, lambda panel: apart(panel))
    )
    assert isinstance(together, Patient)
    np.testing.assert_array_equal(flown.course_deg, asked.course_deg)
    np.testing.assert_allclose(flown.reading.dots, asked.reading.dots, atol=1e-6)
    searches = [
        [(b.held_deg, b.step_deg, b.toward) for b in getattr(one, "brackets", [])]
        for one in (together, apart)
    ]
    assert searches[0] == searches[1]


# ---- homing against tracking


def outcomes(**start):
    state = homing(**start).state
    return [outcome(replay, state.radial_deg) for _, replay in state.replays]


def test_homing_in_a_crosswind_is_longer_than_tracking():
    home, held = outcomes(wind_from_deg=304.0, wind_kt=30.0)
    assert home.minutes > held.minutes + 0.5
    assert abs(home.off_nm) > 2.0
    assert abs(held.off_nm) < 0.3


def test_homing_drifts_downwind_and_turns_into_the_wind():
    for wind_from_deg, side in ((304.0, 1.0), (124.0, -1.0)):  # from the left, from the right
        home, _ = outcomes(wind_from_deg=wind_from_deg)
        assert home.off_nm * side > 0.0
        assert home.turned_deg * side < 0.0


def test_tracking_holds_the_heading_of_the_wind_triangle():
    state = homing(wind_from_deg=304.0, wind_kt=30.0).state
    held = dict(state.replays)["tracking"]
    answer = wind_triangle(state.course_deg, state.airspeed_kt, 304.0, 30.0)
    assert held.at(300.0).heading_deg == pytest.approx(float(answer.heading_deg), abs=0.1)


def test_without_wind_homing_and_tracking_are_the_same():
    home, held = outcomes(wind_kt=0.0)
    assert home.minutes == pytest.approx(held.minutes, abs=0.05)
    # 20 NM at 100 knots
    assert home.minutes == pytest.approx(12.0, abs=0.1)


def test_homing_takes_the_time_of_the_pursuit_curve():
    # For a pursuer at speed v toward a fixed point in a crosswind w the time is distance times
    # v / (v^2 - w^2): the classical radiodrome (from memory), for a wind square to the course.
    home, _ = outcomes(wind_from_deg=304.0, wind_kt=30.0, distance_nm=20.0)
    assert home.minutes == pytest.approx(20.0 * 100.0 / (100.0**2 - 30.0**2) * 60.0, abs=0.15)


def test_a_wind_as_strong_as_the_airspeed_keeps_both_from_the_station_and_is_said_in_words():
    exhibit = homing(airspeed_kt=80.0, wind_from_deg=34.0, wind_kt=80.0)
    assert not any(
        result.arrived for result in outcomes(airspeed_kt=80.0, wind_from_deg=34.0, wind_kt=80.0)
    )
    assert "too strong for 80 knots of airspeed: neither pilot can reach" in exhibit.sentence


def test_the_sentence_compares_the_two_in_numbers():
    words = homing(wind_from_deg=304.0, wind_kt=30.0, time_s=60.0).sentence
    drift, turned, late = re.search(
        r"drifts up to ([\d.]+) NM right .* turns (\d+) degrees left .* after ([\d.]+) min", words
    ).groups()
    held = re.search(
        r"Tracking holds heading 017, 17 degrees into the wind.* takes ([\d.]+)", words
    )
    home, straight = outcomes(wind_from_deg=304.0, wind_kt=30.0)
    assert float(drift) == pytest.approx(abs(home.off_nm), abs=0.05)
    assert float(turned) == pytest.approx(abs(home.turned_deg), abs=0.5)
    assert float(late) == pytest.approx(home.minutes, abs=0.05)
    assert float(held[1]) == pytest.approx(straight.minutes, abs=0.05)


def test_the_tracks_are_told_apart_by_name_and_dash():
    svg = homing(time_s=600.0).picture.svg
    assert ">homing<" in svg
    assert ">tracking<" in svg
    assert "no wind" in homing(wind_kt=0.0).picture.svg


def test_the_homing_pilot_keeps_the_needle_centered_and_turns_the_selected_course():
    state = homing(time_s=600.0).state
    now = state.seen.at(600.0)
    assert abs(now.reading.dots) < 0.3
    assert abs(float(difference_deg(now.course_deg, state.course_deg))) > 10.0
    assert abs(float(difference_deg(now.course_deg, now.heading_deg))) < 2.0


@settings(max_examples=12, deadline=None)
@given(radial=DIRECTIONS, wind=DIRECTIONS, station=st.sampled_from(list(STATIONS)))
def test_both_arrive_wherever_they_start_in_a_moderate_wind(radial, wind, station):
    results = outcomes(
        station=station, radial_deg=radial, wind_from_deg=wind, wind_kt=25.0, distance_nm=8.0
    )
    assert all(result.arrived for result in results)


# ---- intercepts


def past_nm(**start):
    return intercept(**start).state.overshoot_nm


def test_ninety_degrees_without_a_lead_overshoots_by_the_radius_of_the_turn():
    # standard rate, 3 degrees a second, at 100 knots: 0.53 NM, and the roll in and out
    assert past_nm(angle_deg=90.0, lead=False) == pytest.approx(100 / (60 * np.pi), abs=0.08)


def test_a_flat_angle_overshoots_far_less_than_ninety_degrees():
    assert past_nm(angle_deg=30.0, lead=False) < 0.3 * past_nm(angle_deg=90.0, lead=False)


@pytest.mark.parametrize("angle_deg", [30.0, 45.0, 60.0, 90.0])
def test_a_lead_ends_the_turn_on_the_course(angle_deg):
    assert past_nm(angle_deg=angle_deg) < 0.1
    assert "ends on the course" in intercept(angle_deg=angle_deg, time_s=10.0).sentence


def test_the_flight_meets_the_course_when_and_where_the_plan_says():
    state = intercept(lead=False).state
    ((_, replay),) = state.replays
    off = off_line_nm(replay.flown.reading, state.course_deg + 180.0)
    met = int(np.flatnonzero(off * off[0] < 0.0)[0])
    assert replay.flown.flight.time_s[met] / 60.0 == pytest.approx(state.plan.minutes, abs=0.02)
    assert replay.distance_nm[met] == pytest.approx(state.plan.distance_nm, abs=0.05)


def test_in_wind_the_pilot_takes_the_heading_that_holds_the_course():
    state = intercept(wind_from_deg=310.0, wind_kt=25.0).state
    on_course = state.replays[0][1].at(state.plan.minutes * 60.0 + 45.0)
    assert on_course.heading_deg == pytest.approx(state.plan.hold_heading_deg, abs=1.0)
    assert abs(off_line_nm(on_course.reading, state.course_deg + 180.0)) < 0.2


def test_outbound_the_flag_reads_from_on_the_course():
    state = intercept(inbound=False, course_deg=40.0, radial_deg=20.0, distance_nm=4.0).state
    end = state.replays[0][1].at(state.duration_s)
    assert end.reading.flag == Flag.FROM
    assert abs(end.reading.dots) < 0.5


def control(exhibit, kind):
    return next(c for c in exhibit.controls if type(c).__name__ == kind)


def test_without_an_angle_of_ones_own_the_double_angle_rule_gives_it():
    exhibit = intercept(radial_deg=235.0)
    assert exhibit.state.cut_deg == 30.0  # twice 15
    assert control(exhibit, "Angle").box.value == "30"
    assert control(exhibit, "ByRule").box.value
    assert "30 degrees, by the double-angle rule" in exhibit.sentence


@pytest.mark.parametrize("angle_deg", [30.0, 60.0, 90.0])
def test_an_angle_asked_for_is_the_angle_flown(angle_deg):
    exhibit = intercept(angle_deg=angle_deg)
    assert exhibit.state.cut_deg == angle_deg
    exhibit = intercept()
    exhibit.set(angle_deg=angle_deg)
    assert exhibit.state.cut_deg == angle_deg
    assert exhibit.state.plan.angle_deg == angle_deg
    assert not control(exhibit, "ByRule").box.value
    assert "by the double-angle rule" not in exhibit.sentence


def test_moving_the_slider_makes_the_angle_ones_own():
    exhibit = intercept()
    control(exhibit, "Angle").box.value = "60"
    assert exhibit.state.angle_deg == 60.0
    assert not control(exhibit, "ByRule").box.value


def test_switched_off_the_rule_leaves_its_angle_as_ones_own_and_switched_on_takes_it_back():
    exhibit = intercept()
    control(exhibit, "ByRule").box.value = False
    assert exhibit.state.angle_deg == 40.0
    exhibit.set(radial_deg=235)
    assert exhibit.state.cut_deg == 40.0
    control(exhibit, "ByRule").box.value = True
    assert exhibit.state.angle_deg is None
    assert exhibit.state.cut_deg == 30.0


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (homing, "heading_deg"),
        (homing, "course_deg"),
        (tracking, "radial_deg"),
        (tracking, "heading_deg"),
        (sensing, "heading_deg"),
        (intercept, "heading_deg"),
    ],
)
def test_what_follows_from_the_rest_cannot_be_asked_for(make, field):
    with pytest.raises(TypeError, match=field):
        make(**{field: 90.0})
    with pytest.raises(TypeError, match=f"no {field} here"):
        make().set(**{field: 90.0})


def test_a_time_beyond_the_flight_shows_its_end():
    state = homing(time_s=9999.0).state
    assert state.shown_s == state.duration_s


def test_the_steps_are_a_numbered_list_below_once_it_plays():
    exhibit = intercept(time_s=20.0)
    assert exhibit.page.html("below").startswith("<ol><li>You are on the 240 radial of Quillon")
    assert exhibit.page.html("below").count("<li>") == len(exhibit.state.plan.steps)


def test_a_course_that_is_not_met_is_answered_beside_the_control_in_words():
    exhibit = intercept()
    exhibit.set(inbound=False)
    assert "does not meet the 040 radial" in message(exhibit, "inbound")
    assert "does not meet the 040 radial" in exhibit.sentence
    assert exhibit.state.duration_s == 0.0
    assert exhibit.transport.play_button.disabled


def test_the_answer_goes_when_another_control_makes_the_case_possible():
    exhibit = intercept()
    exhibit.set(inbound=False)
    exhibit.set(radial_deg=20)
    assert message(exhibit, "inbound") == ""
    assert exhibit.state.plan is not None
    assert not exhibit.transport.play_button.disabled


def test_on_the_radial_there_is_nothing_to_intercept():
    exhibit = intercept()
    exhibit.set(radial_deg=220)
    assert "on the radial already" in message(exhibit, "radial_deg")


# ---- tracking in an unseen wind


def test_on_the_course_as_heading_the_wind_carries_the_aircraft_off_downwind():
    state = tracking(time_s=300.0).state  # wind from the left
    assert float(difference_deg(state.wind.from_deg, state.course_deg)) < 0.0
    assert state.now.reading.dots < -2.0  # the course line is to the left


def test_the_heading_of_the_wind_triangle_holds_the_needle():
    exhibit = tracking()
    exhibit.set(headings=float(exhibit.state.answer.heading_deg))
    for time_s in (120.0, 300.0, 480.0):
        exhibit.set(time_s=time_s)
        assert abs(exhibit.state.now.reading.dots) < 0.5
    exhibit.set(revealed=True)
    assert "Yours is the same." in exhibit.sentence


def test_a_heading_set_later_changes_nothing_of_what_was_flown_before():
    exhibit = tracking(time_s=200.0)
    before = exhibit.state.replays[0][1].at(150.0)
    exhibit.set(headings=10)
    after = exhibit.state.replays[0][1]
    assert after.at(150.0).position.lat_deg == before.position.lat_deg
    assert after.at(150.0).position.lon_deg == before.position.lon_deg
    assert after.at(260.0).heading_deg == pytest.approx(10.0, abs=1.0)


def test_a_heading_set_earlier_drops_the_later_ones():
    exhibit = tracking(time_s=200.0)
    exhibit.set(headings=10)
    exhibit.set(time_s=100.0)
    exhibit.set(headings=20)
    assert exhibit.state.headings == ((100.0, 20.0),)


def test_the_control_shows_the_heading_set_for_the_moment_shown():
    exhibit = tracking(time_s=200.0)
    exhibit.set(headings=10)
    box = exhibit.controls[0].box
    assert box.value == "010"
    exhibit.set(time_s=100.0)
    assert box.value == "040"


def test_a_wrong_heading_is_answered_beside_the_control():
    exhibit = tracking()
    exhibit.controls[0].box.value = "north"
    assert "north is not a number" in message(exhibit, "headings")
    assert exhibit.state.headings == ()


@pytest.mark.parametrize("seed", range(1, 9))
def test_the_bracketing_pilot_finds_the_heading_of_the_wind_triangle(seed):
    start = {"seed": seed, "distance_nm": 25.0, "range_nm": 50.0, "time_s": 540.0}
    state = tracking(pilot="the bracketing pilot", **start).state
    assert abs(state.bracket.held_deg - float(state.answer.correction_deg)) <= 5.0


def test_the_wind_is_kept_back_until_it_is_asked_for():
    exhibit = tracking(time_s=120.0)
    assert "The wind is" not in exhibit.sentence
    assert "wind" not in exhibit.picture.svg
    exhibit.set(revealed=True)
    wind = exhibit.state.wind
    words = f"The wind is {wind.from_deg:03.0f} at {wind.speed_kt:.0f} knots"
    assert words in exhibit.sentence
    assert f"wind {wind.from_deg:03.0f}/{wind.speed_kt:.0f}" in exhibit.picture.svg


def test_another_wind_starts_again_without_telling_it():
    exhibit = tracking(time_s=120.0, revealed=True)
    before = exhibit.state.wind
    press(exhibit, "Another wind")
    assert exhibit.state.wind != before
    assert exhibit.state.time_s == 0.0
    assert not exhibit.state.revealed


def test_the_aircraft_may_be_kept_off_the_map_so_that_only_the_needle_tells():
    exhibit = tracking(on_map=False)
    assert " radial at " not in exhibit.picture.svg
    exhibit.set(on_map=True)
    assert " radial at " in exhibit.picture.svg


def test_the_sentence_says_how_the_needle_has_moved():
    exhibit = tracking(time_s=240.0)
    now, before = (exhibit.state.replays[0][1].at(t).reading.dots for t in (240.0, 180.0))
    assert f"{before - now:.1f} dots further left than a minute ago" in exhibit.sentence


def test_who_chases_the_needle_weaves_wider_in_dots_nearer_the_station_and_holds_no_heading():
    exhibit = tracking(pilot="the needle-chasing pilot", seed=1, distance_nm=12.0, revealed=True)
    replay = exhibit.state.replays[0][1]
    dots, away_nm = abs(replay.flown.reading.dots), replay.distance_nm
    far, near = (dots[(away_nm > low) & (away_nm < 2 * low)].max() for low in (5.0, 1.2))
    assert near > 2.0 * far
    assert replay.heading_deg[away_nm < 8.0].max() - replay.heading_deg[away_nm < 8.0].min() > 60.0
    assert "The chasing pilot holds none." in exhibit.sentence


def test_a_pilot_who_is_not_there_is_answered_with_those_who_are():
    with pytest.raises(ValueError, match=r"one of you, the bracketing pilot, .*got 'nobody'"):
        tracking(pilot="nobody")


# ---- reverse sensing


def test_flying_toward_the_station_with_the_outbound_course_selected_is_reverse_sensing():
    assert "Reverse sensing" in sensing(course_deg=214.0, radial_deg=220.0).sentence
    assert "Reverse sensing" not in sensing(course_deg=34.0, radial_deg=220.0).sentence


def test_flying_away_the_inbound_course_is_the_wrong_one():
    assert "Reverse sensing" in sensing(course_deg=34.0, toward=False).sentence
    assert "Reverse sensing" not in sensing(course_deg=214.0, toward=False).sentence


def off_nm(exhibit, time_s, which=0):
    replay = exhibit.state.replays[which][1]
    return abs(float(off_line_nm(replay.at(time_s).reading, exhibit.state.course_deg)))


def test_following_a_reversed_needle_leads_further_and_further_off():
    exhibit = sensing()
    off = [off_nm(exhibit, t) for t in (0.0, 60.0, 120.0, 240.0)]
    assert off == sorted(off)
    assert off[-1] > off[0] + 2.0


def test_selecting_the_reciprocal_leads_back_to_the_course_line():
    exhibit = sensing()
    assert off_nm(exhibit, 300.0, which=1) < 0.2


def test_the_button_selects_the_reciprocal_at_the_moment_shown_and_cures_the_needle():
    exhibit = sensing(time_s=60.0)
    press(exhibit, "Select the reciprocal")
    assert exhibit.state.reciprocal_at_s == 60.0
    exhibit.set(time_s=62.0)
    assert "Normal sensing" in exhibit.sentence
    assert "034 is selected" in exhibit.sentence
    end = exhibit.state.duration_s
    assert off_nm(exhibit, end) < off_nm(exhibit, 60.0)
    press(exhibit, "Leave the course as set")
    assert "Reverse sensing" in exhibit.sentence


def test_selecting_the_reciprocal_turns_the_needle_over_and_moves_nothing_else():
    state = sensing().state
    you, cured = (replay.at(1.0) for _, replay in state.replays)
    assert cured.reading.dots == pytest.approx(-you.reading.dots, abs=0.1)
    assert (you.reading.flag, cured.reading.flag) == (Flag.FROM, Flag.TO)


def test_with_normal_sensing_there_is_nothing_to_cure():
    exhibit = sensing(course_deg=34.0)
    assert len(exhibit.state.replays) == 1
    assert off_nm(exhibit, 300.0) < 0.2


@given(course=DIRECTIONS, radial=DIRECTIONS, toward=st.booleans())
@settings(max_examples=25, deadline=None)
def test_the_heading_is_the_course_or_its_reciprocal_whichever_leads_the_way_asked(
    course, radial, toward
):
    state = sensing(course_deg=course, radial_deg=radial, toward=toward, distance_nm=5.0).state
    assert state.heading_deg in (course, float(reciprocal_deg(course)))
    wanted = float(reciprocal_deg(radial)) if toward else radial
    assert abs(float(difference_deg(state.heading_deg, wanted))) <= 90.0


@pytest.mark.parametrize("factory", [homing, intercept, tracking, sensing])
def test_the_sentence_begins_with_the_moment_that_is_played(factory):
    assert factory(time_s=30.0).sentence.startswith("After 30 s")


# ---- what stands beside the dial


def test_the_heading_to_fly_is_turned_beside_the_dial_and_only_by_whoever_flies():
    exhibit = tracking(seed=1, time_s=100.0)
    assert "fly 040" in exhibit.picture.svg
    exhibit.step("heading", right=4)
    exhibit.step("heading", up=2)
    assert exhibit.state.headings == ((100.0, 62.0),)
    exhibit.drag("heading", (0.0, 0.0), (-24.0, 0.0))
    assert exhibit.state.ordered_deg == 50.0
    assert "fly 050" in exhibit.picture.svg
    exhibit.set(pilot="the bracketing pilot")
    assert "fly " not in exhibit.picture.svg


def test_the_heading_and_the_cure_stand_beside_play():
    for exhibit, labels in (
        (tracking(), ["Fly heading"]),
        (sensing(), ["Select the reciprocal", "Leave the course as set"]),
    ):
        beside = [c for c in exhibit.controls if c.slot == "transport"]
        assert [c.label for c in beside] == labels
        assert {c.widget for c in beside} < set(exhibit.page["transport"][0].children)


def test_the_control_shows_the_course_that_the_cure_has_selected():
    exhibit = sensing(course_deg=214.0, time_s=60.0)
    box = exhibit.control("course_deg").box
    assert box.value == "214"
    exhibit.control("reciprocal_at_s").button.click()
    exhibit.set(time_s=62.0)
    assert (box.value, exhibit.state.at(62.0).course_deg) == ("034", 34.0)
    exhibit.set(time_s=10.0)
    assert box.value == "214"
    exhibit.set(course_deg=34.0)  # another course, and nothing to cure
    assert exhibit.state.reciprocal_at_s is None


def test_the_pointer_at_the_ring_is_below_in_reverse_sensing():
    for toward, below in ((True, True), (False, False)):
        exhibit = sensing(course_deg=214.0, toward=toward)
        apart = exhibit.state.heading_deg - exhibit.state.course_deg
        assert (abs((apart + 180.0) % 360.0 - 180.0) > 90.0) is below
        assert f"rotate({apart:g})" in exhibit.picture.svg or not apart


def test_enlarged_the_two_who_follow_and_cure_are_told_apart_after_a_minute():
    exhibit = sensing(time_s=60.0, enlarged=True)
    assert {"you", "cured", "5 dots"} <= set(re.findall(r">([^<>]+)</text>", exhibit.picture.svg))


def test_a_centered_needle_asks_for_no_turn():
    exhibit = sensing(course_deg=34.0, radial_deg=214.0)
    assert "you are on the course line" in exhibit.sentence
    assert "turn toward the needle" not in exhibit.sentence
