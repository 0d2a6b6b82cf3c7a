"""The screen ink: a picture as compact SVG text."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import lru_cache
from html import escape
from itertools import chain
from typing import Any

from vorlib.views.drawing.layout import CAP_MIDDLE, reach
from vorlib.views.drawing.primitives import (
    Circle,
    Drawing,
    Group,
    Item,
    Line,
    Point,
    Polygon,
    Polyline,
    Segments,
    Text,
)

__all__ = ["HIT_RADIUS", "to_svg"]

FONT_FAMILY = "Verdana,DejaVu Sans,sans-serif"  # one set of measures on every system
VALUE_BEGINS = re.compile(r", | (?=-?\d)")
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
HIT_RADIUS = 22.0  # the smallest hit area is 44 units across: WCAG 2.2, 2.5.5 (from memory)


def to_svg(picture: Drawing, *, display_width: str = "100%") -> str:
    """Return the picture as SVG text: the same picture gives the same text.

    Coordinates are rounded to 0.1 unit; where a group stands and how it is turned to 0.001, so
    that an aircraft in flight moves from each picture to the next. The drawing takes the whole
    width it is given, or `display_width` in browser pixels.
    """
    width, height = _number(picture.width), _number(picture.height)
    words = "".join(
        f"<{tag}>{escape(text)}</{tag}>"
        for tag, text in (("title", picture.title), ("desc", picture.description))
        if text
    )
    drawn = _items(picture.items)
    # The parts of an "img" are hidden from a screen reader, so a live picture is a "group".
    role = "group" if " data-grab=" in drawn else "img"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" '
        f'width="{display_width}" role="{role}" fill="none" stroke-linecap="round" '
        f'stroke-linejoin="round" font-family="{FONT_FAMILY}" text-anchor="middle">{words}'
        f'<rect width="{width}" height="{height}" fill="{picture.background}"/>'
        f"{drawn}</svg>"
    )


def _number(value: float) -> str:
    return _short(f"{value:.1f}")


def _finely(value: float) -> str:
    return f"{round(value, 3) + 0.0:.7g}"  # no -0, and no zeros at the end


def _short(numbers: str) -> str:
    """Return numbers, all of one decimal, without those decimals that are 0."""
    return numbers.replace("-0.0", "0").replace(".0", "")


def _items(items: Iterable[Item]) -> str:
    return "".join([_DRAW[type(item)](item) for item in items])


@lru_cache(maxsize=256)
def _through(points: tuple[Point, ...]) -> str:
    places = "%.1f %.1f " * len(points) % tuple(chain.from_iterable(points))
    return _short(places[:-1])


@lru_cache(maxsize=128)
def _strokes(segments: tuple[tuple[float, float, float, float], ...]) -> str:
    strokes = "M%.1f %.1fL%.1f %.1f" * len(segments)
    return _short(strokes % tuple(chain.from_iterable(segments)))


def _pen(item: Line | Segments | Polyline | Polygon | Circle) -> str:
    if not item.stroke:
        return ""
    dash = f' stroke-dasharray="{" ".join(map(_number, item.dash))}"' if item.dash else ""
    return f' stroke="{item.stroke}" stroke-width="{_number(item.width)}"{dash}'


def _fill(item: Polygon | Circle) -> str:
    if not item.fill:
        return ""
    opacity = f' fill-opacity="{item.opacity:.2g}"' if item.opacity < 1 else ""
    return f' fill="{item.fill}"{opacity}'


def _line(item: Line) -> str:
    start, end = _through(((item.x1, item.y1),)), _through(((item.x2, item.y2),))
    return f'<path d="M{start}L{end}"{_pen(item)}/>'


def _segments(item: Segments) -> str:
    return f'<path d="{_strokes(item.segments)}"{_pen(item)}/>'


def _polyline(item: Polyline) -> str:
    return f'<path d="M{_through(item.points)}"{_pen(item)}/>'


def _polygon(item: Polygon) -> str:
    return f'<path d="M{_through(item.points)}z"{_fill(item)}{_pen(item)}/>'


def _circle(item: Circle) -> str:
    center = f'cx="{_number(item.x)}" cy="{_number(item.y)}"'
    return f'<circle {center} r="{_number(item.radius)}"{_fill(item)}{_pen(item)}/>'


def _text(item: Text) -> str:
    x, y = _number(item.x), _number(item.y + CAP_MIDDLE * item.size)
    extras = f' text-anchor="{item.anchor}"' if item.anchor != "middle" else ""
    if item.bold:
        extras += ' font-weight="bold"'
    if item.halo:
        width = _number(item.size / 4)
        extras += f' stroke="{item.halo}" stroke-width="{width}" paint-order="stroke"'
    if item.rotate_deg:
        extras += f' transform="rotate({_number(item.rotate_deg)} {x} {_number(item.y)})"'
    return (
        f'<text x="{x}" y="{y}" font-size="{_number(item.size)}" fill="{item.fill}"{extras}>'
        f"{escape(item.text, quote=False)}</text>"
    )


# Between two pictures of a drag most groups are the very same ones: the map, the ring's scale.
@lru_cache(maxsize=128)
def _group(item: Group) -> str:
    inner = _items(item.items)
    moves = f"translate({_finely(item.x)} {_finely(item.y)})" if item.x or item.y else ""
    turn = f"rotate({_finely(item.rotate_deg)})" if item.rotate_deg else ""
    place = f' transform="{moves}{turn}"' if moves or turn else ""
    if not item.grab:
        return f"<g{place}>{inner}</g>"
    press = ' data-press=""' if item.hit else ""  # a saved notebook reads it as XML
    return (
        f'<g{place} data-grab="{escape(item.grab)}"{press} tabindex="0" role="slider"'
        f"{_spoken(item.label)}>{_hit_area(item)}{inner}</g>"
    )


def _hit_area(item: Group) -> str:
    """Return the unseen shape that a pointer takes hold of."""
    if item.hit is None:
        return f'<circle r="{_number(max(HIT_RADIUS, reach(item.items)))}" pointer-events="all"/>'
    left, top, right, bottom = item.hit
    corner = f'x="{_number(left)}" y="{_number(top)}"'
    size = f'width="{_number(right - left)}" height="{_number(bottom - top)}"'
    return f'<rect {corner} {size} pointer-events="all"/>'


def _spoken(label: str) -> str:
    """Return what a screen reader says of a slider: its name, and its value apart from it.

    A slider has to have a number as well, which the value in words stands in for.
    """
    name, *rest = VALUE_BEGINS.split(label, maxsplit=1)
    value = "".join(rest)
    number = NUMBER.search(value)
    words = f' aria-valuetext="{escape(value)}"' if value else ""
    return f' aria-label="{escape(name)}" aria-valuenow="{number[0] if number else 0}"{words}'


_DRAW: dict[type, Callable[[Any], str]] = {
    Line: _line,
    Segments: _segments,
    Polyline: _polyline,
    Polygon: _polygon,
    Circle: _circle,
    Text: _text,
    Group: _group,
}
