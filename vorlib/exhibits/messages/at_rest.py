"""What is slow to draw, once the hand rests."""

from __future__ import annotations

import asyncio
from collections.abc import Callable

__all__ = ["REST_S", "AtRest"]

REST_S = 0.25


class AtRest:
    """Calls a function when it has not been asked for again for a while.

    Without an event loop nothing waits.

    Parameters
    ----------
    call
        What to do.
    """

    def __init__(self, call: Callable[[], None]) -> None:
        self._call = call
        self._timer: asyncio.TimerHandle | None = None

    def __call__(self) -> None:
        """Ask for the call."""
        self.cancel()
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            self._call()
        else:
            self._timer = loop.call_later(REST_S, self._call)

    def cancel(self) -> None:
        """Take back what was asked for and has not been done."""
        if self._timer is not None:
            self._timer.cancel()
            self._timer = None
