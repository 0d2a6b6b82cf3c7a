"""The controls of the debrief: a table of selections, a list of phases, buttons to findings."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import ipywidgets as widgets

from vorlib.core.words import spoken_time
from vorlib.exhibits.base.control import Control
from vorlib.exhibits.base.controls import Button, DropDown, Number
from vorlib.exhibits.base.inputs import Note, paragraphs
from vorlib.exhibits.base.plain import plain
from vorlib.exhibits.debrief.state import DebriefState

__all__ = ["FindingButton", "Phases", "Rows", "Which"]

ESTIMATED = "Estimated from the track: type over what you know better."
HOW_TO_TYPE = (
    "A row for each change: time, station, course. The time is UTC, such as 09:12:30, or seconds "
    "of the flight."
)
MOST_FLIGHTS = 99.0
JUMP = ("between two phases", -1)
SAME_MOMENT_S = 0.5


class Rows(Control):
    """What was selected when, as rows of time, station and course that can be typed over.

    None is an estimate from the track, which the box then shows.
    """

    def __init__(self, field: str, label: str) -> None:
        self.label = label
        self.box = plain(widgets.Textarea, description=label, continuous_update=False, rows=7)
        self.box.add_class("vorlib-rows")
        self.estimate = plain(widgets.Button, description="Estimate from the track")
        self.estimate.on_click(lambda _: self.ask({self.field: None}))
        super().__init__(field, self.box, self.estimate)
        self.note = Note()
        self.widget.children = (*self.widget.children, self.note.widget)
        self.widget.add_class("vorlib-across")
        self.box.observe(self._entered, "value")
        self._rows = ""

    def read(self, value: Any) -> str | None:
        """Return the rows, or None for an estimate."""
        return None if value is None else str(value).strip()

    def follow(self, state: DebriefState) -> None:
        """Keep the rows to show, those estimated as well."""
        self._rows = state.case.rows if state.selections is None else state.selections
        estimated = state.selections is None and state.case.debrief is not None
        self.note.say(paragraphs(ESTIMATED if estimated else HOW_TO_TYPE))

    def _show(self, value: str | None) -> None:
        self.box.value = self._rows


class Which(Number):
    """Which of the flights in a file: a whole number, or nothing."""

    def __init__(self) -> None:
        super().__init__("number", "Which flight", "in file", 1.0, MOST_FLIGHTS, optional=True)

    def read(self, value: Any) -> int | None:
        """Return the number, or raise ValueError that says what is allowed."""
        number = super().read(value)
        if number is None:
            return None
        if number != int(number):
            raise ValueError(f"{self.label}: {number:g} is not whole. Enter {self._allowed}.")
        return int(number)


class Phases(Control):
    """A list of the phases of the flight: choosing one leads to its beginning."""

    def __init__(self) -> None:
        self.list = plain(DropDown, description="Phase", options=[JUMP])
        super().__init__("time_s", self.list)
        self.widget.add_class("vorlib-phases")
        self._state: DebriefState | None = None
        self._listed: object = None
        self.list.observe(self._chosen, "value")

    def _chosen(self, change: Mapping[str, Any]) -> None:
        if not self._showing and change["new"] != JUMP[1] and self._state is not None:
            begin_s = self._state.case.phases[change["new"]].begin_s
            self.ask({self.field: float(round(begin_s))})

    def follow(self, state: DebriefState) -> None:
        """List the phases of this flight."""
        self._state = state
        if self._listed is not state.case:
            self._listed = state.case
            options = [
                (f"{spoken_time(phase.begin_s)}: {phase.words}", i)
                for i, phase in enumerate(state.case.phases)
            ]
            with self._quietly():
                self.list.options = [JUMP, *options]

    def _show(self, value: float) -> None:
        at: list[int] = []
        if self._state is not None:
            shown_s = self._state.shown_s
            at = [
                i
                for i, phase in enumerate(self._state.case.phases)
                if phase.begin_s - SAME_MOMENT_S <= shown_s <= phase.end_s
            ]
        self.list.value = max(at, default=JUMP[1])


class FindingButton(Button):
    """A button to the finding before or after the moment; idle where there is none."""

    def __init__(self, label: str, side: int) -> None:
        self.side = side
        super().__init__("time_s", label, self._go)

    def _times(self, state: DebriefState) -> list[float]:
        times = (float(round(finding.time_s)) for finding in state.case.findings)
        return [t for t in times if (t - state.shown_s) * self.side > SAME_MOMENT_S]

    def _go(self, state: DebriefState) -> dict[str, Any]:
        times = self._times(state)
        return {"time_s": min(times, key=lambda t: abs(t - state.shown_s))} if times else {}

    def follow(self, state: DebriefState) -> None:
        """Be idle where there is no finding."""
        self.button.disabled = not self._times(state)
