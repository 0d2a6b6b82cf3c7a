"""The indicator: a plain teaching diagram of a VOR indicator, and nobody's product.

Above stands the selected course in figures; in the middle the course ring, the dots and the
needle; below a window with the flag, as a word and as a shape.
"""

from __future__ import annotations

import math
from functools import lru_cache

from vorlib.core.angles import format_direction, spoken_side
from vorlib.core.words import spoken_dots
from vorlib.views.drawing.layout import text_width, wrapped
from vorlib.views.drawing.picture import Circle, Group, Item, Line, Picture, Polygon, Segments, Text
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.views.instrument.compass_card import CARD_RADIUS, compass_card
from vorlib.views.instrument.indicator_scene import IndicatorScene
from vorlib.vor.receiver import DOTS_FULL_SCALE, Flag, Reason

__all__ = ["HEIGHT", "WIDTH", "IndicatorScene", "indicator"]

WIDTH, HEIGHT = 340.0, 480.0  # as tall as a plan view
CENTER = (WIDTH / 2, 228.0)
WINDOW_TOP = 392.0

REASON_WORDS = {  # short enough for the window of a projected indicator
    Reason.ABEAM: "abeam the station",
    Reason.CONE: "cone of confusion",
    Reason.LINE_OF_SIGHT: "beyond line of sight",
    Reason.OFF_THE_AIR: "station off the air",
}
NOT_ASSURED = "needle not assured"


def indicator(scene: IndicatorScene, theme: Theme = SCREEN) -> Picture:
    """Return the indicator of a scene; its course ring is grabbed as "ring"."""
    course = format_direction(scene.course_deg)
    grab = ("ring", f"Selected course {course}") if scene.by_hand else ("", "")
    ring = Group((_ring(theme),), *CENTER, -scene.course_deg, *grab)
    face: tuple[Item, ...]
    if scene.cover:
        face = (_cover(scene.cover, theme),)
    else:
        face = (Group((*_face(theme), *_needle(scene, theme)), *CENTER), *_flag(scene, theme))
    return Picture(
        WIDTH,
        HEIGHT,
        (*_selected(course, scene, theme), ring, *_indices(theme), *_nose(scene, theme), *face),
        title="Indicator",
        description=_description(scene, course),
        background=theme.paper,
    )


def _description(scene: IndicatorScene, course: str) -> str:
    if scene.cover:
        return f"Course {course} is selected; the needle and the flag are covered."
    side = spoken_side(scene.dots)
    needle = "centered" if abs(scene.dots) < 0.05 else f"{spoken_dots(scene.dots)} {side}"
    if scene.silent:
        needle = "centered with nothing to show"
    if scene.doubtful:
        needle += ", not assured"
    return f"Course {course} is selected, the flag reads {scene.flag.name}, the needle is {needle}."


def _selected(course: str, scene: IndicatorScene, theme: Theme) -> tuple[Item, ...]:
    """Return the selected course in figures, and in the corner the heading where it is told."""
    size = theme.big_size
    words = "course"
    width = text_width(words, theme.text_size) + 8.0 + text_width(course, size, True)
    told: tuple[tuple[Item, ...], float] = ((), WIDTH)
    if scene.heading_deg is not None:
        told = _heading(format_direction(scene.heading_deg), scene.wanted_heading_deg, theme)
    items, free = told
    left = max(0.0, min((WIDTH - width) / 2, free - width - 12.0))
    middle = left + text_width(words, theme.text_size) + 8.0
    return (
        Text(left, 36.0, words, theme.text_size, theme.text, "start"),
        Text(middle, 34.0, course, size, theme.course, "start", True),
        *items,
    )


def _heading(
    heading: str, wanted_deg: float | None, theme: Theme
) -> tuple[tuple[Item, ...], float]:
    """Return the heading in figures, and where what stands to the left of it has to end.

    Below it stands the heading to fly, if a hand steers.
    """
    right, size, words = WIDTH - 4.0, 1.5 * theme.text_size, "heading"
    width = max(text_width(words, theme.small_size), text_width(heading, size, True))
    items: tuple[Item, ...] = (
        Text(right, 12.0, words, theme.small_size, theme.text, "end"),
        Text(right, 14.0 + size, heading, size, theme.needle, "end", True),
    )
    if wanted_deg is not None:
        fly = f"fly {format_direction(wanted_deg)}"
        text = Text(0.0, 0.0, fly, theme.text_size, theme.track, bold=True)
        middle = right - text_width(fly, theme.text_size, True) / 2
        label = f"Heading {heading}, to fly {format_direction(wanted_deg)}"
        below = 14.0 + size + 0.5 * size + 0.8 * theme.text_size
        items += (Group((text,), middle, below, grab="heading", label=label),)
    return items, right - width


def _nose(scene: IndicatorScene, theme: Theme) -> tuple[Item, ...]:
    """Return the pointer outside the ring, at the heading."""
    if scene.heading_deg is None or not scene.nose_on_ring:
        return ()
    foot, half = -CARD_RADIUS + 4.0, 9.0
    corners = ((0.0, foot), (half, foot - 18.0), (-half, foot - 18.0))
    pointer = Polygon(corners, theme.needle, theme.paper, theme.line)
    return (Group((pointer,), *CENTER, scene.heading_deg - scene.course_deg),)


