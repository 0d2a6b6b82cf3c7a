"""JupyterLab and the lesson pages in a real browser: started once, and one browser for all tests.

While the browser is open no other test can run an event loop, so it is closed with its folder.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import nbformat
import pytest
from lab import CHROMIUM_OPTIONS, PAGE_ALIVE_MS, WAIT_MS, Lab, running_course, running_lab

NOTEBOOKS = Path(__file__).parents[2] / "notebooks"
LAPTOP = {"width": 1366, "height": 633}

# With the application at hand a notebook is opened without loading JupyterLab again.
OPEN_AND_RUN = """async ([path, patience_ms]) => {
    const { commands, shell, restored } = window.jupyterapp;
    await restored;
    shell.expandLeft();
    const panel = await commands.execute('docmanager:open', { path });
    await panel.context.ready;
    await panel.sessionContext.ready;
    await panel.sessionContext.session.kernel.info;
    const late = new Promise((_, fail) =>
        setTimeout(() => fail(new Error('the cells have not run')), patience_ms));
    await Promise.race([commands.execute('notebook:run-all-cells'), late]);
}"""
CLOSE = """async () => {
    for (const panel of [...window.jupyterapp.shell.widgets('main')]) {
        await panel.sessionContext?.shutdown();
        panel.dispose();
    }
}"""


class Desk:
    """A page with JupyterLab, in which notebook after notebook is opened.

    Each has a kernel and a name of its own. A page that a test has closed is opened again.
    """

    def __init__(self, browser: Any, lab: Lab) -> None:
        self.browser, self.lab = browser, lab
        self.load()

    def load(self) -> None:
        """Load JupyterLab with nothing open, on a new page."""
        self.page = self.browser.new_page()
        self.page.set_default_timeout(WAIT_MS)
        self.page.goto(f"{self.lab.url}/lab?token={self.lab.token}&reset")
        self.page.wait_for_function("window.jupyterapp")

    def run(self, notebook: Path) -> Any:
        """Open a copy of a notebook without outputs, run its cells, and return the page."""
        copy = self.lab.folder / f"{len(list(self.lab.folder.iterdir()))}-{notebook.name}"
        document = nbformat.read(notebook, as_version=4)
        for cell in document.cells:
            if cell.cell_type == "code":  # what is seen on the page, this run has made
                cell.outputs, cell.execution_count = [], None
        nbformat.write(document, copy)
        if self.page.is_closed():
            self.load()
        self.page.set_viewport_size({"width": 1280, "height": 900})
        self.page.evaluate(OPEN_AND_RUN, [copy.name, WAIT_MS])
        return self.page

    def clear(self) -> None:
        """Close every notebook, and end its kernel, which takes a hundred megabytes."""
        try:
            self.page.evaluate(CLOSE)
        except Exception:
            self.page.close()
            self.lab.stop_kernels()


def errors_of(page: Any) -> list[str]:
    """Return the list to which a page adds every error that its console shows from now on."""
    errors: list[str] = []
    page.on("console", lambda said: errors.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: errors.append(str(error)))
    return errors


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


@pytest.fixture(scope="package")
def desk(browser: Any, lab: Lab) -> Iterator[Desk]:
    """One page with JupyterLab, in which notebook after notebook is opened."""
    desk = Desk(browser, lab)
    yield desk
    desk.page.close()


@pytest.fixture
def run_notebook(desk: Desk) -> Iterator[Callable[[Path], Any]]:
    """Return a function that opens a copy of a notebook and runs all its cells: the page."""
    yield desk.run
    desk.clear()


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


@pytest.fixture(scope="package")
def course(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Lab]:
    """`vorlib course` on a copy of the notebooks among which others have come to lie."""
    folder = tmp_path_factory.mktemp("course") / "notebooks"
    shutil.copytree(NOTEBOOKS, folder)
    (folder / "Untitled.ipynb").touch()
    cell = nbformat.v4.new_code_cell("open('was run', 'w').close()")
    nbformat.write(nbformat.v4.new_notebook(cells=[cell]), folder / "handed_in.ipynb")
    with running_course(folder, tmp_path_factory.mktemp("data")) as course:
        yield course


@pytest.fixture(scope="package")
def window(browser: Any) -> Iterator[Any]:
    """The browser as one learner has it: what a page keeps, the next one finds."""
    window = browser.new_context(viewport=LAPTOP)
    yield window
    window.close()


@pytest.fixture(scope="package")
def pages() -> dict[str, Any]:
    """The pages that are open, by name: each is opened once, and looked at by many tests."""
    return {}


@pytest.fixture
def open_page(window: Any, course: Lab, pages: dict[str, Any]) -> Callable[[str], Any]:
    """Return a function that opens a page, if it is not open, and waits until it is alive."""

    def opened(name: str) -> Any:
        if name not in pages:
            page = pages[name] = window.new_page()
            page.hosts, page.errors = set(), errors_of(page)
            page.on("request", lambda request: page.hosts.add(urlsplit(request.url).hostname))
            page.goto(course.lesson(name))
        page = pages[name]
        page.set_viewport_size(LAPTOP)
        page.bring_to_front()
        page.wait_for_selector("body[data-alive]", timeout=PAGE_ALIVE_MS)
        return page

    return opened
