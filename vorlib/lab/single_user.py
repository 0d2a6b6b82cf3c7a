"""Start a learner's server on a hub, as ``jupyterhub-singleuser`` does, in less time and memory.

It is installed as the program ``vorlib-single-user``, beside that one.
"""

from __future__ import annotations

from vorlib.io.unused import leave_out_unused

__all__ = ["main"]


def main() -> None:
    """Start the server that a hub has asked for."""
    leave_out_unused()
    from jupyterhub.singleuser import main as serve

    serve()
