"""A master with a blank plan: a station, its radials, and rings to scale."""

from __future__ import annotations

from collections.abc import Iterator

from vorlib.paper.area_plan import points_per_nm
from vorlib.paper.masters.rose import NOTE, at, fields_at_foot, rose
from vorlib.paper.page import PRINT, Sheet
from vorlib.views.drawing.picture import Circle, Item, Line, Point, Polygon, Text

__all__ = ["SCALE", "STEP_NM", "draw_plan", "station"]

SCALE = 500_000  # as of common charts
OUTERMOST_NM, STEP_NM = 20, 5


def draw_plan(sheet: Sheet) -> None:
    """Draw a station with its rose at 20 NM, rings, and a radial every 30 degrees."""
    top = fields_at_foot(sheet, (("Station", "Course", "Wind", "Altitude"),))
    center = 0.5 * (sheet.left + sheet.right), 0.5 * (sheet.top + top - 14.0)
    per_nm = points_per_nm(SCALE)
    radius = OUTERMOST_NM * per_nm
    for degree in range(30, 361, 30):
        ends = at(center, 9.0, degree), at(center, 0.95 * radius, degree)
        sheet.draw(Line(*ends[0], *ends[1], PRINT.ring, 0.4, (1.5, 4.0)))
    for nm in range(STEP_NM, OUTERMOST_NM, STEP_NM):
        sheet.draw(Circle(*center, nm * per_nm, stroke=PRINT.ring, width=0.6, dash=(3.0, 3.0)))
    sheet.draw(*rose(center, radius, 10.0))
    for nm in range(STEP_NM, OUTERMOST_NM, STEP_NM):
        place = at(center, nm * per_nm, 45.0)
        sheet.draw(Text(*place, f"{nm}", NOTE, PRINT.text, halo=PRINT.paper))
    sheet.draw(*station(center))
    words = f"Rings every {STEP_NM} NM, scale 1:{SCALE:,}. Up is the station's own north."
    sheet.draw(Text(center[0], top - 4.0, words, NOTE, PRINT.muted))


def station(center: Point) -> Iterator[Item]:
    """Yield the symbol of a station: a hexagon with a dot in it."""
    corners = tuple(at(center, 7.0, degree) for degree in range(30, 390, 60))
    yield Polygon(corners, PRINT.paper, PRINT.text, 1.4)
    yield Circle(*center, 1.5, PRINT.text)
