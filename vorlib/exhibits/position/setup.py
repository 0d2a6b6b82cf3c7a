"""Check the setup: if the slider moves the needle, every other exhibit works too."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from vorlib.core.angles import spoken_side
from vorlib.core.words import spoken_dots
from vorlib.exhibits.base.controls import Number
from vorlib.exhibits.base.exhibit import Exhibit, Grip
from vorlib.exhibits.base.picture_widget import Drag, Steps
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.scene.grips import turned_deg
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument.indicator import CENTER, IndicatorScene, indicator
from vorlib.vor.receiver import DOTS_FULL_SCALE, Flag

__all__ = ["SetupState", "draw", "sentence", "setup"]

START_DOTS = -4.0


@dataclass(frozen=True)
class SetupState:
    """A needle, and a course ring to turn."""

    dots: float = START_DOTS
    course_deg: float = 40.0


def draw(state: SetupState, theme: Theme) -> Picture:
    """Return an indicator whose needle follows the slider."""
    return indicator(IndicatorScene(state.course_deg, state.dots, Flag.FROM), theme)


def sentence(state: SetupState) -> str:
    """Say whether the needle has moved."""
    if state.dots == START_DOTS:
        return "Move the slider: the needle should follow, and this line should say so."
    side = spoken_side(state.dots)
    place = f"{spoken_dots(state.dots)} {side}" if state.dots else "in the middle"
    return f"It works: the needle stands {place}. You can also drag the ring."


def _turn(state: SetupState, drag: Drag, theme: Theme) -> dict[str, Any]:
    return {"course_deg": (state.course_deg - round(turned_deg(drag, CENTER))) % 360}


def _step(state: SetupState, steps: Steps) -> dict[str, Any]:
    return {"course_deg": (state.course_deg + steps.right + steps.up) % 360}


@exhibit(lesson="00", state=SetupState)
def setup() -> Exhibit[SetupState]:
    """Return the exhibit that shows whether exhibits work here."""
    full = float(DOTS_FULL_SCALE)
    needle = Number("dots", "Needle", "dots", -full, full, 0.5, decimals=1)
    return Exhibit(SetupState(), draw, sentence, [needle], {"ring": Grip(_turn, _step, wheel=True)})
