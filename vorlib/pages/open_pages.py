"""The pages that are open, each with its kernel, so that a reloaded page gets the same one."""

from __future__ import annotations

import asyncio
import contextlib
from dataclasses import dataclass, field
from typing import Any

from vorlib.pages.kernels import KernelsInReserve

__all__ = ["OpenPage", "OpenPages"]

# A page that is reloaded first reports that it was left, and then is requested again.
LEFT_FOR_S = 10.0
# A page connects to its kernel within a second of loading; a busy machine needs longer.
HEARS_WITHIN_S = 30.0
GLANCES, GLANCE_S = 20, 0.1  # how often, and how far apart, to check that a kernel is idle


@dataclass
class OpenPage:
    """An open page with its kernel.

    Attributes
    ----------
    notebook
        The notebook that it shows.
    process
        The process of its kernel, which a restart changes.
    given
        The messages with the outputs of its cells, to send again when it is reloaded.
    shown
        How many times it is open: twice for a moment during a reload.
    heard
        Set once its connection receives messages from the kernel.
    """

    notebook: Any
    process: Any
    given: list[dict[str, Any]] = field(default_factory=list)
    shown: int = 1
    heard: asyncio.Event = field(default_factory=asyncio.Event)

    @property
    def is_whole(self) -> bool:
        """Whether all cells have run, and none failed."""
        cells = [message["payload"] for message in self.given]
        outputs = [output for cell in cells for output in cell["output_cell"].get("outputs", [])]
        failed = any(output["output_type"] == "error" for output in outputs)
        return bool(cells) and len(cells) == cells[0]["total_cell"] and not failed


class OpenPages:
    """Keeps the open pages by the identifiers of their kernels.

    Parameters
    ----------
    kernels
        Where kernels come from.
    left_for_s
        Seconds for which the kernel of a page that was left is kept.
    """

    def __init__(self, kernels: KernelsInReserve, left_for_s: float = LEFT_FOR_S) -> None:
        self.kernels, self.left_for_s = kernels, left_for_s
        self._pages: dict[str, OpenPage] = {}
        self._ending: set[asyncio.Task[None]] = set()  # asyncio holds tasks only weakly

    def given(self, kernel: str) -> list[dict[str, Any]]:
        """Return the messages with a page's outputs so far, a list that the caller adds to."""
        page = self._pages.get(kernel)
        return page.given if page else []

    def has_run(self, kernel: str) -> bool:
        """Return whether all cells of a page have run, and none failed."""
        page = self._pages.get(kernel)
        return page is not None and page.is_whole

    async def open(self, notebook: Any, left: str | None) -> str:
        """Open a page, and return the identifier of its kernel.

        Parameters
        ----------
        notebook
            The notebook that the page shows.
        left
            The kernel that the page had before a reload, if any. The page gets it again, unless
            that kernel is gone, was restarted, is busy, or failed in one of the cells: then a
            reload is how a learner gets a new one.
        """
        page = self._pages.get(left or "")
        if left and page and page.notebook is notebook and page.is_whole:
            page.shown += 1
            if await self.alive(left) and await self._comes_to_rest(left):
                return left
            self.leave(left)
        kernel = await self.kernels.take()
        self._pages[kernel] = OpenPage(notebook, self._process(kernel))
        return kernel

    def hears(self, kernel: str) -> None:
        """Note that a page now receives messages from its kernel."""
        page = self._pages.get(kernel)
        if page is not None:
            page.heard.set()

    async def until_heard(self, kernel: str) -> None:
        """Wait until a page receives messages from its kernel, or give up after a while.

        Not every server reports it.
        """
        page = self._pages.get(kernel)
        if page is not None:
            with contextlib.suppress(TimeoutError):
                await asyncio.wait_for(page.heard.wait(), HEARS_WITHIN_S)

    async def alive(self, kernel: str) -> bool:
        """Return whether the kernel of a page is still the one that ran its cells."""
        page = self._pages.get(kernel)
        if page is None or kernel not in self.kernels.manager:
            return False
        same = bool(self._process(kernel) == page.process)
        return same and bool(await self.kernels.manager.get_kernel(kernel).is_alive())

    def leave(self, kernel: str) -> None:
        """Note that a page was left, and end its kernel unless it is opened again soon."""
        page = self._pages.get(kernel)
        if page is not None:
            page.shown -= 1
            asyncio.get_running_loop().call_later(self.left_for_s, self._end_unless_shown, kernel)

    def _end_unless_shown(self, kernel: str) -> None:
        page = self._pages.get(kernel)
        if page is not None and page.shown <= 0:
            del self._pages[kernel]
            ending = asyncio.create_task(self._end(kernel))
            self._ending.add(ending)
            ending.add_done_callback(self._ending.discard)

    async def _end(self, kernel: str) -> None:
        with contextlib.suppress(KeyError):  # it has already ended
            if kernel in self.kernels.manager:
                await self.kernels.manager.shutdown_kernel(kernel)

    def _process(self, kernel: str) -> Any:
        provisioner = getattr(self.kernels.manager.get_kernel(kernel), "provisioner", None)
        return getattr(provisioner, "pid", None)

    async def _comes_to_rest(self, kernel: str) -> bool:
        """Wait a short time for a kernel to be idle, and return whether it is."""
        for _ in range(GLANCES):
            if self.kernels.manager.get_kernel(kernel).execution_state == "idle":
                return True
            await asyncio.sleep(GLANCE_S)
        return False
