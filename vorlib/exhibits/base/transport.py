"""The player of time: Play and Pause, buttons beside it, the speed, and a slider for the time."""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Mapping
from typing import Any, Protocol

import ipywidgets as widgets

from vorlib.exhibits.base.clock import Clock
from vorlib.exhibits.base.control import Control
from vorlib.exhibits.base.controls import ChoiceControl, Number
from vorlib.exhibits.base.picture_widget import PictureWidget
from vorlib.exhibits.base.plain import plain

__all__ = ["SENTENCE_S", "SPEEDS", "STEP_S", "UNSEEN_S", "TimeSlider", "Transport"]

SPEEDS = (1.0, 2.0, 5.0, 10.0, 20.0)
STEP_S = 1.0
SENTENCE_S = 1.0 / 3.0  # how far a sentence may lag behind its picture; nobody reads faster
ASK_S, UNSEEN_S = 1.0, 5.0  # how often to ask who watches, and when nobody does


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


class _Speed(ChoiceControl):
    """The speed of a clock, kept in the state."""

    def __init__(self, clock: Clock) -> None:
        super().__init__("speed", "Speed", {f"{speed:g} times": speed for speed in SPEEDS})
        self._clock = clock

    def follow(self, state: Any) -> None:
        """Set the clock."""
        self._clock.speed = state.speed


class _Watch:
    """Asks now and then whether any browser shows a picture; each answers with the number asked."""

    def __init__(self) -> None:
        self._asked_at = 0.0

    def ask(self, picture: PictureWidget) -> None:
        """Ask."""
        self._asked_at = time.monotonic()
        picture.asked += 1

    def sees(self, picture: PictureWidget) -> bool:
        """Return whether anybody answered of late, and ask again when it is time to."""
        passed_s = time.monotonic() - self._asked_at
        if picture.answered != picture.asked:
            return passed_s < UNSEEN_S
        if passed_s >= ASK_S:
            self.ask(picture)
        return True


class Shown(Protocol):
    """What has a picture."""

    @property
    def picture(self) -> PictureWidget: ...


class Transport:
    """Time that is played, paused and moved.

    Parameters
    ----------
    shown
        The exhibit whose time it is.
    move
        Called with the simulated seconds to move on by; returns whether there is more to come.
    buttons
        What stands to the right of Play: what each button says, and what it does.
    begin
        Called before time runs; returns whether there is anything to play.
    slider
        Whether the time is a field of the state, with a slider of its own.

    Attributes
    ----------
    controls
        Those for fields of the state.
    widget
        What to put on the page.
    """

    def __init__(
        self,
        shown: Shown,
        move: Callable[[float], bool],
        buttons: Mapping[str, Callable[[], Any]],
        *,
        begin: Callable[[], bool],
        slider: bool = False,
    ) -> None:
        self._shown, self._move, self._begin = shown, move, begin
        self._clock = Clock(self.tick, now=time.monotonic)
        self._watch = _Watch()
        self._told_at, self._latest = 0.0, ""
        self._buttons = [_button(words, press) for words, press in buttons.items()]
        self._play = _button("Play", self.toggle, "vorlib-play")
        self.controls: list[Control] = [_Speed(self._clock), *([TimeSlider()] if slider else [])]
        row = [self._play, *self._buttons, *(control.widget for control in self.controls)]
        self.widget = plain(widgets.Box, row, classes="vorlib-transport")

    def button(self, words: str) -> widgets.Button:
        """Return the button that says these words, or raise KeyError."""
        for button in (self._play, *self._buttons):
            if button.description == words:
                return button
        raise KeyError(words)

    @property
    def play_button(self) -> widgets.Button:
        """The button that plays and pauses, whichever it says."""
        return self._play

    @property
    def playing(self) -> bool:
        """Whether time runs."""
        return self._clock.playing

    def play(self) -> None:
        """Let time run, if there is anything to play.

        Raises
        ------
        RuntimeError
            Where no event loop runs; in a notebook one does.
        """
        if self.playing or not self._begin():
            return
        self._clock.play()
        self._watch.ask(self._shown.picture)
        self._play.description, self._shown.picture.live_off = "Pause", True

    def pause(self) -> None:
        """Hold time where it is."""
        if self.playing:
            self._clock.pause()
            self._stopped()

    def toggle(self) -> None:
        """Play, or pause."""
        if self.playing:
            self.pause()
        else:
            self.play()

    def tick(self, seconds: float) -> bool:
        """Move on by simulated seconds, as the clock does; return whether time may run on.

        It may not at the end, nor while no browser shows the picture.
        """
        going = self._move(seconds) and self._watch.sees(self._shown.picture)
        if self.playing and not going:
            self._stopped()
        return going

    def tell(self, sentence: str) -> None:
        """Put a sentence under the picture that is about to be shown.

        While time runs it stays a little, though never as long as `SENTENCE_S`: the picture then
        comes with its own sentence, in one message, however late it comes itself.
        """
        self._latest = sentence
        now = time.monotonic()
        if not self.playing or now - self._told_at >= SENTENCE_S:
            self._told_at, self._shown.picture.sentence = now, sentence

    def _stopped(self) -> None:
        picture = self._shown.picture
        self._play.description, picture.live_off = "Play", False
        picture.sentence = self._latest


def _button(words: str, press: Callable[[], Any], classes: str = "") -> widgets.Button:
    button = plain(widgets.Button, description=words, classes=classes)
    button.on_click(lambda _: press())
    return button
