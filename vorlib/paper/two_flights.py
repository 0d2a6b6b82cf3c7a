"""Two flights of one student side by side on paper: numbers, strips and findings."""

from __future__ import annotations

from vorlib.debrief.recorded import RecordedDebrief
from vorlib.debrief.report.side_by_side import side_by_side
from vorlib.paper.debrief import PRINT_STRIP, STRIP_HEIGHT
from vorlib.paper.debrief_tables import Notes, findings_table, tracking_table, who_table
from vorlib.paper.page import A4, Column, PageSize, Sheet
from vorlib.views.drawing.document import pdf_bytes
from vorlib.views.drawing.picture import Picture
from vorlib.views.instrument.deviation_strip import deviation_strip

__all__ = ["two_flights_pdf", "two_flights_sheets"]

TITLE = "Two flights side by side"
Named = tuple[str, RecordedDebrief]  # the name of a flight, and its debrief


def two_flights_pdf(
    first: Named, second: Named, size: PageSize = A4, *, notes: Notes | None = None
) -> bytes:
    """Return the pages as PDF; the parameters of `two_flights_sheets`."""
    return pdf_bytes(two_flights_sheets(first, second, size, notes=notes), TITLE)


def two_flights_sheets(
    first: Named, second: Named, size: PageSize = A4, *, notes: Notes | None = None
) -> tuple[Picture, ...]:
    """Return the pages: the numbers of both flights first, then the findings of each.

    Parameters
    ----------
    first, second
        Name and debrief of each flight.
    size
        The paper.
    notes
        Who flew.
    """
    sheet = Sheet(TITLE, size)
    who_table(sheet, notes or Notes())
    names = [_named(*flight) for flight in (first, second)]
    columns = (Column("", 1.6), Column(names[0], 2.0), Column(names[1], 2.0))
    sheet.table(columns, [list(row) for row in side_by_side(first[1], second[1])])
    for name, (_, debrief) in zip(names, (first, second), strict=True):
        sheet.heading(name, keep=STRIP_HEIGHT)
        sheet.picture(deviation_strip(debrief, PRINT_STRIP, sheet.width, STRIP_HEIGHT))
        sheet.gap()
    for name, (_, debrief) in zip(names, (first, second), strict=True):
        sheet.new_page()
        sheet.heading(name)
        tracking_table(sheet, debrief)
        findings_table(sheet, debrief, Notes().kept(debrief))
    return sheet.pages()


def _named(name: str, debrief: RecordedDebrief) -> str:
    when = f"{debrief.start:%Y-%m-%d %H:%M} UTC" if debrief.start else ""
    shown = "".join(letter if letter.isprintable() else "?" for letter in name)[-40:]
    return ", ".join(filter(None, (when, shown))) or "a flight"
