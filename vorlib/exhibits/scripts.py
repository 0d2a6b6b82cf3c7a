"""The scripts and styles of widgets, which lie beside the modules as files of their own."""

from pathlib import Path

__all__ = ["joined"]


def joined(*names: str) -> str:
    """Return several files as one text: a script that begins with what others use too."""
    return "\n".join(Path(__file__).with_name(name).read_text(encoding="utf-8") for name in names)
