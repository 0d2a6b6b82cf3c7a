"""A real hub on this machine, with its proxy and the configuration that vorlib ships."""

from __future__ import annotations

import contextlib
import os
import secrets
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

REHEARSAL = Path(__file__).parents[1] / "binder/hub/rehearsal.py"
PROXY = "configurable-http-proxy"

CONFIGURATION = """
load_subconfig({rehearsal!r})
c.JupyterHub.bind_url = {url!r}
c.JupyterHub.hub_port = {hub_port}
c.JupyterHub.log_level = "WARN"
c.ConfigurableHTTPProxy.api_url = "http://127.0.0.1:{api_port}"
c.ConfigurableHTTPProxy.command = [{proxy!r}]
c.JupyterHub.services = [{{"name": "instructor", "api_token": {token!r}}}]
c.JupyterHub.load_roles = [{{
    "name": "instructor",
    "services": ["instructor"],
    "scopes": ["admin:users", "admin:servers", "tokens"],
}}]
"""


@dataclass(frozen=True)
class Hub:
    """A running hub: its address, the token of whoever starts servers, its process, its folder."""

    url: str
    token: str
    process: int
    folder: Path


def proxy() -> str | None:
    """Return the hub's proxy, if it is installed: on the PATH, or where VORLIB_PROXY says."""
    return os.environ.get("VORLIB_PROXY") or shutil.which(PROXY)


@contextlib.contextmanager
def running_hub(folder: Path) -> Iterator[Hub]:
    """Start the rehearsal's hub with its files in *folder*, and stop all that it started."""
    ports = _free_ports(3)
    url, token = f"http://127.0.0.1:{ports[0]}", secrets.token_hex(16)
    configuration = folder / "configuration.py"
    configuration.write_text(
        CONFIGURATION.format(
            rehearsal=str(REHEARSAL),
            url=url,
            hub_port=ports[1],
            api_port=ports[2],
            proxy=proxy(),
            token=token,
        )
    )
    with (folder / "log").open("wb") as log:
        server = subprocess.Popen(
            [sys.executable, "-m", "jupyterhub", "-f", str(configuration)],
            cwd=folder,
            env=os.environ | {"PATH": f"{Path(sys.executable).parent}:{os.environ['PATH']}"},
            stdout=log,
            stderr=log,
        )
        try:
            _wait_for(f"{url}/hub/api", server, folder / "log")
            yield Hub(url, token, server.pid, folder)
        finally:
            server.terminate()
            server.wait(timeout=120)


def _free_ports(count: int) -> list[int]:
    with contextlib.ExitStack() as probes:
        sockets = [probes.enter_context(socket.socket()) for _ in range(count)]
        for probe in sockets:
            probe.bind(("127.0.0.1", 0))
        return [probe.getsockname()[1] for probe in sockets]


def _wait_for(address: str, server: subprocess.Popen[bytes], log: Path) -> None:
    end = time.monotonic() + 180.0
    while time.monotonic() < end:
        assert server.poll() is None, f"the hub did not start:\n{log.read_text()[-2000:]}"
        with contextlib.suppress(OSError):
            urllib.request.urlopen(address, timeout=20).close()
            return
        time.sleep(0.2)
    raise TimeoutError(f"the hub did not answer:\n{log.read_text()[-2000:]}")
