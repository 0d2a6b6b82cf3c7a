"""A clock for exhibits that play: simulated time is real time times a speed, never behind."""

from __future__ import annotations

import asyncio
import time
from collections.abc import Callable

__all__ = ["Clock"]

TICKS_PER_S = 48.0  # 40 pictures a second, with something in hand
SHORTEST_REST_S = 0.005  # between late ticks, so that input is still handled


class Clock:
    """Calls a function some 48 times a second with the simulated seconds since its last call.

    A call that is late gets all the seconds that have passed, so simulated time keeps up with the
    real time and pictures are left out instead. Nothing runs until `play` is called, and nothing
    is kept while it is paused.

    Parameters
    ----------
    tick
        Called with the simulated seconds since the last call. It returns whether to go on.
    speed
        Simulated seconds in a second, more than 0; may be changed at any time.
    ticks_per_s
        How often to call, at most.
    now
        The real time in seconds, from any beginning.
    """

    def __init__(
        self,
        tick: Callable[[float], bool],
        *,
        speed: float = 1.0,
        ticks_per_s: float = TICKS_PER_S,
        now: Callable[[], float] = time.monotonic,
    ) -> None:
        self._tick, self._now = tick, now
        self._speed, self._period_s = speed, 1.0 / ticks_per_s
        self._read_at = 0.0  # the real time up to which simulated time has been told
        self._owed_s = 0.0  # simulated seconds at an earlier speed, not yet told
        self._task: asyncio.Task[None] | None = None

    @property
    def playing(self) -> bool:
        """Whether time runs."""
        return self._task is not None

    @property
    def speed(self) -> float:
        """Simulated seconds in a second."""
        return self._speed

    @speed.setter
    def speed(self, speed: float) -> None:
        if self.playing:
            self._owed_s = self._elapsed()
        self._speed = speed

    def play(self) -> None:
        """Let time run, from now on.

        Raises
        ------
        RuntimeError
            If no event loop is running, as outside a notebook.
        """
        if self.playing:
            return
        loop = asyncio.get_running_loop()
        self._read_at, self._owed_s = self._now(), 0.0
        self._task = loop.create_task(self._run())

    def pause(self) -> None:
        """Stop time; quiet when it is not running. What is played keeps its state."""
        task, self._task = self._task, None
        if task is not None and task is not _current_task():
            task.cancel()

    def _elapsed(self) -> float:
        """Take the simulated seconds since they were last taken."""
        now = self._now()
        seconds = self._owed_s + (now - self._read_at) * self._speed
        self._read_at, self._owed_s = now, 0.0
        return seconds

    async def _run(self) -> None:
        task = self._task
        due = self._now()
        try:
            while self._task is task:
                due = max(due + self._period_s, self._now() + SHORTEST_REST_S)
                await asyncio.sleep(due - self._now())
                if self._task is task and not self._tick(self._elapsed()):
                    break
        finally:
            if self._task is task:
                self._task = None


def _current_task() -> asyncio.Task[None] | None:
    try:
        return asyncio.current_task()
    except RuntimeError:  # no loop is running
        return None
