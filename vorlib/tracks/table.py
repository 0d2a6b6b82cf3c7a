"""Read tracks in tables: cells divided by commas, semicolons or tabs, below any header lines."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import UTC, datetime
from itertools import islice
from typing import NamedTuple

import numpy as np

from vorlib.core.arguments import ArgumentError
from vorlib.earth.geodesic import Position
from vorlib.earth.variation import variation_deg
from vorlib.io.text import (
    FileError,
    latitude_deg,
    longitude_deg,
    number,
    refuse_formulas,
    table_rows,
)
from vorlib.tracks.columns import (
    FEET_PER_UNIT,
    KNOTS_PER_UNIT,
    Columns,
    found_columns,
    is_header,
)
from vorlib.tracks.moments import Moments, TimeScale
from vorlib.tracks.points import MOST_POINTS, Points

__all__ = ["Columns", "Table", "found_in", "read_table"]

SHOWN_FAULTS = 20
OF_THE_WHOLE_FILE = ("date", "date_order")  # what is wrong in all rows is told once
MOST_BEFORE = 60  # lines before the header
DELIMITERS = (",", ";", "\t")

Row = tuple[int, list[str]]


class Table(NamedTuple):
    """The points of a table.

    Attributes
    ----------
    columns
        Which column held what.
    dated
        False where times are seconds of the flight.
    """

    points: Points
    columns: Columns
    dated: bool


class _Opened(NamedTuple):
    """A table of which the header has been found, and the rows below it."""

    columns: Columns
    header: list[str]
    delimiter: str
    rows: Iterator[Row]


def found_in(text: str, declared: Columns) -> tuple[Columns, list[str]]:
    """Return which column of a table holds what, and the names of all.

    Raises
    ------
    FileError
        If a column that is needed is not there.
    """
    opened = _opened(text, declared)
    return opened.columns, opened.header


def names_in(text: str, declared: Columns) -> list[str]:
    """Return the names of the columns of a table, whatever they hold; none if it is no table."""
    try:
        return _header(text, declared)[1][1]
    except FileError:
        return []


def read_table(text: str, declared: Columns) -> Table:
    """Return all points of a table.

    Raises
    ------
    FileError
        If a column is not there, or one message for each bad row, at most twenty: its line, its
        column, the value and what is allowed.
    """
    opened = _opened(text, declared)
    reader = _TableReader(opened)
    points: list[tuple[float, ...]] = []
    lines: list[int] = []
    faults: list[str] = []
    argument = ""
    for line, cells in opened.rows:
        if len(lines) == MOST_POINTS:
            raise FileError(
                f"line {line}: more than {MOST_POINTS:,} points: cut the track in parts"
            )
        try:
            points.append(reader.point(cells))
            lines.append(line)
        except ValueError as error:
            if isinstance(error, ArgumentError) and error.argument in OF_THE_WHOLE_FILE:
                argument = error.argument
            if not lines and not faults and not any(letter.isdigit() for letter in "".join(cells)):
                continue  # units, below the names
            faults.append(f"line {line}: {error}")
            if len(faults) == SHOWN_FAULTS or argument:
                break
    if faults:
        raise FileError(*faults, argument=argument)
    dated = reader.moments.clock is not TimeScale.FLIGHT
    return Table(_points(points, lines, dated), opened.columns, dated)


def _points(rows: list[tuple[float, ...]], lines: list[int], dated: bool) -> Points:
    values = np.array(rows, dtype=np.float64).reshape(-1, 7).T
    time_s, lat, lon, altitude, heading, magnetic, speed = values
    written = np.isfinite(magnetic) & np.isfinite(lat)
    if written.any():
        if not dated:
            raise FileError(
                "a magnetic heading needs the day, for the variation: declare "
                "magnetic_heading_deg=- or a column with the date",
                argument="magnetic_heading_deg",
            )
        first = int(np.argmax(written))
        here = Position(float(lat[first]), float(lon[first]))
        day = datetime.fromtimestamp(float(time_s[first]), UTC).date()
        try:
            variation = float(variation_deg(here, day))
        except ValueError as error:
            raise FileError(
                f"the variation that a magnetic heading needs is not known: {error}: declare "
                "magnetic_heading_deg=- to leave it out",
                argument="magnetic_heading_deg",
            ) from None
        heading = np.where(written, magnetic + variation, heading)
    track, line = np.ones(len(lines), dtype=int), np.array(lines, dtype=int)
    return Points(time_s, lat, lon, altitude, heading, speed, track, line)


def _header(text: str, declared: Columns) -> tuple[str, Row]:
    """Return the delimiter of a table, and its header: the first line that names a place."""
    fullest: tuple[str, Row] = (",", (1, []))
    for delimiter in DELIMITERS:
        try:
            first = list(islice(table_rows(text, delimiter), MOST_BEFORE))
        except FileError:
            if delimiter == ",":
                raise
            continue
        for row in first:
            if is_header(row[1], declared):
                return delimiter, row
        if first and len(first[0][1]) > len(fullest[1][1]):
            fullest = delimiter, first[0]
    return fullest


def _opened(text: str, declared: Columns) -> _Opened:
    delimiter, (line, header) = _header(text, declared)
    if not header:
        raise FileError("the file is empty")
    columns = found_columns(header, declared, line)
    rows = table_rows(text, delimiter)
    below = (row for row in rows if row[0] > line)
    return _Opened(columns, header, delimiter, below)


class _TableReader:
    """Reads the points of rows."""

    def __init__(self, opened: _Opened) -> None:
        self.columns, self.header = opened.columns, opened.header
        self.moments = Moments(opened.columns)
        self._decimal_commas = opened.delimiter != ","

    def point(self, cells: list[str]) -> tuple[float, ...]:
        """Return seconds, latitude, longitude, feet, true and magnetic heading, knots."""
        columns, header = self.columns, self.header
        while len(cells) > len(header) and not cells[-1]:
            cells.pop()
        if len(cells) != len(header):
            raise ValueError(
                f"there must be {len(header)} cells, one a column, got {len(cells)}"
                + (": are there decimal commas?" if len(cells) > len(header) else "")
            )
        refuse_formulas(header, cells)
        row = dict(zip(header, cells, strict=True))
        lat, lon = (self._plain(row[name]) for name in (columns.lat_deg, columns.lon_deg))
        fixed = lat or lon  # else the recorder had no fix
        day = row[columns.date] if columns.date else ""
        return (
            self.moments.seconds(row[columns.time], day),
            latitude_deg(columns.lat_deg, lat) if fixed else math.nan,
            longitude_deg(columns.lon_deg, lon) if fixed else math.nan,
            self._or_none(columns.altitude, row) * FEET_PER_UNIT.get(columns.altitude_unit, 1.0),
            self._or_none(columns.true_heading_deg, row),
            self._or_none(columns.magnetic_heading_deg, row),
            self._or_none(columns.speed, row) * KNOTS_PER_UNIT.get(columns.speed_unit, 1.0),
        )

    def _plain(self, cell: str) -> str:
        return cell.replace(",", ".") if self._decimal_commas else cell

    def _or_none(self, column: str, row: dict[str, str]) -> float:
        """Return the number in a cell; NaN where there is no such column or nothing in it."""
        return number(column, self._plain(row[column])) if column and row[column] else math.nan
