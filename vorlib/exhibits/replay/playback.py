"""A flight replayed in time: play, pause, step, speed up, scrub; a strip chart of all of it.

What is shown is a pure function of a state with a time in it. Playing only moves that time: the
time shown is the time elapsed times the speed, and a picture that would come late is left out.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias, TypeVar

import ipywidgets as widgets

from vorlib.exhibits.base.changes import Remark
from vorlib.exhibits.base.control import Control
from vorlib.exhibits.base.controls import Switch
from vorlib.exhibits.base.exhibit import Exhibit, Grip
from vorlib.exhibits.base.plain import plain
from vorlib.exhibits.base.transport import STEP_S, Transport
from vorlib.exhibits.messages.at_rest import AtRest
from vorlib.exhibits.replay.replay import Replay, ReplayMoment
from vorlib.exhibits.replay.strip_html import strip_html
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import Theme

__all__ = ["Playback", "Played"]

BACK, ON = "Back 1 s", "On 1 s"

Changes = dict[str, Any]
Flights: TypeAlias = tuple[tuple[str, Replay], ...]


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
        return min(self.time_s, self.duration_s) if self.time_s > 0.0 else 0.0

    @property
    def duration_s(self) -> float:
        """How long the flight is."""
        return max((replay.duration_s for _, replay in self.replays), default=0.0)

    @property
    def replays(self) -> Flights:
        """The flights, each with its name; none when the case cannot be flown."""
        raise NotImplementedError

    def at(self, time_s: float) -> ReplayMoment:
        """Return a moment of the first flight."""
        return self.replays[0][1].at(time_s)

    @property
    def problem(self) -> str:
        """Why the case cannot be flown; empty when it can."""
        return ""


P = TypeVar("P", bound=Played)


class Playback(Exhibit[P]):
    """An exhibit whose state is a moment of a flight, played by its `transport`.

    Parameters
    ----------
    state, draw, sentence, controls, grips
        As for any exhibit.
    notes
        HTML shown under the picture, of a state.
    strip
        Whether a strip chart can be opened.
    """

    transport: Transport

    def __init__(
        self,
        state: P,
        draw: Callable[[P, Theme], Picture],
        sentence: Callable[[P], str],
        controls: Sequence[Control],
        grips: Mapping[str, Grip[P]] | None = None,
        *,
        notes: Callable[[P], str] | None = None,
        strip: bool = True,
    ) -> None:
        self._notes, self._notes_below = notes, plain(widgets.HTML, classes="vorlib-notes")
        self._chart = plain(widgets.HTML, classes="vorlib-chart")
        self._charted: tuple[()] | tuple[Flights, Theme] = ()  # what the chart is wanted of
        self._chart_later = AtRest(self._fill_chart)
        self._problem = Remark(state.problem)  # beside what made it so
        buttons = {BACK: lambda: self._jump(-STEP_S), ON: lambda: self._jump(STEP_S)}
        transport = Transport(self, self._move, buttons, begin=self._begin, slider=True)
        shown = [*controls, *([Switch("chart", "Strip chart")] if strip else [])]
        super().__init__(state, draw, sentence, shown, grips, transport=transport)
        self.page.fill(below=[self._notes_below, self._chart])

    # ---- the time moves

    def _begin(self) -> bool:
        """Begin again at the end; return whether there is a flight."""
        if self.state.shown_s >= self.state.duration_s > 0.0:
            self.set(time_s=0.0)
        return self.state.duration_s > 0.0

    def _move(self, seconds: float) -> bool:
        """Move the time, not beyond the flight; return whether its end is still to come."""
        self.set(time_s=min(max(self.state.shown_s + seconds, 0.0), self.state.duration_s))
        return self.state.shown_s < self.state.duration_s

    def _jump(self, seconds: float) -> None:
        self.transport.pause()
        self._move(seconds)

    def _asked(self, changes: Changes | Callable[[P], Changes]) -> None:
        if not callable(changes) and "time_s" in changes:
            self.transport.pause()  # a hand on the slider has the time
        super()._asked(changes)
        if not callable(changes) and changes.get("chart"):
            self.picture.bring(".vorlib-chart")

    # ---- what stands beside and below

    def set(self, **changes: Any) -> None:
        """Change the state; a case that cannot be flown is answered beside what made it so."""
        super().set(**changes)
        problem, beside = self.state.problem, self._problem.control
        if problem != self._problem.words:
            beside = next((c for c in self.controls if c.field in changes), None)
        self._problem.say(beside, problem)

    def _become(self, state: P, theme: Theme) -> None:
        super()._become(state, theme)
        self.transport.button(BACK).disabled = self.state.shown_s <= 0.0
        self.transport.button(ON).disabled = self.state.shown_s >= self.state.duration_s
        self.transport.play_button.disabled = not self.state.duration_s
        if self._notes is not None:
            self._notes_below.value = self._notes(self.state)
        self._draw_chart()

    def _draw_chart(self) -> None:
        """Draw the strip chart if it is open and another flight or theme than before.

        It takes as long as dozens of pictures. So one that replaces another waits until the hand
        rests; meanwhile the old one is pale.
        """
        wanted = (self.state.replays, self.theme) if self.state.chart and self.state.replays else ()
        if wanted == self._charted:
            return
        self._charted = wanted
        if wanted and self._chart.value:
            self._chart.add_class("vorlib-late")
            self._chart_later()
        else:
            self._chart_later.cancel()
            self._fill_chart()

    def _fill_chart(self) -> None:
        self._chart.value = strip_html(*self._charted) if self._charted else ""
        self._chart.remove_class("vorlib-late")
