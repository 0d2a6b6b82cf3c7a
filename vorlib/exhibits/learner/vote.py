"""Count a class's show of hands on the choices of a prediction."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

import ipywidgets as widgets

from vorlib.exhibits.base.plain import plain

__all__ = ["ClassVote", "choice_row"]


def choice_row(buttons: Sequence[widgets.Widget]) -> widgets.Box:
    """Return buttons in a row, which breaks where the page ends."""
    return plain(widgets.Box, list(buttons), classes="vorlib-choices")


class ClassVote:
    """A switch that brings a counter for each choice, for an instructor to press.

    Attributes
    ----------
    votes
        The choices voted for, in the order in which they were counted.
    switch
        The box that shows the counters.
    widget
        All of it.
    """

    def __init__(self, choices: tuple[str, ...]) -> None:
        self.choices = choices
        self.votes: list[str] = []
        self.switch = plain(
            widgets.Checkbox,
            description="Class vote",
            indent=False,
            tooltip="Count hands before the answer",
        )
        self._row = choice_row([])
        self.widget = plain(widgets.VBox, [self.switch, self._row])
        self.switch.observe(lambda _: self._show(), "value")
        self._show()

    @cached_property
    def counters(self) -> list[widgets.Button]:
        """One button for each choice; a press counts one hand."""
        return [self._counter(choice) for choice in self.choices]

    @cached_property
    def back(self) -> widgets.Button:
        """Takes the last vote back."""
        button = plain(widgets.Button, description="Undo", tooltip="Undo the last vote")
        button.on_click(lambda _: self.undo())
        return button

    def _counter(self, choice: str) -> widgets.Button:
        counter = plain(widgets.Button, icon="plus", tooltip=f"One more vote for: {choice}")
        counter.on_click(lambda _: self.count(choice))
        return counter

    def count(self, choice: str) -> None:
        """Count one hand for a choice."""
        self.votes.append(choice)
        self._show()

    def undo(self) -> None:
        """Undo the last vote; with none there is nothing to take."""
        self.votes = self.votes[:-1]
        self._show()

    def close(self) -> None:
        """Leave the votes on the page as they are: the answer is out."""
        for button in (self.switch, self.back, *self.counters):
            button.disabled = True

    @property
    def words(self) -> str:
        """How the class voted, such as "The class voted 214: 3, 310: 12."; empty without votes."""
        if not self.votes:
            return ""
        counts = ", ".join(f"{choice}: {self.votes.count(choice)}" for choice in self.choices)
        return f"The class voted {counts}."

    def _show(self) -> None:
        if not self.switch.value:
            self._row.children = ()
            return
        for counter, choice in zip(self.counters, self.choices, strict=True):
            counter.description = f"{choice}: {self.votes.count(choice)}"
        self._row.children = (*self.counters, self.back)
