"""The debrief of a recorded flight on one printed page."""

from __future__ import annotations

from collections.abc import Sequence
from os import PathLike
from pathlib import Path

from vorlib.angles import format_direction
from vorlib.doing import Doing
from vorlib.findings import DEG_PER_DOT, LIMIT_SOURCE, Phase, spoken_time
from vorlib.paper.page import A4, LEADING, PRINT, SMALL, Column, PageSize, Sheet, pdf_bytes
from vorlib.paper.track_plan import track_plan
from vorlib.recorded import Correction, RecordedDebrief
from vorlib.receiver import Flag
from vorlib.views.deviation_strip import LOOKS, block, deviation_strip
from vorlib.views.layout import wrapped
from vorlib.views.picture import Line, Picture, Text
from vorlib.views.scaling import framed
from vorlib.views.scene import Coast
from vorlib.wholefile import write_whole

__all__ = ["debrief_sheet", "save_debrief"]

TITLE = "Debrief of a flight"
PLAN_SHARE = 0.5  # of the width
STRIP_HEIGHT = 132.0
MOST_PHASES, MOST_SELECTIONS = 9, 8
COLUMNS = (
    Column("min", 1.3),
    Column("station", 1.5),
    Column("course, flag", 1.2),
    Column("radial held", 0.9, "end"),
    Column("mean off: degrees, dots, NM", 1.7, "end"),
    Column("most off: degrees, dots, NM", 1.7, "end"),
    Column("within 3/4", 0.8, "end"),
    Column("correction used, needed", 1.5, "end"),
)


def save_debrief(
    path: str | PathLike[str],
    debrief: RecordedDebrief,
    size: PageSize = A4,
    *,
    name: str = "",
    coasts: tuple[Coast, ...] = (),
) -> Path:
    """Write the page as PDF, whole or not at all; the parameters of `debrief_sheet`.

    Raises
    ------
    OSError
        If the file cannot be written.
    """
    return write_whole(path, debrief_pdf(debrief, size, name=name, coasts=coasts))


def debrief_pdf(
    debrief: RecordedDebrief,
    size: PageSize = A4,
    *,
    name: str = "",
    coasts: tuple[Coast, ...] = (),
) -> bytes:
    """Return the page as PDF: the same flight gives the same bytes."""
    return pdf_bytes([debrief_sheet(debrief, size, name=name, coasts=coasts)], TITLE)


def debrief_sheet(
    debrief: RecordedDebrief,
    size: PageSize = A4,
    *,
    name: str = "",
    coasts: tuple[Coast, ...] = (),
) -> Picture:
    """Return the page: plan, strip chart, table of tracking and the findings in sentences.

    Parameters
    ----------
    debrief
        The flight.
    size
        The paper.
    name
        What the flight is called at the head of the page, such as the name of its file.
    coasts
        Islands to draw on the plan.
    """
    sheet = Sheet(TITLE, size, name)
    sheet.paragraph(_facts(debrief))
    top, width = sheet.y, PLAN_SHARE * sheet.width
    sheet.draw(framed(track_plan(debrief, width, coasts), width, sheet.left, top))
    _beside(sheet, debrief, sheet.left + width + 12.0, top)
    sheet.y = top + width + 8.0
    strip = deviation_strip(debrief, PRINT_STRIP, sheet.width, STRIP_HEIGHT)
    sheet.picture(strip)
    sheet.gap(4.0)
    _table(sheet, debrief)
    _findings(sheet, debrief)
    return sheet.pages()[0]
