"""Kernels for pages: one is kept ready, its exhibits imported, so that a lesson starts at once."""

from __future__ import annotations

import asyncio
import contextlib
import logging
from typing import Any

__all__ = ["KernelsInReserve"]

REFILL_S = 4.0  # after a kernel is taken; by then its page has drawn the part on screen
IMPORTS = "import vorlib.exhibits"  # takes two of the three seconds in which a lesson starts


class KernelsInReserve:
    """Hands a kernel to each page: the one in reserve if there is one, else a new one.

    Parameters
    ----------
    manager
        The server's kernel manager.
    folder
        Where kernels start, as a path on the server.
    keeps_next
        Whether to start another once one is taken. Each kernel in reserve costs 60 MB, which adds
        up where every learner has a server.
    """

    def __init__(self, manager: Any, folder: str, *, keeps_next: bool = True) -> None:
        self.manager, self.folder, self.keeps_next = manager, folder, keeps_next
        self._reserve: asyncio.Task[str] | None = None
        self._refill: asyncio.Task[None] | None = None
        self._warming: set[asyncio.Task[None]] = set()  # asyncio holds tasks only weakly

    def prepare(self) -> None:
        """Begin to start a kernel for the reserve, unless there is one."""
        if self._reserve is None:
            self._reserve = asyncio.create_task(self._start())

    async def take(self) -> str:
        """Return the identifier of an unused kernel, and schedule the start of the next."""
        self.prepare()
        reserve, self._reserve = self._reserve, None
        assert reserve is not None
        kernel = await reserve
        if self._refill is not None:
            self._refill.cancel()
        if self.keeps_next:
            self._refill = asyncio.create_task(self._prepare_later())
        return kernel if kernel in self.manager else await self._start()  # it was culled

    async def _prepare_later(self) -> None:
        await asyncio.sleep(REFILL_S)
        self.prepare()

    async def _start(self) -> str:
        kernel: str = await self.manager.start_kernel(path=self.folder)
        warming = asyncio.create_task(self._warm(kernel))
        self._warming.add(warming)
        warming.add_done_callback(self._warming.discard)
        return kernel

    async def _warm(self, kernel: str) -> None:
        """Import what every lesson imports; other requests to the kernel wait until it is done."""
        client = self.manager.get_kernel(kernel).client()
        client.start_channels()
        try:
            await client.wait_for_ready(timeout=60)
            client.execute(IMPORTS, silent=True, store_history=False)
            await client.get_shell_msg(timeout=60)
        except Exception as error:  # a kernel without the imports works too, only slower
            logging.getLogger(__name__).info("kernel %s was not prepared: %s", kernel, error)
        finally:
            with contextlib.suppress(Exception):
                client.stop_channels()
