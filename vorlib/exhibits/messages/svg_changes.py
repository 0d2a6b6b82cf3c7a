"""What of a picture's SVG text has changed, piece by piece; see `svg_changes.js`."""

from __future__ import annotations

import re

__all__ = ["changed_pieces"]

NAME = re.compile(r"/?\w*")


def changed_pieces(before: str, after: str) -> list[tuple[int, str]] | None:
    """Return the pieces of a text that differ from those of the one before, each with its number.

    A piece is what stands from where an element begins or ends to where the next does.

    Returns
    -------
    None if other elements are drawn, or so much has changed that the text is no longer.

    >>> changed_pieces("<g><text>TO</text><path/></g>", "<g><text>OFF</text><path/></g>")
    [(2, 'text>OFF')]
    """
    then, now = before.split("<"), after.split("<")
    if len(then) != len(now):
        return None
    changes = [(i, new) for i, (old, new) in enumerate(zip(then, now, strict=True)) if old != new]
    if any(_name(then[i]) != _name(new) for i, new in changes):
        return None
    return changes if 2 * sum(len(new) for _, new in changes) < len(after) else None


def _name(piece: str) -> str:
    found = NAME.match(piece)
    return found[0] if found else ""
