"""What the server answers when a page is asked for."""

from __future__ import annotations

import copy
from pathlib import Path, PurePosixPath
from typing import Any

import nbformat
import voila
from jupyter_server.auth.decorator import ws_authenticated
from jupyter_server.base.handlers import APIHandler, FileFindHandler, JupyterHandler
from jupyter_server.utils import url_path_join
from tornado.web import HTTPError, authenticated
from traitlets.config import Config
from voila.configuration import VoilaConfiguration
from voila.tornado.execution_request_handler import ExecutionRequestHandler
from voila.utils import get_page_config

from vorlib.io.notebooks import START
from vorlib.pages import address
from vorlib.pages.course_folder import CourseFolder
from vorlib.pages.open_pages import OpenPages
from vorlib.pages.page import page_end, page_start

__all__ = [
    "FRONT_END",
    "AliveHandler",
    "ExecutionHandler",
    "Files",
    "LeaveHandler",
    "PageHandler",
]

FRONT_END = f"/voila/static/{voila.__version__}"  # a browser may keep what is there for good
LEFT = "vorlib-left"  # the cookie of a page that is reloaded: which kernel it has

EXECUTOR = Config(
    {
        "VoilaExecutor": {
            # what a learner reads where a cell failed
            "cell_error_instruction": "Reload the page. If that does not help, open the lesson as "
            "a notebook.",
            # Seconds. By default a cell's output is given up 4 s after the cell has run, which on a
            # busy machine leaves a page without its exhibit.
            "iopub_timeout": 120,
        }
    }
)


class PageHandler(JupyterHandler):
    """Answers with the page of a notebook of the course, and has its cells run."""

    def initialize(
        self,
        course: CourseFolder,
        work: Path,
        folder: str,
        pages: OpenPages,
        front_end: VoilaConfiguration,
    ) -> None:
        super().initialize()
        self.course, self.work, self.folder = course, work, folder
        self.pages, self.front_end = pages, front_end

    @authenticated
    async def get(self, name: str = "") -> None:
        """Send all that can be read, then start the kernel, then what makes the page alive."""
        if not name:
            self.redirect(url_path_join(self.base_url, address(START)))
            return
        parts = self.course.parts()
        part = next((part for part in parts if part.name == name), None)
        if part is None:
            raise HTTPError(404, f"{name} is not a notebook of this course, or cannot be read")
        notebook = self.course.read(name)
        self.set_header("Content-Type", "text/html; charset=utf-8")
        self.set_header("Cache-Control", "no-store")
        _ = self.xsrf_token  # sets the cookie without which the page may not end its kernel
        lab = url_path_join(self.base_url, "lab/tree", self.folder, name)
        urls = {"base_url": self.base_url, "lab_url": lab, "front_end_url": self._front_end_url()}
        self.write(page_start(notebook, part, parts, **urls))
        await self.flush()
        kernel = await self.pages.open(notebook, self.get_cookie(LEFT))
        if not self.pages.has_run(kernel):
            ExecutionRequestHandler._execution_data[kernel] = {
                "nb": _to_run(notebook, self.work / PurePosixPath(name).parent),
                "config": EXECUTOR,
                "show_tracebacks": False,
            }
        self.write(page_end(self._page_config(kernel)))
        await self.finish()

    def _page_config(self, kernel: str) -> dict[str, Any]:
        config: dict[str, Any] = get_page_config(
            base_url=self.base_url,
            settings=self.settings,
            log=self.log,
            voila_configuration=self.front_end,
        )
        own = {"kernelId": kernel, "fullStaticUrl": self._front_end_url()}
        # with neither of these Voila takes the MathJax that it carries, and asks no host outside
        no_host = {"fullMathjaxUrl": None, "mathjaxConfig": None}
        return config | own | no_host

    def _front_end_url(self) -> str:
        return url_path_join(self.base_url, FRONT_END)


def _to_run(notebook: Any, place: Path) -> Any:
    """Return the code cells, with one before them that goes to where they are to be run."""
    go = nbformat.v4.new_code_cell(f"__import__('os').chdir({str(place)!r})")  # type: ignore[no-untyped-call]
    cells = [go, *(cell for cell in notebook.cells if cell.cell_type == "code")]
    run = nbformat.from_dict({**notebook, "cells": copy.deepcopy(cells)})  # type: ignore[no-untyped-call]
    for cell in run.cells:
        cell.outputs = []
    return run


class ExecutionHandler(ExecutionRequestHandler):  # type: ignore[misc]
    """Runs the cells of a page and sends each one's output as it comes.

    To a page that was reloaded it sends what they gave before.
    """

    _executor = None  # a page may be closed before it asks for anything

    def initialize(self, pages: OpenPages) -> None:
        super().initialize()
        self.pages = pages

    @ws_authenticated
    async def get(self, *args: Any, **kwargs: Any) -> None:
        """Open the connection, for whoever may open the page."""
        await super().get(*args, **kwargs)

    async def on_message(self, message_str: str | bytes) -> None:
        """Run the cells, or tell again what they gave."""
        if not self.pages.has_run(self._kernel_id):
            await self.pages.until_heard(self._kernel_id)
            await super().on_message(message_str)
            return
        for message in self.pages.given(self._kernel_id):
            await super().write_message(message)

    def write_message(self, message: Any, binary: bool = False) -> Any:
        """Send a message, and keep what a cell gave."""
        if message["action"] == "execution_result":
            self.pages.given(self._kernel_id).append(message)
        return super().write_message(message, binary)


class AliveHandler(JupyterHandler):
    """Says whether the kernel of a page still is the one that ran its cells.

    It is no API, as an open page that asks is no sign of somebody at work.
    """

    def initialize(self, pages: OpenPages) -> None:
        super().initialize()
        self.pages = pages

    @authenticated
    async def get(self, kernel_id: str) -> None:
        """Answer with 204, or with 404 where the page is alive no more."""
        self.set_status(204 if await self.pages.alive(kernel_id) else 404)
        await self.finish()


class LeaveHandler(APIHandler):
    """Hears from a page that it is left."""

    def initialize(self, pages: OpenPages) -> None:
        super().initialize()
        self.pages = pages

    @authenticated
    async def post(self, kernel_id: str) -> None:
        """Have its kernel end, unless the page comes back."""
        self.pages.leave(kernel_id)
        self.set_status(204)
        await self.finish()


class Files(FileFindHandler):
    """The files that all pages share, found in one of several folders."""

    _static_paths: dict[str, str] = {}  # noqa: RUF012 - else JupyterLab's of that name are taken
