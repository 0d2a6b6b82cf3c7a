"""A panel of figures beside a plan view: what each is called, its value, and what it means."""

from __future__ import annotations

from dataclasses import dataclass

from vorlib.views.picture import Item, Line, Picture, Text
from vorlib.views.plan import SIZE
from vorlib.views.theme import Theme

__all__ = ["WIDTH", "Figure", "figures"]

WIDTH = 360.0
MARGIN = 8.0
GREATEST_STEP = 90.0


@dataclass(frozen=True)
class Figure:
    """One figure: its name, its value in words and what it means.

    Attributes
    ----------
    strong
        Whether to set it in the colour of the aircraft, as the plan view does with its radial.
    """

    name: str
    value: str
    meaning: str
    strong: bool = False


def figures(rows: tuple[Figure, ...], theme: Theme) -> Picture:
    """Return the panel, as tall as a plan view, with one row under another."""
    step = min(SIZE / len(rows), GREATEST_STEP)
    items: list[Item] = []
    for i, row in enumerate(rows):
        first = step * i + step / 2 - 0.6 * theme.text_size
        second = first + 1.3 * theme.text_size
        ink = theme.aircraft if row.strong else theme.text
        items += [
            Text(MARGIN, first, row.name, theme.text_size, ink, "start", bold=True),
            Text(WIDTH - MARGIN, first, row.value, 1.3 * theme.text_size, ink, "end", bold=True),
            Text(MARGIN, second, row.meaning, theme.small_size, theme.text, "start"),
        ]
        if i:
            items.append(Line(MARGIN, step * i, WIDTH - MARGIN, step * i, theme.ring, theme.thin))
    words = ". ".join(f"{row.name} {row.value}: {row.meaning}" for row in rows)
    return Picture(WIDTH, SIZE, tuple(items), "Figures", f"{words}.", theme.paper)
