"""Tracks in GPX, read by gpxpy after everything that could do harm has been refused."""

from __future__ import annotations

import re
from datetime import UTC
from typing import Any

import numpy as np

from vorlib.core.units import METRES_PER_FOOT
from vorlib.io.text import FileError
from vorlib.tracks.guard import SAVE_AS, find_points
from vorlib.tracks.points import MOST_POINTS, Points

ROOT = re.compile(r"<(?:[\w.-]+:)?gpx[\s>/]")
DEFAULT_NAMESPACE = re.compile(r"""\sxmlns=(['"])[^'"]+\1""")  # what gpxpy itself takes out
MOST_NAMESPACES = 100  # a recorder declares a handful
MEASURED = re.compile(r"<(ele|speed|course|magvar|geoidheight|[hvp]dop|ageofdgpsdata)>([^<]*)<")


def read_gpx(text: str) -> Points:
    """Return all points of the tracks in a GPX text.

    Raises
    ------
    FileError
        If it declares a document type, is no GPX, is cut off, or a point cannot be read.
    """
    if text.count("xmlns") > MOST_NAMESPACES:
        raise FileError(f"more than {MOST_NAMESPACES} namespaces are declared: {SAVE_AS}")
    # gpxpy takes a namespace out of the text before it parses it, which could join what stands on
    # either side. Blanks in its place leave nothing to take out: what is checked is what is parsed.
    text = DEFAULT_NAMESPACE.sub(lambda match: re.sub(r"\S", " ", match[0]), text)
    second = DEFAULT_NAMESPACE.search(text)
    if second:
        raise FileError(
            f"line {_line(text, second.start())}: two namespaces are declared without a space "
            f"between them: {SAVE_AS}"
        )
    lines = find_points(text, "trkpt", MOST_POINTS)
    if not ROOT.search(text):
        raise FileError(f"line 1: this is XML but no GPX: {SAVE_AS}")
    rows = [
        (_seconds(point.time), point.latitude, point.longitude, point.elevation, number)
        for number, track in enumerate(_parsed(text).tracks, 1)
        for segment in track.segments
        for point in segment.points
    ]
    if len(lines) != len(rows):
        raise FileError(
            f"{len(lines)} points are written, but {len(rows)} stand in segments of a track: "
            f"{SAVE_AS}"
        )
    time_s, lat, lon, metres, track = np.array(rows, dtype=np.float64).reshape(-1, 5).T
    return Points(
        time_s=time_s,
        lat_deg=lat,
        lon_deg=lon,
        altitude_ft=metres / METRES_PER_FOOT,
        true_heading_deg=np.full(len(rows), np.nan),
        track=track.astype(int),
        line=np.array(lines, dtype=int),
    )


def _parsed(text: str) -> Any:
    import gpxpy  # loaded only when a track is read

    try:
        return gpxpy.parse(text)
    except Exception as error:  # whatever a parser or gpxpy makes of somebody else's file
        words = " ".join(str(error).split()) or type(error).__name__
        raise FileError(
            f"{_first_fault(text)}no GPX that can be read: {words}; {SAVE_AS}"
        ) from None


def _first_fault(text: str) -> str:
    """The line of the first measured value that is no number, if there is one."""
    for match in MEASURED.finditer(text):
        try:
            float(match[2])
        except ValueError:
            return f"line {_line(text, match.start())}: "
    return ""


def _line(text: str, at: int) -> int:
    return text.count("\n", 0, at) + 1


def _seconds(time: Any) -> float:
    """Seconds since 1970; a time without a zone is UTC, as GPX has it."""
    if time is None:
        return float("nan")
    return float((time if time.tzinfo else time.replace(tzinfo=UTC)).timestamp())
