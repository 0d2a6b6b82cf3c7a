"""Events faster than pictures: the newest is shown, and the ones between are left out."""

import asyncio
import time
from types import SimpleNamespace

import pytest
from kernels import printed, tell

from vorlib.exhibits import indicator
from vorlib.exhibits.messages.coalesce import LatestOnly

EVENTS = 60
SLOW_DRAW_S = 0.03


def fast(events, call):
    """Let events queue up in an event loop faster than they can be dealt with."""

    async def run():
        loop = asyncio.get_running_loop()
        for number in range(events):
            loop.call_later(0.001 * number, call, number)
        await asyncio.sleep(0.001 * events + 10 * SLOW_DRAW_S)

    asyncio.run(run())


@pytest.fixture
def slow(monkeypatch):
    """An exhibit that takes long to draw, and the states that it drew."""
    exhibit, drawn = indicator(course_deg=300.0), []
    draw = exhibit.draw

    def slowly(state, theme):
        time.sleep(SLOW_DRAW_S)
        drawn.append(state)
        return draw(state, theme)

    monkeypatch.setattr(exhibit, "draw", slowly)
    return exhibit, drawn


def test_a_fast_drag_over_a_slow_picture_draws_little_and_ends_where_the_hand_is(slow):
    exhibit, drawn = slow

    def drag(number):
        at = {"id": 1, "grab": "aircraft", "x0": 0.0, "y0": 0.0, "x": float(number), "y": -number}
        exhibit.picture.set_state({"hand": {"view": "a", "drag": at, "steps": {}}})

    fast(EVENTS, drag)
    assert len(drawn) <= EVENTS / 6
    at_once = indicator(course_deg=300.0)
    at_once.picture.set_state(exhibit.picture.get_state(["hand"]))
    assert exhibit.state == drawn[-1] == at_once.state
    assert exhibit.picture.svg == at_once.picture.svg


def test_a_fast_slider_over_a_slow_picture_draws_little_and_ends_at_its_last_value(slow):
    exhibit, drawn = slow
    slider = exhibit.control("course_deg").slider
    fast(EVENTS, lambda number: setattr(slider, "value", float(number + 1)))
    assert len(drawn) <= EVENTS / 6
    assert exhibit.state.course_deg == drawn[-1].course_deg == slider.value == EVENTS


def test_steps_left_out_are_counted_all_the_same(slow):
    exhibit, _ = slow

    def step(number):
        steps = {"ring": [0, number + 1]}
        exhibit.picture.set_state({"hand": {"view": "a", "drag": None, "steps": steps}})

    fast(EVENTS, step)
    assert exhibit.state.course_deg == 360.0  # 300 and a degree for each


def test_events_whose_work_takes_no_time_are_all_dealt_with_in_their_order(monkeypatch):
    # By a clock that stands still, whatever else the machine has to do meanwhile.
    still = SimpleNamespace(monotonic=lambda: 1.0)
    monkeypatch.setattr("vorlib.exhibits.messages.coalesce.time", still)
    seen = []
    fast(EVENTS, LatestOnly(seen.append))
    assert seen == list(range(EVENTS))


def test_without_an_event_loop_nothing_waits():
    seen = []
    newest = LatestOnly(lambda event: (time.sleep(0.001), seen.append(event)))
    for number in range(5):
        newest(number)
    assert seen == [0, 1, 2, 3, 4]


KERNEL = f"""
import asyncio, time
from vorlib.exhibits import indicator
exhibit, draws = indicator(course_deg=300.0), 0
draw = exhibit.draw
def slowly(state, theme):
    global draws
    time.sleep({SLOW_DRAW_S}); draws += 1
    return draw(state, theme)
exhibit.draw = slowly
print(exhibit.picture.comm.comm_id)
"""
RESULT = "await asyncio.sleep(0.5); print(draws, exhibit.state.course_deg)"


def test_what_has_queued_up_in_a_kernel_is_not_drawn_piece_by_piece(client):
    comm = printed(client, KERNEL).strip()
    for number in range(EVENTS):
        hand = {"view": "a", "drag": None, "steps": {"ring": [0, number + 1]}}
        tell(client, comm, hand=hand)
    draws, course_deg = printed(client, RESULT).split()
    assert float(course_deg) == 360.0
    assert 1 <= int(draws) <= EVENTS / 4
