"""A panel of figures beside a plan view: the name, value and meaning of each."""

from __future__ import annotations

from dataclasses import dataclass

from vorlib.views.drawing.layout import text_width
from vorlib.views.drawing.picture import Item, Line, Picture, Text
from vorlib.views.drawing.theme import Theme
from vorlib.views.plan.plan import SIZE

__all__ = ["WIDTH", "FigureImage", "figures"]

WIDTH = 360.0
INSET = 8.0
LARGE_STEP = 130.0  # least height of a row with room for a large figure


@dataclass(frozen=True)
class FigureImage:
    """One figure: its name, its value as text, and what it means.

    Attributes
    ----------
    strong
        Whether to use the color of the aircraft, as the plan view does for its radial.
    """

    name: str
    value: str
    meaning: str
    strong: bool = False


def figures(rows: tuple[FigureImage, ...], theme: Theme) -> Picture:
    """Return the panel, as tall as a plan view; if there are few rows, they are large."""
    step = SIZE / len(rows)
    row_items = _large if step >= LARGE_STEP else _small
    items: list[Item] = []
    for i, row in enumerate(rows):
        items += row_items(row, step * (i + 0.5), theme)
        if i:
            items.append(Line(INSET, step * i, WIDTH - INSET, step * i, theme.ring, theme.thin))
    words = ". ".join(
        f"{row.name} {row.value.strip('?')}".strip() + f": {row.meaning}" for row in rows
    )
    return Picture(WIDTH, SIZE, tuple(items), "Figures", f"{words}.", theme.paper)


def _small(row: FigureImage, middle: float, theme: Theme) -> tuple[Text, ...]:
    """Return a row in two lines, the value at the end of the first."""
    first = middle - 0.6 * theme.text_size
    second = first + 1.3 * theme.text_size
    ink, size = _ink(row, theme), theme.text_size
    room = WIDTH - 2 * INSET - text_width(f"{row.name} ", size, bold=True)
    large = min(1.3 * size, room / text_width(row.value, 1.0, bold=True))
    return (
        Text(INSET, first, row.name, size, ink, "start", bold=True),
        Text(WIDTH - INSET, first, row.value, large, ink, "end", bold=True),
        Text(INSET, second, row.meaning, theme.small_size, theme.text, "start"),
    )


def _large(row: FigureImage, middle: float, theme: Theme) -> tuple[Text, ...]:
    """Return a row in three lines, the value large in the middle one if there is width for it."""
    room = (WIDTH - 2 * INSET) / text_width(row.value, 1.0, bold=True)
    ink, size = _ink(row, theme), min(theme.big_size, room)
    apart = 0.5 * size + 0.75 * theme.text_size
    return (
        Text(INSET, middle - apart, row.name, theme.text_size, ink, "start", bold=True),
        Text(INSET, middle, row.value, size, ink, "start", bold=True),
        Text(INSET, middle + apart, row.meaning, theme.small_size, theme.text, "start"),
    )


def _ink(row: FigureImage, theme: Theme) -> str:
    return theme.aircraft if row.strong else theme.text
