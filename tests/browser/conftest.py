"""JupyterLab in a real browser: started once, one page for each test."""

from __future__ import annotations

import contextlib
import json
import os
import secrets
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import nbformat
import pytest

# Whether any cell has run or waits to.
STARTED = """() => [...document.querySelectorAll('.jp-CodeCell .jp-InputPrompt')]
    .some((prompt) => /[\\d*]/.test(prompt.textContent))"""


@dataclass(frozen=True)
class Lab:
    """A running JupyterLab: its address, its token and the folder it serves."""

    url: str
    token: str
    folder: Path

    def page(self, notebook: str) -> str:
        """Return the address of a notebook's page, with nothing else open."""
        return f"{self.url}/lab/tree/{notebook}?token={self.token}&reset"

    def stop_kernels(self) -> None:
        """Stop all kernels: each takes a hundred megabytes."""
        sessions = f"{self.url}/api/sessions"
        with urllib.request.urlopen(f"{sessions}?token={self.token}") as answer:
            for session in json.load(answer):
                address = f"{sessions}/{session['id']}?token={self.token}"
                urllib.request.urlopen(urllib.request.Request(address, method="DELETE")).close()


@pytest.fixture(scope="session")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Lab]:
    """A JupyterLab server as `vorlib course` starts it."""
    folder = tmp_path_factory.mktemp("lab")
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    token = secrets.token_hex(8)
    connection = "vorlib.server.NoDelayWebsocketConnection"
    home = tmp_path_factory.mktemp("home")
    quiet = home / "@jupyterlab/apputils-extension/notification.jupyterlab-settings"
    quiet.parent.mkdir(parents=True)
    quiet.write_text('{"fetchNews": "false", "checkForUpdates": false}')
    server = subprocess.Popen(
        [
            *(sys.executable, "-m", "jupyterlab", "--no-browser", "--allow-root"),
            f"--port={port}",
            f"--ServerApp.root_dir={folder}",
            f"--IdentityProvider.token={token}",
            f"--ServerApp.kernel_websocket_connection_class={connection}",
        ],
        env={**os.environ, "JUPYTER_CONFIG_DIR": str(home), "JUPYTERLAB_SETTINGS_DIR": str(home)},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    try:
        _wait_for(f"http://127.0.0.1:{port}/api?token={token}", server)
        yield Lab(f"http://127.0.0.1:{port}", token, folder)
    finally:
        server.terminate()
        server.wait(timeout=20)


def _wait_for(address: str, server: subprocess.Popen[bytes], seconds: float = 60.0) -> None:
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        assert server.poll() is None, "JupyterLab did not start"
        try:
            urllib.request.urlopen(address, timeout=2).close()
        except OSError:
            time.sleep(0.2)
        else:
            return
    raise TimeoutError(f"JupyterLab did not answer within {seconds:g} s")


@pytest.fixture
def run_notebook(browser: Any, lab: Lab) -> Iterator[Callable[[Path], Any]]:
    """Return a function that opens a copy of a notebook and runs all its cells: the page."""
    pages = []

    def run(notebook: Path) -> Any:
        # a name of its own, so that no kernel or unsaved change of an earlier page is taken up
        copy = lab.folder / f"{len(list(lab.folder.iterdir()))}-{notebook.name}"
        shutil.copy(notebook, copy)
        page = browser.new_page(viewport={"width": 1280, "height": 900})
        pages.append(page)
        page.goto(lab.page(copy.name))
        page.wait_for_selector(".jp-Notebook .jp-Cell", timeout=60_000)
        page.wait_for_selector(".jp-Notebook-ExecutionIndicator[data-status=idle]", timeout=60_000)
        _run_all(page)
        return page

    yield run
    for page in pages:
        page.close()
    lab.stop_kernels()


def _run_all(page: Any) -> None:
    """Run all cells, again if the page was not ready to take the first click."""
    from playwright.sync_api import TimeoutError

    for _ in range(5):
        for default in page.locator(".jp-Dialog .jp-mod-accept").all():
            default.click()  # a slow machine makes JupyterLab ask, for example which kernel
        with contextlib.suppress(TimeoutError):
            page.get_by_role("menuitem", name="Run", exact=True).click(timeout=5000)
            page.get_by_text("Run All Cells", exact=True).click(timeout=5000)
            return page.wait_for_function(STARTED, timeout=3000)
    raise AssertionError("JupyterLab ran no cell")


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
