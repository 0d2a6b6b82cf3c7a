"""Airfields near home, read from a file that a spreadsheet can write.

UTF-8 text, separated by commas or by semicolons, with one header row and the columns of `COLUMNS`,
in any order. For
training on the ground, not for navigation.
"""

from vorlib.core.arguments import ArgumentError
from vorlib.earth.geodesic import Position
from vorlib.io.text import (
    FileError,
    Source,
    latitude_deg,
    longitude_deg,
    number,
    read_text,
    refuse_formulas,
    spreadsheet_rows,
)
from vorlib.stations.archipelago import Airfield

COLUMNS = ("ident", "name", "lat_deg", "lon_deg", "elevation_ft")
SHOWN = 8  # columns of another file, such as one of stations, that are named


def read_fields(source: Source) -> list[Airfield]:
    """Return the airfields of a file, in its order.

    Raises
    ------
    FileError
        If the file is not text or its header is wrong; or one message for each bad row, with its
        number, the column, the value and what is allowed.
    OSError
        If the file cannot be opened.
    """
    rows = spreadsheet_rows(read_text(source))
    _, header = next(rows, (0, []))
    if sorted(header) != sorted(COLUMNS):
        got = ", ".join(header[:SHOWN]) or "an empty file"
        more = f" and {len(header) - SHOWN} more" if len(header) > SHOWN else ""
        raise FileError(
            f"line 1: the columns, separated by commas, must be {', '.join(COLUMNS)}; got "
            f"{got}{more}"
        )
    fields: list[Airfield] = []
    messages: list[str] = []
    for line, cells in rows:
        try:
            fields.append(_field(header, cells))
        except ValueError as error:
            messages.append(f"row {line}: {error}")
    if messages:
        raise FileError(*messages)
    if not fields:
        raise FileError("the file has a header but no airfield: add one row for each")
    return fields


def _field(header: list[str], cells: list[str]) -> Airfield:
    if len(cells) != len(header):
        raise ValueError(f"there must be {len(header)} cells, one a column, got {len(cells)}")
    refuse_formulas(header, cells)
    row = dict(zip(header, cells, strict=True))
    if not row["ident"]:
        raise ArgumentError("ident must not be empty", argument="ident")
    place = Position(
        latitude_deg("lat_deg", row["lat_deg"]),
        longitude_deg("lon_deg", row["lon_deg"]),
        number("elevation_ft", row["elevation_ft"]),
    )
    return Airfield(row["ident"], row["name"] or row["ident"], place)
