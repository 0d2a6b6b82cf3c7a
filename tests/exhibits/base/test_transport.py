"""The player of time: one for flights that are replayed and for those flown by hand."""

import asyncio
import time

import pytest

from vorlib.exhibits import sensing
from vorlib.exhibits.base import transport
from vorlib.exhibits.base.picture_widget import PictureWidget
from vorlib.exhibits.base.transport import SPEEDS, Transport
from vorlib.exhibits.flown_by_hand.exhibit import flight

BOTH = pytest.mark.parametrize("factory", [sensing, flight], ids=lambda f: f.__name__)


class Shown:
    """Something with a picture, and as many seconds to play as are given."""

    def __init__(self, left_s):
        self.picture = PictureWidget(on_drag=lambda *_: None, on_steps=lambda _: None)
        self.left_s, self.moved_s = left_s, 0.0
        self.transport = Transport(self, self.move, {}, begin=lambda: self.left_s > 0.0)

    def move(self, seconds):
        self.moved_s += seconds
        self.left_s -= seconds
        return self.left_s > 0.0


def play(shown, seconds):
    async def run():
        shown.transport.play()
        await asyncio.sleep(seconds)
        shown.transport.pause()

    asyncio.run(run())


def time_of(exhibit):
    return exhibit.state.moment.time_s if hasattr(exhibit.state, "moment") else exhibit.state.time_s


@BOTH
def test_a_flight_is_moved_by_simulated_seconds_whatever_the_speed(factory):
    exhibit = factory(speed=20.0)
    exhibit.transport.tick(7.0)
    assert time_of(exhibit) == pytest.approx(7.0)


@BOTH
def test_the_speeds_offered_are_the_same_and_the_one_chosen_is_played(factory):
    exhibit = factory()
    speed = exhibit.control("speed")
    assert tuple(speed.options.values()) == SPEEDS
    exhibit.set(speed=20.0)
    begun = time.monotonic()
    play(exhibit, 0.4)
    played_s = time.monotonic() - begun
    assert 1.0 < time_of(exhibit) <= 20.0 * played_s
    assert exhibit.transport.play_button.description == "Play"


def test_the_button_says_what_it_will_do():
    shown = Shown(1e6)
    said = []
    shown.transport.play_button.observe(lambda change: said.append(change["new"]), "description")
    play(shown, 0.1)
    assert said == ["Pause", "Play"]
    assert shown.transport.button("Play") is shown.transport.play_button
    with pytest.raises(KeyError):
        shown.transport.button("Pause")


def test_nothing_is_played_where_nothing_is_left():
    shown = Shown(0.0)
    play(shown, 0.1)
    assert shown.moved_s == 0.0
    assert not shown.picture.live_off


def test_at_the_end_the_sentence_is_the_last_one_told():
    shown = Shown(0.2)
    shown.transport.tell("before")
    told = iter(range(1000))
    move = shown.move
    shown.transport = Transport(
        shown,
        lambda seconds: (shown.transport.tell(f"{next(told)}"), move(seconds))[1],
        {},
        begin=lambda: True,
    )

    async def run():
        shown.transport.play()
        while shown.transport.playing:
            await asyncio.sleep(0.01)

    asyncio.run(run())
    assert int(shown.picture.sentence) == next(told) - 1 > 0
    assert not shown.picture.live_off


def test_nobody_is_asked_who_watches_before_time_runs(monkeypatch):
    monkeypatch.setattr(transport, "ASK_S", 0.0)
    shown = Shown(1e6)
    assert shown.picture.asked == 0
    play(shown, 0.1)
    assert shown.picture.asked == 1  # and not again, as long as there is no answer
