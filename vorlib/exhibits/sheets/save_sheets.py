"""A folder that is named, and buttons that write sheets into it."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from vorlib.exhibits.base.control import Control
from vorlib.exhibits.base.inputs import Note, paragraphs
from vorlib.exhibits.base.plain import plain

__all__ = ["SaveSheets"]

Write = Callable[[Any, Path], Path | tuple[Path, ...]]


class SaveSheets(Control):
    """The folder that sheets go to, with a button for each sheet.

    Parameters
    ----------
    field
        The state's folder, empty while none is named.
    sheets
        What each button is called, and what it does: it writes into a folder what there is to
        write of a state, and returns where it went: one path, or several.
    """

    def __init__(self, field: str, sheets: Mapping[str, Write]) -> None:
        self.box = plain(
            widgets.Text,
            description="Folder",
            placeholder="such as ~/lessons",
            continuous_update=False,
        )
        self.box.add_class("vorlib-path")
        self.buttons = {label: plain(widgets.Button, description=label) for label in sheets}
        super().__init__(field, self.box, *self.buttons.values())
        self.widget.add_class("vorlib-across")
        self.note = Note()
        self.widget.children = (*self.widget.children, self.note.widget)
        self._state: Any = None
        self.box.observe(self._entered, "value")
        for label, write in sheets.items():
            self.buttons[label].on_click(lambda _, write=write: self._write(write))

    def read(self, value: Any) -> str:
        """Return the folder's name, or raise ValueError if it is not there."""
        name = str(value).strip()
        if name and not os.path.isdir(os.path.expanduser(name)):
            raise ValueError(f"Folder: there is no folder {name}. Make it, or name another.")
        return name

    def follow(self, state: Any) -> None:
        """Keep the state, of which the sheets are made."""
        self._state = state

    def _show(self, value: str) -> None:
        self.box.value = value

    def _write(self, write: Write) -> None:
        """Write a sheet, and say where it went or why it did not."""
        self.note.say("")
        name = getattr(self._state, self.field)
        if not name:
            self.say("Folder: name the folder that the sheets are to go to, such as ~/lessons.")
            return
        try:
            paths = write(self._state, Path(os.path.expanduser(name)))
        except OSError as error:
            self.say(f"Folder: nothing was written to {name}: {str(error).rstrip('.')}.")
        except ValueError as error:
            self.say(f"Nothing was written: {error}.")
        else:
            self.say("")
            each = paths if isinstance(paths, tuple) else (paths,)
            words = paragraphs(*(f"Written: {path.resolve()}" for path in each))
            self.note.say(f'<div role="status">{words}</div>')
