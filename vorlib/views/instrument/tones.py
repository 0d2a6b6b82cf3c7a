"""The two 30 Hz tones of a station's signal, one under the other, and the phase between them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np

from vorlib.core.arguments import finite
from vorlib.core.words import spoken_degrees
from vorlib.views.drawing.clipping import clip_polyline
from vorlib.views.drawing.layout import text_width
from vorlib.views.drawing.picture import Circle, Group, Item, Line, Picture, Polygon, Polyline, Text
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.views.instrument.indicator import HEIGHT

__all__ = ["UNITS_PER_DEG", "WIDTH", "TonesScene", "tones"]

WIDTH = 480.0
MARGIN = 8.0
FIRST_DEG, SHOWN_DEG = -30.0, 720.0  # two turns, so that a crest is followed by the other's next
UNITS_PER_DEG = (WIDTH - 2.0 * MARGIN) / SHOWN_DEG
FULL = 0.4  # of a panel's height, for a tone of full strength
SMOOTH_DEG = 6  # steps in which a tone is drawn as it is sent

_CORNERS = ((-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0))

ToneName = Literal["AM", "FM"]


@dataclass(frozen=True)
class TonesScene:
    """Two tones over one turn of 30 Hz.

    Attributes
    ----------
    am, fm
        The tones as detected, evenly over one turn; 1 is the full strength of each.
    am_crest_deg, fm_crest_deg
        Where in the turn their crests are sent; None for a tone that is not sent.
    lag_deg
        By how much the AM tone is found to lag, in (0, 360]; None when it cannot be told.
    moving
        Which of the two changes with the radial; its crest can be grabbed as "crest".

    Raises
    ------
    ValueError
        If a number is not finite, or a tone holds fewer than two values.
    """

    am: tuple[float, ...]
    fm: tuple[float, ...]
    am_crest_deg: float | None
    fm_crest_deg: float | None
    lag_deg: float | None
    moving: ToneName

    def __post_init__(self) -> None:
        for name in ("am", "fm"):
            if len(finite(name, getattr(self, name))) < 2:
                raise ValueError(f"{name} must hold at least two values, got {getattr(self, name)}")
        for name in ("am_crest_deg", "fm_crest_deg", "lag_deg"):
            if getattr(self, name) is not None:
                finite(name, getattr(self, name))


@dataclass(frozen=True)
class _Panel:
    """One tone's part of the picture."""

    name: ToneName
    values: tuple[float, ...]
    crest_deg: float | None
    color: str
    top: float
    bottom: float

    @property
    def middle(self) -> float:
        return (self.top + self.bottom) / 2.0

    @property
    def full(self) -> float:
        return FULL * (self.bottom - self.top)

    def points(self, values: Sequence[float]) -> tuple[tuple[float, float], ...]:
        """Return a line through evenly spaced values of one turn, as often as there is room."""
        step = 360.0 / len(values)
        first, count = math.floor(FIRST_DEG / step), math.ceil(SHOWN_DEG / step) + 1
        i = np.arange(first, first + count + 1)
        x, y = _x(i * step), self.middle - self.full * np.asarray(values)[i % len(values)]
        return tuple(zip(x.tolist(), y.tolist(), strict=True))


def tones(scene: TonesScene, theme: Theme = SCREEN) -> Picture:
    """Return the picture of the two tones; the crest that moves can be grabbed as "crest"."""
    size, small = theme.text_size, theme.small_size
    title, between, foot = 1.9 * size, 4.4 * size, 3.4 * small
    tall = (HEIGHT - title - between - foot) / 2.0
    upper = _Panel("FM", scene.fm, scene.fm_crest_deg, theme.course, title, title + tall)
    below = upper.bottom + between
    lower = _Panel("AM", scene.am, scene.am_crest_deg, theme.aircraft, below, below + tall)
    items = (
        *_axis(lower.bottom, theme),
        *_panel(upper, scene, theme),
        *_panel(lower, scene, theme),
        *_lag(upper, lower, scene, theme),
        *_crests(upper, lower, scene, theme),
        *_title(upper, scene, theme),
        *_title(lower, scene, theme),
    )
    return Picture(WIDTH, HEIGHT, items, "Two tones", _description(scene), theme.paper)


def _x(turn_deg: Any) -> Any:
    return MARGIN + (turn_deg - FIRST_DEG) * UNITS_PER_DEG


def _description(scene: TonesScene) -> str:
    for name, crest in (("AM", scene.am_crest_deg), ("FM", scene.fm_crest_deg)):
        if crest is None:
            return f"The {name} tone is missing: the two cannot be compared."
    if scene.lag_deg is None:
        return "Both tones are sent, but noise hides them: they cannot be compared."
    whole = round(scene.lag_deg) % 360
    if not whole:
        return "The crests of the two tones agree."
    return f"The crest of the AM tone comes {spoken_degrees(whole)} after that of the FM tone."


