"""XML looked through before anything else reads it: what could do harm is refused.

A track needs no document type. Without one there is no entity to expand and nothing outside the
file to fetch, whichever parser reads it next.
"""

from __future__ import annotations

import re
from typing import Any
from xml.parsers import expat

from vorlib.io.text import FileError, number

SAVE_AS = "export it from the recorder again, as GPX or CSV in UTF-8"
ASCII_INSIDE = re.compile(r"utf-?8|(us-)?ascii|iso-8859-\d+|windows-125\d", re.IGNORECASE)
CUT_OFF = (expat.errors.XML_ERROR_NO_ELEMENTS, expat.errors.XML_ERROR_UNCLOSED_TOKEN)
DEEPEST = 50  # a point of a track stands four deep
ELEMENTS_PER_POINT = 12  # place, time and what a recorder adds to them
OTHERS = frozenset(("wpt", "rte", "rtept", "trk", "trkseg"))  # each costs as much as a point


def find_points(text: str, point: str, most: int) -> list[int]:
    """Return the line on which each point of an XML text begins.

    Parameters
    ----------
    text
        The text, as it will be parsed.
    point
        The name of a point's element, with or without a prefix.
    most
        How many points are allowed.

    Raises
    ------
    FileError
        If the text is not well formed, declares a document type or an unusual encoding, is nested
        deeply, holds too many points or elements, or a point without a place in numbers: with line
        and column.
    """
    search = _Search(point, most)
    try:
        search.parser.Parse(text, True)
    except expat.ExpatError as error:
        words = expat.ErrorString(error.code)
        what = "the file is cut off" if words in CUT_OFF else f"not well-formed XML ({words})"
        raise FileError(
            f"line {error.lineno}, column {error.offset + 1}: {what}: {SAVE_AS}"
        ) from None
    except UnicodeEncodeError as error:
        line = text.count("\n", 0, error.start) + 1
        raise FileError(f"line {line}: a character that no text holds: {SAVE_AS}") from None
    return search.lines


class _Search:
    """What one look through a text finds."""

    def __init__(self, point: str, most: int) -> None:
        self.point, self.most = point, most
        self.lines: list[int] = []
        self.depth = self.elements = self.others = 0
        self.parser = expat.ParserCreate()
        self.parser.XmlDeclHandler = self._declaration
        self.parser.StartDoctypeDeclHandler = self._document_type
        self.parser.StartElementHandler = self._begin
        self.parser.EndElementHandler = self._end

    @property
    def _here(self) -> str:
        return f"line {self.parser.CurrentLineNumber}, column {self.parser.CurrentColumnNumber + 1}"

    def _declaration(self, _version: str, encoding: str | None, _standalone: int) -> None:
        # Another parser may believe what is declared: one that hides markup is not for it.
        if encoding and not ASCII_INSIDE.fullmatch(encoding):
            raise FileError(f"{self._here}: the encoding {encoding!r} is declared: {SAVE_AS}")

    def _document_type(self, *_: Any) -> None:
        raise FileError(
            f"{self._here}: a document type is declared, which a track does not need and which "
            f"can do harm: {SAVE_AS}"
        )

    def _begin(self, name: str, attributes: dict[str, str]) -> None:
        self.depth += 1
        if self.depth > DEEPEST:
            raise FileError(f"{self._here}: more than {DEEPEST} elements inside each other")
        self.elements += 1
        self._not_more(self.elements, ELEMENTS_PER_POINT * self.most, "elements")
        kind = name.rpartition(":")[2]
        if kind in OTHERS:
            self.others += 1
            self._not_more(self.others, self.most, "places, routes and segments")
        if kind != self.point:
            return
        for coordinate in ("lat", "lon"):
            if coordinate not in attributes:
                raise FileError(f"{self._here}: the point has no {coordinate}")
            try:
                number(coordinate, attributes[coordinate])
            except ValueError as error:
                raise FileError(f"{self._here}: {error}") from None
        self.lines.append(self.parser.CurrentLineNumber)
        self._not_more(len(self.lines), self.most, "points")

    def _not_more(self, count: int, most: int, what: str) -> None:
        if count > most:
            raise FileError(f"{self._here}: more than {most:,} {what}: cut the track in parts")

    def _end(self, _name: str) -> None:
        self.depth -= 1
