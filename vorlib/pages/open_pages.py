"""The pages that are open, and the kernel of each, which a page that is reloaded finds again."""

from __future__ import annotations

import asyncio
import contextlib
from dataclasses import dataclass, field
from typing import Any

from vorlib.pages.kernels import KernelsInReserve

__all__ = ["OpenPage", "OpenPages"]

# A page that is reloaded says that it is left, and then asks for itself again.
LEFT_FOR_S = 10.0
# A page hears its kernel within a second of being loaded, on a busy machine within some.
HEARS_WITHIN_S = 30.0
GLANCES, GLANCE_S = 20, 0.1  # for a kernel to come to rest


@dataclass
class OpenPage:
    """A page with its kernel.

    Attributes
    ----------
    notebook
        What it shows.
    process
        What tells its kernel from one that was restarted in its place.
    given
        The messages that tell what its cells gave, for a page that is reloaded.
    shown
        How many times it is shown: twice for a moment while it is reloaded.
    heard
        Set once its connection hears the kernel.
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
    """The pages that are open, by the identifiers of their kernels.

    Parameters
    ----------
    kernels
        Where kernels come from.
    left_for_s
        How long the kernel of a page that was left waits for it.
    """

    def __init__(self, kernels: KernelsInReserve, left_for_s: float = LEFT_FOR_S) -> None:
        self.kernels, self.left_for_s = kernels, left_for_s
        self._pages: dict[str, OpenPage] = {}
        self._ending: set[asyncio.Task[None]] = set()  # a task that nobody holds may vanish

    def given(self, kernel: str) -> list[dict[str, Any]]:
        """Return the messages that told so far what the cells of a page gave; to be added to."""
        page = self._pages.get(kernel)
        return page.given if page else []

    def has_run(self, kernel: str) -> bool:
        """Return whether all cells of a page have run, and none failed."""
        page = self._pages.get(kernel)
        return page is not None and page.is_whole

    async def open(self, notebook: Any, left: str | None) -> str:
        """Return the kernel of a page that is opened.

        Parameters
        ----------
        notebook
            What the page shows.
        left
            The kernel that it had before it was reloaded, if it was. It has it again, unless that
            kernel is gone, was restarted, is at work, or failed in one of the cells: then to reload
            the page is the way to a new one.
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
        """Note that the connection of a page hears its kernel from now on."""
        page = self._pages.get(kernel)
        if page is not None:
            page.heard.set()

    async def until_heard(self, kernel: str) -> None:
        """Wait until a page hears its kernel, or long enough for a server that does not tell."""
        page = self._pages.get(kernel)
        if page is not None:
            with contextlib.suppress(TimeoutError):
                await asyncio.wait_for(page.heard.wait(), HEARS_WITHIN_S)

    async def alive(self, kernel: str) -> bool:
        """Return whether the kernel of a page still is the one that ran its cells."""
        page = self._pages.get(kernel)
        if page is None or kernel not in self.kernels.manager:
            return False
        same = bool(self._process(kernel) == page.process)
        return same and bool(await self.kernels.manager.get_kernel(kernel).is_alive())

    def leave(self, kernel: str) -> None:
        """Note that a page is left; unless it comes back soon, its kernel ends."""
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
        with contextlib.suppress(KeyError):  # it has ended by itself
            if kernel in self.kernels.manager:
                await self.kernels.manager.shutdown_kernel(kernel)

    def _process(self, kernel: str) -> Any:
        provisioner = getattr(self.kernels.manager.get_kernel(kernel), "provisioner", None)
        return getattr(provisioner, "pid", None)

    async def _comes_to_rest(self, kernel: str) -> bool:
        """Return whether a kernel has done soon what it was asked last."""
        for _ in range(GLANCES):
            if self.kernels.manager.get_kernel(kernel).execution_state == "idle":
                return True
            await asyncio.sleep(GLANCE_S)
        return False
