"""The course served to this machine only, with a token, and without Nagle's delay.

A server of your own gets the quick connection by naming it in its configuration::

    c.ServerApp.kernel_websocket_connection_class = "vorlib.server.NoDelayWebsocketConnection"

takes large files from a notebook's upload button with::

    c.ServerApp.tornado_settings = {"websocket_max_message_size": 400_000_000}

and shows the lessons as pages, at the address ``/voila``, with::

    c.ServerApp.jpserver_extensions = {"vorlib.pages": True, "voila.server_extension": False}

A notebook saved while its exhibits live keeps still pictures of them, for another day, with::

    c.FileContentsManager.pre_save_hook = "vorlib.lab.saving.keep_still"

and any cell of a lesson can be run first when an ``ipython_kernel_config.py`` of the kernels has::

    c.InteractiveShellApp.extensions = ["vorlib.lab.kernel"]
"""

from __future__ import annotations

import os
import secrets
import shutil
import signal
import webbrowser
from functools import partial
from pathlib import Path
from typing import Any

import nbformat
import zmq
from jupyter_core.paths import jupyter_config_dir
from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection
from jupyter_server.utils import url_escape, url_path_join
from jupyterlab.commands import get_user_settings_dir, get_workspaces_dir
from jupyterlab.labapp import LabApp

from vorlib.io.notebooks import START
from vorlib.io.text import LARGEST_MB
from vorlib.lab.copies import make_copies
from vorlib.lab.learner_server import SIGNATURES_KEPT
from vorlib.pages import address
from vorlib.pages.course_folder import CourseFolder

__all__ = ["NoDelayWebsocketConnection", "serve"]

# An uploaded file is one message. Tornado closes the connection over more than 10 MB, and
# nobody is told. With room for twice what is read, a file that is too large is refused in words.
LARGEST_MESSAGE_BYTES = 2 * LARGEST_MB * 1_000_000

# A page ends its kernel itself when it is closed. This is for the page that could not.
CULL_AFTER_S = 3600

STARTUP = Path(__file__).parent / "lab" / "startup.py"  # what a kernel begins with

NEWS = "@jupyterlab/apputils-extension:announcements"


class NoDelayWebsocketConnection(ZMQChannelsWebsocketConnection):
    """A kernel connection whose small messages leave at once.

    With Nagle's algorithm on, a message waits for the browser's delayed acknowledgment of the one
    before it, and that wait is more than half of the time from a moved slider to a moved picture.

    A lesson page is told once its connection hears the kernel: what the kernel says before is lost.
    """

    def connect(self) -> Any:
        self.websocket_handler.set_nodelay(True)
        connected = super().connect()
        pages = self.websocket_handler.settings.get("vorlib_pages")
        if connected is not None and pages is not None:
            connected.add_done_callback(lambda _: pages.hears(self.kernel_id))
        return connected


