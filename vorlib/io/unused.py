"""Leave out what Jupyter would load and never use: a second and 20 MB of each server."""

from __future__ import annotations

import sys

__all__ = ["leave_out_unused"]


def leave_out_unused() -> None:
    """Keep a grammar of addresses from being compiled in this process.

    Call it first: jsonschema compiles the grammar as it is imported, if the package is there, and
    does without it if not. It is for addresses in all the world's letters, and Jupyter's schemas
    ask for none.
    """
    sys.modules.setdefault("rfc3987_syntax", None)  # type: ignore[arg-type]
