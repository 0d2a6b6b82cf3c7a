"""Widgets without looks of their own: the style sheets say how they look.

Else each widget has a layout and a style that say nothing, and a page hears of each in a message:
three in five of all that it hears while it opens.
"""

from __future__ import annotations

from typing import Any, TypeVar

import ipywidgets as widgets

__all__ = ["plain", "put_away"]

W = TypeVar("W", bound=widgets.DOMWidget)

_SHARED: dict[type[widgets.Widget], widgets.Widget] = {}


def plain(kind: type[W], *given: Any, classes: str = "", **traits: Any) -> W:
    """Return a widget of a kind, which shares its layout and style with all that are made here.

    Parameters
    ----------
    kind, given, traits
        The widget's class and what it takes.
    classes
        Names of its classes for the style sheets, with spaces between.
    """
    known = kind.class_traits()
    looks = {name: _shared(known[name].klass) for name in ("layout", "style") if name in known}
    made: W = kind(*given, _dom_classes=classes.split(), **(looks | traits))
    return made


def _shared(kind: type[widgets.Widget]) -> widgets.Widget:
    """Return the one of a kind, made anew if it was closed, as by `Widget.close_all`."""
    look = _SHARED.get(kind)
    if look is None or look.comm is None:
        look = _SHARED[kind] = kind()
    return look


def put_away(widget: widgets.DOMWidget, away: bool) -> None:
    """Take a widget out of sight, where it takes no room, or show it again."""
    (widget.add_class if away else widget.remove_class)("vorlib-away")
