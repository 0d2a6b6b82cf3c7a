"""An exhibit: controls, a picture a hand can move and one sentence, all of one frozen state.

Whatever is moved, by whichever means, takes one path: a new state, drawn once, then shown by
every control. What an exhibit draws and says is a pure function of its state.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from typing import Any, Generic, TypeAlias, TypeVar

import ipywidgets as widgets

from vorlib.exhibits.base.controls import Control, Switch
from vorlib.exhibits.base.picture_widget import Drag, PictureWidget, Steps
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.svg import to_svg
from vorlib.views.drawing.theme import PROJECTOR, SCREEN, Theme
from vorlib.views.sentence import in_words

__all__ = ["Exhibit", "Grip"]

WIDGET_VIEW = "application/vnd.jupyter.widget-view+json"

S = TypeVar("S")
S_contra = TypeVar("S_contra", contravariant=True)
Changes: TypeAlias = dict[str, Any]


@dataclass(frozen=True)
class Grip(Generic[S_contra]):
    """What a hand on one part of the picture changes.

    Attributes
    ----------
    dragged
        From the state when the drag began, the drag and the theme: the changes it makes.
    stepped
        From the state and the arrow-key or wheel steps: the changes they make.
    wheel
        Whether the mouse wheel turns this part.
    """

    dragged: Callable[[S_contra, Drag, Theme], Changes]
    stepped: Callable[[S_contra, Steps], Changes]
    wheel: bool = False


class Exhibit(Generic[S]):
    """A picture of a state, with all that changes it.

    Displayed in a notebook it is live; saved without a kernel it is the picture and the sentence.

    Parameters
    ----------
    state
        A frozen dataclass, kept in `state`.
    draw
        Picture of a state in a theme.
    sentence
        What the picture means, in plain words.
    controls
        In the order shown, each for one field of the state.
    grips
        What the parts of the picture marked with these names do.
    """

    def __init__(
        self,
        state: S,
        draw: Callable[[S, Theme], Picture],
        sentence: Callable[[S], str],
        controls: Sequence[Control],
        grips: Mapping[str, Grip[S]] | None = None,
    ) -> None:
        self.state = state
        self._draw, self._say = draw, sentence
        self._grips = dict(grips or {})
        self._held: S = state  # the state when the present drag began
        self._projector = Switch("projector", "Projector: large type and lines")
        self._controls = [*controls, self._projector]
        self.theme = SCREEN
        self.picture = PictureWidget(
            on_drag=self._dragged,
            on_steps=self._stepped,
            wheel=[name for name, grip in self._grips.items() if grip.wheel],
        )
        for control in self._controls:
            control.ask = self._asked
        wide = widgets.Box([c.widget for c in self._controls if not c.compact])
        compact = widgets.Box([c.widget for c in self._controls if c.compact])
        wide.add_class("vorlib-controls")
        compact.add_class("vorlib-switches")
        self.widget = widgets.VBox([wide, compact, self.picture]).add_class("vorlib-exhibit")
        self._become(state, SCREEN)

    @property
    def sentence(self) -> str:
        """What the picture means, in plain words."""
        return self._say(self.state)

    def say(self) -> None:
        """Print the sentence, in lines short enough to read."""
        print(in_words(self.sentence))

    def set(self, **changes: Any) -> None:
        """Change the state as moving the controls would; a wrong value is answered beside them.

        Raises
        ------
        TypeError
            If the state has no such field.
        """
        known = {f.name for f in fields(self.state)} | {"projector"}  # type: ignore[arg-type]
        if unknown := sorted(set(changes) - known):
            raise TypeError(f"no {', '.join(unknown)} here; there are {', '.join(sorted(known))}")
        concerned = [control for control in self._controls if control.field in changes]
        answers = dict.fromkeys(concerned, "")
        for control in concerned:
            try:
                changes[control.field] = control.read(changes[control.field])
            except ValueError as error:
                answers[control] = str(error)
        if not any(answers.values()):
            for control in concerned:  # what is asked for outright has the last word
                changes = control.consequences(self.state, changes[control.field]) | changes
            try:
                projector = changes.pop("projector", self.theme is PROJECTOR)
                theme = PROJECTOR if projector else SCREEN
                self._become(replace(self.state, **changes), theme)  # type: ignore[type-var]
            except ValueError as error:
                if not concerned:
                    raise
                answers[concerned[0]] = str(error)
        for control, answer in answers.items():
            control.say(answer)
            if answer:
                self._show(control)  # the last good value, in place of the wrong entry

    def _become(self, state: S, theme: Theme) -> None:
        if (state, theme) != (self.state, self.theme) or not self.picture.svg:
            # drawn first: a state that cannot be drawn is not taken
            svg, sentence = to_svg(self._draw(state, theme)), self._say(state)
            self.state, self.theme = state, theme
            with self.picture.hold_sync():
                self.picture.svg = svg
                self._tell(sentence)
            mark = self.widget.add_class if theme is PROJECTOR else self.widget.remove_class
            mark("vorlib-projector")
        for control in self._controls:
            self._show(control)

    def _tell(self, sentence: str) -> None:
        """Put the sentence under the picture."""
        self.picture.sentence = sentence

    def _show(self, control: Control) -> None:
        if control is self._projector:
            control.show(self.theme is PROJECTOR)
        else:
            control.follow(self.state)
            control.show(getattr(self.state, control.field))

    def _asked(self, changes: Changes | Callable[[S], Changes]) -> None:
        self.set(**(changes(self.state) if callable(changes) else changes))

    def _dragged(self, drag: Drag, is_new: bool) -> None:
        if is_new:
            self._held = self.state
        if grip := self._grips.get(drag.grab):
            self.set(**grip.dragged(self._held, drag, self.theme))

    def _stepped(self, steps: Steps) -> None:
        if grip := self._grips.get(steps.grab):
            self.set(**grip.stepped(self.state, steps))

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        model = {"version_major": 2, "version_minor": 0, "model_id": self.widget.model_id}
        return {
            "text/plain": self.sentence,
            "image/svg+xml": self._draw(self.state, self.theme)._repr_svg_(),
            WIDGET_VIEW: model,
        }
