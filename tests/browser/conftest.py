"""JupyterLab in a real browser: started once, one page for each test.

While the browser is open no other test can run an event loop, so it is closed with its folder.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import nbformat
import pytest
from lab import CHROMIUM_OPTIONS, WAIT_MS, Lab, run_all, running_lab


def unavailable(why: str) -> None:
    """Skip, but fail where the browser is expected to be there."""
    if os.environ.get("CI"):
        pytest.fail(f"the browser tests cannot run: {why}")
    pytest.skip(why)


@pytest.fixture(scope="package")
def browser() -> Iterator[Any]:
    """Chromium, driven by playwright, of which there can be only one in a process."""
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        unavailable("playwright is not installed: pip install 'vorlib[browser]'")
    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    if chromium is None:
        unavailable("no chromium on the PATH")
    with sync_playwright() as playwright:
        yield playwright.chromium.launch(executable_path=chromium, args=CHROMIUM_OPTIONS)


@pytest.fixture(scope="package")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Lab]:
    """A JupyterLab server as `vorlib course` starts it."""
    folders = tmp_path_factory.mktemp("lab"), tmp_path_factory.mktemp("settings")
    with running_lab(*folders) as lab:
        yield lab


@pytest.fixture
def run_notebook(browser: Any, lab: Lab) -> Iterator[Callable[[Path], Any]]:
    """Return a function that opens a copy of a notebook and runs all its cells: the page."""
    pages = []

    def run(notebook: Path) -> Any:
        # a name of its own, so that no kernel or unsaved change of an earlier page is taken up
        copy = lab.folder / f"{len(list(lab.folder.iterdir()))}-{notebook.name}"
        document = nbformat.read(notebook, as_version=4)
        for cell in document.cells:
            if cell.cell_type == "code":  # what is seen on the page, this run has made
                cell.outputs, cell.execution_count = [], None
        nbformat.write(document, copy)
        page = browser.new_page(viewport={"width": 1280, "height": 900})
        page.set_default_timeout(WAIT_MS)
        pages.append(page)
        page.goto(lab.page(copy.name))
        run_all(page)
        return page

    yield run
    for page in pages:
        page.close()
    lab.stop_kernels()


@pytest.fixture
def notebook(tmp_path: Path) -> Callable[..., Path]:
    """Return a function that writes a notebook of code cells: its path."""

    def write(*cells: str, name: str = "lesson.ipynb") -> Path:
        document = nbformat.v4.new_notebook(
            cells=[nbformat.v4.new_code_cell(source) for source in cells],
            metadata={"kernelspec": {"name": "python3", "display_name": "Python 3"}},
        )
        path = tmp_path / name
        nbformat.write(document, path)
        return path

    return write
