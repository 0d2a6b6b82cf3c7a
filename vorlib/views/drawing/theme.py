"""The look of every picture: colors by role, sizes of type, widths of line."""

from __future__ import annotations

from dataclasses import dataclass, replace

__all__ = ["PROJECTOR", "SCREEN", "Theme"]


@dataclass(frozen=True, slots=True)
class Theme:
    """Colors, type and lines of a picture.

    Blue carries the selected course and orange the aircraft, which color-blind readers tell
    apart best; every role also has a shape, a dash or a word of its own. Contrast and the
    color-blind simulation are checked in the tests.

    Attributes
    ----------
    text_size, small_size, big_size
        Heights of ordinary type, of numerals on scales, and of the selected course.
    thin, line, thick
        Widths of hairlines, of ordinary lines, and of the lines the lesson is about.
    symbol
        Factor on the size of symbols: aircraft, airfields, station.
    """

    paper: str = "#ffffff"
    sea: str = "#e8f6fc"
    land: str = "#f1e6cf"
    coast: str = "#86744a"
    text: str = "#16212b"
    muted: str = "#585e64"
    rose: str = "#3b4853"
    ring: str = "#73818d"
    station: str = "#16212b"
    course: str = "#0b4fa8"
    aircraft: str = "#ad3e00"
    track: str = "#004024"
    to_half: str = "#3f7fb5"
    from_half: str = "#a07a2c"
    cone: str = "#4b1446"
    needle: str = "#ad3e00"
    cover: str = "#dfe5ea"
    warning: str = "#9c1324"
    small_size: float = 12.0
    text_size: float = 14.0
    big_size: float = 40.0
    thin: float = 0.8
    line: float = 1.5
    thick: float = 3.0
    symbol: float = 1.0


SCREEN = Theme()

# Type and lines 1.65 times as large, so that a back row can read them.
PROJECTOR = replace(
    SCREEN,
    small_size=20.0,
    text_size=23.0,
    big_size=66.0,
    thin=1.3,
    line=2.5,
    thick=5.0,
    symbol=1.5,
)
