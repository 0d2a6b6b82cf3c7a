"""Configure a learner's server on a hub: lesson pages, the learner's copies, idle limits."""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile
from pathlib import Path
from typing import Any

import nbformat
from nbformat.sign import NotebookNotary

from vorlib.io.notebooks import own_notebooks
from vorlib.io.text import LARGEST_MB
from vorlib.lab.copies import make_copies
from vorlib.pages.course_folder import CourseFolder

__all__ = ["COPIES", "KERNEL_IDLE_S", "SERVER_IDLE_S", "SIGNATURES_KEPT", "settings"]

COPIES = "vorlib-course"  # in a learner's home
KERNEL_IDLE_S = 3600  # a lesson left open holds 60 MB, or 100 MB with charts
SERVER_IDLE_S = 7200  # counted from the end of the last kernel
# Of the messages from each kernel, so that none is taken twice. Jupyter keeps 65,536 of them, which
# grow to 10 MB for a page that is used for an hour.
SIGNATURES_KEPT = 1000

STARTUP = Path(__file__).parent / "startup.py"


def settings(home: Path | None = None) -> dict[str, dict[str, Any]]:
    """Return the settings of a learner's server, and prepare the learner's home for it.

    Copy the notebooks there, update the copies that the learner has not edited, and trust the
    unedited ones. Call this once, before the server is created: it sets two environment variables
    that the kernels read.

    Parameters
    ----------
    home
        The learner's home; by default the user's.

    Returns
    -------
    dict
        The settings by class of the server, as `traitlets` takes them.

    Raises
    ------
    OSError
        If the copies cannot be written.
    """
    course = own_notebooks()
    copies = (home or Path.home()) / COPIES
    make_copies(course, copies)
    _trust(copies)
    os.environ["PYTHONSTARTUP"] = str(STARTUP)
    os.environ["JUPYTER_RUNTIME_DIR"] = _short_folder()
    return {
        "ServerApp": {
            "root_dir": str(copies),
            "jpserver_extensions": {"vorlib.pages": True, "voila.server_extension": False},
            "kernel_websocket_connection_class": "vorlib.server.NoDelayWebsocketConnection",
            "tornado_settings": {"websocket_max_message_size": 2 * LARGEST_MB * 1_000_000},
            "shutdown_no_activity_timeout": SERVER_IDLE_S,
        },
        "LessonPages": {"notebooks": str(course), "keeps_kernel_ready": False},
        "FileContentsManager": {"pre_save_hook": "vorlib.lab.saving.keep_still"},
        # Thirty kernels that start in the same second take each other's TCP ports. Socket files
        # that belong to one learner cannot be taken, and no other user can listen to them.
        "KernelManager": {"transport": "ipc"},
        "Session": {"digest_history_size": SIGNATURES_KEPT},
        "MappingKernelManager": {
            "cull_idle_timeout": KERNEL_IDLE_S,
            "cull_interval": 300,
            "cull_connected": True,  # a page whose kernel has ended says so and offers to reload
        },
        # JupyterLab contacts no outside host for news, updates or extensions.
        "LabApp": {
            "news_url": None,
            "check_for_updates_class": "jupyterlab.NeverCheckForUpdate",
            "extension_manager": "readonly",
        },
    }


def _trust(copies: Path) -> None:
    """Sign the unedited copies, so that JupyterLab shows their pictures."""
    notary = NotebookNotary()  # type: ignore[no-untyped-call]
    for path in CourseFolder(copies).unchanged():
        notary.sign(nbformat.read(path, as_version=4))  # type: ignore[no-untyped-call]


def _short_folder() -> str:
    """Return a new private folder whose name is short enough for sockets.

    The path of a socket has at most 107 characters, and a kernel's name takes 50 of them.
    """
    folder = tempfile.mkdtemp(prefix="vor-", dir="/tmp" if os.name == "posix" else None)
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return folder
