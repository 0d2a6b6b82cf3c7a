"""The page of an exhibit: widgets in named slots, from top to bottom."""

from __future__ import annotations

from collections.abc import Iterable

import ipywidgets as widgets

__all__ = ["CLASSES", "SLOTS", "Page"]

# Each control says in which of them it stands; an exhibit may fill any of them otherwise.
SLOTS = ("above", "controls", "switches", "transport", "more", "task", "picture", "below")
# How the box with the controls of a slot is styled.
CLASSES = {"controls": "vorlib-controls", "switches": "vorlib-switches", "more": "vorlib-controls"}


class Page:
    """Widgets in the slots above, controls, switches, transport, more, task, picture and below.

    Attributes
    ----------
    widget
        The page itself.
    """

    def __init__(self) -> None:
        self._slots: dict[str, tuple[widgets.Widget, ...]] = dict.fromkeys(SLOTS, ())
        self.widget = widgets.VBox().add_class("vorlib-exhibit")

    def __getitem__(self, slot: str) -> tuple[widgets.Widget, ...]:
        """Return what stands in a slot."""
        return self._slots[slot]

    def fill(self, **slots: Iterable[widgets.Widget]) -> None:
        """Put widgets into slots, in place of what stood there.

        Raises
        ------
        TypeError
            If there is no such slot.
        """
        if unknown := sorted(set(slots) - set(SLOTS)):
            raise TypeError(f"no slot {', '.join(unknown)}; there are {', '.join(SLOTS)}")
        self._slots |= {name: tuple(shown) for name, shown in slots.items()}
        self.widget.children = [one for name in SLOTS for one in self._slots[name]]

    def html(self, slot: str) -> str:
        """Return the HTML that stands in a slot, one piece after the other."""
        return "".join(one.value for one in self._slots[slot] if isinstance(one, widgets.HTML))
