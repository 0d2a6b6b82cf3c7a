"""Stations near home, read from a file that a spreadsheet can write.

The file is comma-separated UTF-8 text with one header row and the columns of `COLUMNS`, in any
order. Values taken from a publication are only as good and as recent as that publication: for
training on the ground, not for navigation.
"""

import csv
import io
from collections.abc import Iterator
from os import PathLike
from pathlib import Path
from typing import IO

from vorlib.checks import finite
from vorlib.earth import Position
from vorlib.station import Station

COLUMNS = (
    "ident",
    "name",
    "lat_deg",
    "lon_deg",
    "elevation_ft",
    "declination_deg",
    "frequency_mhz",
    "service",
)
SAVE_AS = "save it as comma-separated values (CSV), UTF-8"


class StationFileError(ValueError):
    """A station file cannot be used; `messages` holds one line for each thing to put right."""

    def __init__(self, *messages: str) -> None:
        self.messages = messages
        super().__init__("\n".join(messages))


def read_stations(source: str | PathLike[str] | IO[str] | IO[bytes]) -> list[Station]:
    """Return the stations of a file, in its order.

    Parameters
    ----------
    source
        The path of a file, or an open stream. A byte-order mark at the start does no harm.

    Raises
    ------
    StationFileError
        If the file is not text, its header is wrong, or rows are: one message for each bad row,
        with the row's number as an editor shows it, the column, the value and what is allowed.
    OSError
        If the file cannot be opened.
    """
    rows = _rows(_text(source))
    columns = _columns(rows)
    stations: list[Station] = []
    seen: dict[str, int] = {}
    messages: list[str] = []
    for number, cells in rows:
        try:
            station = _station(columns, cells)
            if station.ident in seen:
                raise ValueError(
                    f"ident must be given once, got {station.ident!r} already in row "
                    f"{seen[station.ident]}"
                )
        except ValueError as error:
            messages.append(f"row {number}: {error}")
        else:
            seen[station.ident] = number
            stations.append(station)
    if messages:
        raise StationFileError(*messages)
    if not stations:
        raise StationFileError("the file has a header but no station: add one row for each")
    return stations


def _text(source: str | PathLike[str] | IO[str] | IO[bytes]) -> str:
    data = Path(source).read_bytes() if isinstance(source, str | PathLike) else source.read()
    text = data.removeprefix("\ufeff") if isinstance(data, str) else _decoded(data)
    if "\0" in text:
        raise StationFileError(f"the file is not text (it holds zero bytes): {SAVE_AS}")
    return text


def _decoded(data: bytes) -> str:
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise StationFileError(
            f"the file is not UTF-8 text (byte {error.start + 1} is {data[error.start]:#04x}): "
            f"{SAVE_AS}"
        ) from None


def _rows(text: str) -> Iterator[tuple[int, list[str]]]:
    """Yield the rows that are not blank, each with the number of its first line."""
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    number = 1
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                yield number, [cell.strip() for cell in cells]
            number = reader.line_num + 1
    except csv.Error as error:
        raise StationFileError(f"row {number}: not comma-separated text: {error}") from None


def _columns(rows: Iterator[tuple[int, list[str]]]) -> list[str]:
    """Return the column names of the header row, or raise StationFileError."""
    _, header = next(rows, (0, []))
    if not header:
        raise StationFileError(f"the file is empty: it needs the header {','.join(COLUMNS)}")
    faults = {
        "missing": [name for name in COLUMNS if name not in header],
        "unknown": [name for name in header if name not in COLUMNS],
        "given twice": sorted({name for name in header if header.count(name) > 1}),
    }
    if any(faults.values()):
        words = "; ".join(
            f"{fault}: {', '.join(map(repr, names))}" for fault, names in faults.items() if names
        )
        raise StationFileError(
            f"the header has columns {words}. The columns, separated by commas, must be "
            f"{', '.join(COLUMNS)}"
        )
    return header


def _station(columns: list[str], cells: list[str]) -> Station:
    if len(cells) != len(columns):
        raise ValueError(f"there must be {len(columns)} cells, one a column, got {len(cells)}")
    row = dict(zip(columns, cells, strict=True))
    number = {
        column: _number(column, row[column])
        for column in COLUMNS
        if column not in ("ident", "name", "service")
    }
    return Station(
        ident=row["ident"],
        position=Position(number["lat_deg"], number["lon_deg"], number["elevation_ft"]),
        declination_deg=number["declination_deg"],
        frequency_mhz=number["frequency_mhz"],
        name=row["name"],
        service=row["service"],
    )


def _number(column: str, cell: str) -> float:
    try:
        value = float(cell)
    except ValueError:
        raise ValueError(f"{column} must be a number such as 46.5, got {cell!r}") from None
    return float(finite(column, value))
