"""JupyterLab with a notebook in it, for tests and measurements in a real browser."""

from __future__ import annotations

import contextlib
import json
import os
import re
import secrets
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

CHROMIUM_OPTIONS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]

WAIT_MS = 120_000  # on a busy machine; a wait that ends early costs nothing
PAGE_ALIVE_MS = 90_000

# The prompts of the code cells on the page: a number where a cell has run, a star where it waits.
PROMPTS = """() => [...document.querySelectorAll('.jp-CodeCell .jp-InputPrompt')]
    .map((prompt) => prompt.textContent).join()"""


@dataclass(frozen=True)
class Lab:
    """A running JupyterLab: its address, its token, the folder it serves and the path it opens."""

    url: str
    token: str
    folder: Path
    opens: str = "/lab"

    def page(self, notebook: str) -> str:
        """Return the address of a notebook's page, with nothing else open."""
        return f"{self.url}/lab/tree/{notebook}?token={self.token}&reset"

    def lesson(self, notebook: str) -> str:
        """Return the address of a lesson page."""
        return f"{self.url}/voila/render/{notebook}?token={self.token}"

    def runs(self, kernel: str) -> bool:
        """Tell whether a kernel runs. No list is asked for: while one starts there is none."""
        try:
            urllib.request.urlopen(f"{self.url}/api/kernels/{kernel}?token={self.token}").close()
        except urllib.error.HTTPError as error:
            if error.code != 404:
                raise
            return False
        return True

    def stop_kernels(self) -> None:
        """Stop all kernels: each takes a hundred megabytes."""
        sessions = f"{self.url}/api/sessions"
        with urllib.request.urlopen(f"{sessions}?token={self.token}") as answer:
            for session in json.load(answer):
                address = f"{sessions}/{session['id']}?token={self.token}"
                urllib.request.urlopen(urllib.request.Request(address, method="DELETE")).close()


@contextlib.contextmanager
def running_lab(
    folder: Path, settings: Path, *, python: str = sys.executable, module: str = "jupyterlab"
) -> Iterator[Lab]:
    """Start JupyterLab as `vorlib course` does, on a folder and with settings of its own.

    Or Notebook 7, which is the module `notebook`, perhaps of another Python.
    """
    port = _free_port()
    token = secrets.token_hex(8)
    connection = "vorlib.server.NoDelayWebsocketConnection"
    quiet = settings / "@jupyterlab/apputils-extension/notification.jupyterlab-settings"
    quiet.parent.mkdir(parents=True, exist_ok=True)
    quiet.write_text('{"fetchNews": "false", "checkForUpdates": false}')
    server = subprocess.Popen(
        [
            *(python, "-m", module, "--no-browser", "--allow-root"),
            f"--port={port}",
            f"--ServerApp.root_dir={folder}",
            f"--IdentityProvider.token={token}",
            f"--ServerApp.kernel_websocket_connection_class={connection}",
            "--KernelManager.transport_encryption=auto",
            "--LabApp.expose_app_in_browser=True",
            "--JupyterNotebookApp.expose_app_in_browser=True",
        ],
        env=os.environ
        | {"JUPYTER_CONFIG_DIR": str(settings), "JUPYTERLAB_SETTINGS_DIR": str(settings)},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    try:
        _wait_for(f"http://127.0.0.1:{port}/api?token={token}", server)
        yield Lab(f"http://127.0.0.1:{port}", token, folder)
    finally:
        server.terminate()
        server.wait(timeout=300)


@contextlib.contextmanager
def running_course(folder: Path, data: Path, *options: str) -> Iterator[Lab]:
    """Start `vorlib course` on a folder; the learner's home is *data*.

    On a port of its own: of two servers that look for one at once, the slower finds it taken.
    """
    command = "import sys; from vorlib import cli; sys.exit(cli.main(sys.argv[1:]))"
    server = subprocess.Popen(
        [
            *(sys.executable, "-c", command),
            *("course", "--no-browser", "--notebooks", str(folder)),
            *("--port", str(_free_port()), *options),
        ],
        env=os.environ | {"HOME": str(data), "XDG_DATA_HOME": str(data)},
        stdout=subprocess.PIPE,
        text=True,
    )
    assert server.stdout is not None
    try:
        lines = iter(server.stdout.readline, "")
        address = next(line for line in lines if line.startswith("http")).strip()
        site, _, token = address.partition("?token=")
        yield Lab(f"http://{urlsplit(site).netloc}", token, folder, urlsplit(site).path)
    finally:
        server.terminate()
        try:
            server.wait(timeout=120)
        except subprocess.TimeoutExpired:
            server.kill()  # or it stays behind
            raise
        server.stdout.close()


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def _wait_for(address: str, server: subprocess.Popen[bytes], seconds: float = 300.0) -> None:
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        assert server.poll() is None, "JupyterLab did not start"
        try:
            urllib.request.urlopen(address, timeout=20).close()
        except OSError:
            time.sleep(0.2)
        else:
            return
    raise TimeoutError(f"JupyterLab did not answer within {seconds:g} s")


def wait_for_value(box: Any, value: str) -> None:
    """Wait until a box on the page holds *value*: what the kernel writes comes a moment later."""
    holds = "([box, value]) => box.value === value"
    box.page.wait_for_function(holds, arg=[box.element_handle(), value], timeout=WAIT_MS)


def run_all(page: Any, seconds: float = 300.0) -> None:
    """Run all cells of a notebook without outputs, again if it was not ready for the first click.

    While JupyterLab connects to a new kernel it may take what is to be run, and forget it.
    """
    from playwright.sync_api import TimeoutError

    page.wait_for_selector(".jp-Notebook .jp-Cell", timeout=WAIT_MS)
    page.get_by_text("| Idle").wait_for(timeout=WAIT_MS)
    end = time.monotonic() + seconds
    while not re.search(r"\d", prompts := page.evaluate(PROMPTS)):
        assert time.monotonic() < end, "JupyterLab ran no cell"
        for default in page.locator(".jp-Dialog .jp-mod-accept").all():
            default.click()  # a slow machine makes JupyterLab ask, for example which kernel
        if "*" not in prompts:
            with contextlib.suppress(TimeoutError):
                page.get_by_role("menuitem", name="Run", exact=True).click(timeout=5000)
                page.get_by_text("Run All Cells", exact=True).click(timeout=5000)
        page.wait_for_timeout(1000)
