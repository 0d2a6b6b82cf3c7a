"""The lessons as pages: a server extension that shows each notebook of the course live.

A page is the notebook without its code. Voila's program in the browser shows the outputs of the
cells; this package decides what the page looks like, which notebooks are pages and where kernels
come from. To add it to any Jupyter server, set::

    c.ServerApp.jpserver_extensions = {"vorlib.pages": True, "voila.server_extension": False}

Turn Voila's own extension off, because it serves the same addresses.
"""

from __future__ import annotations

from typing import Any

__all__ = ["address"]


def address(notebook: str) -> str:
    """Return the path on the server of the page of a notebook, named relative to the course."""
    return f"/voila/render/{notebook}"


def _jupyter_server_extension_points() -> list[dict[str, str]]:
    return [{"module": "vorlib.pages"}]


def _load_jupyter_server_extension(server: Any) -> None:
    from vorlib.pages.extension import load  # here: it needs Voila, the rest of vorlib does not

    load(server)
