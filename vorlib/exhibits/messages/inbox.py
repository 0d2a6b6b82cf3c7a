"""What pages send to a kernel is dealt with in one thread, in which time runs too."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Callable
from concurrent.futures import wait
from typing import Any

from IPython import get_ipython

__all__ = ["take_turns"]

LOOK_AGAIN_S = 1.0  # how often to look whether the kernel is about to end


def take_turns() -> None:
    """Let this kernel deal with all that pages send in its main thread; elsewhere do nothing.

    JupyterLab asks for a thread of its own for the messages of widgets. The time that an exhibit
    plays runs in the thread in which it was begun, perhaps another one: then what a hand did while
    the next moment was worked out would be undone by it.
    """
    kernel: Any = getattr(get_ipython(), "kernel", None)
    main = getattr(kernel, "io_loop", None)
    if main is not None:
        handlers = kernel.shell_handlers
        for kind in ("comm_open", "comm_msg", "comm_close"):
            handlers[kind] = _in_main_thread(handlers[kind], main.asyncio_loop)


def _in_main_thread(
    handle: Callable[..., Any], loop: asyncio.AbstractEventLoop
) -> Callable[..., None]:
    async def handed_over(*message: Any) -> None:
        handle(*message)

    def in_turn(*message: Any) -> None:
        if threading.current_thread() is threading.main_thread():
            handle(*message)
            return
        # Waited for here: a kernel that awaits it says of no other message meanwhile that it is
        # dealt with, and the page would send nothing more.
        there = asyncio.run_coroutine_threadsafe(handed_over(*message), loop)
        while loop.is_running() and not there.done():
            wait([there], timeout=LOOK_AGAIN_S)

    return in_turn
