"""A page of a printed sheet as a notebook shows it."""

from __future__ import annotations

from vorlib.paper.page import PageSize
from vorlib.views.drawing.picture import Group, Picture, Polygon
from vorlib.views.drawing.scaling import resized
from vorlib.views.drawing.theme import Theme

__all__ = ["PROJECTOR_PAGE", "as_picture"]

PROJECTOR_PAGE = PageSize("projector", 500.0, 660.0)  # narrow, so that its type is shown large
TRIMMED = 24.0  # points of each margin that are not shown
WIDTH = 840.0  # of the picture


def as_picture(page: Picture, theme: Theme) -> Picture:
    """Return a page without its outer margins, in a frame."""
    width, height = page.width - 2.0 * TRIMMED, page.height - 2.0 * TRIMMED
    corners = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
    items = (Group(page.items, -TRIMMED, -TRIMMED), Polygon(corners, stroke=theme.ring, width=1.0))
    trimmed = Picture(width, height, items, page.title, page.description, page.background)
    return resized(trimmed, WIDTH)
