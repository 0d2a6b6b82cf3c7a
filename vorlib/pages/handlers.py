"""The handlers with which the server answers requests from pages."""

from __future__ import annotations

import copy
from pathlib import Path, PurePosixPath
from typing import Any

import nbformat
import voila
from jupyter_server.auth.decorator import ws_authenticated
from jupyter_server.base.handlers import APIHandler, FileFindHandler, JupyterHandler
from jupyter_server.utils import url_path_join
from tornado.iostream import StreamClosedError
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

FRONT_END = f"/voila/static/{voila.__version__}"  # versioned, so a browser may cache it for good
LEFT = "vorlib-left"  # the cookie in which a page that is reloaded names its kernel

EXECUTOR = Config(
    {
        "VoilaExecutor": {
            # what a learner reads in place of a failed cell's output
            "cell_error_instruction": "Reload the page. If that does not help, open the lesson as "
            "a notebook.",
            # Seconds. By default Voila stops waiting for output 4 s after a cell has run, which on
            # a busy machine leaves a page without its exhibit.
            "iopub_timeout": 120,
        }
    }
)


class PageHandler(JupyterHandler):
    """Serves the page of a notebook of the course, and has its cells run."""

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
        """Send the text first, then start the kernel, then send the scripts that need it."""
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
        try:
            await self.finish()
        except StreamClosedError:  # a tab closed so soon cannot report that it was left
            self.pages.leave(kernel)

    def _page_config(self, kernel: str) -> dict[str, Any]:
        config: dict[str, Any] = get_page_config(
            base_url=self.base_url,
            settings=self.settings,
            log=self.log,
            voila_configuration=self.front_end,
        )
        own = {"kernelId": kernel, "fullStaticUrl": self._front_end_url()}
        # without these two Voila uses its own copy of MathJax and contacts no outside host
        no_host = {"fullMathjaxUrl": None, "mathjaxConfig": None}
        return config | own | no_host

    def _front_end_url(self) -> str:
        return url_path_join(self.base_url, FRONT_END)


def _to_run(notebook: Any, place: Path) -> Any:
    """Return the code cells, after one that changes to the folder in which they run."""
    go = nbformat.v4.new_code_cell(f"__import__('os').chdir({str(place)!r})")  # type: ignore[no-untyped-call]
    cells = [go, *(cell for cell in notebook.cells if cell.cell_type == "code")]
    run = nbformat.from_dict({**notebook, "cells": copy.deepcopy(cells)})  # type: ignore[no-untyped-call]
    for cell in run.cells:
        cell.outputs = []
    return run


class ExecutionHandler(ExecutionRequestHandler):  # type: ignore[misc]
    """Runs the cells of a page, and sends each output as soon as there is one.

    A page that was reloaded gets the earlier outputs again.
    """

    _executor = None  # a page may be closed before it asks for anything

    def initialize(self, pages: OpenPages) -> None:
        super().initialize()
        self.pages = pages

    @ws_authenticated
    async def get(self, *args: Any, **kwargs: Any) -> None:
        """Open the connection; the same login is needed as for the page."""
        await super().get(*args, **kwargs)

    async def on_message(self, message_str: str | bytes) -> None:
        """Run the cells, or send their outputs again."""
        if not self.pages.has_run(self._kernel_id):
            await self.pages.until_heard(self._kernel_id)
            await super().on_message(message_str)
            return
        for message in self.pages.given(self._kernel_id):
            await super().write_message(message)

    def write_message(self, message: Any, binary: bool = False) -> Any:
        """Send a message, and keep the output of a cell for a reload."""
        if message["action"] == "execution_result":
            self.pages.given(self._kernel_id).append(message)
        return super().write_message(message, binary)


class AliveHandler(JupyterHandler):
    """Tells whether the kernel of a page is still the one that ran its cells.

    It is not an `APIHandler`: a request to one counts as activity, and an open page asks even while
    nobody uses it.
    """

    def initialize(self, pages: OpenPages) -> None:
        super().initialize()
        self.pages = pages

    @authenticated
    async def get(self, kernel_id: str) -> None:
        """Answer with 204, or with 404 if that kernel is gone."""
        self.set_status(204 if await self.pages.alive(kernel_id) else 404)
        await self.finish()


class LeaveHandler(APIHandler):
    """Takes the message that a learner has left a page."""

    def initialize(self, pages: OpenPages) -> None:
        super().initialize()
        self.pages = pages

    @authenticated
    async def post(self, kernel_id: str) -> None:
        """End the page's kernel, unless the page is opened again soon."""
        self.pages.leave(kernel_id)
        self.set_status(204)
        await self.finish()


class Files(FileFindHandler):
    """Serves the files that all pages share, from one of several folders."""

    _static_paths: dict[str, str] = {}  # noqa: RUF012 - not JupyterLab's cache of the same names