def serve(
    folder: Path, own: Path, *, port: int | None = None, browser: bool = True, lab: bool = False
) -> None:
    """Serve the course in *folder*, open its start, and return when the server is stopped.

    The pages show the notebooks of that folder. JupyterLab opens copies of them in the learner's
    own, made at the first start, so that nothing that is done there changes the course.

    What the user has configured for other Jupyter servers plays no part: not what this one listens
    to, nor who may ask it.

    Parameters
    ----------
    folder
        The folder of the course.
    own
        The learner's own folder. It is all that can be seen of this machine's files.
    port
        The port to listen on, and no other; by default the first free one from 8888 up.
    browser
        Open the page in a browser, where there is one. The address is printed either way.
    lab
        Open JupyterLab rather than the lesson pages. Both are served in any case.

    Raises
    ------
    ValueError
        If both folders are the same.
    OSError
        If the copies cannot be written.
    """
    kept = make_copies(folder, own)
    token = secrets.token_hex(24)
    course = CourseFolder(folder)
    first = next((part.name for part in course.parts()), START)
    page = url_path_join("/lab/tree", url_escape(first)) if lab else address(first)
    browser = browser and _has_browser()
    own_lab = {  # how JupyterLab looks and what was open in it stays the user's choice
        "LabApp.user_settings_dir": get_user_settings_dir(),
        "LabApp.workspaces_dir": get_workspaces_dir(),
    }
    os.environ["JUPYTER_NO_CONFIG"] = "1"
    os.environ["PYTHONSTARTUP"] = str(STARTUP)
    try:
        server = LabApp.initialize_server(
            argv=_arguments(_options(folder, own, page, token, port, browser) | own_lab)
        )
        for path in course.unchanged():  # of what is signed, and of its copies, pictures are shown
            document = nbformat.read(path, as_version=4)  # type: ignore[no-untyped-call]
            server.contents_manager.notary.sign(document)
        server.web_app.settings["page_config_hook"] = _without_news
        signal.signal(signal.SIGINT, partial(_stop, server))
        if not lab:
            server.io_loop.add_callback(server.web_app.settings["vorlib_kernels"].prepare)
        at = f"{server.connection_url.rstrip('/')}{page}?token={token}"
        server.io_loop.add_callback(_announce, at, browser, _notes(course, own, kept))
        server.start()
    finally:
        shutil.rmtree(jupyter_config_dir(), ignore_errors=True)  # made for this server only


def _stop(server: Any, *_: Any) -> None:
    """Stop without a question; whoever presses Ctrl-C again does not wait for kernels to end."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    server.stop(from_signal=True)


def _notes(course: CourseFolder, own: Path, kept: list[str]) -> list[str]:
    """Return what is to be said of the notebooks, one line for each."""
    return [
        *(f"{name} is left out: {why}." for name, why in course.left_out()),
        *(f"{name} has a newer version. To get it, rename yours and start again." for name in kept),
        f"Your own copies of the notebooks are in {own}.",
    ]


def _announce(address: str, browser: bool, notes: list[str]) -> None:
    """Print where the course is, the address on a line of its own."""
    print(*notes, sep="\n")
    opening = "The course opens in your browser. If it does not, paste" if browser else "Paste"
    print(f"\n{opening} this address into a browser on this machine:\n\n{address}\n")
    print("Close the course with Ctrl-C in this window.", flush=True)


def _options(
    folder: Path, own: Path, page: str, token: str, port: int | None, browser: bool
) -> dict[str, object]:
    """Return the server's settings."""
    options: dict[str, object] = {
        "ServerApp.ip": "localhost",
        "ServerApp.base_url": "/",
        "ServerApp.root_dir": own,
        "ServerApp.jpserver_extensions": {"jupyterlab": True, "vorlib.pages": True},
        "ServerApp.open_browser": browser,
        "ServerApp.allow_remote_access": False,
        "ServerApp.allow_unauthenticated_access": False,
        "ServerApp.kernel_websocket_connection_class": f"{__name__}.NoDelayWebsocketConnection",
        "ServerApp.tornado_settings": {"websocket_max_message_size": LARGEST_MESSAGE_BYTES},
        "ServerApp.allow_root": True,  # in a container root is the only user there is
        "Application.log_level": "ERROR",
        "IdentityProvider.token": token,
        "LabApp.default_url": page,
        "LessonPages.notebooks": folder,
        "FileContentsManager.pre_save_hook": "vorlib.lab.saving.keep_still",
        "MappingKernelManager.cull_idle_timeout": CULL_AFTER_S,
        "Session.digest_history_size": SIGNATURES_KEPT,
    }
    if zmq.has("curve"):  # without encryption each kernel prints a warning that alarms
        options |= {"KernelManager.transport_encryption": "auto"}
    if port is not None:
        options |= {"ServerApp.port": port, "ServerApp.port_retries": 0}
    return options


def _arguments(options: dict[str, object]) -> list[str]:
    """Return settings as the server's command line takes them."""
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
