"""What lets an exhibit fly: buttons, the clock, tasks ticked off, and the debrief below."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from html import escape
from textwrap import fill
from typing import Any

import ipywidgets as widgets
from IPython.display import Image

from vorlib.core.angles import wrap_360
from vorlib.exhibits.base.clock import Clock
from vorlib.exhibits.base.controls import Changes, ChoiceControl, Control
from vorlib.exhibits.base.exhibit import Exhibit, Grip
from vorlib.exhibits.flown_by_hand.debrief import chart, debriefing, findings
from vorlib.exhibits.flown_by_hand.hand_flight import (
    AT_START,
    STEEPEST_DEG,
    HandFlightState,
    Logged,
    flown,
    tasks_done,
)
from vorlib.exhibits.signal.ident import Sound
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import Theme
from vorlib.views.sentence import LINE
from vorlib.vor.receiver import Reason

__all__ = ["STEP_DEG", "FlightExhibit", "turned"]

SPEEDS = (1.0, 2.0, 5.0, 10.0, 20.0)
STEP_DEG = 5.0  # what one arrow key or one press of a button turns the bug, or banks
SENTENCE_S = 2.0  # a sentence that changes faster cannot be read
TASKS_SHOWN = 3
# What is chosen before a flight: put away, so that what a hand needs in flight fits on a screen,
# and the wind is not given away.
SET_UP = {"wind_from_deg", "wind_kt", "start_radial_deg", "start_distance_nm", "altitude_ft"}
SET_UP |= {"true_airspeed_kt"}
ASK_S, UNSEEN_S = 1.0, 5.0  # how often to ask who watches, and when to take it that nobody does
SILENT = (Reason.LINE_OF_SIGHT, Reason.OFF_THE_AIR)
START = {"start_radial_deg", "start_distance_nm", "altitude_ft", "wanted_heading_deg"}


def turned(state: HandFlightState, by_deg: float) -> Changes:
    """Return the bug turned, or the bank changed, by some degrees to the right."""
    if not state.by_bank:
        return {"wanted_heading_deg": float(wrap_360(round(state.wanted_heading_deg + by_deg)))}
    bank = round(state.wanted_bank_deg + by_deg)
    return {"wanted_bank_deg": max(-STEEPEST_DEG, min(STEEPEST_DEG, float(bank)))}


def task_list(state: HandFlightState) -> str:
    """Return the last tasks done and the one that is due, as HTML; later ones are not told yet.

    Few rows, so that the picture below stays where it is while the tasks go by.
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
    """An exhibit whose state is a flight in progress.

    Parameters are those of any exhibit.
    """

    def __init__(
        self,
        state: HandFlightState,
        draw: Callable[[HandFlightState, Theme], Picture],
        sentence: Callable[[HandFlightState], str],
        controls: Sequence[Control],
        grips: Mapping[str, Grip[HandFlightState]],
    ) -> None:
        self._clock = Clock(self._tick, speed=state.speed)
        self._told_at = self._asked_at = 0.0
        self._play = self._button("Play", self.toggle)
        self._debrief = widgets.HTML().add_class("vorlib-debrief")
        self._tasks = widgets.HTML().add_class("vorlib-tasks")
        self._ident = widgets.HTML()
        self._shown: object = None
        self._heard = ""
        self._done_at_start = 0
        speed = ChoiceControl("speed", "Speed", {f"{s:g} times": s for s in SPEEDS})
        super().__init__(state, draw, sentence, [*controls, speed], grips)
        row = (
            self._play,
            self._button("On 1 s", lambda: self.step(1.0)),
            self._button("Left 5°", lambda: self._asked(lambda s: turned(s, -STEP_DEG))),
            self._button("Right 5°", lambda: self._asked(lambda s: turned(s, STEP_DEG))),
            self._button("Identify", self.identify),
            self._button("Debrief", self.debrief),
            self._button("Start again", self.restart),
            self._button("Set-up", self.set_up),
            speed.widget,
        )
        wide, compact, picture = self.widget.children
        before = {c.widget for c in controls if c.field in SET_UP}
        wide.children = [w for w in wide.children if w not in {*before, speed.widget}]
        self._set_up = widgets.Box([c.widget for c in controls if c.widget in before])
        self._set_up.add_class("vorlib-controls")
        self._set_up.layout.display = "none"
        transport = widgets.Box(row).add_class("vorlib-transport")
        self.widget.children = (
            wide,
            compact,
            transport,
            self._set_up,
            self._tasks,
            picture,
            self._ident,
            self._debrief,
        )
        self.widget.add_class("vorlib-flight")

    def _button(self, words: str, press: Callable[[], None]) -> widgets.Button:
        button = widgets.Button(description=words)
        button.on_click(lambda _: press())
        return button

    @property
    def playing(self) -> bool:
        """Whether time runs."""
        return self._clock.playing

    def play(self) -> None:
        """Let time run.

        Raises
        ------
        RuntimeError
            Where no event loop runs; in a notebook one does.
        """
        if self.playing or self.state.over:
            return
        self._clock.play()
        self._ask()
        self._play.description, self.picture.hushed = "Pause", True

    def pause(self) -> None:
        """Stop time; the flight stays as it is."""
        self._clock.pause()
        self._stopped()

    def toggle(self) -> None:
        """Play, or pause."""
        if self.playing:
            self.pause()
        else:
            self.play()

    def step(self, seconds: float) -> None:
        """Fly on for some seconds."""
        self._become(flown(self.state, seconds), self.theme)

    def restart(self) -> None:
        """Pause, and put the aircraft back to the start."""
        self.pause()
        self.set(**AT_START, heard="")

    def set_up(self) -> None:
        """Show the controls for wind, start and airspeed, or put them away."""
        self._set_up.layout.display = None if self._set_up.layout.display else "none"

    def identify(self) -> None:
        """Listen to the ident of the station tuned."""
        silent = Reason(int(self.state.reading.reason)) in SILENT
        self.set(heard="" if silent else self.state.station)

    def debrief(self) -> None:
        """Pause, and show the debrief of the flight so far."""
        self.pause()
        now, log = self.state.moment, self.state.log
        if now.time_s > log[-1].now.time_s:
            log = (*log, Logged(now, self.state.station, self.state.course_deg))
        self.set(kept=log, debriefed=len(log))

    def tell(self) -> None:
        """Print what there is to say about the flight so far."""
        for sentence in findings(self.state).sentences:
            print(fill(sentence, LINE, initial_indent="- ", subsequent_indent="  "))

    def chart(self) -> Image:
        """Return the strip chart of the flight so far."""
        return chart(self.state, self.theme)

    def take_up(self, state: HandFlightState) -> None:
        """Pause, and go on from another state of such a flight."""
        self.pause()
        self._become(state, self.theme)

    # ---- one path for every change

    def set(self, **changes: Any) -> None:
        """Change the state; what belongs to the start moves an aircraft that has not left it."""
        self._done_at_start = 0
        if START & changes.keys() and not self.state.begun:
            # what was done at the start stays done, wherever the start is
            changes |= AT_START
            self._done_at_start = self.state.tasks_done
        if changes.get("station", self.state.station) != self.state.station:
            changes["heard"] = ""
        super().set(**changes)
        self._done_at_start = 0
        self._clock.speed = self.state.speed

    def _become(self, state: HandFlightState, theme: Theme) -> None:
        state = replace(state, tasks_done=max(state.tasks_done, self._done_at_start))
        super()._become(replace(state, tasks_done=tasks_done(state)), theme)
        if self.state.heard != self._heard:
            self._heard = self.state.heard
            sound = Sound(self._heard, at_once=True).widget.value if self._heard else ""
            self._ident.value = sound
        told = self.state.tasks_done, self.state.debriefed, len(self.state.log) == 1, theme
        if told != self._shown:
            self._shown = told
            self._tasks.value = task_list(self.state)
            self._debrief.value = debriefing(self.state, theme)

    def _tell(self, sentence: str) -> None:
        now = time.monotonic()
        if not self.playing or now - self._told_at >= SENTENCE_S:
            self._told_at = now
            super()._tell(sentence)

    # ---- time runs

    def _tick(self, seconds: float) -> bool:
        """Fly on; stop at the end, where the aircraft cannot be flown on, or with nobody there."""
        try:
            self.step(seconds)
        except ValueError as error:
            self._controls[0].say(str(error))
            going = False
        else:
            going = not self.state.over and self._watched()
        if not going:
            self._stopped()
        return going

    def _watched(self) -> bool:
        """Ask now and then whether any browser shows the picture; they answer with the number."""
        now = time.monotonic()
        if self.picture.answered == self.picture.asked and now - self._asked_at >= ASK_S:
            self._ask()
        return self.picture.answered == self.picture.asked or now - self._asked_at < UNSEEN_S

    def _ask(self) -> None:
        self._asked_at = time.monotonic()
        self.picture.asked += 1

    def _stopped(self) -> None:
        self._play.description, self.picture.hushed = "Play", False
        self.picture.sentence = self.sentence
