"""A picture a hand can move: SVG text in, what was dragged, stepped or turned out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import traitlets

from vorlib.exhibits.base.answering import Answering
from vorlib.exhibits.base.scripts import joined
from vorlib.exhibits.messages.coalesce import LatestOnly
from vorlib.exhibits.messages.svg_changes import changed_pieces

SCRIPTS = ("answers", "covers", "svg_changes", "picture_widget")


@dataclass(frozen=True)
class Drag:
    """How far a grabbed part of the picture has been dragged, in the picture's viewBox units.

    Positions are absolute, so the newest drag says all that the ones before it said.
    """

    grab: str
    x0: float
    y0: float
    x: float
    y: float


@dataclass(frozen=True)
class Steps:
    """Arrow-key or wheel steps since the last report: right and up are positive."""

    grab: str
    right: int
    up: int


class PictureWidget(Answering):
    """Shows SVG text and one sentence; knows nothing of what they mean.

    Parts of the SVG marked ``data-grab="name"`` can be dragged and stepped with the arrow keys;
    the names in `wheel` also answer to the mouse wheel.

    Parameters
    ----------
    on_drag : callable
        ``on_drag(drag, is_new)``: a `Drag`, and whether it is the first heard of this drag.
    on_steps : callable
        ``on_steps(steps)`` with a `Steps`.
    """

    _esm = joined(*(f"base/{name}.js" for name in SCRIPTS))
    _css = joined("base/answers.css", "base/picture_widget.css")

    svg = traitlets.Unicode().tag(sync=True)
    sentence = traitlets.Unicode().tag(sync=True)
    wheel = traitlets.List(traitlets.Unicode()).tag(sync=True)
    # Whether the sentence changes too fast to be read aloud.
    live_off = traitlets.Bool().tag(sync=True)
    # Any browser that shows the picture answers with the number it was asked.
    asked = traitlets.Int().tag(sync=True)
    answered = traitlets.Int().tag(sync=True, echo_update=False)
    # Another one whenever a page begins to show the picture.
    view = traitlets.Unicode().tag(sync=True, echo_update=False)
    # Only the browser writes this one; an echo would be a wasted message for each movement.
    hand = traitlets.Dict().tag(sync=True, echo_update=False)

    def __init__(
        self,
        *,
        on_drag: Callable[[Drag, bool], None],
        on_steps: Callable[[Steps], None],
        **traits: Any,
    ) -> None:
        self._sent, self._changes = "", 0  # the picture sent last, and how many changes were sent
        super().__init__(**traits)
        self._on_drag = on_drag
        self._on_steps = on_steps
        self._heard: dict[str, Any] = {}  # the last report passed on
        self._latest = LatestOnly(self._report)
        self.observe(lambda change: self._latest(change["new"]), "hand")
        self.observe(lambda _: self._send_all(), "view")  # it may know an old picture only

    def bring(self, part: str, *, to_top: bool = False) -> None:
        """Bring a part of the exhibit into view, named by its style."""
        self.send({"bring": part, "block": "start" if to_top else "nearest"})

    def get_state(self, key: Any = None, drop_defaults: bool = False) -> dict[str, Any]:
        """Return the state for a page; of a picture that it shows already what has changed."""
        state: dict[str, Any] = super().get_state(key, drop_defaults)
        if "svg" in state:
            before, self._sent = self._sent, self.svg
            changes = changed_pieces(before, self.svg) if before and key is not None else None
            if changes is not None:
                self._changes += 1
                del state["svg"]
                state["svg_changed"] = self._changes, changes
        return state

    def _mend(self, told: dict[str, Any]) -> None:
        """Take a hand's report that was lost; send a picture again to a page that shows another."""
        hand = told.get("hand") or {}
        if hand.get("view", "") == self._heard.get("view") and hand != self._heard:
            self._latest(hand)  # the picture comes with it
        elif told.get("shown") != len(self.svg):
            self._send_all()

    def _send_all(self) -> None:
        self._sent = ""
        self.send_state(["svg", "sentence"])

    def _report(self, new: dict[str, Any]) -> None:
        """Pass on what is new in the browser's report compared with the one before it."""
        old, self._heard = self._heard, new
        if old.get("view") != new["view"]:
            old = {"drag": None, "steps": {}}  # another view counts from zero
        if new["drag"] and new["drag"] != old["drag"]:
            drag = dict(new["drag"])
            number = drag.pop("id")
            self._on_drag(Drag(**drag), old["drag"] is None or old["drag"]["id"] != number)
        for grab, (right, up) in new["steps"].items():
            right_before, up_before = old["steps"].get(grab, (0, 0))
            if (right, up) != (right_before, up_before):
                self._on_steps(Steps(grab, right - right_before, up - up_before))
