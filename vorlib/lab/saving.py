"""Choose the outputs that a saved notebook keeps: those that show without a kernel."""

from __future__ import annotations

from typing import Any

from vorlib.io.notebooks import WIDGET_VIEW

__all__ = ["keep_still"]


def keep_still(model: dict[str, Any], **_: Any) -> None:
    """Replace each widget by its picture or text before a server saves a notebook.

    A notebook viewer prefers a widget to its picture, and without a kernel shows only that the
    widget is missing. The traceback of an interrupted cell is removed too: it says nothing about
    the cell.

    Parameters
    ----------
    model
        What a contents manager is about to save, as it passes it to its ``pre_save_hook``.
    """
    if model["type"] != "notebook":
        return
    for cell in model["content"].get("cells", []):
        if cell["cell_type"] == "code":
            cell["outputs"] = [one for one in cell["outputs"] if not _is_interrupt(one)]
            for output in cell["outputs"]:
                if len(output.get("data", {})) > 1:
                    output["data"].pop(WIDGET_VIEW, None)


def _is_interrupt(output: dict[str, Any]) -> bool:
    return bool(output["output_type"] == "error" and output["ename"] == "KeyboardInterrupt")
