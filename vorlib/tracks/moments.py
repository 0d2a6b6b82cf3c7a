"""Read times as recorders write them: day and time, Unix time, or seconds of the flight."""

from __future__ import annotations

import re
from datetime import datetime, timedelta
from enum import Enum

from vorlib.core.arguments import ArgumentError
from vorlib.tracks.columns import Columns
from vorlib.tracks.points import EARLIEST, LATEST

__all__ = ["Moments", "TimeScale"]

NUMBER = re.compile(r"\d+([.,]\d+)?")
SHORTEST_TIME = len("2026-06-01T")  # what is shorter is a day alone
LONGEST_FLIGHT_S = 1e6  # eleven days; a larger number is Unix time
LARGEST_UNIX_S = 1e11  # beyond any year: it counts thousandths, or smaller
CLOCK_WORDS = re.compile(
    r"(\d{1,2}):?(\d{2})(?::?(\d{2}(?:[.,]\d{1,9})?))?\s*([AaPp][Mm])?\s*(Z|UTC)?", re.ASCII
)
ISO_DAY = re.compile(r"(\d{4})[-/.]?(\d{2})[-/.]?(\d{2})", re.ASCII)
DAY = re.compile(r"(\d{1,2})([-/.])(\d{1,2})\2(\d{4})", re.ASCII)


class TimeScale(Enum):
    """What a time counts from; the value says so in words."""

    DAY = "day and time"
    UNIX = "Unix time"
    FLIGHT = "seconds of the flight"


class Moments:
    """Reads the times of one file, all of which are written in one way.

    Attributes
    ----------
    clock
        What they count from; None before the first.
    """

    def __init__(self, columns: Columns) -> None:
        self._columns, self._zone = columns, columns.time_zone
        self.clock: TimeScale | None = None

    def seconds(self, cell: str, day: str = "") -> float:
        """Return seconds since 1970, or seconds of the flight if that is what is written.

        Raises
        ------
        ValueError
            If it is no time, one that cannot be, or written in another way than the first.
        """
        if NUMBER.fullmatch(cell) and not day:
            clock, time_s = _counted(float(cell.replace(",", ".")))
        else:
            clock, time_s = TimeScale.DAY, self._written(cell, day)
        if clock is TimeScale.UNIX or clock is TimeScale.DAY:
            self._possible(cell, day, time_s)
        if self.clock is not clock and self.clock is not None:
            raise ValueError(f"{cell!r} is {clock.value}, those before it are {self.clock.value}")
        self.clock = clock
        return time_s

    def _written(self, cell: str, day: str) -> float:
        name = self._columns.time
        if not day and CLOCK_WORDS.fullmatch(cell):
            raise ArgumentError(
                f"{name} holds a time without its day, {cell!r}: declare the column that holds "
                "the day, such as date=Date",
                argument="date",
            )
        try:
            return self._iso(cell) if not day else self._parts(day, cell)
        except ArgumentError:
            raise
        except ValueError:
            pass
        try:
            return self._parts(*cell.split(maxsplit=1))
        except ArgumentError:
            raise
        except (ValueError, TypeError):
            shown = f"{day} {cell}".strip()
            raise ValueError(
                f"{name} must be a day and a time such as 2026-06-01T09:00:00Z, Unix time or "
                f"seconds of the flight, got {shown!r}"
            ) from None

    def _iso(self, cell: str) -> float:
        if len(cell) < SHORTEST_TIME:
            raise ValueError
        time = datetime.fromisoformat(cell)
        return (time if time.tzinfo else time.replace(tzinfo=self._zone)).timestamp()

    def _parts(self, day: str, clock: str) -> float:
        if not (match := CLOCK_WORDS.fullmatch(clock.strip())):
            return self._iso(f"{day.strip()}T{clock.strip()}")
        hour, minute, second, half, utc = match.groups()
        hours = int(hour) % 12 + 12 * (half.lower() == "pm") if half else int(hour)
        if hours > 23 or int(minute) > 59:
            raise ValueError
        zone = EARLIEST.tzinfo if utc else self._zone
        begin = datetime(*self._day(day.strip()), hours, int(minute), tzinfo=zone)
        return (begin + timedelta(seconds=float((second or "0").replace(",", ".")))).timestamp()

    def _day(self, day: str) -> tuple[int, int, int]:
        if match := ISO_DAY.fullmatch(day):
            year, month, date = map(int, match.groups())
            return year, month, date
        if not (match := DAY.fullmatch(day)):
            raise ValueError
        first, separator, second, year = match[1], match[2], match[3], int(match[4])
        order = self._columns.date_order or ("dmy" if separator == "." or int(first) > 12 else "")
        order = order or ("mdy" if int(second) > 12 else "")
        if not order:
            raise ArgumentError(
                f"{day!r} may be day or month first: declare date_order=mdy or date_order=dmy",
                argument="date_order",
            )
        if order == "mdy":
            return year, int(first), int(second)
        return year, int(second), int(first)

    def _possible(self, cell: str, day: str, time_s: float) -> None:
        if not EARLIEST.timestamp() <= time_s <= LATEST.timestamp():
            raise ValueError(
                f"the time must be from {EARLIEST:%Y} to {LATEST:%Y}, got {f'{day} {cell}'.strip()}"
                ": was the recorder's clock set?"
            )


def _counted(value: float) -> tuple[TimeScale, float]:
    """Return what a number counts, and its seconds: Unix time to nanoseconds, or of the flight."""
    if value <= LONGEST_FLIGHT_S:
        return TimeScale.FLIGHT, value
    thousands = (1.0, 1e3, 1e6, 1e9)  # of a second: milliseconds, or smaller
    per_s = next((part for part in thousands if value / part <= LARGEST_UNIX_S), thousands[-1])
    return TimeScale.UNIX, value / per_s
