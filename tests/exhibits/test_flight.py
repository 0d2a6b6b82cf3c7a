"""A flight by hand: what the hand asks for, what is kept, what is said."""

from __future__ import annotations

import asyncio
import re
from dataclasses import replace

import ipywidgets as widgets
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sight import is_away

from vorlib.aircraft.wind import Wind
from vorlib.core.angles import difference_deg
from vorlib.exhibits.flown_by_hand import tasks
from vorlib.exhibits.flown_by_hand.exhibit import draw, flight, sentence
from vorlib.exhibits.flown_by_hand.hand_flight import LONGEST_S, HandFlightState, flown
from vorlib.procedures.flying import fly
from vorlib.procedures.panel import Command, Panel
from vorlib.stations.archipelago import STATIONS
from vorlib.views.drawing.svg import to_svg
from vorlib.views.drawing.theme import PROJECTOR, SCREEN
from vorlib.vor.receiver import Flag

CALM = {"wind_kt": 0.0}


def apart_nm(one: HandFlightState, other: HandFlightState) -> float:
    a, b = one.moment, other.moment
    return float(
        replace(STATIONS["QLN"], position=a.position).distance_nm(b.position),
    )


# ---- flying


def test_the_bug_turns_the_aircraft_at_standard_rate_and_no_further() -> None:
    state = flown(HandFlightState(wanted_heading_deg=40.0, **CALM), 10.0)
    turning = flown(replace(state, wanted_heading_deg=130.0), 12.0)
    assert 3.0 * 9.0 < float(difference_deg(turning.heading_deg, 40.0)) < 3.0 * 12.0
    assert flown(turning, 60.0).heading_deg == pytest.approx(130.0, abs=0.1)


def test_the_shorter_way_round_is_turned() -> None:
    state = flown(HandFlightState(wanted_heading_deg=10.0, **CALM), 1.0)
    assert flown(replace(state, wanted_heading_deg=330.0), 5.0).moment.bank_deg < 0.0


def test_a_bank_is_held_until_it_is_taken_off() -> None:
    state = flown(HandFlightState(by_bank=True, wanted_bank_deg=15.0, **CALM), 130.0)
    assert state.moment.bank_deg == 15.0
    assert flown(replace(state, wanted_bank_deg=0.0), 5.0).moment.bank_deg == 0.0


@settings(max_examples=20, deadline=None)
@given(st.lists(st.floats(0.001, 30.0), min_size=1, max_size=12))
def test_the_flight_is_the_same_however_time_is_dealt_out(steps: list[float]) -> None:
    state = flown(HandFlightState(wanted_heading_deg=40.0), 0.05)
    state = replace(state, wanted_heading_deg=100.0)
    at_once, in_steps = flown(state, sum(steps)), state
    for seconds in steps:
        in_steps = flown(in_steps, seconds)
    assert in_steps.moment.time_s == pytest.approx(at_once.moment.time_s, abs=1e-6)
    assert apart_nm(at_once, in_steps) < 1e-6
    assert abs(len(at_once.log) - len(in_steps.log)) <= 1


def test_a_hand_flies_as_the_pilots_do() -> None:
    state = HandFlightState(wanted_heading_deg=40.0, wind_kt=20.0)
    state = replace(flown(state, 0.1), wanted_heading_deg=75.0)

    def hand(panel: Panel) -> Command:
        return Command(75.0, panel.course_deg)

    pilot = fly(
        hand,
        state.aircraft,
        state.moment,
        state.tuned,
        40.0,
        60.0,
        wind=Wind(310.0 + state.variation_deg, 20.0),
        variation_deg=state.variation_deg,
    )
    mine = flown(state, 60.1).moment
    there = pilot.flight.position
    # the hand is heard a look later than the pilot
    where = replace(state.tuned, position=mine.position)
    end = type(there)(there.lat_deg[-1], there.lon_deg[-1], there.altitude_ft[-1])
    assert where.distance_nm(end) < 0.01


def test_one_moment_a_second_is_kept_with_what_was_set() -> None:
    state = flown(HandFlightState(course_deg=40.0), 5.0)
    state = flown(replace(state, course_deg=55.0), 5.0)
    assert [round(m.now.time_s) for m in state.log] == list(range(11))
    assert [m.course_deg for m in state.log] == [40.0] * 6 + [55.0] * 5


