"""A master to draw the error area of a fix: two stations with roses on a grid of miles."""

from __future__ import annotations

from vorlib.paper.area_plan import points_per_nm
from vorlib.paper.masters.plan import SCALE, STEP_NM, station
from vorlib.paper.masters.rose import NOTE, fields_at_foot, rose
from vorlib.paper.page import PRINT, Sheet
from vorlib.views.drawing.picture import Segments, Text

__all__ = ["draw_error_area"]

APART_NM, ROSE_NM = 30, 6.0  # between the stations; radius of their roses
HOW = "Draw each radial, and one to each side as far as it may be off. You are within both bands."


def draw_error_area(sheet: Sheet) -> None:
    """Draw a grid with a station at either side, and lines for distance, bounds and width."""
    top = fields_at_foot(
        sheet,
        (
            ("A: radial", "may be off", "NM out", "NM to the side"),
            ("B: radial", "may be off", "NM out", "NM to the side"),
            ("Cut, degrees", "Largest doubt, NM", "A third line"),
        ),
    )
    per_nm = points_per_nm(SCALE)
    foot, step = top - 34.0, STEP_NM * per_nm
    across, down = int(sheet.width / step), int((foot - sheet.top) / step)
    left = sheet.left + 0.5 * (sheet.width - across * step)
    right, upper = left + across * step, foot - down * step
    lines = [(left + n * step, upper, left + n * step, foot) for n in range(across + 1)]
    lines += [(left, foot - n * step, right, foot - n * step) for n in range(down + 1)]
    sheet.draw(Segments(tuple(lines), PRINT.ring, 0.4, (1.0, 3.0)))
    first = left + 0.5 * (across * step - APART_NM * per_nm)
    for name, x in (("A", first), ("B", first + APART_NM * per_nm)):
        center = x, foot - 2 * step
        sheet.draw(*rose(center, ROSE_NM * per_nm, 7.0), *station(center))
        sheet.draw(Text(x, center[1] + 18.0, name, 12.0, PRINT.text, bold=True, halo=PRINT.paper))
    middle = 0.5 * (sheet.left + sheet.right)
    scale = f"A square is {STEP_NM} NM wide, scale 1:{SCALE:,}."
    for number, words in enumerate((scale, HOW)):
        sheet.draw(Text(middle, foot + 10.0 + 1.4 * NOTE * number, words, NOTE, PRINT.muted))
