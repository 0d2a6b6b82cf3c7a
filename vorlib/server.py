"""JupyterLab served for the course: on this machine only, with a token, and without Nagle's delay.

A server of your own gets the quick connection by naming it in its configuration::

    c.ServerApp.kernel_websocket_connection_class = "vorlib.server.NoDelayWebsocketConnection"

and takes large files from a notebook's upload button with::

    c.ServerApp.tornado_settings = {"websocket_max_message_size": 400_000_000}
"""

from __future__ import annotations

import secrets
import signal
import webbrowser
from pathlib import Path
from typing import Any

import nbformat
import zmq
from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection
from jupyter_server.utils import url_escape, url_path_join
from jupyterlab.labapp import LabApp

from vorlib.io.text import LARGEST_MB

__all__ = ["NoDelayWebsocketConnection", "serve"]

# An uploaded file is one message. Tornado closes the connection over one of more than 10 MB, and
# nobody hears of it. With room for twice what is read, a file that is too large is told so.
LARGEST_MESSAGE_BYTES = 2 * LARGEST_MB * 1_000_000

NEWS = "@jupyterlab/apputils-extension:announcements"


class NoDelayWebsocketConnection(ZMQChannelsWebsocketConnection):
    """A kernel connection whose small messages leave at once.

    With Nagle's algorithm on, a message waits for the browser's delayed acknowledgement of the one
    before it, and that wait is more than half of the time from a moved slider to a moved picture.
    """

    def connect(self) -> Any:
        self.websocket_handler.set_nodelay(True)
        return super().connect()


def serve(
    notebook: Path, *, port: int | None = None, browser: bool = True, trust: bool = False
) -> None:
    """Serve the folder of *notebook* in JupyterLab, open it, and return when the server is stopped.

    Parameters
    ----------
    notebook
        The notebook to open. Its folder is all that the file browser shows.
    port
        The port to listen on, and no other; by default the first free one from 8888 up.
    browser
        Open the page in a browser, where there is one. The address is printed either way.
    trust
        Show the pictures that the folder's notebooks were saved with. JupyterLab shows only text of
        a notebook that it does not know until its cells are run.
    """
    token = secrets.token_hex(24)
    page = url_path_join("/lab/tree", url_escape(notebook.name))
    browser = browser and _has_browser()
    server = LabApp.initialize_server(argv=_options(notebook.parent, page, token, port, browser))
    for path in notebook.parent.rglob("*.ipynb") if trust else ():
        document = nbformat.read(path, as_version=4)  # type: ignore[no-untyped-call]
        server.contents_manager.notary.sign(document)
    server.web_app.settings["page_config_hook"] = _without_news
    signal.signal(signal.SIGINT, lambda *_: server.stop(from_signal=True))  # asks nothing back
    address = f"{server.connection_url.rstrip('/')}{page}?token={token}"
    server.io_loop.add_callback(_announce, address, browser)  # runs once the server listens
    server.start()


def _announce(address: str, browser: bool) -> None:
    """Print where the course is, the address on a line of its own."""
    opening = "The course opens in your browser. If it does not, paste" if browser else "Paste"
    print(f"\n{opening} this address into a browser on this machine:\n\n{address}\n")
    print("Close the course with Ctrl-C in this window.", flush=True)


def _options(folder: Path, page: str, token: str, port: int | None, browser: bool) -> list[str]:
    """Return the server's settings as its command line takes them, above any configuration file."""
    options = {
        "ServerApp.root_dir": folder,
        "ServerApp.open_browser": browser,
        "ServerApp.kernel_websocket_connection_class": f"{__name__}.NoDelayWebsocketConnection",
        "ServerApp.tornado_settings": {"websocket_max_message_size": LARGEST_MESSAGE_BYTES},
        "ServerApp.allow_root": True,  # in a container root is the only user there is
        "Application.log_level": "ERROR",
        "IdentityProvider.token": token,
        "LabApp.default_url": page,
    }
    if zmq.has("curve"):  # without encryption each kernel prints a warning that alarms
        options |= {"KernelManager.transport_encryption": "auto"}
    if port is not None:
        options |= {"ServerApp.port": port, "ServerApp.port_retries": 0}
    return [f"--{name}={value}" for name, value in options.items()]


def _without_news(_handler: Any, page: dict[str, Any]) -> dict[str, Any]:
    """Keep JupyterLab from asking about news over the first lesson, and from looking for any."""
    page["disabledExtensions"] = [*page.get("disabledExtensions", []), NEWS]
    return page


def _has_browser() -> bool:
    """Tell whether this machine has a browser that Python can open."""
    try:
        webbrowser.get()
    except webbrowser.Error:
        return False
    return True