def test_the_track_drawn_is_thinned_and_ends_at_the_aircraft() -> None:
    state = flown(HandFlightState(), 3000.0)
    assert state.track.shape[0] <= 202
    assert state.track.lat_deg[-1] == state.moment.lat_deg


# ---- awkward places


@pytest.mark.parametrize(
    "start",
    [
        {"start_radial_deg": 220.0, "course_deg": 40.0},
        {"start_distance_nm": 0.0},
        {"start_distance_nm": 60.0},
        {"wind_kt": 140.0, "wind_from_deg": 40.0},
        {"start_distance_nm": 1.0, "by_bank": True, "wanted_bank_deg": 20.0},
        {"altitude_ft": 0.0},
    ],
)
@pytest.mark.parametrize("show_plan", [True, False])
def test_no_start_and_no_wind_makes_a_picture_or_sentence_without_sense(start, show_plan) -> None:
    state = HandFlightState(show_plan=show_plan, show_wind=True, **start)
    for _ in range(4):
        said, svg = sentence(state), to_svg(draw(state, SCREEN))
        assert "nan" not in said.lower()
        assert not re.search(r"\bnan\b|\binf\b", svg)
        state = flown(state, 61.7)


def test_a_wind_as_strong_as_the_airspeed_is_said_to_be_so() -> None:
    state = HandFlightState(wind_kt=120.0, wind_from_deg=40.0)
    assert "you make no way" in sentence(state)
    assert flown(state, 600.0).reading.distance_nm > 12.0


def test_leaving_the_service_volume_is_said() -> None:
    exhibit = flight(start_distance_nm=39.0, wanted_heading_deg=220.0, wind_kt=0.0)
    exhibit.transport.tick(120.0)
    assert exhibit.state.reading.flag == Flag.TO
    assert "outside the service volume of a VOR of class L (40 NM" in exhibit.sentence
    assert "Do not rely on it" in exhibit.sentence
    assert "needle not assured" in to_svg(draw(exhibit.state, SCREEN))


def test_a_flight_ends_after_three_hours() -> None:
    state = HandFlightState(by_bank=True, wanted_bank_deg=20.0)
    near = replace(state, now=replace(state.moment, time_s=LONGEST_S - 5.0))
    end = flown(near, 1000.0)
    assert end.over
    assert flown(end, 10.0).moment == end.moment
    assert "three hours" in sentence(end)


# ---- the exhibit


def test_keys_and_buttons_turn_the_bug_by_five_degrees_and_by_one() -> None:
    exhibit = flight(wanted_heading_deg=40.0)
    exhibit.transport.tick(1.0)
    exhibit.step("heading", 2)
    assert exhibit.state.wanted_heading_deg == 50.0
    exhibit.step("aircraft", -1, -1)
    assert exhibit.state.wanted_heading_deg == 44.0
    exhibit.set(by_bank=True)
    exhibit.step("heading", 9)
    assert exhibit.state.wanted_bank_deg == 20.0


@pytest.mark.parametrize(("show_plan", "left"), [(True, 496.0), (False, 0.0)])
def test_the_ring_and_the_card_are_turned_by_hand(show_plan, left) -> None:
    exhibit = flight(show_plan=show_plan, wanted_heading_deg=40.0, course_deg=40.0)
    exhibit.transport.tick(1.0)
    x, y = left + 170.0, 228.0
    exhibit.drag("ring", (x, y - 100.0), (x + 100.0, y))
    assert exhibit.state.course_deg == 310.0
    x += 356.0
    exhibit.drag("heading", (x, y - 100.0), (x + 100.0, y))
    assert exhibit.state.wanted_heading_deg == 130.0


def test_the_start_moves_only_before_the_flight_has_begun() -> None:
    exhibit = flight()
    exhibit.set(start_radial_deg=300.0, start_distance_nm=5.0)
    assert exhibit.state.reading.radial_deg == pytest.approx(300.0)
    exhibit.transport.tick(10.0)
    before = exhibit.state.moment
    exhibit.set(start_radial_deg=100.0)
    assert exhibit.state.moment == before
    exhibit.restart()
    assert exhibit.state.reading.radial_deg == pytest.approx(100.0)
    assert len(exhibit.state.log) == 1


def test_without_the_plan_the_place_is_not_given_away() -> None:
    assert "NM" not in sentence(HandFlightState(show_plan=False))
    assert "NM" in sentence(HandFlightState())


