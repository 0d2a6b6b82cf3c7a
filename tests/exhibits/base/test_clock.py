"""The clock of exhibits that play: simulated time keeps up, pauses and ends quietly."""

from __future__ import annotations

import asyncio
import time
from collections.abc import Callable

import pytest

from vorlib.exhibits.base import clock as clock_module
from vorlib.exhibits.base.clock import Clock


def played(clock: Clock, enough: Callable[[], bool]) -> None:
    """Play until something is so, however long a busy machine takes."""

    async def run() -> None:
        clock.play()
        await until(enough)
        clock.pause()

    asyncio.run(run())


async def until(so: Callable[[], bool]) -> None:
    async with asyncio.timeout(120.0):
        while not so():
            await asyncio.sleep(0.01)


def test_nothing_runs_before_it_is_played() -> None:
    told: list[float] = []
    clock = Clock(lambda s: bool(told.append(s)) or True)
    assert not clock.playing
    clock.pause()
    assert told == []


def test_simulated_time_is_real_time_times_the_speed() -> None:
    read: list[float] = []
    told: list[tuple[float, float]] = []

    def now() -> float:
        read.append(time.monotonic())
        return read[-1]

    clock = Clock(lambda s: bool(told.append((read[-1], s))) or True, speed=20.0, now=now)
    played(clock, lambda: len(told) >= 5)
    assert sum(s for _, s in told) == pytest.approx((told[-1][0] - read[0]) * 20.0)


def test_a_late_call_is_told_all_the_time_that_has_passed() -> None:
    told: list[float] = []

    def slow(seconds: float) -> bool:
        told.append(seconds)
        time.sleep(0.15)
        return True

    played(Clock(slow), lambda: len(told) >= 3)
    assert all(seconds >= 0.15 for seconds in told[1:])


def test_a_clock_that_is_not_late_tells_at_least_40_pictures_a_second(monkeypatch) -> None:
    now, told = [0.0], []
    rest = asyncio.sleep

    async def sleep(seconds: float) -> None:
        now[0] += seconds
        await rest(0)

    async def run() -> None:
        monkeypatch.setattr(clock_module.asyncio, "sleep", sleep)
        clock.play()
        while now[0] < 1.0:
            await rest(0)
        clock.pause()

    clock = Clock(lambda s: bool(told.append(s)) or True, now=lambda: now[0])
    asyncio.run(run())
    assert len(told) >= 40


def test_a_pause_keeps_no_time() -> None:
    now = [0.0]
    told: list[float] = []
    clock = Clock(lambda s: bool(told.append(s)) or True, now=lambda: now[0])

    async def run() -> None:
        clock.play()
        now[0] = 1.0
        await until(lambda: sum(told) == 1.0)
        clock.pause()
        now[0] = 5.0
        clock.play()
        now[0] = 7.0
        await until(lambda: sum(told) >= 3.0)
        clock.pause()

    asyncio.run(run())
    assert sum(told) == 3.0


def test_a_change_of_speed_counts_from_when_it_is_made() -> None:
    now = [0.0]
    told: list[float] = []
    clock = Clock(lambda s: bool(told.append(s)) and False, now=lambda: now[0])

    async def run() -> None:
        clock.play()
        now[0] = 1.0
        clock.speed = 10.0
        now[0] = 2.0
        await until(lambda: not clock.playing)

    asyncio.run(run())
    assert told == [pytest.approx(11.0)]


def test_it_ends_when_told_to_and_can_be_played_again() -> None:
    told: list[float] = []
    clock = Clock(lambda s: bool(told.append(s)))
    played(clock, lambda: not clock.playing)
    assert len(told) == 1
    played(clock, lambda: not clock.playing)
    assert len(told) == 2


def test_it_may_be_paused_and_played_from_within_a_call() -> None:
    calls: list[float] = []

    def again(seconds: float) -> bool:
        calls.append(seconds)
        clock.pause()
        clock.play()
        return True

    clock = Clock(again)
    played(clock, lambda: len(calls) >= 3)
    assert not clock.playing


def test_it_cannot_play_where_no_loop_runs() -> None:
    with pytest.raises(RuntimeError):
        Clock(lambda s: True).play()
