"""What changes a state, and what is refused: said where it can be mended, in a pilot's words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, TypeAlias, TypeVar

from vorlib.core.arguments import ArgumentError
from vorlib.core.words import as_sentence
from vorlib.exhibits.base.control import Changes, Control

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

__all__ = ["Answers", "Changes", "Remark", "concerned", "refused", "resolve", "spoken_refusal"]

S = TypeVar("S", bound="DataclassInstance")
Answers: TypeAlias = dict[Control, str]

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


def concerned(controls: Iterable[Control], changes: Iterable[str]) -> list[Control]:
    """Return the controls of the fields that change."""
    asked = set(changes)
    return [control for control in controls if control.field in asked]


def resolve(state: S, changes: Changes, controls: Sequence[Control]) -> tuple[S, Answers]:
    """Return what a state becomes by changes, or the same state and what refuses them.

    Parameters
    ----------
    state
        The state as it is.
    changes
        What was entered, by field.
    controls
        All that read the entries, say what else changes with them, or can mend a refusal.

    Raises
    ------
    ValueError
        If the state refuses what no control stands for.
    """
    asked = concerned(controls, changes)
    meant, answers = dict(changes), {}
    for control in asked:
        try:
            meant[control.field] = control.read(meant[control.field])
        except ValueError as error:
            answers[control] = str(error)
    if answers:
        return state, answers
    for control in asked:  # what was asked for directly wins
        meant = control.consequences(state, meant[control.field]) | meant
    try:
        return replace(state, **meant), {}
    except ValueError as error:
        return state, refused(error, controls, asked)


def refused(error: ValueError, controls: Sequence[Control], asked: Sequence[Control]) -> Answers:
    """Return what is said of an error, beside the control that can mend it.

    It is one that was asked and feeds the argument refused, else any that feeds it, else the first
    that was asked; if there is none, the error is raised.
    """
    argument = error.argument if isinstance(error, ArgumentError) else ""
    feeding = (control for control in (*asked, *controls) if control.takes(argument))
    at = next(feeding, asked[0] if asked else None)
    if at is None:
        raise error
    return {at: spoken_refusal(error, controls)}


def spoken_refusal(error: ValueError, controls: Iterable[Control]) -> str:
    """Return what an error says in a sentence, in place of an argument's name the words for it.

    They are the label and unit of the control that feeds the argument; without one, those that
    the name itself holds.

    >>> spoken_refusal(ValueError("slant_range_nm must be 0 NM or more, got -1"), [])
    'Slant range (NM) must be 0 NM or more; it is -1.'
    """
    message = str(error).replace(", got ", "; it is ")
    name, _, rest = message.partition(" ")
    if not (name.isidentifier() and "_" in name):
        return as_sentence(message)
    control = next((one for one in controls if one.takes(name) and one.label), None)
    if control is not None:
        label, unit = control.label, control.unit
    else:
        words, _, last = name.rpartition("_")
        label, unit = (words, UNITS[last]) if last in UNITS else (name, "")
        label = label.replace("_", " ").capitalize()
    return as_sentence(f"{label}{f' ({unit})' if unit else ''} {rest}")


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
