"""Only the newest of the events that come faster than they can be shown."""

from __future__ import annotations

import asyncio
import time
from collections.abc import Callable
from typing import Any

__all__ = ["LatestOnly"]

REST_SHARE = 0.5  # of the time that a call took
LONGEST_REST_S = 0.1


class LatestOnly:
    """Passes events on to a function; of those that come while it catches breath, the newest only.

    An event is passed on at once. After a call that took a while there is a rest half as long, in
    which the event loop reads what has queued up meanwhile; at its end the newest of that is passed
    on. So a picture that is slow to draw falls behind the hand by one drawing at most, and one that
    is quick to draw is never kept waiting. Without an event loop nothing waits.

    An event has to say all that the ones before it said.

    Parameters
    ----------
    call
        What to do with an event.
    """

    def __init__(self, call: Callable[[Any], None]) -> None:
        self._call = call
        self._latest: Any = None
        self._free_at = 0.0
        self.waiting = False

    def __call__(self, event: Any) -> None:
        """Pass an event on, now or at the end of the rest."""
        self._latest = event
        if self.waiting:
            return
        rest_s = self._free_at - time.monotonic()
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            rest_s = 0.0
        if rest_s <= 0.0:
            self._pass_on()
        else:
            self.waiting = True
            loop.call_later(rest_s, self._pass_on)

    def _pass_on(self) -> None:
        self.waiting = False
        event, self._latest = self._latest, None
        begun = time.monotonic()
        try:
            self._call(event)
        finally:
            ended = time.monotonic()
            self._free_at = ended + min(REST_SHARE * (ended - begun), LONGEST_REST_S)
