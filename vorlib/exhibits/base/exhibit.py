"""An exhibit: controls, a picture a hand can move and one sentence, all of one frozen state.

Whatever is moved, by whichever means, takes one path: a new state, drawn once, then shown by
every control. What an exhibit draws and says is a pure function of its state.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Any, Generic, TypeAlias, TypeVar

import ipywidgets as widgets

from vorlib.exhibits.base.changes import Answers, Changes, Remark, concerned, refused, resolve
from vorlib.exhibits.base.control import Control
from vorlib.exhibits.base.controls import Switch
from vorlib.exhibits.base.page import CLASSES, Page
from vorlib.exhibits.base.picture_widget import Drag, PictureWidget, Steps
from vorlib.exhibits.base.plain import plain
from vorlib.exhibits.base.saved import still, widget_view
from vorlib.exhibits.base.transport import Transport
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.svg import to_svg
from vorlib.views.drawing.theme import PROJECTOR, SCREEN, Theme
from vorlib.views.sentence import in_words

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

__all__ = ["Exhibit", "Grip"]

S = TypeVar("S", bound="DataclassInstance")
S_contra = TypeVar("S_contra", contravariant=True)
Place: TypeAlias = tuple[float, float]


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
    transport
        What plays the state's time, if it has one.

    Attributes
    ----------
    controls
        All of them, those of the transport and the switch for the projector as well.
    page
        What is shown, in named slots; `widget` is all of it.
    """

    def __init__(
        self,
        state: S,
        draw: Callable[[S, Theme], Picture],
        sentence: Callable[[S], str],
        controls: Sequence[Control],
        grips: Mapping[str, Grip[S]] | None = None,
        *,
        transport: Transport | None = None,
    ) -> None:
        self.state, self.theme = state, SCREEN
        self.draw, self._say = draw, sentence
        self.grips = dict(grips or {})
        self.transport = transport
        self._held: S = state  # the state when the present drag began
        self._refusal = Remark()  # said beside a control that did not ask for the change
        self._refused_from: set[Control] = set()  # those that did
        self._projector = Switch("projector", "Projector: large type and lines").put_away()
        timed = transport.controls if transport else []
        self.controls = (*controls, *timed, self._projector)
        # Made with its picture: a first message without one may be the last that arrives.
        said = sentence(state)
        self.picture = PictureWidget(
            svg=to_svg(draw(state, SCREEN)),
            sentence=said,
            on_drag=self._dragged,
            on_steps=self._stepped,
            wheel=[name for name, grip in self.grips.items() if grip.wheel],
        )
        if transport:  # time waits for a page that is opened again
            self.picture.observe(lambda _: transport.pause(), "view")
        for control in self.controls:
            control.ask = self._asked
        self.page = Page()
        self.page.fill(
            controls=self._in_slot("controls"),
            switches=self._in_slot("switches"),
            transport=self._in_slot("transport"),
            more=self._in_slot("more"),
            picture=[self.picture],
        )
        self.widget = self.page.widget
        self._tell(said)
        self._become(state, SCREEN)

    def _in_slot(self, slot: str) -> list[widgets.Box]:
        """Return the box with the controls of a slot, or nothing for none.

        What stands with the player of time stands in its box.
        """
        timed = self.transport.controls if self.transport else []
        shown = [c.widget for c in self.controls if c.slot == slot and c not in timed]
        if slot == "transport" and self.transport:
            self.transport.widget.children = (*self.transport.widget.children, *shown)
            return [self.transport.widget]
        return [plain(widgets.Box, shown, classes=CLASSES[slot])] if shown else []

    @property
    def sentence(self) -> str:
        """What the picture means, in plain words."""
        return self._say(self.state)

    def say(self) -> None:
        """Print the sentence, in lines short enough to read."""
        print(in_words(self.sentence))

    def control(self, field: str) -> Control:
        """Return the first control for a field of the state, or raise KeyError."""
        for control in self.controls:
            if control.field == field:
                return control
        raise KeyError(field)

    def drag(self, grab: str, start: Place, *places: Place) -> None:
        """Drag a part of the picture from one place over others, as a hand does."""
        for i, place in enumerate(places):
            self._dragged(Drag(grab, *start, *place), i == 0)

    def step(self, grab: str, right: int = 0, up: int = 0) -> None:
        """Step a part of the picture, as arrow keys and the wheel do."""
        self._stepped(Steps(grab, right, up))

    def set(self, **changes: Any) -> None:
        """Change the state as moving the controls would; a wrong value is answered beside them.

        Raises
        ------
        TypeError
            If the state has no such field.
        """
        known = {f.name for f in fields(self.state)} | {"projector"}
        if unknown := sorted(set(changes) - known):
            raise TypeError(f"no {', '.join(unknown)} here; there are {', '.join(sorted(known))}")
        asked = concerned(self.controls, changes)
        projector = bool(changes.pop("projector", self.theme is PROJECTOR))
        state, answers = resolve(self.state, changes, self.controls)
        if not answers:
            answers = self._apply(state, PROJECTOR if projector else SCREEN, asked)
        self._answer(asked, answers)

    def _apply(self, state: S, theme: Theme, asked: Sequence[Control]) -> Answers:
        """Take a state and show it, or return what refuses it: some cannot be drawn."""
        try:
            self._become(state, theme)
        except ValueError as error:
            return refused(error, self.controls, asked)
        return {}

    def _answer(self, asked: Sequence[Control], answers: Answers) -> None:
        """Say beside each control what is wrong with it, and nothing where all is well."""
        for control in (*asked, *answers):
            control.say(answers.get(control, ""))
        elsewhere = next((one for one in answers.items() if one[0] not in asked), None)
        if elsewhere or not self._refused_from.isdisjoint(asked):
            self._refusal.say(*(elsewhere or (None, "")))
            self._refused_from = set(asked) if elsewhere else set()
        if any(control.slot == "more" for control in answers):
            self.page.fold.value = True  # else nobody sees the message there
        if answers:  # the last good values, in place of what was entered
            for control in {*asked, *answers}:
                self._show(control)

    def _become(self, state: S, theme: Theme) -> None:
        if (state, theme) != (self.state, self.theme):
            # drawn first: a state that cannot be drawn is not taken
            svg, sentence = to_svg(self.draw(state, theme)), self._say(state)
            self.state, self.theme = state, theme
            with self.picture.hold_sync():
                self.picture.svg = svg
                self._tell(sentence)
            mark = self.widget.add_class if theme is PROJECTOR else self.widget.remove_class
            mark("vorlib-projector")
        for control in self.controls:
            self._show(control)

    def _tell(self, sentence: str) -> None:
        """Put the sentence under the picture."""
        if self.transport is None:
            self.picture.sentence = sentence
        else:
            self.transport.tell(sentence)

    def _show(self, control: Control) -> None:
        if control is self._projector:
            control.show(self.theme is PROJECTOR)
        else:
            control.follow(self.state)
            control.show(getattr(self.state, control.field))

    def _asked(self, changes: Changes | Callable[[S], Changes]) -> None:
        self.set(**(changes(self.state) if callable(changes) else changes))
        if callable(changes):  # a button was pressed: what came of it is told in the sentence
            self.picture.bring(".vorlib-sentence")

    def _dragged(self, drag: Drag, is_new: bool) -> None:
        if is_new:
            self._held = self.state
        if grip := self.grips.get(drag.grab):
            self.set(**grip.dragged(self._held, drag, self.theme))

    def _stepped(self, steps: Steps) -> None:
        if grip := self.grips.get(steps.grab):
            self.set(**grip.stepped(self.state, steps))

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        return {
            "text/plain": self.sentence,
            "image/svg+xml": still(self.draw(self.state, self.theme), self.theme)._repr_svg_(),
            **widget_view(self.widget),
        }
