"""Elevation data read from the common ASCII grid of geographic systems (.asc).

A head of words and values (ncols, nrows, xllcorner or xllcenter, yllcorner or yllcenter, cellsize,
NODATA_value), then heights from the north row to the south, each row from west to east (layout from
memory). The file does not say what its heights are measured in: who gives it says so.
"""

from __future__ import annotations

import io
from collections.abc import Iterator

import numpy as np

from vorlib.briefing.elevation import HIGHEST_FT, LOWEST_FT, ElevationGrid
from vorlib.core.arguments import FloatArray, within
from vorlib.io.text import LONGEST_CELL, FileError, Source, number, read_text, shortened

__all__ = ["read_elevation"]

MOST_CELLS = 20_000_000  # one square degree at one second is 13 million
COARSEST_DEG = 0.1
LONGEST_ROW = 1_000_000  # characters in a line
LARGEST = float(np.finfo(np.float32).max)  # not a height, but some grids mark missing data with it
DEFAULT_NODATA = -9999.0  # where the head does not say (from memory)
CORNERS = (("xllcorner", "xllcenter"), ("yllcorner", "yllcenter"))
NEEDED = ("ncols", "nrows", "cellsize")
HEAD = (*NEEDED, "nodata_value", *CORNERS[0], *CORNERS[1])

Lines = Iterator[tuple[int, str]]


def read_elevation(source: Source) -> ElevationGrid:
    """Return the grid of an .asc file, its heights taken as meters.

    Raises
    ------
    FileError
        If the file is not text, its head lacks something or is not in degrees, there are more
        cells than 20 million or other than its head says, or one is not a number; the message names
        the line.
    OSError
        If the file cannot be opened.
    """
    what = "give an ASCII grid of geographic systems (.asc), in degrees"
    lines = enumerate(io.StringIO(read_text(source, what)), 1)
    head, first = _read_head(lines)
    rows, columns = (_count(head, name) for name in ("nrows", "ncols"))
    if rows * columns > MOST_CELLS:
        raise FileError(
            f"the grid has {rows:,} by {columns:,} cells, more than {MOST_CELLS:,}, the most that "
            "are read: cut out your practice area, or take a coarser one"
        )
    cell_deg, west_deg, south_deg = _place(head, rows, columns)
    heights = np.full(rows * columns, np.nan, np.float32)
    filled = 0
    for line, values in _values(first, lines):
        if filled + len(values) > len(heights):
            raise FileError(f"line {line}: more values than {rows:,} rows of {columns:,} cells")
        heights[filled : filled + len(values)] = values
        filled += len(values)
    if filled < len(heights):
        raise FileError(
            f"the file is cut off: {filled:,} values, where {rows:,} rows of {columns:,} cells "
            f"need {len(heights):,}; get it again"
        )
    heights[heights == np.float32(head.get("nodata_value", DEFAULT_NODATA))] = np.nan
    if not np.isfinite(heights).any():
        raise FileError("the grid holds no height at all, only cells without data")
    low, high = float(np.nanmin(heights)), float(np.nanmax(heights))
    if low < LOWEST_FT:
        raise FileError(
            f"a height is {low:,.0f}, lower than any ground: does the head say which value stands "
            "for no data (NODATA_value)?"
        )
    if high > HIGHEST_FT:
        raise FileError(f"a height is {high:,.0f}, higher than any ground")
    return ElevationGrid(heights.reshape(rows, columns), south_deg, west_deg, cell_deg)


def _read_head(lines: Lines) -> tuple[dict[str, float], tuple[int, str]]:
    """Return what the head says by its words, in small letters, and the first line after it."""
    head: dict[str, float] = {}
    for line, text in lines:
        words = text.split(maxsplit=2)
        name = words[0].lower() if words else ""
        if name and not name[0].isalpha():
            return head, (line, text)
        if not name:
            continue
        if name not in HEAD or len(words) != 2 or name in head:
            shown = shortened(repr(text.strip()), LONGEST_CELL)
            raise FileError(
                f"line {line}: the head must have one each of {', '.join(NEEDED)}, xllcorner or "
                f"xllcenter, yllcorner or yllcenter, and perhaps NODATA_value, got {shown}"
            )
        try:
            head[name] = number(name, words[1])
        except ValueError as error:
            raise FileError(f"line {line}: {error}") from None
    raise FileError("the file has no heights: after the head there must be rows of numbers")


def _count(head: dict[str, float], name: str) -> int:
    value = _given(head, name)
    if value != int(value) or value < 1.0:
        raise FileError(f"{name} must be a whole number of 1 or more, got {value:g}")
    return int(value)


def _given(head: dict[str, float], *names: str) -> float:
    for name in names:
        if name in head:
            return head[name]
    raise FileError(f"the head does not say {' or '.join(names)}")


def _place(head: dict[str, float], rows: int, columns: int) -> tuple[float, float, float]:
    """Return the size of a cell, and longitude and latitude of the lower left one's middle."""
    cell_deg = _given(head, "cellsize")
    middles = []
    for corner, center in CORNERS:
        value = _given(head, corner, center)
        middles.append(value if center in head else value + 0.5 * cell_deg)
    west_deg, south_deg = middles
    try:
        within("xllcorner", west_deg, -360.0, 360.0, "degrees")
        within("yllcorner", south_deg, -90.0, 90.0, "degrees")
        within("yllcorner + nrows * cellsize", south_deg + (rows - 1) * cell_deg, -90.0, 90.0, "")
        within("ncols * cellsize", columns * cell_deg, 0.0, 360.0 + cell_deg, "degrees")
    except ValueError as error:
        raise FileError(
            f"{error}: the grid must be in degrees of latitude and longitude, not in meters of a "
            "map projection"
        ) from None
    if not 0.0 < cell_deg <= COARSEST_DEG:
        raise FileError(
            f"cellsize must be more than 0 and at most {COARSEST_DEG:g} degrees, got {cell_deg:g}: "
            "a coarser grid hides the peaks"
        )
    return cell_deg, west_deg, south_deg


def _values(first: tuple[int, str], lines: Lines) -> Iterator[tuple[int, FloatArray]]:
    """Yield the values of each line with its number; where a row of the grid ends is free."""
    line, text = first
    while True:
        if len(text) > LONGEST_ROW:
            raise FileError(f"line {line} is longer than {LONGEST_ROW:,} characters")
        words = text.split()
        try:
            values = np.array(words, dtype=np.float64)
        except ValueError:
            values = np.full(1, np.nan)
        if not (np.abs(values) <= LARGEST).all():
            for word in words:
                try:
                    number("a height", word)
                except ValueError as error:
                    raise FileError(f"line {line}: {error}") from None
            raise FileError(f"line {line}: a height is too large")
        yield line, values
        line, text = next(lines, (0, ""))
        if not line:
            return
