"""A flight replayed in time: play, pause, step, speed up, scrub; a strip chart of all of it.

What is shown is a pure function of a state with a time in it. Playing only moves that time: the
time shown is the time elapsed times the speed, and a picture that would come late is left out.
"""

from __future__ import annotations

import asyncio
import math
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar

import ipywidgets as widgets

from vorlib.exhibits.base.controls import ChoiceControl, Control, Number, Switch
from vorlib.exhibits.base.exhibit import Exhibit, Grip
from vorlib.exhibits.base.replay import Replay
from vorlib.exhibits.base.strip_image import strip_image
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import Theme

__all__ = ["Playback", "Played"]

SPEEDS = (1.0, 2.0, 5.0, 10.0, 20.0)
FRAME_S = 0.04
SENTENCE_S = 1.0  # a sentence that changes faster cannot be read
UNSEEN_S = 5.0  # after so long without an answer nobody is watching
STEP_S = 1.0

Changes = dict[str, Any]


@dataclass(frozen=True)
class Played:
    """The part of a state that has to do with time; a base of the states of replayed flights.

    Attributes
    ----------
    time_s
        The moment asked for.
    speed
        Seconds of flight in one second of play.
    chart
        Whether the strip chart is open.
    """

    time_s: float = 0.0
    speed: float = 5.0
    chart: bool = False

    @property
    def shown_s(self) -> float:
        """The moment shown: a time beyond the flight is held at its end."""
        return min(max(self.time_s, 0.0), self.duration_s)

    @property
    def duration_s(self) -> float:
        """How long the flight is."""
        return max((replay.duration_s for _, replay in self.replays), default=0.0)

    @property
    def replays(self) -> tuple[tuple[str, Replay], ...]:
        """The flights, each with its name; none when the case cannot be flown."""
        raise NotImplementedError

    @property
    def problem(self) -> str:
        """Why the case cannot be flown; empty when it can."""
        return ""


P = TypeVar("P", bound=Played)


class TimeSlider(Number):
    """The time shown, in whole seconds: a slider as long as the flight, and a box."""

    # A browser reports each value that it rounds as if a hand had moved the slider, and with
    # floats it rounds nearly all of them.
    slider_type = widgets.IntSlider

    def __init__(self) -> None:
        super().__init__("time_s", "Time", "seconds", 0.0, 0.0, STEP_S)
        self._shown_s = 0.0
        self.widget.add_class("vorlib-clock")

    def follow(self, state: Any) -> None:
        """Be as long as the flight, and know the moment shown."""
        self._shown_s = state.shown_s
        if math.ceil(state.duration_s) != self.high:
            self.high = float(math.ceil(state.duration_s))
            self.slider.disabled = self.box.disabled = not self.high
            with self._quietly():  # a shorter slider moves its own value
                self.slider.max = max(self.high, STEP_S)

    def _show(self, value: float | None) -> None:
        super()._show(round(self._shown_s))


