"""Read recorded flights: GPX and tables, as recorders write them. Not for navigation."""

from __future__ import annotations

import io
from dataclasses import replace

from vorlib.core.arguments import within
from vorlib.core.limits import HIGHEST_FT, LOWEST_FT
from vorlib.io.text import Source, read_text
from vorlib.tracks.gpx import SAVE_AS, read_gpx
from vorlib.tracks.recording import Gap, Recording, recording
from vorlib.tracks.table import Columns, read_table

__all__ = ["Columns", "Gap", "Recording", "read_track"]


def read_track(
    source: Source | bytes,
    columns: Columns | None = None,
    *,
    number: int | None = None,
    altitude_ft: float | None = None,
) -> Recording:
    """Return a recorded flight from a GPX file or a table. Not for navigation.

    Parameters
    ----------
    source
        The path of a file, an open stream or what was in a file, in bytes; what begins with ``<``
        is read as GPX.
    columns
        Which column of a table holds what; what is not declared is found by its name, and the
        first of the notes says what was found.
    number
        Which flight, from 1, where a file holds several. They are apart where nothing was recorded
        for half an hour.
    altitude_ft
        The altitude of a flight for which none was recorded.

    Raises
    ------
    ArgumentError
        If the altitude is out of all reason.
    FileError
        If the file cannot be used; each message names line and column where there is one.
    OSError
        If the file cannot be opened.
    """
    if altitude_ft is not None:
        altitude_ft = float(within("altitude_ft", altitude_ft, LOWEST_FT, HIGHEST_FT, "ft"))
    text = read_text(io.BytesIO(source) if isinstance(source, bytes) else source, SAVE_AS)
    if text.lstrip().startswith("<"):
        return recording(read_gpx(text), number, altitude_ft)
    table = read_table(text, columns or Columns())
    made = recording(table.points, number, altitude_ft, dated=table.dated)
    return replace(made, notes=(table.columns.told, *made.notes))
