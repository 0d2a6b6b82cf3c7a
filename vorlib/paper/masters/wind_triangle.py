"""A master to draw a wind triangle: directions about a point, and rings for speeds."""

from __future__ import annotations

from vorlib.paper.masters.rose import NOTE, at, fields_at_foot, rose
from vorlib.paper.page import PRINT, Sheet
from vorlib.views.drawing.picture import Circle, Text

__all__ = ["draw_triangle"]

FASTEST_KT, STEP_KT, LABEL_KT = 140, 10, 20
HOW = (
    "From the middle draw the wind, toward where it blows. From the middle draw the course.",
    "From the wind's end strike the true airspeed across the course: that line is the heading,",
    "and the course as far as the crossing is the groundspeed.",
)


def draw_triangle(sheet: Sheet) -> None:
    """Draw rings every 10 kt within a rose, and lines for the given and the found values."""
    top = fields_at_foot(
        sheet,
        (("Course", "True airspeed", "Wind from", "at"), ("Correction", "Heading", "Groundspeed")),
    )
    foot = top - 46.0
    center = 0.5 * (sheet.left + sheet.right), 0.5 * (sheet.top + foot)
    radius = min(0.5 * sheet.width, 0.5 * (foot - sheet.top)) - 20.0
    for speed in range(STEP_KT, FASTEST_KT, STEP_KT):
        labeled = speed % LABEL_KT == 0
        width, dash = (0.6, ()) if labeled else (0.4, (1.5, 3.0))
        ring = radius * speed / FASTEST_KT
        sheet.draw(Circle(*center, ring, stroke=PRINT.ring, width=width, dash=dash))
    sheet.draw(*rose(center, radius, 10.0), Circle(*center, 2.5, PRINT.text))
    for speed in range(LABEL_KT, FASTEST_KT, LABEL_KT):
        place = at(center, radius * speed / FASTEST_KT, 45.0)
        sheet.draw(Text(*place, f"{speed}", NOTE, PRINT.text, halo=PRINT.paper))
    for number, words in enumerate(HOW):
        y = foot + 9.0 + 1.4 * NOTE * number
        sheet.draw(Text(center[0], y, words, NOTE, PRINT.muted))
