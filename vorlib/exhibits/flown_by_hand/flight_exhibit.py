"""The exhibit of a flight in progress: run and pause it, check off tasks, show the debrief."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from html import escape
from textwrap import fill
from typing import Any

import ipywidgets as widgets
from IPython.display import Image

from vorlib.core.angles import wrap_360
from vorlib.exhibits.base.changes import spoken_refusal
from vorlib.exhibits.base.control import Changes, Control
from vorlib.exhibits.base.exhibit import Exhibit, Grip
from vorlib.exhibits.base.plain import plain
from vorlib.exhibits.base.transport import STEP_S, Transport
from vorlib.exhibits.flown_by_hand.debrief import chart, debriefing, told
from vorlib.exhibits.flown_by_hand.hand_flight import (
    AT_START,
    STEEPEST_DEG,
    HandFlightState,
    flown,
    tasks_done,
)
from vorlib.exhibits.signal.ident import sounded
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import Theme
from vorlib.views.sentence import LINE
from vorlib.vor.receiver import Reason

__all__ = ["STEP_DEG", "FlightExhibit", "turned"]

STEP_DEG = 5.0  # how far one press of a key or button turns the bug, or changes the bank
TASKS_SHOWN = 3
SHORT_S = 120.0  # a flight this short is discarded without asking
AGAIN, SURE = "Start again", "Throw this flight away?"
# What the learner chooses before a flight; it is kept for the next one.
SET_UP = {"wind_from_deg", "wind_kt", "start_radial_deg", "start_distance_nm", "altitude_ft"}
SET_UP |= {"true_airspeed_kt", "show_wind", "show_plan", "range_nm", "speed"}
SILENT = (Reason.LINE_OF_SIGHT, Reason.OFF_THE_AIR)
START = {"start_radial_deg", "start_distance_nm", "altitude_ft", "wanted_heading_deg"}


def turned(state: HandFlightState, by_deg: float) -> Changes:
    """Return the changes that turn the bug, or change the bank, by some degrees to the right."""
    if not state.by_bank:
        return {"wanted_heading_deg": float(wrap_360(round(state.wanted_heading_deg + by_deg)))}
    bank = round(state.wanted_bank_deg + by_deg)
    return {"wanted_bank_deg": max(-STEEPEST_DEG, min(STEEPEST_DEG, float(bank)))}


def task_list(state: HandFlightState) -> str:
    """Return the last tasks done and the one that is due, as HTML; later ones stay hidden.

    The list is short so that the picture below it moves little as tasks are done.
    """
    known = state.tasks[: state.tasks_done + 1]
    if not known:
        return ""
    first = max(0, min(state.tasks_done + 1, len(known)) - TASKS_SHOWN)
    rows = (
        f"<li>{'✓ ' if i < state.tasks_done else '→ '}{escape(task.words)}</li>"
        for i, task in enumerate(known[first:], start=first)
    )
    return f'<ol start="{first + 1}">{"".join(rows)}</ol>'


class FlightExhibit(Exhibit[HandFlightState]):
    """An exhibit whose state is a flight in progress, which its `transport` advances.

    It takes the parameters of `Exhibit`.
    """

    transport: Transport

    def __init__(
        self,
        state: HandFlightState,
        draw: Callable[[HandFlightState, Theme], Picture],
        sentence: Callable[[HandFlightState], str],
        controls: Sequence[Control],
        grips: Mapping[str, Grip[HandFlightState]],
    ) -> None:
        self._debrief = plain(widgets.HTML, classes="vorlib-debrief")
        self._tasks = plain(widgets.HTML, classes="vorlib-tasks")
        self._ident = plain(widgets.HTML)
        self._shown: object = None
        self._heard = ""
        self._done_at_start = 0
        self._start = state
        transport = self._transport()
        self._again = transport.button(AGAIN)
        super().__init__(state, draw, sentence, controls, grips, transport=transport)
        self.page.fill(task=[self._tasks], below=[self._ident, self._debrief])
        self.widget.add_class("vorlib-flight")

    def _transport(self) -> Transport:
        buttons = {
            "On 1 s": lambda: self.transport.tick(STEP_S),
            "Left 5°": lambda: self._asked(lambda state: turned(state, -STEP_DEG)),
            "Right 5°": lambda: self._asked(lambda state: turned(state, STEP_DEG)),
            "Identify": self.identify,
            "Debrief": self.debrief,
            AGAIN: self._start_again,
        }
        return Transport(self, self._move, buttons, begin=lambda: not self.state.over)

    def _move(self, seconds: float) -> bool:
        """Fly for some seconds, and return whether the flight can continue."""
        try:
            self._become(flown(self.state, seconds), self.theme)
        except ValueError as error:
            self.controls[0].say(spoken_refusal(error, self.controls))
            return False
        return not self.state.over

    def _start_again(self) -> None:
        """Start again; a longer flight is discarded only at the second press."""
        button = self._again
        if self.state.moment.time_s > SHORT_S and button.description == AGAIN:
            self.transport.pause()
            button.description = SURE
        else:
            self.restart()

    def restart(self) -> None:
        """Pause, and start again with the wind and the start now chosen."""
        self.transport.pause()
        chosen: Changes = {field: getattr(self.state, field) for field in SET_UP}
        chosen.update(AT_START)
        self._become(replace(self._start, **chosen), self.theme)

    def identify(self) -> None:
        """Listen for the ident of the station tuned, and note whether it is heard."""
        silent = Reason(int(self.state.reading.reason)) in SILENT
        station = self.state.station
        self.set(heard="" if silent else station, silent=station if silent else "")

    def debrief(self) -> None:
        """Pause, and show the debrief of the flight so far."""
        self.transport.pause()
        now, log = self.state.moment, self.state.log
        if now.time_s > log[-1].now.time_s:
            log = (*log, self.state.logged(now))
        self.set(kept=log, debriefed=len(log))
        self.picture.bring(".vorlib-debrief", to_top=True)

    def tell(self) -> None:
        """Print the findings about the flight so far."""
        for sentence in told(self.state):
            print(fill(sentence, LINE, initial_indent="- ", subsequent_indent="  "))

    def chart(self) -> Image:
        """Return the strip chart of the flight so far."""
        return chart(self.state, self.theme)

    def take_up(self, state: HandFlightState) -> None:
        """Pause, and continue from another state of a flight."""
        self.transport.pause()
        self._become(state, self.theme)

    # ---- one path for every change

    def set(self, **changes: Any) -> None:
        """Change the state; a change of the start moves an aircraft that has not left it."""
        self._done_at_start = 0
        if START & changes.keys() and not self.state.begun:
            # tasks done before the flight stay done when the start moves
            changes |= AT_START
            self._done_at_start = self.state.tasks_done
        if changes.get("station", self.state.station) != self.state.station:
            changes |= {"heard": "", "silent": ""}
        super().set(**changes)
        self._done_at_start = 0

    def _become(self, state: HandFlightState, theme: Theme) -> None:
        state = replace(state, tasks_done=max(state.tasks_done, self._done_at_start))
        super()._become(replace(state, tasks_done=tasks_done(state)), theme)
        if self.state.heard != self._heard:
            self._heard = self.state.heard
            self._ident.value = sounded(self._heard, at_once=True) if self._heard else ""
        if self.transport.playing or not self.state.begun:
            self._again.description = AGAIN
        told = self.state.tasks_done, self.state.debriefed, len(self.state.log) == 1, theme
        if told != self._shown:
            self._shown = told
            self._tasks.value = task_list(self.state)
            self._debrief.value = debriefing(self.state, theme)
