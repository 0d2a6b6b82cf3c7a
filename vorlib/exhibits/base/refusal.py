"""What is refused, said beside the control that can mend it, in a pilot's words."""

from __future__ import annotations

from collections.abc import Iterable

from vorlib.exhibits.base.controls import Control

__all__ = ["Remark", "refused_argument", "spoken_refusal"]

UNITS = {
    "deg": "degrees",
    "ft": "feet",
    "kt": "knots",
    "m": "meters",
    "mhz": "MHz",
    "min": "minutes",
    "nm": "NM",
    "s": "seconds",
}


class Remark:
    """What is said beside one control for as long as it is so; what an entry is told goes first."""

    def __init__(self, words: str = "") -> None:
        self.control: Control | None = None
        self.words = words

    def say(self, control: Control | None, words: str) -> None:
        """Say words beside a control, and no longer what was said before."""
        changed = control is not self.control or words != self.words
        if changed and self.control is not None and self.control.message == self.words:
            self.control.say("")
        if control is not None and not control.message:
            control.say(words)
        self.control, self.words = control, words


def refused_argument(error: ValueError) -> str:
    """Return the name of the argument refused, empty if the error does not carry it."""
    return getattr(error, "argument", None) or ""


def spoken_refusal(error: ValueError, controls: Iterable[Control]) -> str:
    """Return what an error says, in place of an argument's name the words for it.

    They are the label and unit of the control that feeds the argument; without one, those that
    the name itself holds.

    >>> spoken_refusal(ValueError("slant_range_nm must be finite, got nan"), [])
    'Slant range (NM) must be finite, got nan'
    """
    message = str(error)
    name, space, rest = message.partition(" ")
    if not (name == refused_argument(error) or (name.isidentifier() and "_" in name)):
        return message
    control = next((one for one in controls if one.takes(name) and one.label), None)
    if control is not None:
        label, unit = control.label, control.unit
    else:
        words, _, last = name.rpartition("_")
        label, unit = (words, UNITS[last]) if last in UNITS else (name, "")
        label = label.replace("_", " ").capitalize()
    return f"{label}{f' ({unit})' if unit else ''}{space}{rest}"
