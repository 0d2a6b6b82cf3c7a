"""What a notebook keeps of a widget, to find it again in a living kernel."""

from __future__ import annotations

from typing import Any

import ipywidgets as widgets

__all__ = ["WIDGET_VIEW", "widget_view"]

WIDGET_VIEW = "application/vnd.jupyter.widget-view+json"


def widget_view(widget: widgets.Widget) -> dict[str, Any]:
    """Return the part of a MIME bundle that shows a widget."""
    return {
        WIDGET_VIEW: {"version_major": 2, "version_minor": 0, "model_id": widget.model_id},
    }
