"""The accuracy of a fix: the area where the aircraft may be, and its error ellipse."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations

import numpy as np

from vorlib.core.units import FEET_PER_NM
from vorlib.earth.geodesic import Position, Positions, inverse, shifted
from vorlib.exhibits.position.fix_measured import RADIALS, Measurement
from vorlib.procedures.dme_error_area import dme_area, dme_bound_nm, dme_ellipse
from vorlib.procedures.error_area import (
    Ellipse,
    Pair,
    ellipse_outline,
    error_ellipse,
    error_quadrilateral,
    rank_pairs,
)
from vorlib.procedures.fixing import fix_from_radials
from vorlib.stations.archipelago import STATIONS

__all__ = ["FixState"]

# Bounds are taken as two standard errors: 95 percent of readings lie within (ICAO Doc 8168,
# volume II, part I, section 2, chapter 2, 2.3, read in a copy of 2006).
SIGMAS_IN_BOUND = 2.0


@dataclass(frozen=True)
class FixState(Measurement):
    """An aircraft among the islands, what its pilot measures, and how accurately.

    Attributes
    ----------
    bound_deg
        How far a radial may be off, to either side.
    dme_good_to_nm
        How far the DME may be off, to either side; None for ICAO's tolerance.
    """

    bound_deg: float = 4.0
    dme_good_to_nm: float | None = None

    @property
    def dme_bound_nm(self) -> float:
        """How far the DME reading may be off, to either side."""
        if self.dme_good_to_nm is not None:
            return self.dme_good_to_nm
        return float(dme_bound_nm(self.shown_nm))

    @property
    def ground_band_nm(self) -> tuple[float, float]:
        """The least and the greatest distance over the ground that the DME reading allows."""
        height_nm = abs(float(self.dme.height_ft(self.there))) / FEET_PER_NM
        near, far = (
            max(self.shown_nm + off, height_nm) for off in (-self.dme_bound_nm, self.dme_bound_nm)
        )
        return math.sqrt(near**2 - height_nm**2), math.sqrt(far**2 - height_nm**2)

    @cached_property
    def area(self) -> Positions | None:
        """Outline of the area within the bounds of two lines; None if it is not closed."""
        try:
            if self.method != RADIALS:
                station, fix = self.stations[0], self._fix_aloft
                return dme_area(station, self.dme, fix, self.bound_deg, self.dme_bound_nm)
            return error_quadrilateral(self.lines, [self.bound_deg] * 2)
        except ValueError:
            return None

    @property
    def _fix_aloft(self) -> Position:
        return Position(self.fix.lat_deg, self.fix.lon_deg, self.altitude_ft)

    @property
    def worst_nm(self) -> float | None:
        """Distance from the fix to the farthest place of the area, or None without one."""
        if self.area is None:
            return None
        fix, far = self.fix, self.area
        apart = inverse(fix.lat_deg, fix.lon_deg, far.lat_deg, far.lon_deg)
        return float(np.max(apart.distance_nm))

    @property
    def sigma_deg(self) -> float:
        """Standard error of a radial."""
        return self.bound_deg / SIGMAS_IN_BOUND

    @cached_property
    def ellipse(self) -> Ellipse | None:
        """The error ellipse of the fix; None where there is none, such as over a station."""
        if self.method == RADIALS:
            return error_ellipse(self.stations, self.fix, self.sigma_deg)
        sigma_nm = self.dme_bound_nm / SIGMAS_IN_BOUND
        try:
            fix = self._fix_aloft
            return dme_ellipse(self.stations[0], self.dme, fix, self.sigma_deg, sigma_nm)
        except ValueError:
            return None

    @cached_property
    def triangle(self) -> Positions | None:
        """The corners where three radials cross in pairs; None without three such corners."""
        if len(self.lines) != 3 or self.method != RADIALS:
            return None
        try:
            corners = [fix_from_radials(list(pair)) for pair in combinations(self.lines, 2)]
        except ValueError:
            return None
        return Position(
            np.array([corner.lat_deg for corner in corners]),
            np.array([corner.lon_deg for corner in corners]),
        )

    @property
    def triangle_nm(self) -> float:
        """The longest side of that triangle; 0 without one."""
        if self.triangle is None:
            return 0.0
        lat, lon = self.triangle.lat_deg, self.triangle.lon_deg
        sides = inverse(lat, lon, np.roll(lat, 1), np.roll(lon, 1))
        return float(np.max(sides.distance_nm))

    @property
    def is_explained(self) -> bool:
        """Whether the disagreement of the radials is within their bounds."""
        return max(abs(off) for off in self.residuals_deg) <= self.bound_deg

    @property
    def is_bounded(self) -> bool:
        """Whether the bounds of the lines enclose an area; if not, the ellipse means nothing."""
        if len(self.lines) < 3:
            return self.area is not None
        return self.cut_deg > 2.0 * self.bound_deg  # the cut of the best pair

    @property
    def ellipse_outline(self) -> Positions | None:
        """The outline within which 95 percent of fixes lie; None if the fix is not bounded."""
        if self.ellipse is None or not self.is_bounded:
            return None
        return shifted(self.fix, *ellipse_outline(self.ellipse))

    @cached_property
    def best(self) -> Pair | None:
        """The best pair of stations for a fix here, or None where no pair is received."""
        pairs = rank_pairs(tuple(STATIONS.values()), self.there, self.sigma_deg)
        return pairs[0] if pairs else None
