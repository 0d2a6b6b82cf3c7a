"""What a notebook keeps of a widget: to find it in a living kernel, and to see without one."""

from __future__ import annotations

from typing import Any

import ipywidgets as widgets

from vorlib.io.notebooks import WIDGET_VIEW
from vorlib.views.drawing.layout import text_width
from vorlib.views.drawing.picture import Picture, Text, above
from vorlib.views.drawing.theme import SCREEN, Theme

__all__ = ["still", "widget_view"]


def widget_view(widget: widgets.Widget) -> dict[str, Any]:
    """Return the part of a MIME bundle that shows a widget."""
    return {
        WIDGET_VIEW: {"version_major": 2, "version_minor": 0, "model_id": widget.model_id},
    }


def still(picture: Picture, theme: Theme = SCREEN, *, then: str = "move it") -> Picture:
    """Return a picture that says under it that it is still, and what to choose to do what then."""
    said = f"Still picture: choose Run, Run All Cells to {then}"
    size = theme.small_size
    width = 1.1 * text_width(said, size)
    words = Text(width / 2, size / 2, said, size, theme.text)
    below = Picture(width, 1.5 * size, (words,), description=f"{said}.", background=theme.paper)
    return above(picture, below, gap=size / 2)
