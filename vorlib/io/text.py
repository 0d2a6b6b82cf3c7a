"""Read text and tables that somebody else wrote, and refuse faults with line and column."""

import csv
import io
import os
import re
from collections.abc import Iterator, Sequence
from os import PathLike
from pathlib import Path
from typing import IO, TypeAlias

from vorlib.core.arguments import ArgumentError, within

CONTROL = re.compile("[\x01-\x08\x0b\x0c\x0e-\x1f]")  # no part of text, and no picture may hold it
LARGEST_MB = 200  # a day's track at one point a second is a tenth of it
SAVE_AS = "save it as comma-separated values (CSV), UTF-8"

DECIMAL_COMMA = re.compile(r"^([+-]?\d+),(\d+)$")

LONGEST_LINE = 100_000  # a row of a published list is a hundredth of it
MOST_LINES = 1_000_000  # five times as many as a track may have points; blank ones take time too
LONGEST_MESSAGE = 280  # characters of it that are shown
LONGEST_CELL = 80  # of which this much is shown

Source: TypeAlias = str | PathLike[str] | IO[str] | IO[bytes]


class FileError(ArgumentError):
    """A file cannot be used.

    Attributes
    ----------
    messages
        One line for each thing to put right.
    argument
        The argument beside the file that can mend it; empty if only another file can.
    """

    def __init__(self, *messages: str, argument: str = "") -> None:
        self.messages = tuple(shortened(message, LONGEST_MESSAGE) for message in messages)
        super().__init__("\n".join(self.messages), argument)


def shortened(text: str, longest: int) -> str:
    """Return a text without its middle if it is longer than *longest* characters."""
    half = longest // 2
    return text if len(text) <= longest else f"{text[:half]} ... {text[-half:]}"


def printable(words: str) -> str:
    """Return words with a question mark for each sign that a line of text cannot show.

    A file's name may hold a line break, or bytes that are no letters.
    """
    return "".join(sign if sign.isprintable() else "?" for sign in words)


def read_text(source: Source, save_as: str = SAVE_AS, largest_mb: int = LARGEST_MB) -> str:
    """Return the text of a file or stream, without a byte-order mark.

    Raises
    ------
    FileError
        If there are more than so many MB, or it is not UTF-8 text.
    OSError
        If the file cannot be opened.
    """
    limit = largest_mb * 1_000_000
    if isinstance(source, str | PathLike):
        with Path(source).open("rb") as file:
            too_large = os.fstat(file.fileno()).st_size > limit  # not even begun to be read
            data: str | bytes = b"" if too_large else file.read(limit + 1)
    else:
        data = source.read(limit + 1)
        too_large = False
    if too_large or len(data) > limit:
        raise FileError(f"the file is larger than {largest_mb} MB, the most that is read")
    text = data.removeprefix("\ufeff") if isinstance(data, str) else _decoded(data, save_as)
    if "\0" in text:
        raise _not_text(text, text.index("\0"), "a zero byte", save_as)
    if found := CONTROL.search(text):
        what = f"the control character {ord(found[0]):#04x}"
        raise _not_text(text, found.start(), what, save_as)
    return text


def _not_text(text: str, where: int, what: str, save_as: str) -> FileError:
    line = text.count("\n", 0, where) + 1
    return FileError(f"the file is not text (line {line} holds {what}): {save_as}")


def _decoded(data: bytes, save_as: str) -> str:
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise FileError(
            f"the file is not UTF-8 text (line {line}: byte {error.start + 1} is "
            f"{data[error.start]:#04x}): {save_as}"
        ) from None


def table_rows(text: str, delimiter: str = ",") -> Iterator[tuple[int, list[str]]]:
    """Yield the rows of comma-separated text that are not blank, with the line each begins on.

    Parameters
    ----------
    text
        The text.
    delimiter
        What stands between cells, if no comma does.

    Raises
    ------
    FileError
        If a quotation mark is never closed, or stands where it may not, a line has no end, or there
        are too many of them.
    """
    reader = csv.reader(_lines(text), strict=True, delimiter=delimiter)
    number = 1
    try:
        for cells in reader:
            stripped = [cell.strip() for cell in cells]
            if any(stripped):
                yield number, stripped
            number = reader.line_num + 1
    except csv.Error as error:
        raise FileError(f"row {number}: not comma-separated text: {error}") from None


def spreadsheet_rows(text: str) -> Iterator[tuple[int, list[str]]]:
    """Yield the rows of a table that a spreadsheet saved, as `table_rows` does.

    Where the first line has semicolons and no comma, semicolons stand between cells and a comma is
    a decimal point, as spreadsheets in much of Europe have it.
    """
    first = text.lstrip().partition("\n")[0]
    if ";" not in first or "," in first:
        yield from table_rows(text)
        return
    for line, cells in table_rows(text, ";"):
        yield line, [DECIMAL_COMMA.sub(r"\1.\2", cell) for cell in cells]


def _lines(text: str) -> Iterator[str]:
    for number, line in enumerate(io.StringIO(text, newline=""), 1):
        if len(line) > LONGEST_LINE:
            raise FileError(f"line {number} is longer than {LONGEST_LINE:,} characters")
        if number > MOST_LINES:
            raise FileError(f"more than {MOST_LINES:,} lines, the most that is read")
        yield line


def refuse_formulas(columns: Sequence[str], cells: Sequence[str]) -> None:
    """Raise ArgumentError that names the column when a cell would be run by a spreadsheet."""
    for column, cell in zip(columns, cells, strict=False):
        if cell.startswith("="):
            raise ArgumentError(
                f"{column} must not begin with '=', which a spreadsheet would run, got {cell!r}",
                argument=column,
            )


def number(column: str, cell: str) -> float:
    """Return the finite number in a cell, or raise ArgumentError that names the column."""
    try:
        value = float(cell)
    except ValueError:
        shown = shortened(repr(cell), LONGEST_CELL)
        raise ArgumentError(
            f"{column} must be a number such as 46.5, got {shown}", argument=column
        ) from None
    if value - value != 0.0:  # infinite, or no number at all
        raise ArgumentError(f"{column} must be finite, got {value:g}", argument=column)
    return value


def latitude_deg(column: str, cell: str) -> float:
    """Return a latitude from a cell, or raise ArgumentError that names the column."""
    value = number(column, cell)
    if 90.0 < abs(value) <= 360.0:
        raise ArgumentError(
            f"{column} must be from -90 to 90 degrees, got {value:g}: are latitude and longitude "
            "swapped?",
            argument=column,
        )
    return float(within(column, value, -90.0, 90.0, "degrees"))


def longitude_deg(column: str, cell: str) -> float:
    """Return a longitude from a cell, or raise ArgumentError that names the column."""
    return float(within(column, number(column, cell), -360.0, 360.0, "degrees"))
