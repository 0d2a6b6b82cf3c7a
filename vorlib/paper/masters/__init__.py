"""Masters to copy and draw on: full pages in black on white, for the board or the table."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from vorlib.paper.masters.dials import draw_dials
from vorlib.paper.masters.error_area import draw_error_area
from vorlib.paper.masters.plan import draw_plan
from vorlib.paper.masters.rose import draw_compass
from vorlib.paper.masters.wind_triangle import draw_triangle
from vorlib.paper.page import A4, PageSize, Sheet
from vorlib.views.drawing.picture import Picture

__all__ = ["MASTERS", "Master", "master_pages"]


@dataclass(frozen=True)
class Master:
    """A page to draw on: its title, and the function that draws it on a sheet."""

    title: str
    fill: Callable[[Sheet], None]


MASTERS = MappingProxyType(
    {
        "rose": Master("Compass rose", draw_compass),
        "dials": Master("Blank dials", draw_dials),
        "plan": Master("Blank plan", draw_plan),
        "triangle": Master("Wind triangle", draw_triangle),
        "area": Master("Error area", draw_error_area),
    }
)
"""The masters, by the names that lessons use."""


def master_pages(size: PageSize = A4, names: Sequence[str] = ()) -> tuple[Picture, ...]:
    """Return a page for each named master, by default for all.

    Raises
    ------
    ValueError
        If there is no master of a name.
    """
    pages: list[Picture] = []
    for name in names or MASTERS:
        if name not in MASTERS:
            raise ValueError(f"a master must be one of {', '.join(MASTERS)}, got {name!r}")
        sheet = Sheet(MASTERS[name].title, size)
        MASTERS[name].fill(sheet)
        pages += sheet.pages()
    return tuple(pages)
