"""What a debrief says of flights whose truth is known: those of the named pilots."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import vorlib as v
from vorlib.aircraft.flight import Aircraft, Flight, record, start
from vorlib.aircraft.wind import CALM, Wind
from vorlib.debrief.analysis import Debrief, debrief
from vorlib.procedures.flying import Flown, fly
from vorlib.procedures.intercept import plan_intercept
from vorlib.procedures.panel import Command, Panel, Pilot
from vorlib.procedures.pilots import Chasing, Homing, Intercepting, Reversed, Tracking
from vorlib.stations.archipelago import STATIONS

QLN = STATIONS["QLN"]
AIRCRAFT = Aircraft()


def flown(
    pilot: Pilot, radial: float, nm: float, heading: float, course: float, s: float, wind=CALM
) -> Flown:
    state = start(QLN.position_on(radial, nm, 3500.0), heading + QLN.declination_deg)
    return fly(pilot, AIRCRAFT, state, QLN, course, s, wind=wind)


def told(*args: object, **kwargs: object) -> Debrief:
    flight = flown(*args, **kwargs)  # type: ignore[arg-type]
    return debrief(flight.flight, QLN, flight.course_deg)


def heading_for(panel: Panel, heading_deg: float) -> Command:
    return Command(heading_deg % 360.0, panel.course_deg)


# ---- tracking


def test_a_tracking_pilot_makes_no_wrong_way_correction_and_holds_the_radial() -> None:
    found = told(Tracking(), 220.0, 15.0, 40.0, 40.0, 420.0, Wind(310.0, 20.0))
    assert found.wrong_turns == ()
    assert found.outside_full_scale_s == 0.0
    (phase,) = found.phases
    assert phase.flag is v.Flag.TO
    assert phase.mean_radial_deg == pytest.approx(220.0, abs=2.0)
    assert "Every correction was toward the course line." in found.sentences


@settings(max_examples=15, deadline=None)
@given(st.floats(1.0, 360.0), st.floats(0.0, 10.0), st.floats(-1.5, 1.5))
def test_bracketing_never_counts_as_wrong_in_any_wind(wind_from, wind_kt, off_deg) -> None:
    wind = Wind(wind_from, wind_kt)
    assert told(Tracking(), 220.0 + off_deg, 14.0, 40.0, 40.0, 240.0, wind).wrong_turns == ()


def test_the_mean_radial_is_the_mean_over_time_not_over_moments() -> None:
    radials = np.array([220.0, 221.0, 221.0, 221.0, 220.0])
    time = np.array([0.0, 50.0, 50.1, 50.2, 100.0])
    places = QLN.position_on(radials, np.linspace(14.0, 12.0, 5), 3500.0)
    there = v.Position(places.lat_deg, places.lon_deg, np.full(5, 3500.0))
    heading = np.full(5, 40.0 + QLN.declination_deg)
    (phase,) = debrief(Flight(time, there, heading, heading, 0.0 * heading), QLN, 40.0).phases
    # 50 s on 220, then 50 s on 221
    assert phase.mean_radial_deg == pytest.approx(220.5, abs=0.01)
    assert phase.largest_off_deg == pytest.approx(1.0, abs=0.01)


# ---- turns the wrong way


def test_reverse_sensing_followed_is_counted_as_turning_away() -> None:
    found = told(Reversed(), 218.0, 15.0, 40.0, 220.0, 600.0, Wind(310.0, 20.0))
    assert found.wrong_turns
    assert all(turn.reverse_sensing for turn in found.wrong_turns)
    assert found.wrong_turns[0].turned_deg == pytest.approx(20.0, abs=1.0)
    assert any("reverse sensing" in sentence for sentence in found.sentences)


def test_a_turn_away_with_normal_sensing_is_counted_without_blaming_the_sensing() -> None:
    def away(panel):
        side = 1.0 if panel.dots > 0 else -1.0
        turned = panel.time_s > 20.0
        return heading_for(panel, panel.course_deg - side * 20.0 * turned)

    (turn,) = told(away, 217.0, 15.0, 40.0, 40.0, 60.0).wrong_turns
    assert not turn.reverse_sensing
    assert turn.time_s == pytest.approx(20.0, abs=1.0)


# ---- intercepts


@pytest.mark.parametrize("heading", [70.0, 85.0, 100.0])
def test_a_turn_that_begins_on_the_needle_overshoots_as_the_plan_predicts(heading) -> None:
    state = start(QLN.position_on(240.0, 18.0, 3500.0), heading + QLN.declination_deg)
    plan = plan_intercept(QLN, state, AIRCRAFT, 40.0, inbound=True, angle_deg=heading - 40.0)
    (met, *_) = told(
        Intercepting(heading, lead=False), 240.0, 18.0, heading, 40.0, 700.0
    ).intercepts
    assert met.time_s == pytest.approx(plan.minutes * 60.0, abs=15.0)
    # the roll into the turn takes two seconds more than the plan's, at the closing speed
    late_nm = 2.0 * 100.0 / 3600.0 * np.sin(np.radians(heading - 40.0))
    assert plan.lead_nm <= met.overshoot_nm <= plan.lead_nm + 1.5 * late_nm


def test_a_turn_with_lead_does_not_overshoot() -> None:
    (met,) = told(Intercepting(70.0), 240.0, 15.0, 70.0, 40.0, 500.0).intercepts
    assert met.overshoot_dots == 0.0
    assert "without overshooting" in met.words


def test_chasing_the_needle_crosses_the_course_many_times() -> None:
    found = told(Chasing(), 225.0, 15.0, 40.0, 40.0, 900.0, Wind(310.0, 20.0))
    assert found.crossings >= 10
    (passed,) = found.passages
    assert not passed.held_heading


def test_a_course_left_and_met_again_is_two_attempts() -> None:
    def away_and_back(panel):
        if panel.time_s < 120.0:
            return heading_for(panel, 40.0)
        return heading_for(panel, 130.0 if panel.time_s < 260.0 else 340.0)

    def then_along(panel):
        on = panel.time_s > 260.0 and abs(panel.dots) < 1.0
        return heading_for(panel, 40.0) if on else away_and_back(panel)

    found = told(then_along, 220.0, 22.0, 40.0, 40.0, 900.0)
    first, second = found.phases[:2]
    assert first.end_s == pytest.approx(120.0, abs=10.0)
    assert first.largest_off_deg < 1.0
    assert second.begin_s > 300.0
    (met,) = found.intercepts
    assert first.end_s < met.time_s <= second.begin_s + 30.0


def test_a_turn_that_ends_beyond_the_line_is_not_a_turn_away_from_it() -> None:
    (met,) = told(Intercepting(100.0, lead=False), 240.0, 18.0, 100.0, 40.0, 700.0).intercepts
    found = told(Intercepting(100.0, lead=False), 240.0, 18.0, 100.0, 40.0, 700.0)
    assert met.overshoot_deg > 0.0
    assert found.wrong_turns == ()


# ---- station passage


def test_a_passage_is_the_first_complete_reversal_of_the_flag() -> None:
    flight = flown(Homing(), 225.0, 12.0, 40.0, 40.0, 700.0)
    (passed,) = debrief(flight.flight, QLN, flight.course_deg).passages
    flags = np.asarray(flight.reading.flag)
    first_from = np.argmax(flags == v.Flag.FROM)
    assert passed.time_s == flight.flight.time_s[first_from]
    assert passed.overhead
    assert passed.distance_nm < 0.1
    assert passed.held_heading
    assert passed.course_changed_s is None


def test_a_station_is_passed_whatever_course_is_selected() -> None:
    onward = flown(Homing(), 225.0, 12.0, 40.0, 40.0, 700.0)
    (passed,) = debrief(onward.flight, QLN, 40.0).passages
    assert passed.flags == (v.Flag.TO, v.Flag.FROM)
    (back,) = debrief(onward.flight, QLN, 220.0).passages
    assert back.flags == (v.Flag.FROM, v.Flag.TO)
    assert back.overhead
    assert back.time_s == pytest.approx(passed.time_s, abs=1.0)
    assert "over the station: the flag reversed from FROM to TO" in back.words
    turned = np.where(onward.flight.time_s < passed.nearest_s, 40.0, 220.0)
    (still,) = debrief(onward.flight, QLN, turned).passages
    assert "the flag read TO before it and after it" in still.words


def test_a_course_turned_about_in_the_cone_by_one_who_turns_back_passes_nothing() -> None:
    there = QLN.position_on(220.0, np.array([0.9, 0.7, 0.5, 0.5, 0.7, 0.9]), 3500.0)
    time_s, level = 10.0 * np.arange(6.0), np.zeros(6)
    flight = Flight(time_s, there, level, level, level)
    assert debrief(flight, QLN, [40.0, 40.0, 40.0, 220.0, 220.0, 220.0]).passages == ()
    reasons = v.Receiver(40.0).read(QLN, there).reason
    assert v.Reason.CONE in reasons[2:4]


def test_the_new_course_after_a_passage_is_timed() -> None:
    flight = flown(Homing(), 225.0, 12.0, 40.0, 40.0, 700.0)
    (passed,) = debrief(flight.flight, QLN, flight.course_deg).passages
    course = np.where(flight.flight.time_s >= passed.time_s + 12.0, 90.0, flight.course_deg)
    (acted,) = debrief(flight.flight, QLN, course).passages
    assert acted.course_changed_s == pytest.approx(12.0, abs=0.11)


def test_turning_the_course_selector_is_no_passage() -> None:
    flight = flown(Tracking(), 220.0, 15.0, 40.0, 40.0, 60.0)
    course = np.where(flight.flight.time_s > 30.0, 220.0, 40.0)
    assert debrief(flight.flight, QLN, course).passages == ()


def test_tuning_another_station_is_no_passage() -> None:
    flight = flown(Tracking(), 220.0, 10.0, 40.0, 40.0, 60.0)
    behind = replace(QLN, ident="BHD", position=QLN.position_on(220.0, 20.0))
    tuned = [QLN if t <= 30.0 else behind for t in flight.flight.time_s]
    found = debrief(flight.flight, tuned, 40.0)
    assert found.passages == ()
    assert {phase.flag for phase in found.phases} == {v.Flag.TO, v.Flag.FROM}


def test_a_station_passed_abeam_is_said_to_be_so() -> None:
    def straight(panel):
        return heading_for(panel, 40.0)

    (passed,) = told(straight, 200.0, 8.0, 40.0, 40.0, 700.0).passages
    assert not passed.overhead
    assert "abeam the station, 2.7 NM from it" in passed.words


# ---- short, empty, odd


def test_an_empty_flight_has_a_clear_answer() -> None:
    found = debrief(record([], AIRCRAFT), QLN, 40.0)
    assert found == Debrief()
    assert found.sentences == ("The flight is too short to say anything about it: it lasted 0 s.",)


@pytest.mark.parametrize("seconds", [0.1, 0.2, 5.0, 12.0])
def test_a_short_flight_has_a_clear_answer(seconds) -> None:
    found = told(Tracking(), 220.0, 15.0, 40.0, 40.0, seconds)
    assert found.duration_s == pytest.approx(seconds)
    assert found.sentences


def test_a_flight_over_the_station_itself_has_no_nan() -> None:
    found = told(Tracking(), 360.0, 0.0, 40.0, 40.0, 300.0)
    assert "nan" not in " ".join(found.sentences)


def test_a_flight_blown_backwards_has_no_nan() -> None:
    found = told(Tracking(), 220.0, 10.0, 40.0, 40.0, 300.0, Wind(40.0, 130.0))
    assert "nan" not in " ".join(found.sentences)


def test_as_many_courses_as_moments_are_wanted() -> None:
    flight = flown(Tracking(), 220.0, 15.0, 40.0, 40.0, 10.0).flight
    with pytest.raises(ValueError, match="course_deg must have shape"):
        debrief(flight, QLN, [40.0, 50.0])
    with pytest.raises(ValueError, match="station must be one"):
        debrief(flight, [QLN], 40.0)


# ---- outside the service volume


def test_a_stretch_outside_the_service_volume_is_told_and_is_not_off() -> None:
    # 100 knots outbound from 35 NM: 40 NM, where class L ends, comes after three minutes.
    place = QLN.position_on(40.0, np.linspace(35.0, 45.0, 361), 3500.0)
    heading = np.full(361, 40.0 + QLN.declination_deg)
    flight = Flight(np.arange(361.0), place.at_altitude(3500.0), heading, heading, 0.0 * heading)
    found = debrief(flight, QLN, 40.0)
    (stretch,) = found.unassured
    assert (stretch.begin_s, stretch.end_s) == (pytest.approx(180.0, abs=2.0), 360.0)
    assert "outside the service volume of Quillon" in stretch.words
    assert stretch.words in found.sentences
    (phase,) = found.phases
    assert phase.end_s == 360.0  # the needle lives on and is tracked
    near = debrief(flight, replace(QLN, service="H", position=QLN.position_on(40.0, 20.0)), 40.0)
    assert near.unassured == ()
