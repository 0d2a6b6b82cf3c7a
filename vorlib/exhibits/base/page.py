"""The page of an exhibit: widgets in named slots, placed so that all of it fits a window.

The style sheet sets the stage: on a wide page the controls stand in a column to the left of the
picture, on a narrow one under it.
"""

from __future__ import annotations

from collections.abc import Iterable

import ipywidgets as widgets

from vorlib.exhibits.base.plain import plain, put_away

__all__ = ["CLASSES", "SLOTS", "Page"]

# Each control says in which of them it stands; an exhibit may fill any of them otherwise.
SLOTS = ("task", "picture", "transport", "controls", "switches", "more", "below")
ON_STAGE = ("task", "picture", "transport")
BESIDE = ("controls", "switches")  # the picture; and under them, folded away, `more`
# How the box with the controls of a slot is styled.
CLASSES = {
    "transport": "vorlib-transport",
    "controls": "vorlib-controls",
    "switches": "vorlib-switches",
    "more": "vorlib-controls",
}


class Page:
    """Widgets in the slots task, picture, transport, controls, switches, more and below.

    Attributes
    ----------
    widget
        The page itself.
    fold
        The button that shows what stands in `more`, and puts it away again.
    """

    def __init__(self) -> None:
        self._slots: dict[str, tuple[widgets.Widget, ...]] = dict.fromkeys(SLOTS, ())
        self.fold = plain(
            widgets.ToggleButton, description="More", icon="caret-right", classes="vorlib-fold"
        )
        self.fold.observe(lambda _: self._fold(), "value")
        self._side = plain(widgets.VBox, classes="vorlib-side")
        self._stage = plain(widgets.VBox, classes="vorlib-stage")
        self.widget = plain(widgets.VBox, classes="vorlib-exhibit")

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
        folded = (self.fold, *self._slots["more"]) if self._slots["more"] else ()
        self._side.children = [*self._in(BESIDE), *folded]
        side = (self._side,) if self._side.children else ()
        self._stage.children = [*self._in(ON_STAGE), *side]
        stage = (self._stage,) if self._stage.children else ()
        self.widget.children = [*stage, *self._slots["below"]]
        self._fold()

    def html(self, slot: str) -> str:
        """Return the HTML that stands in a slot, one piece after the other."""
        return "".join(one.value for one in self._slots[slot] if isinstance(one, widgets.HTML))

    def _in(self, slots: Iterable[str]) -> list[widgets.Widget]:
        return [one for name in slots for one in self._slots[name]]

    def _fold(self) -> None:
        self.fold.icon = "caret-down" if self.fold.value else "caret-right"
        for one in self._slots["more"]:
            put_away(one, not self.fold.value)
