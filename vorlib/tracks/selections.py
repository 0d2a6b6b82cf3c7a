"""What was selected when: the stations tuned and the courses set over a recorded flight.

An instructor enters them, in a table of three columns or in code; where nobody has, they are
estimated from the track by `vorlib.debrief.selection_estimate`.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, time
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from vorlib.aircraft.ground_track import IntArray
from vorlib.core.angles import format_direction, wrap_360
from vorlib.core.arguments import FloatArray, finite
from vorlib.io.text import FileError, Source, number, read_text, refuse_formulas, table_rows
from vorlib.vor.station import Station

__all__ = [
    "COLUMNS",
    "Selected",
    "Selection",
    "check_belong",
    "read_selections",
    "selected_at",
    "time_of",
]

COLUMNS = ("time", "station", "course")
SECONDS = re.compile(r"-?(0|[1-9]\d*)(\.\d+)?")  # 0912 may be meant as a clock
CLOCK = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2}(?:\.\d+)?))?Z?")
NOTHING = ("", "off")  # what is written where nothing is selected any more
DAY_S = 86400.0
EARLY_S = 600.0  # a flight is prepared for as long before it at most, chosen
SHOWN = 12  # idents that are listed where one is not known
TIMES = "seconds of the flight such as 754, or a UTC clock such as 09:12:34"


@dataclass(frozen=True)
class _Selection:
    time_s: float
    station: Station
    course_deg: float
    until_s: float


class Selection(_Selection):
    """A station tuned and a course set, from a moment on.

    Attributes
    ----------
    time_s
        Seconds of the flight; below 0 for what was selected before it began.
    station
        The station tuned.
    course_deg
        The course set, magnetic.
    until_s
        When it was given up; infinity for one that holds until the next.

    Raises
    ------
    ValueError
        If time or course is not a finite number.
    """

    def __init__(
        self, time_s: float, station: Station, course_deg: float, until_s: float = math.inf
    ) -> None:
        course = float(wrap_360(finite("course_deg", course_deg)))
        super().__init__(float(finite("time_s", time_s)), station, course, until_s)

    @property
    def words(self) -> str:
        """The selection in words, without its time."""
        return f"{self.station.name}, course {format_direction(self.course_deg)}"


class Selected(NamedTuple):
    """What was selected at each of n moments.

    Attributes
    ----------
    number
        Which selection held, in order of time from 0; -1 where none did. There station and course
        are those of the selection before, or of the first.
    """

    station: tuple[Station, ...]
    course_deg: FloatArray
    number: IntArray


def selected_at(selections: Sequence[Selection], time_s: ArrayLike) -> Selected:
    """Return station and course at moments of a flight, and which selection held.

    Parameters
    ----------
    selections
        One or more, in any order; of two at one time the later in the sequence holds.
    time_s
        Seconds of the flight, of shape (n,).

    Raises
    ------
    ValueError
        If there is no selection, or a time is not finite.
    """
    if not selections:
        raise ValueError("selections must hold at least one: a station and a course")
    ordered = sorted(selections, key=lambda one: one.time_s)
    begins = np.array([one.time_s for one in ordered])
    moments = np.atleast_1d(finite("time_s", time_s))
    latest = np.searchsorted(begins, moments, side="right") - 1
    index = np.maximum(latest, 0)
    courses = np.array([one.course_deg for one in ordered])
    ends = np.array([one.until_s for one in ordered])
    number = np.where((latest >= 0) & (moments < ends[index]), index, -1)
    return Selected(tuple(ordered[i].station for i in index.tolist()), courses[index], number)


def check_belong(selections: Sequence[Selection], duration_s: float) -> None:
    """Raise ValueError if a log of selections is from another time than a flight.

    A log in local time is; held against the flight all the same, its first or last row would stand
    for the whole of it. One row alone may have been selected long before.
    """
    begins = [one.time_s for one in selections]
    if len(begins) > 1 and max(begins) < -EARLY_S:
        apart = f"the last selection is {-max(begins) / 3600.0:.1f} h before the flight begins"
    elif begins and min(begins) > duration_s:
        late_h = (min(begins) - duration_s) / 3600.0
        apart = f"the first selection is {late_h:.1f} h after the flight ends"
    else:
        return
    raise ValueError(f"{apart}: times are UTC, is the log in local time?")


def read_selections(
    source: Source,
    stations: Mapping[str, Station] | Iterable[Station],
    start: datetime | None = None,
) -> tuple[Selection, ...]:
    """Return the selections of a table with the columns time, station, course.

    A row whose station is empty or "off" ends the selection before it.

    Parameters
    ----------
    source
        The path of a file or an open stream of text, commas or semicolons between its cells.
    stations
        The stations that idents may name, by ident or one after the other; the first are named
        where an ident is not among them.
    start
        When the flight began, with its zone; needed for times by the clock.

    Raises
    ------
    FileError
        If the file is not text, its header is wrong, it holds no selection, or rows are wrong: one
        message for each, with its line, its column, the value and what is allowed.
    OSError
        If the file cannot be opened.
    """
    if isinstance(stations, Mapping):
        known = {ident.upper(): station for ident, station in stations.items()}
    else:
        known = {station.ident: station for station in stations}
    text = read_text(source)
    rows = table_rows(text, ";" if ";" in text else ",")
    _, header = next(rows, (1, []))
    if sorted(header) != sorted(COLUMNS):
        shown = ",".join(header) or "nothing"
        raise FileError(f"line 1: the header must be {','.join(COLUMNS)}, got {shown}")
    found: list[Selection] = []
    ends: list[float] = []
    faults: list[str] = []
    for line, cells in rows:
        try:
            row = _row(header, cells)
            if row["station"].lower() in NOTHING and row["course"].lower() in NOTHING:
                ends.append(time_of(row["time"], start))
            else:
                found.append(_selection(row, known, start))
        except ValueError as error:
            faults.append(f"line {line}: {error}")
    if faults:
        raise FileError(*faults)
    if not found:
        raise FileError("the file has a header but no selection: add a row for each")
    return tuple(
        Selection(one.time_s, one.station, one.course_deg, _end(one, ends))
        for one in sorted(found, key=lambda one: one.time_s)
    )


def _end(one: Selection, ends: Sequence[float]) -> float:
    return min((end for end in ends if end > one.time_s), default=math.inf)


def _row(header: Sequence[str], cells: Sequence[str]) -> dict[str, str]:
    if len(cells) != len(header):
        raise ValueError(f"there must be {len(header)} cells, one a column, got {len(cells)}")
    refuse_formulas(header, cells)
    return dict(zip(header, cells, strict=True))


def _selection(
    row: Mapping[str, str], known: Mapping[str, Station], start: datetime | None
) -> Selection:
    station = known.get(row["station"].upper())
    if station is None:
        some = list(known)[:SHOWN]
        more = f" and {len(known) - SHOWN} more" if len(known) > SHOWN else ""
        names = f"{', '.join(some) or 'none'}{more}"
        raise ValueError(f"station must be one of {names}, got {row['station']!r}")
    course = number("course", row["course"])
    if not 0.0 <= course <= 360.0:
        raise ValueError(f"course must be from 0 to 360 degrees, got {course:g}")
    return Selection(time_of(row["time"], start), station, course)


def time_of(words: str, start: datetime | None = None) -> float:
    """Return the seconds of a flight that a time means.

    Parameters
    ----------
    words
        Seconds of the flight; a UTC clock such as 09:12 or 09:12:34, taken on the day that brings
        it nearest to the start; or day and time, UTC where no zone is given.
    start
        When the flight began, with its zone; needed for a clock.

    Raises
    ------
    ValueError
        If it is none of these, or a clock is given without a start.

    >>> time_of("754"), time_of("00:10", datetime(2026, 6, 1, 23, 55, tzinfo=UTC))
    (754.0, 900.0)
    """
    if SECONDS.fullmatch(words):
        return float(words)
    clock = CLOCK.fullmatch(words)
    try:
        moment = None if clock else datetime.fromisoformat(words)
        clock_s = _clock_s(clock) if clock else 0.0
    except ValueError:
        raise ValueError(f"time must be {TIMES}, got {words!r}") from None
    if start is None:
        raise ValueError(f"time must be seconds of the flight, whose start is unknown: {words!r}")
    if moment is not None:
        return ((moment if moment.tzinfo else moment.replace(tzinfo=UTC)) - start).total_seconds()
    midnight = datetime.combine(start.astimezone(UTC), time(tzinfo=UTC))
    seconds = clock_s - (start - midnight).total_seconds()
    return seconds - DAY_S * round(seconds / DAY_S)


def _clock_s(clock: re.Match[str]) -> float:
    """Seconds since midnight."""
    hours, minutes, seconds = (float(part or 0.0) for part in clock.groups())
    if hours >= 24.0 or minutes >= 60.0 or seconds >= 60.0:
        raise ValueError("no such time")
    return 3600.0 * hours + 60.0 * minutes + seconds
