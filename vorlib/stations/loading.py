"""Read stations from a file of any known layout, recognized by its header."""

from __future__ import annotations

import io
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from types import MappingProxyType

from vorlib.io.text import SAVE_AS, FileError, Source, read_text, refuse_formulas, spreadsheet_rows
from vorlib.stations import nav_base, ourairports
from vorlib.stations.own_csv import COLUMNS, read_stations
from vorlib.stations.rows import ListedStation, Row, RowLeftOut
from vorlib.stations.station_list import SHOWN_FAULTS, StationList, listed

UNREADABLE = "a row that cannot be read"
OWN = "your own file"


@dataclass(frozen=True)
class TableLayout:
    """A published layout: its name, the columns it needs, and how a row is read."""

    name: str
    needed: tuple[str, ...]
    read_row: Callable[[Row], ListedStation]


LAYOUTS = tuple(TableLayout(m.NAME, m.NEEDED, m.read_row) for m in (nav_base, ourairports))


def load_stations(source: Source) -> StationList:
    """Return the VOR stations of a file, and what was left out and why.

    Parameters
    ----------
    source
        Path or open stream of the FAA's NAV_BASE.csv, of a navaids file in the OurAirports layout,
        or of one with the columns of `vorlib.stations.own_csv`; the header tells which.

    Raises
    ------
    FileError
        If the file is of none of these layouts, is cut off, is not text, is larger than 200 MB, or
        holds no VOR. Your own file must be right in every row; of a published one a row that
        cannot be read is left out and told.
    OSError
        If the file cannot be opened.
    """
    text = read_text(source)
    rows = spreadsheet_rows(text)
    _, header = next(rows, (0, []))
    while header and not header[-1]:
        header.pop()  # a comma at the end of the header, as older navaids files have
    for layout in LAYOUTS:
        if set(layout.needed) <= set(header):
            return _published(layout, header, rows)
    if not header or set(header) & set(COLUMNS):
        return listed(read_stations(io.StringIO(text)), OWN)
    raise FileError(_unknown(header))


def _published(
    layout: TableLayout, header: list[str], rows: Iterator[tuple[int, list[str]]]
) -> StationList:
    kept: list[ListedStation] = []
    left_out: Counter[str] = Counter()
    faults: list[str] = []
    cut_off = ""
    for line, cells in rows:
        cut_off = ""
        while len(cells) > len(header) and not cells[-1]:
            cells.pop()
        try:
            if len(cells) != len(header):
                cut_off = f"there must be {len(header)} cells, one a column, got {len(cells)}"
                raise ValueError(cut_off)
            refuse_formulas(header, cells)
            kept.append(layout.read_row(Row(line, dict(zip(header, cells, strict=True)))))
        except RowLeftOut as reason:
            left_out[str(reason)] += 1
        except ValueError as error:
            left_out[UNREADABLE] += 1
            faults.append(f"line {line}: {error}")
    if cut_off:
        raise FileError(f"the file is cut off: line {line}: {cut_off}; get it again")
    if not kept:
        reasons = [f"{count} left out, {why}" for why, count in sorted(left_out.items())]
        raise FileError(f"there is no VOR in {layout.name}", *reasons, *faults[:SHOWN_FAULTS])
    return StationList(layout.name, tuple(kept), MappingProxyType(dict(left_out)), tuple(faults))


def _unknown(header: list[str]) -> str:
    """Return which layout the header is nearest to and what it lacks, or all layouts."""
    if len(header) == 1 and "\t" in header[0]:
        return f"line 1: the cells are separated by tabs, not commas: {SAVE_AS}"
    nearest = max(LAYOUTS, key=lambda layout: len(set(layout.needed) & set(header)))
    missing = [column for column in nearest.needed if column not in header]
    if len(missing) < len(nearest.needed) / 2:
        return f"line 1: {nearest.name} needs these columns too: {', '.join(missing)}"
    names = "; ".join(layout.name for layout in LAYOUTS)
    return (
        f"line 1: the header matches no known layout: {names}; or your own, with the columns "
        f"{', '.join(COLUMNS)}. It begins with {', '.join(header[:4])}"
    )
