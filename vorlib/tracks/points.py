"""Points as a recorder wrote them down: arrays of one length, in the file's order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields
from datetime import UTC, datetime

import numpy as np
from numpy.typing import NDArray

from vorlib.core.arguments import FloatArray
from vorlib.io.text import FileError

MOST_POINTS = 200_000  # two days and nights at one point a second
EARLIEST, LATEST = datetime(1980, 1, 6, tzinfo=UTC), datetime(2100, 1, 1, tzinfo=UTC)
LOWEST_FT, HIGHEST_FT = -2000.0, 100_000.0


@dataclass(frozen=True, eq=False)
class Points:
    """Recorded points, arrays of shape (n,).

    Attributes
    ----------
    time_s
        Seconds since 1970-01-01 UTC; NaN where none was written.
    lat_deg, lon_deg
        Degrees, as written.
    altitude_ft, true_heading_deg, speed_kt
        NaN where not written.
    track
        Which track of the file a point belongs to, from 1.
    line
        The line of the file it begins on.
    """

    time_s: FloatArray
    lat_deg: FloatArray
    lon_deg: FloatArray
    altitude_ft: FloatArray
    true_heading_deg: FloatArray
    speed_kt: FloatArray
    track: NDArray[np.int_]
    line: NDArray[np.int_]

    def __len__(self) -> int:
        return len(self.time_s)

    def take(self, which: NDArray[np.bool_] | NDArray[np.int_]) -> Points:
        """Return some of the points."""
        return Points(*(getattr(self, column.name)[which] for column in fields(self)))


def joined(segments: Sequence[Points]) -> Points:
    """Return segments one after the other."""
    columns = [[getattr(segment, column.name) for segment in segments] for column in fields(Points)]
    return Points(*(np.concatenate(column) for column in columns))


def check(points: Points, *, dated: bool = True) -> None:
    """Raise FileError with the line of the first point that is nowhere, or at no possible time.

    Times that are not dated are seconds of the flight, any of which are possible.
    """
    _refuse(points, "latitude", points.lat_deg, -90.0, 90.0, "degrees")
    _refuse(points, "longitude", points.lon_deg, -360.0, 360.0, "degrees")
    known = points.take(np.isfinite(points.altitude_ft))
    _refuse(known, "altitude", known.altitude_ft, LOWEST_FT, HIGHEST_FT, "ft")
    early = np.flatnonzero(points.time_s < EARLIEST.timestamp())
    late = np.flatnonzero(points.time_s > LATEST.timestamp())
    if dated and (early.size or late.size):
        line = points.line[[*early, *late][0]]
        raise FileError(
            f"line {line}: the time must be from {EARLIEST:%Y} to {LATEST:%Y}: was the recorder's "
            "clock set?"
        )


def _refuse(
    points: Points, name: str, values: FloatArray, low: float, high: float, unit: str
) -> None:
    wrong = np.flatnonzero(~((values >= low) & (values <= high)))  # NaN is wrong too
    if not wrong.size:
        return
    value = values[wrong[0]]
    swapped = name == "latitude" and 90.0 < abs(value) <= 360.0
    raise FileError(
        f"line {points.line[wrong[0]]}: the {name} must be from {low:,g} to {high:,g} {unit}, got "
        f"{value:g}"
        + (": are latitude and longitude swapped?" if swapped else "")
        + (f" ({wrong.size} such points)" if wrong.size > 1 else "")
    )
