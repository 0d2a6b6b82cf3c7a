"""Playing a flight: the time shown is the clock's, and what is shown is the state's."""

import asyncio
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from vorlib.exhibits import flight, homing, intercept, sensing, tracking
from vorlib.exhibits.base import clock as clock_module
from vorlib.exhibits.base import transport
from vorlib.exhibits.messages.at_rest import REST_S
from vorlib.exhibits.replay import playback
from vorlib.exhibits.replay.replay import DRAWN_WITHIN_NM, corners

FACTORIES = [homing, intercept, tracking, sensing]
EVERY_FLIGHT = pytest.mark.parametrize("factory", FACTORIES, ids=lambda f: f.__name__)
EXHIBIT = sensing  # whichever; the quickest to fly


class Clock:
    """A clock that stands in for time and sleep: each frame comes when it says."""

    def __init__(self, frame_s):
        self.now, self.frame_s = 100.0, frame_s

    def monotonic(self):
        return self.now

    async def sleep(self, seconds):
        self.now += self.frame_s
        await REAL_SLEEP(0)


REAL_SLEEP = asyncio.sleep


@pytest.fixture
def clock(monkeypatch):
    """A clock whose frames come every 40 ms, unless told otherwise."""
    clock = Clock(0.04)
    monkeypatch.setattr(clock_module.time, "monotonic", clock.monotonic)
    monkeypatch.setattr(clock_module.asyncio, "sleep", clock.sleep)
    return clock


def watched(exhibit):
    """Answer for a browser that shows the picture."""
    picture = exhibit.picture
    picture.observe(lambda change: setattr(picture, "answered", change["new"]), "asked")
    return exhibit


async def play(exhibit, clock, seconds):
    begun = clock.now
    exhibit.transport.play()
    while clock.now - begun < seconds and exhibit.transport.playing:
        await REAL_SLEEP(0)
    return clock.now - begun


def button(exhibit, words):
    return exhibit.transport.button(words)


@pytest.mark.parametrize("frame_s", [0.04, 0.7])
@pytest.mark.parametrize("speed", [1.0, 20.0])
def test_the_time_shown_is_the_time_elapsed_times_the_speed_however_late_the_frames(
    clock, frame_s, speed
):
    clock.frame_s = frame_s
    exhibit = watched(EXHIBIT(speed=speed))
    elapsed = asyncio.run(play(exhibit, clock, 3.0))
    assert exhibit.state.time_s == pytest.approx(speed * elapsed, abs=speed * frame_s + 1e-6)


def test_a_pause_keeps_the_moment_and_play_goes_on_from_it(clock):
    async def story():
        await play(exhibit, clock, 2.0)
        exhibit.transport.pause()
        held = exhibit.state.time_s
        clock.now += 60.0
        await REAL_SLEEP(0)
        assert exhibit.state.time_s == held > 0.0
        await play(exhibit, clock, 2.0)
        assert held < exhibit.state.time_s < 2.5 * held

    exhibit = watched(EXHIBIT())
    asyncio.run(story())


def test_playing_stops_at_the_end_and_play_begins_again(clock):
    async def story():
        await play(exhibit, clock, 1e6)
        assert exhibit.state.time_s == exhibit.state.duration_s
        assert not exhibit.transport.playing
        assert button(exhibit, "Play")
        await play(exhibit, clock, 1.0)
        assert 0.0 < exhibit.state.time_s < 30.0

    exhibit = watched(EXHIBIT(speed=20.0))
    asyncio.run(story())


def test_a_flight_that_no_browser_shows_stops_by_itself(clock):
    exhibit = EXHIBIT(speed=1.0)
    elapsed = asyncio.run(play(exhibit, clock, 60.0))
    assert not exhibit.transport.playing
    assert elapsed == pytest.approx(transport.UNSEEN_S, abs=0.1)


def test_a_browser_that_comes_back_is_heard_again(clock):
    async def story():
        assert await play(exhibit, clock, long_s) < long_s
        watched(exhibit)
        return await play(exhibit, clock, long_s)

    exhibit, long_s = EXHIBIT(speed=1.0), 2.0 * transport.UNSEEN_S
    assert asyncio.run(story()) >= long_s


