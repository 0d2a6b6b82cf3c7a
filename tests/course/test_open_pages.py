"""Which kernel a page has: after a reload its own again, unless something is wrong with that."""

import asyncio
from types import SimpleNamespace

import pytest

from vorlib.pages.open_pages import OpenPages

LESSON, OTHER = object(), object()


class Kernels:
    """Kernels without processes, numbered in the order in which they are taken."""

    def __init__(self):
        self.manager, self.running, self.count = self, {}, 0

    async def take(self):
        self.count += 1
        name = f"kernel {self.count}"
        self.running[name] = SimpleNamespace(
            provisioner=SimpleNamespace(pid=self.count), execution_state="idle", is_alive=self.lives
        )
        return name

    async def lives(self):
        return True

    def get_kernel(self, name):
        return self.running[name]

    def __contains__(self, name):
        return name in self.running

    async def shutdown_kernel(self, name):
        del self.running[name]


async def opened(pages, notebook=LESSON, *, left=None, output_type="display_data"):
    """Open a page, and let its two cells run."""
    kernel = await pages.open(notebook, left)
    if not pages.has_run(kernel):
        for _ in range(2):
            cell = {"outputs": [{"output_type": output_type}]}
            message = {"payload": {"output_cell": cell, "total_cell": 2}}
            pages.given(kernel).append(message)
    return kernel


def test_a_page_that_is_reloaded_has_its_kernel_again_and_keeps_it():
    async def reload():
        pages = OpenPages(Kernels(), left_for_s=0.0)
        first = await opened(pages)
        again = await opened(pages, left=first)  # asked for while the old page still stands
        pages.leave(first)
        await asyncio.sleep(0.01)
        assert again == first
        assert len(pages.given(again)) == 2
        assert await pages.alive(again)

    asyncio.run(reload())


def test_a_page_hears_its_kernel_before_a_cell_is_run():
    async def listen():
        pages = OpenPages(Kernels())
        kernel = await opened(pages)
        run = asyncio.create_task(pages.until_heard(kernel))
        await asyncio.sleep(0.01)
        assert not run.done()
        pages.hears(kernel)
        pages.hears("kernel of a notebook")
        await run

    asyncio.run(listen())


def test_the_kernel_of_a_page_that_is_left_for_good_ends():
    async def leave():
        pages = OpenPages(Kernels(), left_for_s=0.0)
        kernel = await opened(pages)
        pages.leave(kernel)
        await asyncio.sleep(0.01)
        assert not pages.kernels.running
        assert not await pages.alive(kernel)

    asyncio.run(leave())


@pytest.mark.parametrize("what", ["restarted", "busy", "gone", "failed", "another page", "unknown"])
def test_a_kernel_with_which_something_is_wrong_is_not_given_again(what, monkeypatch):
    monkeypatch.setattr("vorlib.pages.open_pages.GLANCE_S", 0.0)

    async def reload():
        pages = OpenPages(Kernels(), left_for_s=0.0)
        first = await opened(pages, output_type="error" if what == "failed" else "display_data")
        if what == "restarted":
            pages.kernels.running[first].provisioner.pid = 99
            assert not await pages.alive(first)
        elif what == "busy":
            pages.kernels.running[first].execution_state = "busy"
        elif what == "gone":
            del pages.kernels.running[first]
        left = "kernel of somebody else" if what == "unknown" else first
        notebook = OTHER if what == "another page" else LESSON
        assert await opened(pages, notebook, left=left) != first

    asyncio.run(reload())
