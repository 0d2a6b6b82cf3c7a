"""Choose which column of a table holds what, from lists of the table's own columns."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any

from vorlib.exhibits.base.control import Control
from vorlib.exhibits.base.controls import DropDown
from vorlib.exhibits.base.plain import plain, put_away
from vorlib.exhibits.debrief.state import DebriefState
from vorlib.io.text import FileError
from vorlib.tracks.columns import (
    ABSENT,
    DATE_ORDERS,
    FEET_PER_UNIT,
    KNOTS_PER_UNIT,
    QUANTITIES,
    SAID,
    Columns,
)
from vorlib.tracks.table import found_in, names_in

__all__ = ["ColumnLists"]

ALLOWED = {
    "altitude_unit": ("Altitude in", tuple(FEET_PER_UNIT)),
    "speed_unit": ("Speed in", tuple(KNOTS_PER_UNIT)),
    "date_order": ("Days written", DATE_ORDERS),
}
ORDERS = {"mdy": "month/day/year", "dmy": "day/month/year"}


@lru_cache(maxsize=4)
def _found(text: str, declared: Columns) -> tuple[Columns, tuple[str, ...]]:
    """Return the columns found in a table, as far as they are, and the names of all."""
    if text.lstrip().startswith("<"):
        return Columns(), ()
    try:
        columns, names = found_in(text, declared)
    except FileError:
        return Columns(), tuple(names_in(text, declared))
    return columns, tuple(names)


class ColumnLists(Control):
    """A list for each quantity of a table: which of its columns holds it.

    What is found by its name is told in the first entry of each list. Without a table there is
    nothing to choose, and the lists are put away.
    """

    def __init__(self) -> None:
        self.label = "Columns"
        named = {name: SAID[name].capitalize() for name in QUANTITIES}
        self.lists = {
            name: plain(DropDown, description=words, options=[("", "")])
            for name, words in (
                named | {name: words for name, (words, _) in ALLOWED.items()}
            ).items()
        }
        super().__init__("columns", *self.lists.values())
        self.row.add_class("vorlib-controls")
        self.widget.add_class("vorlib-across")
        self._declared = Columns()
        for name, one in self.lists.items():
            one.observe(lambda change, name=name: self._chosen(name, change), "value")

    def _chosen(self, name: str, change: Mapping[str, Any]) -> None:
        if not self._showing:
            self.ask({self.field: replace(self._declared, **{name: change["new"]})})

    def follow(self, state: DebriefState) -> None:
        """List the columns of this file, and those recognized."""
        self._declared = state.columns
        text = state.track.content if state.track is not None else "<"
        found, names = _found(text, state.columns)
        put_away(self.widget, not names)
        with self._quietly():
            for name, one in self.lists.items():
                declared, told = getattr(state.columns, name), getattr(found, name)
                by_name = f"as found: {told}" if told and not declared else "as found"
                choices = [(by_name, ""), *self._choices(name, names)]
                if declared and declared not in dict(choices).values():
                    choices.append((declared, declared))
                one.options, one.value = choices, declared

    def _choices(self, name: str, names: tuple[str, ...]) -> list[tuple[str, str]]:
        if name in ALLOWED:
            return [(ORDERS.get(value, value), value) for value in ALLOWED[name][1]]
        listed = [(one, one) for one in dict.fromkeys(names) if one]
        needed = name in ("time", "lat_deg", "lon_deg")
        return listed if needed else [*listed, ("none", ABSENT)]

    def _show(self, value: Columns) -> None:
        """Do nothing: `follow` has shown it."""
