"""Stations near home, read from a file that a spreadsheet can write.

The file is UTF-8 text, separated by commas or by semicolons, with one header row and the columns of
`COLUMNS`, in any order. Values taken from a publication are only as good and as recent as that
publication: for training on the ground, not for navigation.
"""

from collections.abc import Iterator

from vorlib.core.arguments import ArgumentError, quoted
from vorlib.earth.geodesic import Position
from vorlib.io.text import FileError, Source, number, read_text, refuse_formulas, spreadsheet_rows
from vorlib.vor.station import Station

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

SHOWN = 3  # columns that are named of what is wrong with a header

StationFileError = FileError


def read_stations(source: Source) -> list[Station]:
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
    rows = spreadsheet_rows(read_text(source))
    columns = _columns(rows)
    stations: list[Station] = []
    seen: dict[str, int] = {}
    messages: list[str] = []
    for line, cells in rows:
        try:
            station = _station(columns, cells)
            if station.ident in seen:
                raise ArgumentError(
                    f"ident must differ from the others, got {station.ident!r} as in row "
                    f"{seen[station.ident]}",
                    argument="ident",
                )
        except ValueError as error:
            messages.append(f"row {line}: {error}")
        else:
            seen[station.ident] = line
            stations.append(station)
    if messages:
        raise StationFileError(*messages)
    if not stations:
        raise StationFileError("the file has a header but no station: add one row for each")
    return stations


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
        words = "; ".join(f"{fault}: {_some(names)}" for fault, names in faults.items() if names)
        raise StationFileError(
            f"the header has columns {words}. The columns, separated by commas, must be "
            f"{', '.join(COLUMNS)}"
        )
    return header


def _some(names: list[str]) -> str:
    more = f" and {len(names) - SHOWN} more" if len(names) > SHOWN else ""
    return ", ".join(map(quoted, names[:SHOWN])) + more


def _station(columns: list[str], cells: list[str]) -> Station:
    if len(cells) != len(columns):
        raise ValueError(f"there must be {len(columns)} cells, one a column, got {len(cells)}")
    row = dict(zip(columns, cells, strict=True))
    refuse_formulas(columns, cells)
    value = {
        column: number(column, row[column])
        for column in COLUMNS
        if column not in ("ident", "name", "service")
    }
    return Station(
        ident=row["ident"],
        position=Position(value["lat_deg"], value["lon_deg"], value["elevation_ft"]),
        declination_deg=value["declination_deg"],
        frequency_mhz=value["frequency_mhz"],
        name=row["name"],
        service=row["service"],
    )