class Playback(Exhibit[P]):
    """An exhibit whose state is a moment of a flight.

    Parameters
    ----------
    state, draw, sentence, controls, grips
        As for any exhibit.
    notes
        HTML shown under the picture, of a state.
    """

    def __init__(
        self,
        state: P,
        draw: Callable[[P, Theme], Picture],
        sentence: Callable[[P], str],
        controls: Sequence[Control],
        grips: Mapping[str, Grip[P]] | None = None,
        *,
        notes: Callable[[P], str] | None = None,
    ) -> None:
        self._task: asyncio.Task[None] | None = None
        self._told_at = 0.0
        self._notes, self._notes_below = notes, widgets.HTML()
        self._charted: object = None
        self._remarked: Control | None = None  # beside which the present problem is said
        self._chart = widgets.HTML()
        self._remark = state.problem
        self._buttons = {
            "play": self._button("Play", self._toggle),
            "back": self._button("Back 1 s", lambda: self.step(-STEP_S)),
            "on": self._button("On 1 s", lambda: self.step(STEP_S)),
        }
        clock = TimeSlider()
        speed = ChoiceControl("speed", "Speed", {f"{s:g} times": s for s in SPEEDS})
        super().__init__(
            state,
            draw,
            sentence,
            [*controls, clock, speed, Switch("chart", "Strip chart")],
            grips,
        )
        wide, compact, picture = self.widget.children
        wide.children = [w for w in wide.children if w not in (clock.widget, speed.widget)]
        transport = widgets.Box([*self._buttons.values(), speed.widget, clock.widget])
        transport.add_class("vorlib-transport")
        below = self._notes_below.add_class("vorlib-notes"), self._chart.add_class("vorlib-chart")
        self.widget.children = (wide, compact, transport, picture, *below)

    def _button(self, words: str, press: Callable[[], None]) -> widgets.Button:
        button = widgets.Button(description=words)
        button.on_click(lambda _: press())
        return button

    # ---- the time moves

    @property
    def playing(self) -> bool:
        """Whether the time moves by itself."""
        return self._task is not None and not self._task.done()

    def play(self) -> None:
        """Let the time move, from the beginning again if it stands at the end.

        Raises
        ------
        RuntimeError
            Where no event loop runs; in a notebook one does.
        """
        if self.playing or not self.state.duration_s:
            return
        loop = asyncio.get_running_loop()
        if self.state.shown_s >= self.state.duration_s:
            self.set(time_s=0.0)
        self._task = loop.create_task(self._run())
        self.picture.hushed = True
        self._buttons["play"].description = "Pause"

    def pause(self) -> None:
        """Hold the time where it is."""
        if self._task is not None:
            self._task.cancel()
            self._stopped()

    def step(self, seconds: float) -> None:
        """Pause, and move the time by some seconds, not beyond the flight."""
        self.pause()
        self.set(time_s=min(max(self.state.shown_s + seconds, 0.0), self.state.duration_s))

    def _toggle(self) -> None:
        if self.playing:
            self.pause()
        else:
            self.play()

    def _stopped(self) -> None:
        self._task = None
        self._buttons["play"].description = "Play"
        self.picture.hushed = False
        self.picture.sentence = self.sentence

    async def _run(self) -> None:
        last = answered_at = asked_at = time.monotonic()
        self.picture.asked += 1
        while self.state.shown_s < self.state.duration_s and last - answered_at < UNSEEN_S:
            await asyncio.sleep(FRAME_S)
            now = time.monotonic()
            if self.picture.answered == self.picture.asked:
                answered_at = now
                if now - asked_at > 1.0:
                    asked_at, self.picture.asked = now, self.picture.asked + 1
            moved_s = self.state.speed * (now - last)
            self.set(time_s=min(self.state.shown_s + moved_s, self.state.duration_s))
            last = now
        self._stopped()

    def _tell(self, sentence: str) -> None:
        now = time.monotonic()
        if not self.playing or now - self._told_at >= SENTENCE_S:
            self._told_at = now
            super()._tell(sentence)

    def _asked(self, changes: Changes | Callable[[P], Changes]) -> None:
        if not callable(changes) and "time_s" in changes:
            self.pause()  # a hand on the slider has the time
        super()._asked(changes)

    # ---- what stands beside and below

    def set(self, **changes: Any) -> None:
        """Change the state; a case that cannot be flown is answered beside what made it so."""
        super().set(**changes)
        problem = self.state.problem
        if problem != self._remark:
            if self._remarked is not None and self._remarked.message == self._remark:
                self._remarked.say("")
            self._remarked = next((c for c in self._controls if c.field in changes), None)
            self._remark = problem
        if problem and self._remarked is not None and not self._remarked.message:
            self._remarked.say(problem)

    def _become(self, state: P, theme: Theme) -> None:
        super()._become(state, theme)
        self._buttons["back"].disabled = self.state.shown_s <= 0.0
        self._buttons["on"].disabled = self.state.shown_s >= self.state.duration_s
        self._buttons["play"].disabled = not self.state.duration_s
        if self._notes is not None:
            self._notes_below.value = self._notes(self.state)
        self._draw_chart()

    def _draw_chart(self) -> None:
        """Draw the strip chart if it is open and another flight or theme than before."""
        wanted = (self.state.replays, self.theme) if self.state.chart else None
        if wanted == self._charted:
            return
        self._charted = wanted
        self._chart.value = ""
        if wanted is not None and self.state.replays:
            self._chart.value = strip_image(self.state.replays, self.theme)