def test_both_themes_draw_and_the_heading_is_told_in_words() -> None:
    for theme in (SCREEN, PROJECTOR):
        picture = draw(HandFlightState(show_plan=False), theme)
        assert "Heading 040, wanted 040." in picture.description


def test_nothing_plays_by_itself_and_playing_wants_a_loop() -> None:
    exhibit = flight()
    assert not exhibit.transport.playing
    assert exhibit.state.moment.time_s == 0.0
    with pytest.raises(RuntimeError):
        exhibit.transport.play()
    assert not exhibit.transport.playing


def test_a_pause_keeps_the_state_and_play_goes_on_from_it() -> None:
    exhibit = flight(speed=20.0)
    times = []

    async def run() -> None:
        for _ in range(2):
            begun_s = exhibit.state.moment.time_s
            exhibit.transport.play()
            while exhibit.state.moment.time_s <= begun_s + 2.0:
                await asyncio.sleep(0.05)
            exhibit.transport.pause()
            times.append(exhibit.state.moment.time_s)
            await asyncio.sleep(0.2)
            assert exhibit.state.moment.time_s == times[-1]

    asyncio.run(run())
    assert times[0] < times[1]
    assert not exhibit.picture.live_off


def test_a_browser_that_no_longer_answers_stops_the_flight(monkeypatch) -> None:
    monkeypatch.setattr("vorlib.exhibits.base.transport.ASK_S", 0.05)
    monkeypatch.setattr("vorlib.exhibits.base.transport.UNSEEN_S", 0.2)
    exhibit = flight()

    async def run() -> None:
        exhibit.transport.play()
        async with asyncio.timeout(120.0):
            while exhibit.transport.playing:
                await asyncio.sleep(0.05)

    asyncio.run(run())
    assert not exhibit.transport.playing
    assert 0.0 < exhibit.state.moment.time_s < 5.0


def test_a_wrong_entry_is_answered_beside_the_control() -> None:
    exhibit = flight()
    exhibit.set(wind_kt=1000.0)
    assert exhibit.state.wind_kt == 15.0
    assert any("out of range" in control.message for control in exhibit.controls)


# ---- tasks


def test_tasks_are_ticked_off_one_after_the_other() -> None:
    exhibit = flight(
        wind_kt=0.0,
        tasks=[
            tasks.tune("QLN"),
            tasks.identify("QLN"),
            tasks.intercept("QLN", 40.0),
            tasks.pass_over("QLN", 40.0),
            tasks.track_out("QLN", 40.0, 5.0),
        ],
    )
    assert exhibit.state.tasks_done == 1
    exhibit.identify()
    assert exhibit.state.tasks_done == 3
    assert "Task 4 of 5: Fly to Quillon" in exhibit.sentence
    exhibit.transport.tick(470.0)
    assert exhibit.state.tasks_done == 4
    exhibit.transport.tick(200.0)
    assert exhibit.state.task is None
    assert "All tasks are done." in exhibit.sentence


def test_tuning_another_station_asks_for_its_ident_anew() -> None:
    exhibit = flight(tasks=[tasks.tune("HTX"), tasks.identify("HTX")])
    exhibit.identify()
    exhibit.set(station="HTX")
    assert exhibit.state.heard == ""
    assert exhibit.state.tasks_done == 1


# ---- the debrief


def test_the_debrief_tells_of_the_learners_own_flight() -> None:
    exhibit = flight(wind_kt=0.0)
    exhibit.transport.tick(300.0)
    assert exhibit.page.html("below") == ""
    exhibit.debrief()
    told = exhibit.page.html("below")
    assert "tracked the 220 radial of Quillon inbound" in told
    assert "<table>" in told
    assert "Strip chart of 5 min" in told
    exhibit.restart()
    assert exhibit.page.html("below") == ""


@pytest.mark.parametrize("seconds", [0.0, 0.3, 2.0])
def test_a_debrief_at_once_says_that_there_is_little_to_say(seconds) -> None:
    exhibit = flight()
    exhibit.transport.tick(seconds)
    exhibit.debrief()
    assert "too short" in exhibit.page.html("below")


def test_the_ident_heard_can_be_listened_to_until_another_station_is_tuned() -> None:
    exhibit = flight()
    assert exhibit.page.html("below") == ""
    exhibit.identify()
    assert "autoplay" in exhibit.page.html("below")
    assert "--.- .-.. -." in exhibit.page.html("below")
    exhibit.set(station="HTX")
    assert exhibit.page.html("below") == ""