def test_when_the_kernel_stops_the_flight_stops_without_a_word():
    said = []

    async def story():
        asyncio.get_running_loop().set_exception_handler(lambda _, context: said.append(context))
        exhibit.transport.play()
        await REAL_SLEEP(0.1)

    exhibit = EXHIBIT()
    asyncio.run(story())
    assert not exhibit.transport.playing
    assert said == []


@EVERY_FLIGHT
def test_nothing_plays_before_play_is_pressed(factory):
    exhibit = factory()
    exhibit._repr_mimebundle_()
    assert not exhibit.transport.playing
    assert exhibit.state.time_s == 0.0


def test_outside_a_notebook_there_is_nothing_to_play_with():
    with pytest.raises(RuntimeError, match="no running event loop"):
        EXHIBIT().transport.play()


def test_a_hand_on_the_time_stops_the_play(clock):
    async def story():
        await play(exhibit, clock, 2.0)
        control.slider.value = 60
        assert not exhibit.transport.playing
        assert exhibit.state.time_s == 60.0

    exhibit = watched(EXHIBIT())
    control = exhibit.control("time_s")
    asyncio.run(story())


def test_a_step_is_one_second_and_none_leads_out_of_the_flight():
    exhibit = EXHIBIT()
    assert button(exhibit, "Back 1 s").disabled
    button(exhibit, "On 1 s").click()
    button(exhibit, "On 1 s").click()
    button(exhibit, "Back 1 s").click()
    assert exhibit.state.time_s == 1.0
    exhibit.transport.tick(1e6)
    assert exhibit.state.time_s == exhibit.state.duration_s
    assert button(exhibit, "On 1 s").disabled


def test_a_sentence_that_would_change_too_fast_is_held_and_hushed_until_the_pause(clock):
    async def story():
        seen = []
        exhibit.picture.observe(lambda change: seen.append(change["new"]), "sentence")
        elapsed = await play(exhibit, clock, 4.0)
        assert exhibit.picture.live_off
        assert len(seen) <= elapsed / transport.SENTENCE_S + 1
        exhibit.transport.pause()
        assert exhibit.picture.sentence == exhibit.sentence
        assert not exhibit.picture.live_off

    exhibit = watched(EXHIBIT(speed=20.0))
    asyncio.run(story())


@pytest.mark.parametrize("frame_s", [0.02, 0.1, 0.32, 0.7])
@pytest.mark.parametrize("factory", [sensing, flight], ids=lambda f: f.__name__)
def test_at_20_times_no_sentence_is_a_third_of_a_second_behind_its_picture(clock, factory, frame_s):
    async def story():
        said_at = {exhibit.sentence: clock.now}
        exhibit.transport.play()
        for _ in range(60):
            await REAL_SLEEP(0)
            said_at[exhibit.sentence] = clock.now
            assert clock.now - said_at[exhibit.picture.sentence] <= 1.0 / 3.0
        assert len(said_at) > 3
        exhibit.transport.pause()

    clock.frame_s = frame_s
    exhibit = watched(factory(speed=20.0))
    asyncio.run(story())


def test_another_wind_keeps_the_moment_while_the_flight_is_that_long():
    exhibit = homing(wind_kt=30.0, time_s=300.0)
    exhibit.set(wind_kt=10)
    assert exhibit.state.time_s == 300.0
    exhibit.set(time_s=exhibit.state.duration_s)
    exhibit.set(distance_nm=5)
    assert exhibit.state.shown_s == exhibit.state.duration_s < 300.0


def test_a_shorter_flight_is_no_hand_on_the_time():
    exhibit = homing(time_s=600.0)
    exhibit.set(distance_nm=5)
    time = exhibit.control("time_s")
    assert time.message == ""
    assert time.slider.max == time.high >= exhibit.state.duration_s


def test_a_time_beyond_the_flight_is_answered_beside_it():
    exhibit = EXHIBIT()
    exhibit.set(time_s=1e6)
    time = exhibit.control("time_s")
    assert "out of range. Enter a number from 0 to" in time.message
    assert exhibit.state.time_s == 0.0


@EVERY_FLIGHT
def test_every_picture_of_a_flight_is_small_enough_to_send_25_times_a_second(factory):
    exhibit = factory()
    for projector in (False, True):
        for time_s in np.linspace(0.0, exhibit.state.duration_s, 12):
            exhibit.set(time_s=float(time_s), projector=projector)
            assert len(exhibit.picture.svg) < 25_000


