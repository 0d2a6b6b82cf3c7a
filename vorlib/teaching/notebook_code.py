"""What the code of a lesson's notebook shows and asks, read without running it."""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from vorlib.core.angles import format_direction

__all__ = ["NotebookCode", "ShownExhibit"]

EXHIBITS = "x"  # what the notebooks call the room of exhibits
NO_EXHIBITS = {"predict", "practice", "tell"}
# What stands behind a name's last word, and how its value is written.
UNITS = {"nm": "NM", "kt": "kt", "ft": "ft", "s": "s", "db": "dB"}
DIRECTIONS = ("radial", "course", "heading", "wind_from")
# What a switch that is off means to a reader, and one that is on where its name alone says little.
SWITCHED_OFF = {"inbound": "outbound", "toward": "away from the station", "lead": "no lead"}
SWITCHED_ON = {"both": "flown both ways", "enlarged": "scale enlarged"}
SAYS_ENOUGH = ("method", "pilot")  # whose values need no name before them
VALUES = {"dme": "radial and DME"}


@dataclass(frozen=True)
class ShownExhibit:
    """An exhibit as a notebook shows it: its name, and its settings in words."""

    name: str
    settings: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """Name and settings, such as "intercept: radial 250, 11 NM"."""
        name = self.name.replace("_", " ")
        return f"{name}: {', '.join(self.settings)}" if self.settings else name


class NotebookCode:
    """The code cells of a notebook.

    Parameters
    ----------
    sources
        Of all its code cells, in their order.
    """

    def __init__(self, sources: Sequence[str]) -> None:
        self._trees = {source: ast.parse(source) for source in sources}
        self._known: dict[str, Any] = {}
        for tree in self._trees.values():
            for node in tree.body:
                if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
                    value = self._value(node.value)
                    if value is not None:
                        self._known[node.targets[0].id] = value

    @property
    def calls(self) -> frozenset[str]:
        """Names of all that is called of the exhibits."""
        return frozenset(name for source in self._trees for name, _ in self._all_calls(source))

    def predictions(self, sources: Iterable[str]) -> tuple[str, ...]:
        """Return the ids of the predictions that some cells ask for."""
        calls = [call for source in sources for call in self._all_calls(source)]
        return tuple(str(self._value(c.args[0])) for name, c in calls if name == "predict")

    def practice(self, sources: Iterable[str]) -> tuple[tuple[str, ...], int]:
        """Return what some cells let practice, and how many questions."""
        topics: list[str] = []
        count = 0
        for source in sources:
            for name, call in self._all_calls(source):
                if name == "practice":
                    topics += [str(word) for word in self._arguments(call)]
                    count += int(self._settings(call).get("count", 0))
        return tuple(topics), count

    def exhibits(self, sources: Iterable[str]) -> tuple[ShownExhibit, ...]:
        """Return the exhibits that some cells show, each as it is shown first.

        What is shown again has been set to what a learner was to find.
        """
        shown = [self._shown(call) for source in sources for call in self._shown_in(source)]
        return tuple({one.name: one for one in reversed(shown)}.values())[::-1]

    def _shown_in(self, source: str) -> Iterator[ast.Call]:
        """Yield the call that a cell shows: one by itself, or one that was given a name."""
        body = self._trees[source].body
        last = body[-1] if body else None
        if not isinstance(last, ast.Expr):
            return
        made = last.value
        if isinstance(made, ast.Name):
            named = [
                node.value
                for node in body
                if isinstance(node, ast.Assign)
                and isinstance(node.targets[0], ast.Name)
                and node.targets[0].id == made.id
            ]
            made = named[-1] if named else made
        if isinstance(made, ast.Call) and _name(made) and _name(made) not in NO_EXHIBITS:
            yield made

    def _shown(self, call: ast.Call) -> ShownExhibit:
        given = [
            word if isinstance(word, str) else f"radial {format_direction(float(word))}"
            for word in self._arguments(call)
            if isinstance(word, str | float | int)
        ]
        named = [_words(*setting) for setting in self._settings(call).items()]
        return ShownExhibit(_name(call), tuple(filter(None, (*given, *named))))

    def _all_calls(self, source: str) -> Iterator[tuple[str, ast.Call]]:
        nodes = [n for n in ast.walk(self._trees[source]) if isinstance(n, ast.Call)]
        for node in sorted(nodes, key=lambda n: (n.lineno, n.col_offset)):
            if name := _name(node):
                yield name, node

    def _arguments(self, call: ast.Call) -> list[Any]:
        """Return the values of the arguments without a name that can be read off."""
        values: list[Any] = []
        for argument in call.args:
            several = isinstance(argument, ast.Starred)
            value = self._value(argument.value if isinstance(argument, ast.Starred) else argument)
            if value is not None:
                values += value if several else [value]
        return values

    def _settings(self, call: ast.Call) -> dict[str, Any]:
        """Return the values of the arguments with names that can be read off."""
        settings: dict[str, Any] = {}
        for keyword in call.keywords:
            value = self._value(keyword.value)
            if keyword.arg is None and isinstance(value, dict):
                settings |= value
            elif keyword.arg is not None and value is not None:
                settings[keyword.arg] = value
        return settings

    def _value(self, node: ast.expr) -> Any:
        """Return what a literal, or a name given to one, stands for; None for all else."""
        if isinstance(node, ast.Name):
            return self._known.get(node.id)
        try:
            return ast.literal_eval(node)
        except ValueError:
            return None


def _name(call: ast.Call) -> str:
    """Return what is called of the exhibits; nothing for another call."""
    called = call.func
    if isinstance(called, ast.Attribute) and isinstance(called.value, ast.Name):
        return called.attr if called.value.id == EXHIBITS else ""
    return ""


def _words(name: str, value: Any) -> str:
    """Return a setting in words: "wind_from_deg" of 304 is "wind from 304".

    A bare number, such as that of a draw by chance, says nothing to a reader.
    """
    quantity, _, unit = name.rpartition("_")
    if unit == "deg" and quantity in DIRECTIONS:
        return f"{quantity.replace('_', ' ')} {format_direction(float(value))}"
    if unit in (*UNITS, "deg"):
        size = f"{value:,g} {UNITS.get(unit, 'degrees')}"
        return size if name == "distance_nm" else f"{quantity.replace('_', ' ')} {size}"
    plain = name.replace("_", " ")
    if isinstance(value, bool):
        return SWITCHED_ON.get(name, plain) if value else SWITCHED_OFF.get(name, f"no {plain}")
    if not isinstance(value, str):
        return ""
    said = VALUES.get(value, value)
    return said if name in SAYS_ENOUGH else f"{plain} {said}"
