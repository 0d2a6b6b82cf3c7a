"""What a saved notebook keeps of a run: what can be shown when the kernel is gone."""

from __future__ import annotations

from typing import Any

from vorlib.io.notebooks import WIDGET_VIEW

__all__ = ["keep_still"]


def keep_still(model: dict[str, Any], **_: Any) -> None:
    """Keep of each widget the picture or the text beside it, before a server saves a notebook.

    A reader shows a widget rather than the picture, and of a widget without its kernel only that it
    is missing. The traceback of an interrupted cell is left out too: it tells nothing of the cell.

    Parameters
    ----------
    model
        What a contents manager is about to save, as its ``pre_save_hook`` is given it.
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
