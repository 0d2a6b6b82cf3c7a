"""The scripts and styles of widgets, which lie beside the modules as files of their own."""

from pathlib import Path

__all__ = ["joined"]

EXHIBITS = Path(__file__).parent.parent


def joined(*names: str) -> str:
    """Return several files below `vorlib/exhibits` as one text, shared parts first."""
    return "\n".join((EXHIBITS / name).read_text(encoding="utf-8") for name in names)
