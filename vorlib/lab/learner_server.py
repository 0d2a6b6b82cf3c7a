"""A learner's server on a hub: the lesson pages, the learner's own copies, and when it ends."""

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

__all__ = ["COPIES", "KERNEL_IDLE_S", "SERVER_IDLE_S", "settings"]

COPIES = "vorlib-course"  # in a learner's home
KERNEL_IDLE_S = 3600  # a lesson left open keeps 80 MB
SERVER_IDLE_S = 7200  # counted from the end of the last kernel

STARTUP = Path(__file__).parent / "startup.py"


def settings(home: Path | None = None) -> dict[str, dict[str, Any]]:
    """Return how a learner's server is set, and prepare the learner's home for it.

    Copies of the notebooks are made there, or brought up to date where the learner has changed
    nothing; they are trusted. To be called once, before the server is made: kernels find the two
    variables of the environment that are set here.

    Parameters
    ----------
    home
        The learner's home; by default that of the user.

    Returns
    -------
    dict
        For each class of the server its settings, as `traitlets` takes them.

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
        # Thirty kernels that start in the same second take each other's ports; sockets that are
        # files of one learner's own cannot be taken, nor listened to by another user.
        "KernelManager": {"transport": "ipc"},
        "MappingKernelManager": {
            "cull_idle_timeout": KERNEL_IDLE_S,
            "cull_interval": 300,
            "cull_connected": True,  # a page whose kernel ended says so, and begins again
        },
        # JupyterLab asks nobody outside for news, updates or extensions.
        "LabApp": {
            "news_url": None,
            "check_for_updates_class": "jupyterlab.NeverCheckForUpdate",
            "extension_manager": "readonly",
        },
    }


def _trust(copies: Path) -> None:
    """Let JupyterLab show the pictures of what is, to the letter, the course's own."""
    notary = NotebookNotary()  # type: ignore[no-untyped-call]
    for path in CourseFolder(copies).unchanged():
        notary.sign(nbformat.read(path, as_version=4))  # type: ignore[no-untyped-call]


def _short_folder() -> str:
    """Return a new folder that only this user can look into, with a name short enough for sockets.

    The path of a socket has at most 107 characters, and a kernel's name takes 50 of them.
    """
    folder = tempfile.mkdtemp(prefix="vor-", dir="/tmp" if os.name == "posix" else None)
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return folder
