"""Tracks in comma-separated values, with a declared mapping of their columns."""

from __future__ import annotations

import math
from dataclasses import asdict, dataclass
from datetime import UTC, datetime, tzinfo
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

import numpy as np

from vorlib.core.units import METRES_PER_FOOT
from vorlib.io.text import (
    FileError,
    latitude_deg,
    longitude_deg,
    number,
    refuse_formulas,
    table_rows,
)
from vorlib.tracks.points import MOST_POINTS, Points

FEET_PER_UNIT = {"ft": 1.0, "m": 1.0 / METRES_PER_FOOT}
SHOWN_FAULTS = 20
SHORTEST_TIME = len("2026-06-01T")  # what is shorter is a day alone


@dataclass(frozen=True)
class Columns:
    """Which column of a file holds what; an empty name says that none does.

    Attributes
    ----------
    time
        Day and time such as 2026-06-01T09:00:00Z or 2026-06-01 11:00:00+02:00.
    lat_deg, lon_deg
        Degrees with decimals, positive north and east.
    altitude
        Altitude above the sea, in the unit that `altitude_unit` names, "ft" or "m".
    true_heading_deg
        True heading.
    zone
        The zone of times that are written without one, such as "UTC" or "Atlantic/Azores".
    """

    time: str = "time"
    lat_deg: str = "lat_deg"
    lon_deg: str = "lon_deg"
    altitude: str = "altitude_ft"
    true_heading_deg: str = ""
    altitude_unit: str = "ft"
    zone: str = "UTC"

    def __post_init__(self) -> None:
        if self.altitude_unit not in FEET_PER_UNIT:
            raise ValueError(f"altitude_unit must be 'ft' or 'm', got {self.altitude_unit!r}")
        for name in ("time", "lat_deg", "lon_deg"):
            if not getattr(self, name):
                raise ValueError(f"the column of {name} must be named")
        _ = self.time_zone

    @classmethod
    def from_words(cls, words: str) -> Columns:
        """Return the columns declared in words; those that are not named are the usual ones.

        Raises
        ------
        ValueError
            If the words are no declaration, or a name is not one of the attributes.

        >>> Columns.from_words("lat_deg=Latitude,altitude=Height,altitude_unit=m").altitude
        'Height'
        """
        usual = asdict(cls())
        given: dict[str, str] = {}
        for part in filter(None, (piece.strip() for piece in words.split(","))):
            name, equals, column = (piece.strip() for piece in part.partition("="))
            if not equals or name not in usual:
                raise ValueError(
                    "columns must be declared such as lat_deg=Latitude,altitude=Height, with names "
                    f"from {', '.join(usual)}; got {part!r}"
                )
            given[name] = column
        return cls(**given)

    @property
    def words(self) -> str:
        """What is declared of the columns beyond the usual, as `from_words` reads it."""
        usual = asdict(Columns())
        return ", ".join(f"{k}={v}" for k, v in asdict(self).items() if v != usual[k])

    @property
    def time_zone(self) -> tzinfo:
        """The zone of times that are written without one."""
        if self.zone == "UTC":
            return UTC  # known even where no table of zones is installed
        try:
            return ZoneInfo(self.zone)
        except (ZoneInfoNotFoundError, ValueError, OSError):
            raise ValueError(
                f"zone must be a time zone such as 'UTC' or 'Atlantic/Azores', got {self.zone!r}"
            ) from None

    @property
    def needed(self) -> tuple[str, ...]:
        """The names of all columns that are to be read."""
        names = (self.time, self.lat_deg, self.lon_deg, self.altitude, self.true_heading_deg)
        return tuple(name for name in names if name)


def read_table(text: str, columns: Columns) -> Points:
    """Return all points of a table.

    Raises
    ------
    FileError
        If a column is not there, or one message for each bad row, at most twenty: its line, its
        column, the value and what is allowed.
    """
    rows = table_rows(text)
    _, header = next(rows, (1, []))
    _check_header(columns, header)
    points: list[tuple[float, ...]] = []
    lines: list[int] = []
    faults: list[str] = []
    for line, cells in rows:
        if len(lines) == MOST_POINTS:
            raise FileError(
                f"line {line}: more than {MOST_POINTS:,} points: cut the track in parts"
            )
        try:
            points.append(_point(columns, header, cells))
            lines.append(line)
        except ValueError as error:
            faults.append(f"line {line}: {error}")
            if len(faults) == SHOWN_FAULTS:
                break
    if faults:
        raise FileError(*faults)
    time_s, lat, lon, altitude, heading = np.array(points, dtype=np.float64).reshape(-1, 5).T
    one_track = np.ones(len(lines), dtype=int)
    return Points(time_s, lat, lon, altitude, heading, one_track, np.array(lines, dtype=int))


def _check_header(columns: Columns, header: list[str]) -> None:
    if not header:
        raise FileError("the file is empty")
    if len(header) == 1 and ";" in header[0]:
        raise FileError(
            "line 1: the cells are separated by semicolons: save the table with commas between "
            "cells and points in numbers"
        )
    missing = [name for name in columns.needed if name not in header]
    if missing:
        words = "the columns are" if not any(map(_is_number, header)) else "is the header missing?"
        raise FileError(
            f"line 1: there is no column {', '.join(map(repr, missing))}; {words} "
            f"{', '.join(map(repr, header))}: declare which of them holds what",
            argument="columns",
        )
    twice = [name for name in columns.needed if header.count(name) > 1]
    if twice:
        raise FileError(f"line 1: the column {twice[0]!r} is given twice", argument="columns")


def _is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True


def _point(columns: Columns, header: list[str], cells: list[str]) -> tuple[float, ...]:
    """Seconds, latitude, longitude, altitude in feet and true heading of a row."""
    if len(cells) != len(header):
        raise ValueError(
            f"there must be {len(header)} cells, one a column, got {len(cells)}"
            + (": are there decimal commas?" if len(cells) > len(header) else "")
        )
    refuse_formulas(header, cells)
    row = dict(zip(header, cells, strict=True))
    fixed = row[columns.lat_deg] or row[columns.lon_deg]  # else the recorder had no fix
    return (
        _seconds(columns, row[columns.time]),
        latitude_deg(columns.lat_deg, row[columns.lat_deg]) if fixed else math.nan,
        longitude_deg(columns.lon_deg, row[columns.lon_deg]) if fixed else math.nan,
        _or_none(columns.altitude, row) * FEET_PER_UNIT[columns.altitude_unit],
        _or_none(columns.true_heading_deg, row),
    )


def _or_none(column: str, row: dict[str, str]) -> float:
    """The number in a cell; NaN where there is no such column or nothing in it."""
    return number(column, row[column]) if column and row[column] else math.nan


def _seconds(columns: Columns, cell: str) -> float:
    try:
        if len(cell) < SHORTEST_TIME:
            raise ValueError
        time = datetime.fromisoformat(cell)
    except ValueError:
        raise ValueError(
            f"{columns.time} must be a day and a time such as 2026-06-01T09:00:00Z, got {cell!r}"
        ) from None
    return (time if time.tzinfo else time.replace(tzinfo=columns.time_zone)).timestamp()
