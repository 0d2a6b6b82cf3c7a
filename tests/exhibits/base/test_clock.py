"""The clock of exhibits that play: simulated time keeps up, pauses and ends quietly."""

from __future__ import annotations

import asyncio
import time

import pytest

from vorlib.exhibits.base.clock import Clock


def played(clock: Clock, seconds: float) -> None:
    async def run() -> None:
        clock.play()
        await asyncio.sleep(seconds)
        clock.pause()

    asyncio.run(run())


def test_nothing_runs_before_it_is_played() -> None:
    told: list[float] = []
    clock = Clock(lambda s: bool(told.append(s)) or True)
    assert not clock.playing
    clock.pause()
    assert told == []


def test_simulated_time_is_real_time_times_the_speed() -> None:
    told: list[tuple[float, float]] = []
    clock = Clock(lambda s: bool(told.append((time.monotonic(), s))) or True, speed=20.0)
    began = time.monotonic()
    played(clock, 0.4)
    assert len(told) >= 3
    assert sum(s for _, s in told) == pytest.approx((told[-1][0] - began) * 20.0, abs=0.2)


def test_a_late_call_is_told_all_the_time_that_has_passed() -> None:
    told: list[float] = []

    def slow(seconds: float) -> bool:
        told.append(seconds)
        time.sleep(0.15)
        return True

    played(Clock(slow), 0.5)
    assert all(seconds >= 0.15 for seconds in told[1:])


def test_a_pause_keeps_no_time() -> None:
    told: list[float] = []
    clock = Clock(lambda s: bool(told.append(s)) or True)

    async def run() -> None:
        clock.play()
        await asyncio.sleep(0.1)
        clock.pause()
        await asyncio.sleep(0.3)
        clock.play()
        await asyncio.sleep(0.1)
        clock.pause()

    asyncio.run(run())
    assert sum(told) < 0.25


def test_a_change_of_speed_counts_from_when_it_is_made() -> None:
    now = [0.0]
    told: list[float] = []
    clock = Clock(lambda s: bool(told.append(s)) and False, now=lambda: now[0])

    async def run() -> None:
        clock.play()
        now[0] = 1.0
        clock.speed = 10.0
        now[0] = 2.0
        await asyncio.sleep(0.1)

    asyncio.run(run())
    assert told == [pytest.approx(11.0)]


def test_it_ends_when_told_to_and_can_be_played_again() -> None:
    told: list[float] = []
    clock = Clock(lambda s: bool(told.append(s)))
    played(clock, 0.15)
    assert len(told) == 1
    assert not clock.playing
    played(clock, 0.15)
    assert len(told) == 2


def test_it_may_be_paused_and_played_from_within_a_call() -> None:
    calls: list[float] = []

    def again(seconds: float) -> bool:
        calls.append(seconds)
        clock.pause()
        clock.play()
        return True

    clock = Clock(again)
    played(clock, 0.3)
    assert len(calls) >= 3
    assert not clock.playing


def test_it_cannot_play_where_no_loop_runs() -> None:
    with pytest.raises(RuntimeError):
        Clock(lambda s: True).play()