def _panel(panel: _Panel, scene: TonesScene, theme: Theme) -> Iterator[Item]:
    left, right = MARGIN, WIDTH - MARGIN
    corners = ((left, panel.top), (right, panel.top), (right, panel.bottom), (left, panel.bottom))
    yield Polygon(corners, theme.sea)
    yield Line(left, panel.middle, right, panel.middle, theme.ring, theme.thin, (2, 5))
    box = (left, panel.top, right, panel.bottom)
    if panel.crest_deg is not None:
        turn = [math.cos(math.radians(d - panel.crest_deg)) for d in range(0, 360, SMOOTH_DEG)]
        for segment in clip_polyline(panel.points(turn), box):
            yield Polyline(segment, theme.muted, theme.line, (5, 4))
    sent = panel.crest_deg is not None
    ink, width = (panel.color, theme.thick) if sent else (theme.muted, theme.thin)
    for segment in clip_polyline(panel.points(panel.values), box):
        yield Polyline(segment, ink, width)


def _title(panel: _Panel, scene: TonesScene, theme: Theme) -> Iterator[Item]:
    size, small = theme.text_size, theme.small_size
    y, name = panel.top - 0.9 * size, f"{panel.name} tone"
    yield Text(MARGIN, y, name, size, panel.color, "start", True, theme.paper)
    place = "moves with the radial" if panel.name == scene.moving else "same all round"
    yield Text(WIDTH - MARGIN, y, place, small, theme.text, "end", halo=theme.paper)
    if panel.crest_deg is None:
        half, tall = 0.6 * text_width(f"no {name}", size, True), 0.9 * size
        x, y = WIDTH / 2.0, panel.middle
        corners = tuple((x + a * half, y + b * tall) for a, b in _CORNERS)
        yield Polygon(corners, theme.paper, theme.warning, theme.line)
        yield Text(x, y, f"no {name}", size, theme.warning, "middle", True)


def _axis(y: float, theme: Theme) -> Iterator[Item]:
    size = theme.small_size
    for turn_deg in range(0, 690, 90):
        x = _x(turn_deg)
        yield Line(x, y, x, y + 5.0, theme.rose, theme.line)
        if turn_deg % 180 == 0:
            yield Text(x, y + 5.0 + 0.8 * size, f"{turn_deg}", size, theme.text)
    words = "degrees of a turn; 360 are 1/30 second"
    yield Text(WIDTH / 2, HEIGHT - 0.7 * size, words, size, theme.text)


def _following(scene: TonesScene) -> tuple[float, float] | None:
    """Return the crest of the FM tone, and the crest of the AM tone that follows it."""
    if scene.fm_crest_deg is None or scene.am_crest_deg is None:
        return None
    fm = scene.fm_crest_deg % 360.0
    return fm, fm + ((scene.am_crest_deg - fm) % 360.0 or 360.0)


def _lag(upper: _Panel, lower: _Panel, scene: TonesScene, theme: Theme) -> Iterator[Item]:
    """Draw an arrow from crest to crest, with the lag that was found."""
    crests = _following(scene)
    if crests is None or scene.lag_deg is None:
        return
    start, end = (_x(crest) for crest in crests)
    y = upper.bottom + 2.0 * theme.text_size
    dash, head = (4, 4), 4.0 * theme.line
    yield Line(start, upper.middle - upper.full, start, y, upper.color, theme.line, dash)
    yield Line(end, y, end, lower.middle - lower.full, lower.color, theme.line, dash)
    yield Line(start, y, end, y, theme.text, theme.line)
    if end - start > 2.0 * head:
        yield Polygon(((end, y), (end - 2.0 * head, y - head), (end - 2.0 * head, y + head)),
                      theme.text)  # fmt: skip
    whole = round(scene.lag_deg) % 360
    words = f"AM lags by {spoken_degrees(whole)}" if whole else "the crests agree"
    half = text_width(words, theme.text_size, True) / 2.0
    x = min(max((start + end) / 2.0, MARGIN + half), WIDTH - MARGIN - half)
    above = y - 0.9 * theme.text_size
    yield Text(x, above, words, theme.text_size, theme.text, "middle", True, theme.paper)


def _crests(upper: _Panel, lower: _Panel, scene: TonesScene, theme: Theme) -> Iterator[Item]:
    """Mark the crests; the one that moves is a handle."""
    fm, am = scene.fm_crest_deg, scene.am_crest_deg
    both = _following(scene)
    at = dict(zip(("FM", "AM"), both, strict=True)) if both else {"FM": fm, "AM": am}
    for panel in (upper, lower):
        crest = at[panel.name]
        if crest is None:
            continue
        x, y = _x(crest), panel.middle - panel.full
        if panel.name != scene.moving:
            yield Circle(x, y, 5.0 * theme.symbol, theme.paper, panel.color, theme.line)
            continue
        radius = 9.0 * theme.symbol
        yield Group(
            (
                Circle(0.0, 0.0, radius, theme.paper, panel.color, theme.thick),
                *(_pointer(side, radius, panel.color) for side in (-1.0, 1.0)),
            ),
            x,
            y,
            grab="crest",
            label=f"Crest of the {panel.name} tone, at {spoken_degrees(crest % 360.0)} of the turn",
        )


def _pointer(side: float, radius: float, color: str) -> Polygon:
    """Return a small arrowhead to one side, inside a handle."""
    tip, base, half = side * 0.75 * radius, side * 0.2 * radius, 0.4 * radius
    return Polygon(((tip, 0.0), (base, -half), (base, half)), color)
