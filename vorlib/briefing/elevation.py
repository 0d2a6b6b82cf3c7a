"""Heights of the ground on a grid, and the highest ground along a course.

For training on the ground, not for navigation. `vorlib.briefing.elevation_file` reads them.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from typing import Any

import numpy as np
import numpy.typing as npt

from vorlib.core.arguments import ArgumentError
from vorlib.core.units import METERS_PER_FOOT
from vorlib.earth.geodesic import Position

__all__ = ["CORRIDOR_NM", "UNITS_M", "ElevationGrid", "HighestGround"]

NM_PER_DEGREE = 60.0  # along a meridian; for a corridor's edge it is near enough
# On either side of the course, of 14 CFR 91.177 on the least altitudes under IFR (from memory).
CORRIDOR_NM = 4.0
LOWEST_FT, HIGHEST_FT = -37_000.0, 29_100.0  # the deepest sea, the highest mountain
UNITS_M = {"meters": 1.0, "feet": METERS_PER_FOOT}


@dataclass(frozen=True)
class HighestGround:
    """The highest ground along a way: its height, its place, and the share without data."""

    height_ft: float
    place: Position
    unknown: float


@dataclass(frozen=True, eq=False)
class ElevationGrid:
    """Heights of the ground on a grid of latitude and longitude.

    Attributes
    ----------
    heights
        As the file has them, of shape (rows, columns), the first row the northernmost; NaN where
        there is no data.
    south_deg, west_deg
        Middle of the cell in the lower left corner.
    cell_deg
        From the middle of a cell to that of the next.
    unit
        What the heights are taken as: "meters" or "feet".
    """

    heights: npt.NDArray[np.float32]
    south_deg: float
    west_deg: float
    cell_deg: float
    unit: str = "meters"

    def taken_as(self, unit: str) -> ElevationGrid:
        """Return the same grid with its heights taken as "meters" or "feet".

        Raises
        ------
        ValueError
            If the unit is another, or there is no ground so low or so high.
        """
        if unit not in UNITS_M:
            raise ArgumentError(f"the unit must be meters or feet, got {unit!r}", argument="unit")
        grid = replace(self, unit=unit)
        low, high = grid.range_ft
        if low < LOWEST_FT or high > HIGHEST_FT:
            raise ArgumentError(
                f"the heights reach from {low:,.0f} to {high:,.0f} ft when taken as {unit}: there "
                "is no such ground. Meters or feet?",
                argument="unit",
            )
        return grid

    @cached_property
    def range_ft(self) -> tuple[float, float]:
        """The lowest and the highest ground."""
        low, high = float(np.nanmin(self.heights)), float(np.nanmax(self.heights))
        return self._feet(low), self._feet(high)

    @property
    def words(self) -> str:
        """What it is, in a sentence."""
        low, high = self.range_ft
        return (
            f"Elevation data in cells of {self.cell_deg * NM_PER_DEGREE:.2g} NM, heights taken as "
            f"{self.unit}: from {low:,.0f} to {high:,.0f} ft."
        )

    def highest(
        self, way: Sequence[Position], corridor_nm: float = CORRIDOR_NM
    ) -> HighestGround | None:
        """Return the highest ground within a distance of a way; None where there is no data.

        Parameters
        ----------
        way
            Two places or more, with straight legs between.
        corridor_nm
            How far to either side, in NM; each cell that it touches counts.
        """
        legs = [self._along(begin, end, corridor_nm) for begin, end in pairwise(way)]
        found = [leg for leg in legs if not math.isnan(leg.height_ft)]
        if not found:
            return None
        unknown = max(leg.unknown for leg in legs)
        return replace(max(found, key=lambda leg: leg.height_ft), unknown=unknown)

    def _along(self, begin: Position, end: Position, corridor_nm: float) -> HighestGround:
        """Return the highest ground along a leg, on a plane touching the earth in its middle."""
        (south, north), middle = self._latitudes(begin, end, corridor_nm)
        east_nm = NM_PER_DEGREE * math.cos(math.radians(middle))
        first = (float(begin.lon_deg) - self.west_deg + 180.0) % 360.0 - 180.0
        turn = (float(end.lon_deg) - float(begin.lon_deg) + 180.0) % 360.0 - 180.0
        reach = corridor_nm / east_nm + self.cell_deg
        west, east = first + min(turn, 0.0) - reach, first + max(turn, 0.0) + reach
        rows = np.arange(round((south - self.south_deg) / self.cell_deg),
                         round((north - self.south_deg) / self.cell_deg) + 1)  # fmt: skip
        columns = np.arange(round(west / self.cell_deg), round(east / self.cell_deg) + 1)
        y = (self.south_deg + rows * self.cell_deg - float(begin.lat_deg)) * NM_PER_DEGREE
        x = (columns * self.cell_deg - first) * east_nm
        leg = (turn * east_nm, (float(end.lat_deg) - float(begin.lat_deg)) * NM_PER_DEGREE)
        half_cell = 0.5 * self.cell_deg * math.hypot(east_nm, NM_PER_DEGREE)
        near = _distances(x[np.newaxis, :], y[:, np.newaxis], leg) <= corridor_nm + half_cell
        heights = np.where(near, self._cells(rows, columns), np.nan)
        unknown = 1.0 - float(np.isfinite(heights).sum()) / max(int(near.sum()), 1)
        if not np.isfinite(heights).any():
            return HighestGround(math.nan, begin, unknown)
        row, column = np.unravel_index(np.nanargmax(heights), heights.shape)
        place = Position(
            self.south_deg + float(rows[row]) * self.cell_deg,
            self.west_deg + float(columns[column]) * self.cell_deg,
        )
        return HighestGround(self._feet(float(heights[row, column])), place, unknown)

    def _latitudes(
        self, begin: Position, end: Position, corridor_nm: float
    ) -> tuple[tuple[float, float], float]:
        south, north = sorted((float(begin.lat_deg), float(end.lat_deg)))
        reach = corridor_nm / NM_PER_DEGREE + self.cell_deg
        return (south - reach, north + reach), 0.5 * (south + north)

    def _cells(
        self, rows: npt.NDArray[np.int_], columns: npt.NDArray[np.int_]
    ) -> npt.NDArray[np.float64]:
        """Heights of rows counted from the south and columns from the west; NaN outside."""
        count, width = self.heights.shape
        around = round(360.0 / self.cell_deg)
        columns = np.where(columns < 0, columns + around, columns)
        columns = np.where(columns >= around, columns - around, columns)
        inside = ((rows >= 0) & (rows < count))[:, None] & ((columns >= 0) & (columns < width))
        from_north = np.clip(count - 1 - rows, 0, count - 1)
        heights = self.heights[np.ix_(from_north, np.clip(columns, 0, width - 1))]
        return np.where(inside, heights, np.nan)

    def _feet(self, height: float) -> float:
        return height * UNITS_M[self.unit] / METERS_PER_FOOT


def _distances(
    x: npt.NDArray[np.floating[Any]], y: npt.NDArray[np.floating[Any]], leg: tuple[float, float]
) -> npt.NDArray[np.floating[Any]]:
    """How far points are from a straight leg that begins at the origin."""
    length = leg[0] ** 2 + leg[1] ** 2
    share = np.clip((x * leg[0] + y * leg[1]) / length, 0.0, 1.0) if length else np.zeros(1)
    return np.hypot(x - share * leg[0], y - share * leg[1])
