"""The lessons as pages: a server extension that shows each notebook of the course alive.

A page is the notebook without its code. Voila's program in the browser shows what the cells give;
what the page looks like, which notebooks are pages and where kernels come from is decided here. Any
Jupyter server has it with::

    c.ServerApp.jpserver_extensions = {"vorlib.pages": True, "voila.server_extension": False}

Voila's own extension answers at the same addresses, so it has to be off.
"""

from __future__ import annotations

from typing import Any

__all__ = ["address"]


def address(notebook: str) -> str:
    """Return where on the server the page of a notebook is, named as within the course's folder."""
    return f"/voila/render/{notebook}"


def _jupyter_server_extension_points() -> list[dict[str, str]]:
    return [{"module": "vorlib.pages"}]


def _load_jupyter_server_extension(server: Any) -> None:
    from vorlib.pages.extension import load  # here: it needs Voila, the rest of vorlib does not

    load(server)
