"""Read tracks in GPX in one pass that refuses whatever could do harm.

A track needs no document type. Without one there is no entity to expand and nothing outside the
file to fetch. What is left to fear is a flood: each limit below is met while the text is read, so
that no file is read further than it is of use.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from functools import lru_cache
from typing import Any
from xml.parsers import expat

import numpy as np

from vorlib.core.units import METERS_PER_FOOT
from vorlib.io.text import FileError, number, shortened
from vorlib.tracks.points import MOST_POINTS, Points

SAVE_AS = "export it from the recorder again, as GPX or CSV in UTF-8"
ASCII_INSIDE = re.compile(r"utf-?8|(us-)?ascii|iso-8859-\d+|windows-125\d", re.IGNORECASE)
CUT_OFF = (expat.errors.XML_ERROR_NO_ELEMENTS, expat.errors.XML_ERROR_UNCLOSED_TOKEN)
DEEPEST = 50  # a point of a track stands four deep
PER_POINT = 12  # elements or attributes: place, time and what a recorder adds to them
SEPARATOR = "\n"  # of namespace and name; blanks are found in namespaces
MOST_NAMES = 1000  # of elements and attributes; a recorder uses some dozens
MOST_NAMESPACES = 100  # at one place; a recorder declares a handful
PIECE = 1_000_000  # characters that the parser gets at once, and the most between < and >
LONGEST_NAMESPACE = 200  # characters, which the parser writes out before each name
LONGEST_VALUE = 1000  # characters of a time or an elevation, blanks about it included
SEGMENT = ["gpx", "trk", "trkseg"]
POINT = [*SEGMENT, "trkpt"]
OTHERS = frozenset(("wpt", "rte", "rtept", "trk", "trkseg"))  # never more than there are points
TIME = re.compile(
    r"(\d{4})-(\d\d?)-(\d\d?)[T ](\d\d?):(\d\d?):(\d\d?)(?:\.(\d{1,15}))?"
    r"(?:Z|([+-])(\d\d):?(\d\d)?)?",
    re.ASCII,
)


@lru_cache(maxsize=1)  # of one file another altitude, or another of its flights, may be wanted
def read_gpx(text: str) -> Points:
    """Return all points of the tracks in a GPX text.

    The namespace of the root, any or none, is that of GPX; elements of others are passed over.

    Raises
    ------
    FileError
        With line and column, if the text is not well formed or cut off, is not GPX, declares a
        document type or an unusual encoding, is nested deeply, holds too many points, elements or
        attributes, or a point without a place in numbers or with an elevation that is none.
    """
    reader = _Reader()
    try:
        reader.read(text)
    except expat.ExpatError as error:
        words = expat.ErrorString(error.code)
        what = "the file is cut off" if words in CUT_OFF else f"not well-formed XML ({words})"
        raise FileError(
            f"line {error.lineno}, column {error.offset + 1}: {what}: {SAVE_AS}"
        ) from None
    if reader.written != len(reader.points):
        raise FileError(
            f"{reader.written} points are written, but {len(reader.points)} stand in segments of a "
            f"track: {SAVE_AS}"
        )
    points = reader.points
    return Points(
        time_s=np.array([point.time_s for point in points], dtype=np.float64),
        lat_deg=np.array([point.lat_deg for point in points], dtype=np.float64),
        lon_deg=np.array([point.lon_deg for point in points], dtype=np.float64),
        altitude_ft=np.array([point.elevation_m for point in points]) / METERS_PER_FOOT,
        true_heading_deg=np.full(len(points), np.nan),
        speed_kt=np.full(len(points), np.nan),
        track=np.array([point.track for point in points], dtype=int),
        line=np.array([point.line for point in points], dtype=int),
    )


@dataclass(slots=True)
class _Point:
    """A point as it is written; what is not there is NaN."""

    time_s: float
    lat_deg: float
    lon_deg: float
    elevation_m: float
    track: int
    line: int


class _Reader:
    """Everything that one pass over a text finds."""

    def __init__(self) -> None:
        self.points: list[_Point] = []
        self.path: list[str] = []  # the elements that are open; "" for one that is not of GPX
        self.namespace = ""
        self.written = self.tracks = self.elements = self.attributes = self.others = 0
        self.namespaces = 0
        self.awaited: set[str] = set()  # what the latest point has not given yet
        self.value_of, self.value, self.value_at = "", "", ""
        # The text has been decoded: what it declares of its encoding changes nothing.
        self.parser = expat.ParserCreate("utf-8", SEPARATOR)
        self.parser.buffer_text = True
        self.parser.XmlDeclHandler = self._declaration
        self.parser.StartDoctypeDeclHandler = self._document_type
        self.parser.StartNamespaceDeclHandler = self._begin_namespace
        self.parser.EndNamespaceDeclHandler = self._end_namespace
        self.parser.StartElementHandler = self._begin
        self.parser.EndElementHandler = self._end

    def read(self, text: str) -> None:
        """Read a text to its end, or to the first thing that is wrong with it."""
        given = 0
        for start in range(0, len(text), PIECE):
            try:
                piece = text[start : start + PIECE].encode()
            except UnicodeEncodeError as error:
                line = text.count("\n", 0, start + error.start) + 1
                raise FileError(
                    f"line {line}: a character that text cannot hold: {SAVE_AS}"
                ) from None
            self.parser.Parse(piece, False)
            given += len(piece)
            # The parser rescans whatever has no end yet, so that must stay small.
            if given - self.parser.CurrentByteIndex > len(piece):
                raise FileError(
                    f"{self._here}: a tag or comment of more than {PIECE:,} characters: {SAVE_AS}"
                )
        self.parser.Parse(b"", True)

    @property
    def _here(self) -> str:
        return f"line {self.parser.CurrentLineNumber}, column {self.parser.CurrentColumnNumber + 1}"

    def _declaration(self, _version: str, encoding: str | None, _standalone: int) -> None:
        # The text was UTF-8. No recorder declares an encoding that is not even ASCII-compatible.
        if encoding and not ASCII_INSIDE.fullmatch(encoding):
            shown = shortened(repr(encoding), 80)
            raise FileError(f"{self._here}: the encoding {shown} is declared: {SAVE_AS}")

    def _document_type(self, *_: Any) -> None:
        raise FileError(
            f"{self._here}: a document type is declared, which a track does not need and which "
            f"can do harm: {SAVE_AS}"
        )

    def _begin_namespace(self, _prefix: str | None, address: str | None) -> None:
        if address and len(address) > LONGEST_NAMESPACE:
            raise FileError(
                f"{self._here}: the name of a namespace is longer than {LONGEST_NAMESPACE} "
                f"characters: {SAVE_AS}"
            )
        self.namespaces += 1
        self._count_attributes(1)
        if self.namespaces > MOST_NAMESPACES:
            raise FileError(
                f"{self._here}: more than {MOST_NAMESPACES} namespaces are declared: {SAVE_AS}"
            )

    def _end_namespace(self, _prefix: str | None) -> None:
        self.namespaces -= 1

    def _begin(self, full_name: str, attributes: dict[str, str]) -> None:
        self.elements += 1
        self._not_more(self.elements, PER_POINT * MOST_POINTS, "elements")
        if len(self.parser.intern) > MOST_NAMES:
            raise FileError(f"{self._here}: more than {MOST_NAMES:,} different names: {SAVE_AS}")
        if attributes:
            self._count_attributes(len(attributes))
        namespace, _, name = full_name.rpartition(SEPARATOR)
        if not self.path:
            self.namespace = namespace
            if name != "gpx":
                raise FileError(f"{self._here}: this is XML but not GPX: {SAVE_AS}")
        if namespace != self.namespace:
            name = ""
        self.parser.CharacterDataHandler = None  # an element with others in it is not a value
        if name == "trkpt":
            self._begin_point(attributes)
        elif name in self.awaited and self.path == POINT:
            self.awaited.remove(name)
            self.value_of, self.value, self.value_at = name, "", self._here
            self.parser.CharacterDataHandler = self._add_to_value
        elif name in OTHERS:
            self.others += 1
            self._not_more(self.others, MOST_POINTS, "places, routes and segments")
            self.tracks += name == "trk" and self.path == SEGMENT[:1]
        self.path.append(name)
        if len(self.path) > DEEPEST:
            raise FileError(f"{self._here}: more than {DEEPEST} elements inside each other")

    def _begin_point(self, attributes: dict[str, str]) -> None:
        self.written += 1
        self._not_more(self.written, MOST_POINTS, "points")
        for coordinate in ("lat", "lon"):
            if coordinate not in attributes:
                raise FileError(f"{self._here}: the point has no {coordinate}")
        lat_deg, lon_deg = (self._number(name, attributes[name]) for name in ("lat", "lon"))
        if self.path == SEGMENT:
            self.awaited = {"ele", "time"}
            line = self.parser.CurrentLineNumber
            self.points.append(_Point(math.nan, lat_deg, lon_deg, math.nan, self.tracks, line))

    def _add_to_value(self, text: str) -> None:
        self.value += text
        if len(self.value) > LONGEST_VALUE:
            raise FileError(f"{self.value_at}: a value of more than {LONGEST_VALUE:,} characters")

    def _end(self, _full_name: str) -> None:
        name = self.path.pop()
        if not name or name != self.value_of or self.path != POINT:
            return
        self.value_of, self.parser.CharacterDataHandler = "", None
        point, value = self.points[-1], self.value.strip()
        if name == "time":
            point.time_s = _seconds(value)
        elif value and value.lower() != "nan":  # some recorders write it for an unknown value
            point.elevation_m = self._number("ele", value, self.value_at)

    def _number(self, name: str, value: str, where: str = "") -> float:
        try:
            return number(name, value)
        except ValueError as error:
            raise FileError(f"{where or self._here}: {error}") from None

    def _count_attributes(self, count: int) -> None:
        self.attributes += count
        self._not_more(self.attributes, PER_POINT * MOST_POINTS, "attributes")

    def _not_more(self, count: int, most: int, what: str) -> None:
        if count > most:
            raise FileError(f"{self._here}: more than {most:,} {what}: cut the track in parts")


def _seconds(value: str) -> float:
    """Seconds since 1970, NaN if it is no time; one without a zone is UTC, as GPX has it."""
    match = TIME.fullmatch(value)
    if not match:
        return math.nan
    *day_and_time, fraction, sign, hours, minutes = match.groups()
    year, month, day, hour, minute, second = map(int, day_and_time)
    microsecond = int((fraction or "")[:6].ljust(6, "0"))
    offset = timedelta(hours=int(hours or 0), minutes=int(minutes or 0))
    try:
        zone = timezone(-offset if sign == "-" else offset)
        return datetime(year, month, day, hour, minute, second, microsecond, zone).timestamp()
    except ValueError:  # no such day, hour or zone
        return math.nan
