"""The name box of a learner: it begins with the hub's name, and says what it continues."""

from __future__ import annotations

from typing import Any

import traitlets

from vorlib.core.words import spoken_count
from vorlib.practice.record.learner import name_on_hub
from vorlib.practice.record.record import Record

__all__ = ["NameTraits", "continued"]


class NameTraits(traitlets.HasTraits):
    """The name in the box, and what is said about it.

    Attributes
    ----------
    typed_name
        What is in the box; at first the learner's name on the hub, if there is a hub.
    continues
        Whose record such a name continues; empty where it begins one.
    """

    typed_name = traitlets.Unicode().tag(sync=True)
    continues = traitlets.Unicode().tag(sync=True)

    def __init__(self, **traits: Any) -> None:
        super().__init__(**traits)
        self.observe(
            lambda change: setattr(self, "continues", continued(change["new"])), "typed_name"
        )
        self.typed_name = name_on_hub()


def continued(name: str) -> str:
    """Say what record a name continues; nothing where it begins one, or cannot be a name."""
    try:
        record = Record(name)
        summary = record.summary()
    except (ValueError, OSError):
        return ""  # the fault is told when the name is used
    if not summary.answered:
        return ""
    last = max(one.last for one in summary.by_kind.values())
    answers = spoken_count(summary.answered, "answer")
    return (
        f"continues the record of {record.learner}: {answers}, the last on {last:%B} {last.day}, "
        f"{last.year}. Not you? Take another name."
    )
