"""Write a debriefed flight second by second, as comma-separated values for a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

import numpy as np

from vorlib.core.angles import format_direction
from vorlib.debrief.phases import FlightPhase
from vorlib.debrief.recorded import RecordedDebrief
from vorlib.vor.receiver import Flag, Reason

__all__ = ["COLUMNS", "seconds_csv"]

COLUMNS = (
    "time_utc",
    "time_s",
    "lat_deg",
    "lon_deg",
    "altitude_ft",
    "station",
    "course_deg",
    "flag",
    "reason",
    "assured",
    "needle_dots",
    "deviation_deg",
    "off_course_nm",
    "radial_deg",
    "distance_nm",
    "phase",
)
SAME_SECOND_S = 1e-6  # how far below a whole second a time still counts as that second


def seconds_csv(debrief: RecordedDebrief) -> str:
    """Return a table with a row for each second at which something was recorded.

    Needle, deviation and distance off the course line are positive for a course line to the right
    of someone flying the course; the needle is empty where the flag is OFF, and not to be relied on
    where it is not assured. Where nothing was selected, station and course are empty, and so is all
    that depends on them. No cell begins a formula: each is a number, a time, or a word of letters.
    """
    table = io.StringIO()
    writer = csv.writer(table, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    writer.writerows(_rows(debrief))
    return table.getvalue()


def _rows(debrief: RecordedDebrief) -> Iterator[tuple[str, ...]]:
    seen, place = debrief.seen, debrief.flight.position
    second = np.floor(seen.time_s + SAME_SECOND_S)
    kept = np.flatnonzero(np.diff(second, prepend=-np.inf) > 0.0)
    off_nm = seen.distance_nm * np.sin(np.radians(seen.deviation_deg))
    altitude_ft = np.broadcast_to(place.altitude_ft, seen.time_s.shape)
    columns = (
        seen.time_s,
        place.lat_deg,
        place.lon_deg,
        altitude_ft,
        seen.course_deg,
        seen.dots,
        seen.deviation_deg,
        off_nm,
        seen.radial_deg,
        seen.distance_nm,
    )
    numbers = zip(*(np.asarray(column)[kept].tolist() for column in columns), strict=True)
    states = (seen.flag, seen.reason, seen.assured, debrief.phase)
    words = zip(*(state[kept].tolist() for state in states), strict=True)
    for i, number, (flag, reason, assured, phase) in zip(
        kept.tolist(), numbers, words, strict=True
    ):
        time_s, lat, lon, altitude, course, dots, deviation, off, radial, distance = number
        if debrief.selection[i] < 0:
            where = f"{lat:.6f}", f"{lon:.6f}", f"{altitude:.0f}"
            nothing = [""] * (len(COLUMNS) - 6)
            yield (
                _clock(debrief, time_s),
                f"{time_s:.10g}",
                *where,
                *nothing,
                str(FlightPhase(phase)),
            )
            continue
        yield (
            _clock(debrief, time_s),
            f"{time_s:.10g}",
            f"{lat:.6f}",
            f"{lon:.6f}",
            f"{altitude:.0f}",
            seen.tuned[i].ident,
            format_direction(course),
            Flag(flag).name,
            str(Reason(reason)),
            "yes" if assured else "no",
            f"{dots:.2f}" if flag else "",
            f"{deviation:.2f}",
            f"{off:.3f}",
            f"{radial:.2f}",
            f"{distance:.3f}",
            str(FlightPhase(phase)),
        )


def _clock(debrief: RecordedDebrief, time_s: float) -> str:
    moment = debrief.utc(round(time_s, 3))
    if moment is None:
        return ""
    whole = moment.microsecond == 0
    text = moment.isoformat(timespec="seconds" if whole else "milliseconds")
    return text.replace("+00:00", "Z")