def _inner_radius(theme: Theme) -> float:
    """Radius of the face, inside the ring's numerals."""
    return CARD_RADIUS - 20.0 - 1.5 * theme.small_size


@lru_cache(maxsize=8)
def _ring(theme: Theme) -> Group:
    return compass_card(theme.sea, theme)


@lru_cache(maxsize=8)
def _indices(theme: Theme) -> tuple[Item, ...]:
    """Return the fixed marks at the ring: the course at the top, its reciprocal at the bottom."""
    x, y = CENTER
    top, foot = y - CARD_RADIUS, y + CARD_RADIUS
    return (
        Polygon(((x, top + 3.0), (x + 10.0, top - 13.0), (x - 10.0, top - 13.0)), theme.course),
        Line(x, foot + 2.0, x, foot + 11.0, theme.course, theme.thick),
    )


@lru_cache(maxsize=8)
def _face(theme: Theme) -> tuple[Item, ...]:
    """Return the face about the origin: a center ring and five dots each side."""
    radius = _inner_radius(theme)
    dot = 1.6 + 1.2 * theme.line
    dots = [i for i in range(-DOTS_FULL_SCALE, DOTS_FULL_SCALE + 1) if i]
    return (
        Circle(0.0, 0.0, radius, theme.paper, theme.rose, theme.line),
        Circle(0.0, 0.0, 2.2 * dot, "", theme.text, theme.line),
        *(Circle(i * _dot_step(theme), 0.0, dot, theme.text) for i in dots),
    )


def _dot_step(theme: Theme) -> float:
    return (_inner_radius(theme) - 14.0) / DOTS_FULL_SCALE


def _needle(scene: IndicatorScene, theme: Theme) -> tuple[Item, ...]:
    """Return the needle about the face's center; dashed when it is not to be trusted.

    The dashes of a live needle that nobody promises are long, those under OFF short.
    """
    x = 0.0 if scene.silent else scene.dots * _dot_step(theme)
    half = math.sqrt(max(0.0, (_inner_radius(theme) - 6.0) ** 2 - x * x))
    half = max(half, 0.35 * _inner_radius(theme))
    trusted = scene.flag != Flag.OFF and not scene.overhead
    width = 1.5 * theme.thick
    dash = () if trusted else (1.2 * width, 2.0 * width)
    if trusted and scene.doubtful:
        dash = (4.0 * width, 2.0 * width)
    return (Line(x, -half, x, half, theme.muted if scene.silent else theme.needle, width, dash),)


def _flag(scene: IndicatorScene, theme: Theme) -> tuple[Item, ...]:
    """Return the flag's window: a word, a shape, and why flag and needle are not to be trusted."""
    size = 1.6 * theme.text_size
    half_width, half_height = 0.5 * text_width("FROM", size, True) + 1.3 * size, 0.8 * size
    x, y = WIDTH / 2, WINDOW_TOP + half_height
    off = scene.flag == Flag.OFF
    ink, word = theme.warning if off else theme.text, scene.flag.name
    shape_x = x - (1.4 * size + text_width(word, size, True)) / 2 + 0.5 * size
    items: list[Item] = [
        Polygon(_rectangle(x, y, half_width, half_height), theme.paper, ink, 1.2 * theme.line),
        Text(shape_x + 0.9 * size, y, word, size, ink, "start", True),
    ]
    if off:
        items.append(_bars(shape_x, y, 0.5 * size, half_height, theme))
    else:
        tip = -0.5 * size if scene.flag == Flag.TO else 0.5 * size
        base = ((shape_x + 0.5 * size, y - tip), (shape_x - 0.5 * size, y - tip))
        items.append(Polygon(((shape_x, y + tip), *base), ink))
    words = NOT_ASSURED if scene.doubtful else REASON_WORDS.get(scene.reason, "")
    if off or words:
        below = y + half_height + 0.8 * theme.small_size
        items.append(Text(x, below, words, theme.small_size, theme.text))
    return tuple(items)


def _bars(x: float, y: float, half: float, half_height: float, theme: Theme) -> Segments:
    """Return the barred pattern of the OFF flag."""
    tall = 0.8 * half_height
    slanted = [x + half * i for i in (-0.8, -0.1, 0.6)]
    return Segments(
        tuple((a - 0.3 * half, y + tall, a + 0.6 * half, y - tall) for a in slanted),
        theme.warning,
        theme.thick,
    )


def _cover(words: str, theme: Theme) -> Item:
    """Return a panel over the face and the flag's window."""
    x, y = CENTER
    size = theme.text_size
    lines = wrapped(words, 2 * _inner_radius(theme) - 30.0, size)
    first = -0.65 * size * (len(lines) - 1)
    return Group(
        (
            Circle(0.0, 0.0, _inner_radius(theme), theme.cover, theme.rose, theme.line),
            *(
                Text(0.0, first + 1.3 * size * i, line, size, theme.text)
                for i, line in enumerate(lines)
            ),
            Polygon(
                _rectangle(0.0, WINDOW_TOP + 1.3 * size - y, 4.5 * size, 1.3 * size),
                theme.cover,
                theme.rose,
                theme.line,
            ),
        ),
        x,
        y,
    )


def _rectangle(
    x: float, y: float, half_width: float, half_height: float
) -> tuple[tuple[float, float], ...]:
    left, right, top, foot = x - half_width, x + half_width, y - half_height, y + half_height
    return (left, top), (right, top), (right, foot), (left, foot)
