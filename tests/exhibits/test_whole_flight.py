"""The route of the whole flight: its plan, and that a simple hand ticks every task off."""

from __future__ import annotations

from dataclasses import replace
from math import cos, hypot, radians, sin

import pytest

from vorlib.aircraft.wind import CALM
from vorlib.core.angles import difference_deg
from vorlib.exhibits.flown_by_hand.debrief import findings
from vorlib.exhibits.flown_by_hand.flight_exhibit import FlightExhibit
from vorlib.exhibits.flown_by_hand.whole_flight import (
    briefing,
    flight_plan,
    flown_by_pilots,
    lead_at_the_fix,
    short_leg,
    whole_flight,
)
from vorlib.stations.archipelago import AIRFIELDS, STATIONS
from vorlib.vor.receiver import Flag


def follow(exhibit: FlightExhibit, until, hold_deg: float, gain: float = 3.0) -> None:
    """Fly toward the needle: a hand that knows no more than needle, flag and its own heading."""
    for _ in range(1000):
        state = exhibit.state
        if until(state):
            return
        dots = float(state.reading.dots) if state.reading.flag != Flag.OFF else 0.0
        correction = max(-35.0, min(35.0, gain * 2.0 * dots))
        exhibit.set(wanted_heading_deg=hold_deg + correction)
        exhibit.transport.tick(4.0)
    raise AssertionError(f"still at task {exhibit.state.tasks_done + 1}: {exhibit.sentence}")


def done(count: int):
    return lambda state: state.tasks_done >= count


def test_a_simple_hand_flies_every_task_of_the_route_to_its_end() -> None:
    exhibit = whole_flight()
    assert exhibit.state.tasks_done == 0
    exhibit.set(station="QLN")
    exhibit.identify()
    assert exhibit.state.tasks_done == 2
    exhibit.set(course_deg=235.0)
    assert exhibit.state.tasks_done == 3
    exhibit.set(course_deg=40.0)
    follow(exhibit, done(6), 33.0)
    exhibit.set(course_deg=90.0)
    follow(exhibit, done(7), 85.0)
    exhibit.set(station="TSX")
    exhibit.identify()
    exhibit.set(course_deg=float(exhibit.state.reading.radial_deg))
    assert exhibit.state.tasks_done == 10
    exhibit.set(station="QLN", course_deg=90.0)
    follow(exhibit, done(11), 83.0)
    exhibit.set(station="TSX", course_deg=205.0)
    for _ in range(200):
        if exhibit.state.tasks_done == 12:
            break
        exhibit.transport.tick(4.0)
    exhibit.set(course_deg=25.0)
    follow(exhibit, done(15), 10.0)
    exhibit.set(course_deg=67.0)
    follow(exhibit, done(17), 53.0)
    assert exhibit.state.task is None
    assert exhibit.state.moment.time_s < 3600.0
    exhibit.debrief()
    assert "passed Tessarin" in exhibit.page.html("below")


def test_the_pilots_of_the_library_fly_it_too_and_turn_no_wrong_way() -> None:
    exhibit = flown_by_pilots()
    assert exhibit.state.task is None
    found = findings(exhibit.state)
    assert not found.wrong_turns
    assert [p.station_name for p in found.passages] == ["Quillon", "Tessarin"]
    assert all(passage.overhead for passage in found.passages)


def test_the_short_leg_is_flown_in_calm_air() -> None:
    exhibit = short_leg()
    exhibit.identify()
    follow(exhibit, done(3), 40.0)
    assert exhibit.state.moment.time_s < 600.0


def test_the_plan_leads_from_station_to_fix_to_station_to_field() -> None:
    plan = flight_plan()
    first, second = STATIONS["QLN"], STATIONS["TSX"]
    fix = plan.legs[1].end
    assert first.radial_deg(fix) == pytest.approx(90.0, abs=1e-3)
    assert second.radial_deg(fix) == pytest.approx(205.0, abs=1e-3)
    # the field lies off the last radial by less than it is wide
    landing = AIRFIELDS["9TES"].position
    off = float(difference_deg(second.radial_deg(landing), plan.legs[-1].course_deg))
    assert abs(off) < 1.0


def test_a_planned_heading_makes_good_its_track_in_the_forecast_wind() -> None:
    plan = flight_plan()
    for leg in plan.legs:
        expected = plan.expected(leg)
        heading = radians(expected.heading_deg + plan.variation_deg)
        blowing = radians(float(plan.wind.from_deg))
        speed, wind = plan.aircraft.true_airspeed_kt, float(plan.wind.speed_kt)
        north = speed * cos(heading) - wind * cos(blowing)
        east = speed * sin(heading) - wind * sin(blowing)
        assert hypot(north, east) == pytest.approx(expected.groundspeed_kt, abs=1e-6)
        track = radians(expected.true_track_deg)
        assert north * sin(track) == pytest.approx(east * cos(track), abs=1e-6)


def test_in_calm_air_headings_differ_from_courses_by_declination_less_variation() -> None:
    # Tessarin's declination is 14 west, the day's variation 9.3 west: 4.7 degrees. Courses are
    # counted at the station, so that over a long leg the meridians' convergence comes in.
    plan = replace(flight_plan(), wind=CALM)
    onward = plan.legs[2]
    drift = float(difference_deg(plan.expected(onward).heading_deg, onward.course_deg))
    assert drift == pytest.approx(-14.0 - plan.variation_deg, abs=0.2)


def test_the_card_has_idents_in_morse_and_the_leads() -> None:
    card = briefing()
    assert "--.- .-.. -." in card
    assert "- ... -..-" in card
    assert f"begin the turn {lead_at_the_fix().lead_deg:.1f} degrees" in card


def test_without_a_leg_there_is_no_plan() -> None:
    with pytest.raises(ValueError, match="at least one leg"):
        replace(flight_plan(), legs=())


def test_a_flight_cut_short_is_told_which_task_comes_next() -> None:
    exhibit = whole_flight()
    exhibit.transport.tick(90.0)
    exhibit.debrief()
    shown = exhibit.page.html("below")
    assert "0 of the 17 tasks are done. The next one was: Tune Quillon" in shown
    assert "Hathery was tuned and you did not identify it" in shown


def test_a_station_out_of_reach_is_heard_as_silence() -> None:
    exhibit = whole_flight()
    exhibit.set(station="HTX", altitude_ft=0.0, start_radial_deg=235.0, start_distance_nm=60.0)
    assert exhibit.state.reading.flag == Flag.OFF
    exhibit.identify()
    assert "You listen for Hathery and hear no ident. Do not use it." in exhibit.sentence
    assert exhibit.state.heard == ""
    exhibit.set(station="QLN")
    assert "hear no ident" not in exhibit.sentence


def test_the_card_has_the_radial_of_the_cross_check() -> None:
    plan, second = flight_plan(), STATIONS["TSX"]
    there = plan.legs[1].station.position_on(90.0, 10.0)
    radial = f"{round(float(second.radial_deg(there))):03d}"
    assert f"Cross-check on 090, 10 NM from Quillon: Tessarin {radial}" in briefing()