@EVERY_FLIGHT
def test_the_same_moment_looks_the_same_however_it_was_reached(factory):
    played, set_at_once = factory(), factory(time_s=100.0)
    for time_s in (7.3, 250.0, 42.0, 100.0):
        played.set(time_s=time_s)
    assert played.picture.svg == set_at_once.picture.svg
    assert played.sentence == set_at_once.sentence


@EVERY_FLIGHT
def test_the_track_drawn_is_thin_and_leads_to_the_aircraft(factory):
    state = factory().state
    for _, replay in state.replays:
        for time_s in (0.0, 33.3, replay.duration_s):
            track, now = replay.track(time_s), replay.at(time_s)
            assert 2 <= len(track.lat_deg) <= 200
            assert track.lat_deg[-1] == now.position.lat_deg
            assert track.lat_deg[0] == replay.flown.flight.position.lat_deg[0]


@given(
    st.lists(st.tuples(st.floats(-20, 20), st.floats(-20, 20)), min_size=2, max_size=40),
)
def test_a_thinned_line_stays_near_every_point_of_the_line(points):
    x, y = np.array(points).T
    kept = corners(x, y, DRAWN_WITHIN_NM)
    assert kept[0] == 0
    assert kept[-1] == len(points) - 1
    for first, last in pairwise(kept):
        for i in range(first, last + 1):
            assert _distance(points[i], points[first], points[last]) <= DRAWN_WITHIN_NM + 1e-9


def _distance(point, start, end):
    """From a point to the endless straight line, or to its start when it has no length."""
    (x, y), (x1, y1), (x2, y2) = point, start, end
    length = np.hypot(x2 - x1, y2 - y1)
    if length < DRAWN_WITHIN_NM:
        return np.hypot(x - x1, y - y1)
    return abs((x - x1) * (y2 - y1) - (y - y1) * (x2 - x1)) / length


def test_between_two_looks_the_aircraft_is_between_their_places():
    ((_, replay), *_) = EXHIBIT().state.replays
    before, middle, after = (float(replay.at(t).position.lat_deg) for t in (10.0, 10.25, 10.5))
    assert middle == pytest.approx((before + after) / 2, abs=1e-9)


def test_the_strip_chart_is_drawn_for_a_flight_and_not_for_each_moment(monkeypatch):
    drawn = []
    monkeypatch.setattr(playback, "strip_html", lambda flights, theme: drawn.append(flights) or "")
    exhibit = homing()
    assert drawn == []
    exhibit.set(chart=True)
    exhibit.set(time_s=100)
    exhibit.set(pilot="tracking")
    assert len(drawn) == 1
    exhibit.set(wind_kt=20)
    exhibit.set(projector=True)
    assert len(drawn) == 3


def test_while_a_hand_moves_the_strip_chart_waits_and_then_shows_the_last_flight(monkeypatch):
    drawn = []
    monkeypatch.setattr(playback, "strip_html", lambda flights, theme: drawn.append(flights) or "-")

    async def story():
        exhibit = homing(chart=True)
        for wind_kt in (10, 20, 30):
            exhibit.set(wind_kt=wind_kt)
        assert len(drawn) == 1
        await asyncio.sleep(2.0 * REST_S)
        assert drawn[1:] == [exhibit.state.replays]

    asyncio.run(story())


def test_the_strip_chart_says_what_it_shows_and_goes_when_it_is_closed():
    exhibit = homing(chart=True)
    assert 'aria-label="Strip chart of homing and tracking' in exhibit.page.html("below")
    exhibit.set(chart=False)
    assert exhibit.page.html("below") == ""


@EVERY_FLIGHT
def test_a_time_before_the_beginning_is_held_at_the_beginning(factory):
    state = factory().state
    assert replace(state, time_s=-5.0).shown_s == 0.0
    assert replace(state, time_s=1e9).shown_s == state.duration_s


def test_another_speed_does_not_move_the_time(clock):
    async def story():
        await play(exhibit, clock, 1.0)
        before = exhibit.state.time_s
        exhibit.set(speed=20.0)
        assert exhibit.state.time_s == before
        exhibit.transport.pause()

    exhibit = watched(EXHIBIT(speed=1.0))
    asyncio.run(story())
