"""Kernels for pages: one is kept ready, its exhibits imported, so that a lesson begins at once."""

from __future__ import annotations

import asyncio
import contextlib
import logging
from typing import Any

__all__ = ["KernelsInReserve"]

REFILL_S = 4.0  # after a kernel was taken; by then its page has drawn what can be seen of it
IMPORTS = "import vorlib.exhibits"  # two of the three seconds that a lesson would take to begin


class KernelsInReserve:
    """The kernels that pages get: the one in reserve if there is one, else a new one.

    Parameters
    ----------
    manager
        The server's kernel manager.
    folder
        Where kernels start, as the server names folders.
    keeps_next
        Whether another is kept ready once one was taken. On a server that many share that costs
        each of them 60 MB.
    """

    def __init__(self, manager: Any, folder: str, *, keeps_next: bool = True) -> None:
        self.manager, self.folder, self.keeps_next = manager, folder, keeps_next
        self._reserve: asyncio.Task[str] | None = None
        self._refill: asyncio.Task[None] | None = None
        self._warming: set[asyncio.Task[None]] = set()  # a task that nobody holds may vanish

    def prepare(self) -> None:
        """Begin to start a kernel that is to be kept in reserve."""
        if self._reserve is None:
            self._reserve = asyncio.create_task(self._start())

    async def take(self) -> str:
        """Return the identifier of a kernel that nobody else has, and see to the next."""
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
        """Import what every lesson imports; what is sent to the kernel meanwhile waits for it."""
        client = self.manager.get_kernel(kernel).client()
        client.start_channels()
        try:
            await client.wait_for_ready(timeout=60)
            client.execute(IMPORTS, silent=True, store_history=False)
            await client.get_shell_msg(timeout=60)
        except Exception as error:  # a kernel that is not warm serves as well, only later
            logging.getLogger(__name__).info("kernel %s was not prepared: %s", kernel, error)
        finally:
            with contextlib.suppress(Exception):
                client.stop_channels()
