"""What every control of an exhibit is: one field of its state as a row of widgets.

It reports what was asked for and shows what is; a wrong entry is answered beside it, and the last
good value stays.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from functools import cached_property
from html import escape
from typing import Any, Self, TypeAlias

import ipywidgets as widgets

from vorlib.exhibits.base.plain import plain

__all__ = ["Changes", "Control"]

Changes: TypeAlias = dict[str, Any]


class Control:
    """One field of a state as a row of widgets, with room for a message under it.

    Attributes
    ----------
    field
        Name of the field this control stands for.
    widget
        What to put on the page.
    ask
        Called with the changes asked for, or with a function that makes them from the state; the
        exhibit sets it.
    consequences
        From a state and a new value of the field: what else changes with it.
    slot
        Name of the place on the page, one of `vorlib.exhibits.base.page.SLOTS`.
    feeds
        Arguments that take the field's value under other names, so that what is refused about
        them is answered here.
    row
        The widgets themselves.
    label, unit
        What the quantity is called, and its unit in words; empty where there is none.
    message
        What is said beside the control about the last entry; empty when it was good.
    """

    slot = "controls"
    row_classes = "vorlib-control-row"
    label = unit = ""

    def __init__(self, field: str, *row: widgets.Widget) -> None:
        self.field = field
        self.feeds: tuple[str, ...] = ()
        self.ask: Callable[[Changes | Callable[[Any], Changes]], None] = lambda changes: None
        self.consequences: Callable[[Any, Any], Changes] = lambda state, value: {}
        self.message = ""
        self._showing = False
        self.row = plain(widgets.HBox, row, classes=self.row_classes)
        self.widget = plain(widgets.VBox, [self.row], classes="vorlib-control")

    @cached_property
    def message_box(self) -> widgets.HTML:
        """Where a message is shown; it stands under the row only while there is one."""
        return plain(widgets.HTML)

    def put_away(self) -> Self:
        """Stand among what is seldom needed, which is folded away; return the control."""
        return self.put("more")

    def put(self, slot: str) -> Self:
        """Stand in a slot of the page; return the control."""
        self.slot = slot
        return self

    def read(self, value: Any) -> Any:
        """Return the field's value meant by what was entered, or raise ValueError."""
        return value

    def follow(self, state: Any) -> None:
        """Take from a state what else the control depends on, before its value is shown."""

    def show(self, value: Any) -> None:
        """Make the widgets show a value, without taking that for something asked for."""
        with self._quietly():
            self._show(value)

    def _show(self, value: Any) -> None:
        raise NotImplementedError

    def takes(self, argument: str) -> bool:
        """Whether the field's value is the value of an argument of this name."""
        return argument == self.field or argument in self.feeds

    def say(self, message: str) -> None:
        """Say something beside the control; an empty message takes the last one away."""
        if message == self.message:
            return
        self.message = message
        words = f'<div class="vorlib-message" role="alert">{escape(message)}</div>'
        self.message_box.value = words if message else ""
        below = [one for one in self.widget.children[1:] if one is not self.message_box]
        said = [self.message_box] if message else []
        self.widget.children = [self.row, *said, *below]

    @contextmanager
    def _quietly(self) -> Iterator[None]:
        self._showing = True
        try:
            yield
        finally:
            self._showing = False

    def _entered(self, change: Mapping[str, Any]) -> None:
        if not self._showing:
            self.ask({self.field: change["new"]})
