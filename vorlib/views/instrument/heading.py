"""The heading indicator: a plain compass card under a fixed aircraft, with a bug to steer by."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from vorlib.core.angles import format_direction
from vorlib.core.arguments import finite
from vorlib.views.drawing.layout import text_width
from vorlib.views.drawing.picture import Group, Item, Line, Picture, Polygon, Text
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.views.instrument.compass_card import CARD_RADIUS, LETTERS, compass_card
from vorlib.views.instrument.indicator import CENTER, HEIGHT, WIDTH
from vorlib.views.plan.aircraft import outline

__all__ = ["HeadingScene", "heading_indicator"]

LINES_TOP = 412.0


@dataclass(frozen=True)
class HeadingScene:
    """What a heading indicator shows.

    Attributes
    ----------
    heading_deg
        Magnetic heading, under the fixed index at the top.
    bug_deg
        The heading wanted, marked at the card's edge; None for no mark.
    lines
        Up to three lines of words under the card.
    """

    heading_deg: float
    bug_deg: float | None = None
    lines: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        finite("heading_deg", self.heading_deg)
        if self.bug_deg is not None:
            finite("bug_deg", self.bug_deg)


def heading_indicator(scene: HeadingScene, theme: Theme = SCREEN) -> Picture:
    """Return the heading indicator of a scene; its card can be grabbed as "heading"."""
    heading = format_direction(scene.heading_deg)
    label = f"Heading {heading}"
    parts: list[Item] = [_card(theme)]
    if scene.bug_deg is not None:
        label += f", wanted {format_direction(scene.bug_deg)}"
        parts.append(Group((_bug(theme),), rotate_deg=scene.bug_deg))
    size = theme.text_size
    words = [
        Text(WIDTH / 2, LINES_TOP + 1.25 * size * i, line, size, theme.text)
        for i, line in enumerate(scene.lines)
    ]
    return Picture(
        WIDTH,
        HEIGHT,
        (
            *_figures(heading, theme),
            Group(tuple(parts), *CENTER, -scene.heading_deg, grab="heading", label=label),
            *_fixed(theme),
            *words,
        ),
        title="Heading indicator",
        description=" ".join(f"{line[0].upper()}{line[1:]}." for line in (label, *scene.lines)),
        background=theme.paper,
    )


def _figures(heading: str, theme: Theme) -> tuple[Item, ...]:
    size, word = theme.big_size, "heading"
    word_width = text_width(word, theme.text_size)
    left = (WIDTH - word_width - 8.0 - text_width(heading, size, True)) / 2
    return (
        Text(left, 36.0, word, theme.text_size, theme.text, "start"),
        Text(left + word_width + 8.0, 34.0, heading, size, theme.aircraft, "start", True),
    )


@lru_cache(maxsize=8)
def _card(theme: Theme) -> Group:
    return compass_card(theme.paper, theme, LETTERS)


@lru_cache(maxsize=8)
def _bug(theme: Theme) -> Group:
    """Return the bug at the top of the card: a notched block astride its edge."""
    half, deep, notch, foot = 16.0, 15.0, 9.5, CARD_RADIUS
    corners = (
        (-half, -foot - deep),
        (-notch, -foot - deep),
        (0.0, -foot + 1.0),
        (notch, -foot - deep),
        (half, -foot - deep),
        (half, -foot + 6.0),
        (-half, -foot + 6.0),
    )
    return Group((Polygon(corners, theme.track, theme.paper, theme.thin),))


@lru_cache(maxsize=8)
def _fixed(theme: Theme) -> tuple[Item, ...]:
    """Return what does not turn: the aircraft in the middle and the index at the top."""
    x, y = CENTER
    top = y - CARD_RADIUS
    size = 2.4 * math.sqrt(theme.symbol)
    shape = Polygon(outline(size), theme.aircraft, theme.paper, theme.line)
    return (
        Line(
            x, y - 20.0 * size, x, top + 38.0 * theme.symbol, theme.aircraft, theme.line, (4.0, 4.0)
        ),
        Group((shape,), x, y),
        Polygon(((x, top - 1.0), (x + 8.0, top - 15.0), (x - 8.0, top - 15.0)), theme.aircraft),
    )