def test_an_ident_that_is_heard_makes_no_widget_to_be_kept() -> None:
    exhibit = flight()
    made = []
    widgets.Widget.on_widget_constructed(made.append)
    try:
        for station in ("QLN", "HTX", "QLN"):
            exhibit.set(station=station)
            exhibit.identify()
    finally:
        widgets.Widget.on_widget_constructed(None)
    assert made == []
    assert "autoplay" in exhibit.page.html("below")


def test_a_flight_may_begin_with_another_station_tuned_than_it_starts_from() -> None:
    state = flight("HTX", start_station="QLN", start_radial_deg=90.0, start_distance_nm=5.0).state
    assert state.station == "HTX"
    assert STATIONS["QLN"].distance_nm(state.moment.position) == pytest.approx(5.0)


def test_no_more_than_three_tasks_are_listed_and_they_keep_their_numbers() -> None:
    exhibit = flight(tasks=[tasks.tune("QLN")] * 5 + [tasks.tune("HTX")])
    assert exhibit.page.html("task").count("<li>") == 3
    assert '<ol start="4">' in exhibit.page.html("task")


def test_a_flight_is_told_and_charted_for_a_page_without_a_kernel(capsys) -> None:
    exhibit = flight(wind_kt=0.0)
    exhibit.tell()
    assert "too short" in capsys.readouterr().out
    exhibit.transport.tick(300.0)
    exhibit.tell()
    assert "tracked the 220 radial of Quillon inbound" in capsys.readouterr().out
    assert exhibit.chart().data.startswith(b"\x89PNG")


def test_a_course_is_flown_along_by_the_stations_north_whatever_the_compass_says() -> None:
    # Tessarin was lined up 4.7 degrees from the north of the day
    north = (
        HandFlightState("TSX", start_station="TSX").variation_deg - STATIONS["TSX"].declination_deg
    )
    start = {"start_radial_deg": 205.0, "start_distance_nm": 10.0, "altitude_ft": 5500.0}
    start |= {"course_deg": 25.0, "wanted_heading_deg": 25.0 - north - 21.0, "wind_kt": 0.0}
    exhibit = flight("TSX", tasks=[tasks.intercept("TSX", 25.0)], **start)
    exhibit.transport.tick(0.5)
    assert exhibit.state.tasks_done == 0
    exhibit.set(wanted_heading_deg=25.0 - north - 19.0)
    exhibit.transport.tick(3.0)
    assert exhibit.state.tasks_done == 1


def test_a_heading_set_before_the_start_undoes_no_task() -> None:
    exhibit = flight(tasks=[tasks.orient("QLN"), tasks.intercept("QLN", 40.0)], course_deg=220.0)
    assert exhibit.state.tasks_done == 1
    exhibit.set(course_deg=10.0)
    exhibit.set(wanted_heading_deg=300.0)
    assert exhibit.state.tasks_done == 1
    exhibit.restart()
    assert exhibit.state.course_deg == 220.0
    assert exhibit.state.tasks_done == 1


def test_start_again_restores_what_was_set_in_flight() -> None:
    exhibit = flight(course_deg=220.0, wanted_heading_deg=90.0)
    start = exhibit.state
    exhibit.transport.tick(30.0)
    exhibit.set(station="TSX", course_deg=10.0, wanted_heading_deg=180.0)
    exhibit.transport.tick(30.0)
    exhibit.transport.button("Start again").click()
    assert exhibit.state == start


def test_a_flight_of_some_length_is_thrown_away_only_when_that_is_asked_for_twice() -> None:
    exhibit = flight()
    again = exhibit.transport.button("Start again")
    exhibit.transport.tick(600.0)
    again.click()
    assert exhibit.state.moment.time_s == 600.0
    assert again.description == "Throw this flight away?"
    again.click()
    assert not exhibit.state.begun
    assert again.description == "Start again"


def test_wind_and_start_are_put_away_until_they_are_asked_for() -> None:
    exhibit = flight()
    wind = exhibit.control("wind_kt")
    (set_up,) = exhibit.page["more"]
    assert wind.widget in set_up.children
    assert is_away(set_up)
    exhibit.page.fold.value = True
    assert not is_away(set_up)
    exhibit.set(wind_kt=1000.0)
    assert "out of range" in wind.message
