"""The bars of a timeline's lanes: flags and phases told apart by pattern and by name."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from vorlib.debrief.phases import FlightPhase
from vorlib.views.drawing.layout import text_width
from vorlib.views.drawing.picture import Item, Line, Polygon, Segments, Text
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument.deviation_strip import LOOKS, hatching

__all__ = ["PATTERNS", "bar", "box", "hatched", "legend", "legend_rows"]

PHASES = {str(phase): phase for phase in FlightPhase if phase is not FlightPhase.OTHER}
PATTERNS = tuple(PHASES)
GAP, LIMIT = "nothing recorded", "¾ of full scale"
# Those that are long enough to be named in their bars have no place in the legend.
LEGEND = ("intercepting", "tracking", "passage", "turn", "flag OFF", GAP, LIMIT)
PRINTED_SIZE = 7.0  # of the small type for which the looks of a printed page are
NARROWEST = 0.3  # picture units: what is narrower is not seen


def box(
    left: float,
    top: float,
    right: float,
    foot: float,
    fill: str,
    stroke: str = "",
    width: float = 1.0,
) -> Polygon:
    """Return a rectangle."""
    corners = ((left, top), (right, top), (right, foot), (left, foot))
    return Polygon(corners, fill, stroke, width)


def bar(
    name: str, left: float, top: float, right: float, foot: float, theme: Theme
) -> Iterator[Item]:
    """Yield a bar in the pattern of its name, with the name where it has room."""
    if right - left < NARROWEST:
        return
    yield from _pattern(name, left, top, right, foot, theme)
    size = theme.small_size
    words = f"{name[0].upper()}{name[1:]}" if name in PATTERNS else name
    if text_width(words, size, True) + 6.0 < right - left:
        filled = _is_filled(name)
        ink, halo = (theme.paper, "") if filled else (_ink(name, theme), theme.paper)
        middle = (left + right) / 2, (top + foot) / 2
        yield Text(*middle, words, size, ink, bold=True, halo=halo)


def _ink(name: str, theme: Theme) -> str:
    return {
        "OFF": theme.warning,
        "intercepting": theme.course,
        "tracking": theme.track,
        "passage": theme.cone,
    }.get(name, theme.text)


def _is_filled(name: str) -> bool:
    return name == "OFF" or (name in PATTERNS and LOOKS[PHASES[name]].fill)


def _pattern(
    name: str, left: float, top: float, right: float, foot: float, theme: Theme
) -> Iterator[Item]:
    """Draw the pattern that tells a bar from others without name or color."""
    ink, top, foot = _ink(name, theme), top + 1.0, foot - 1.0
    yield box(left, top, right, foot, ink if _is_filled(name) else theme.paper, ink, theme.thin)
    rows = [top + share * (foot - top) for share in (0.3, 0.7)]
    if name == "TO":  # lines across, as in the TO half of a plan view
        yield Segments(tuple((left, y, right, y) for y in rows), theme.to_half, theme.thin)
    elif name == "FROM" and right - left > 5.0:  # stippled, as in the FROM half
        lines = tuple((left + 2.0, y, right - 2.0, y) for y in rows)
        yield Segments(lines, theme.from_half, 2.2 * theme.thin, (0.1, 0.7 * theme.small_size))
    elif name in PATTERNS and LOOKS[PHASES[name]].hatch:  # as on the printed page
        slope, apart = LOOKS[PHASES[name]].hatch
        apart *= theme.small_size / PRINTED_SIZE
        lines = tuple(hatching(left, top, right - left, foot - top, slope, apart))
        yield Segments(lines, ink, theme.thin)


def hatched(
    left: float, top: float, right: float, foot: float, theme: Theme
) -> Iterator[Polygon | Segments]:
    """Yield the pattern of a silence of the recorder."""
    step = 0.5 * theme.small_size
    yield box(left, top, right, foot, theme.cover)
    rows = np.arange(top, foot - 0.5 * step, step).tolist()
    yield Segments(tuple((left, y + step, right, y) for y in rows), theme.ring, theme.thin)


def legend_rows(left: float, right: float, theme: Theme) -> list[list[tuple[str, float]]]:
    """Return the names of the legend with where their signs begin, row by row."""
    size, x = theme.small_size, left
    rows: list[list[tuple[str, float]]] = [[]]
    for name in LEGEND:
        wide = 3.8 * size + text_width(name, size)
        if rows[-1] and x + wide - 1.4 * size > right:
            rows.append([])
            x = left
        rows[-1].append((name, x))
        x += wide
    return rows


def legend(left: float, y: float, right: float, theme: Theme) -> Iterator[Item]:
    """Yield what the patterns mean, in as many rows as are needed; `y` is that of the first."""
    size = theme.small_size
    for row, names in enumerate(legend_rows(left, right, theme)):
        middle = y + 1.7 * size * row
        for name, x in names:
            sign = (x, middle - 0.6 * size, x + 2.0 * size, middle + 0.6 * size)
            if name == GAP:
                yield from hatched(*sign, theme)
            elif name == LIMIT:
                dash = (4.0 * theme.line, 3.0 * theme.line)
                yield Line(x, middle, x + 2.0 * size, middle, theme.ring, theme.line, dash)
            else:
                yield from _pattern(name.removeprefix("flag "), *sign, theme)
            yield Text(x + 2.4 * size, middle, name, size, theme.text, "start")
