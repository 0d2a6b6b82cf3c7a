"""Exhibits for notebooks: controls, a picture that a hand can move, and one live sentence.

The names here are those that modules of this package register for notebooks
(`vorlib.exhibits.base.registry`). For a name with its types, import it from its own module.
"""

from typing import Any

from vorlib.exhibits.base.registry import find_names
from vorlib.exhibits.messages.inbox import take_turns
from vorlib.exhibits.messages.outbox import keep_messages

# Imported at once and bound here: some rooms share an exhibit's name, such as `signal`.
_found = find_names(__name__, __path__)
globals().update(_found)
__all__ = list(_found)
keep_messages()  # before the first exhibit sends any
take_turns()  # and before the first is answered


def __getattr__(name: str) -> Any:
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
