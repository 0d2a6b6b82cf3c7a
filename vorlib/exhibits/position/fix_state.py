"""What a pilot measures among the islands, and the fix that it gives."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations

import numpy as np

from vorlib.core.angles import difference_deg
from vorlib.core.units import FEET_PER_NM
from vorlib.earth.geodesic import Position, Positions, direct, inverse, shifted
from vorlib.procedures import dme_fixing, fixing
from vorlib.procedures.dme_error_area import dme_area, dme_bound_nm, dme_cut_deg, dme_ellipse
from vorlib.procedures.error_area import (
    Ellipse,
    Pair,
    ellipse_outline,
    error_ellipse,
    error_quadrilateral,
    rank_pairs,
)
from vorlib.stations.archipelago import STATIONS
from vorlib.vor.station import Station

__all__ = ["DME", "EDGE_NM", "METHODS", "MIDDLE", "OTHER_DME", "RADIALS", "FixState"]

MIDDLE = Position(46.0, -30.0)  # of the islands
EDGE_NM = 40.0
# Bounds are taken as two standard errors: 95 percent of readings lie within (ICAO Doc 8168,
# volume II, part I, section 2, chapter 2, 2.3, read in a copy of 2006).
SIGMAS_IN_BOUND = 2.0
RADIALS, DME, OTHER_DME = "radials", "dme", "other dme"
METHODS = {
    "Radials": RADIALS,
    "Radial and DME of the first": DME,
    "Radial of the first, DME of the second": OTHER_DME,
}


@dataclass(frozen=True)
class FixState:
    """An aircraft among the islands, and what its pilot measures.

    Attributes
    ----------
    first, second, third
        Idents of the stations; the third may be empty.
    method
        "radials", "dme" (of the first station) or "other dme" (of the second).
    east_nm, north_nm, altitude_ft
        Where the aircraft is, from the middle of the islands.
    bound_deg
        How far a radial may be off, to either side.
    off_deg
        How much too great the first station's radial is read.
    dme_nm
        What the DME shows; None for the true slant range.
    dme_good_to_nm
        How far the DME may be off, to either side; None for the tolerance of ICAO.

    Raises
    ------
    ValueError
        If what is measured gives no fix.
    """

    first: str = "QLN"
    second: str = "PLX"
    third: str = ""
    method: str = RADIALS
    east_nm: float = -15.0
    north_nm: float = -8.0
    altitude_ft: float = 6500.0
    bound_deg: float = 4.0
    off_deg: float = 0.0
    dme_nm: float | None = None
    dme_good_to_nm: float | None = None

    def __post_init__(self) -> None:
        idents = [self.first, self.second, *([self.third] if self.third else [])]
        for ident in idents:
            if ident not in STATIONS:
                raise ValueError(f"station must be one of {', '.join(STATIONS)}, got {ident!r}")
        if self.method not in METHODS.values():
            allowed = ", ".join(METHODS.values())
            raise ValueError(f"method must be one of {allowed}, got {self.method!r}")
        if len(set(idents)) < len(idents):
            raise ValueError("choose different stations: radials of one station meet only there")
        _ = self.fixes  # no fix, no state

    @cached_property
    def stations(self) -> tuple[Station, ...]:
        """The stations whose radials are measured."""
        used = {
            RADIALS: (self.first, self.second, self.third),
            DME: (self.first,),
            OTHER_DME: (self.first, self.third),
        }[self.method]
        return tuple(STATIONS[ident] for ident in used if ident)

    @cached_property
    def there(self) -> Position:
        """Where the aircraft is."""
        azimuth_deg = math.degrees(math.atan2(self.east_nm, self.north_nm))
        place = direct(MIDDLE, azimuth_deg, math.hypot(self.east_nm, self.north_nm))
        return Position(float(place.lat_deg), float(place.lon_deg), self.altitude_ft)

    @cached_property
    def lines(self) -> list[tuple[Station, float]]:
        """The radials as they are read."""
        wrong = [self.off_deg, 0.0, 0.0]
        return [
            (station, float(station.radial_deg(self.there)) + off)
            for station, off in zip(self.stations, wrong, strict=False)
        ]

    @property
    def dme(self) -> Station:
        """The station whose DME is used."""
        return STATIONS[self.first if self.method == DME else self.second]

    @cached_property
    def shown_nm(self) -> float:
        """What the DME shows: the slant range."""
        if self.dme_nm is not None:
            return self.dme_nm
        return float(self.dme.slant_range_nm(self.there))

    @cached_property
    def ground_nm(self) -> float:
        """The distance over the ground that belongs to what the DME shows."""
        return float(dme_fixing.ground_distance_nm(self.shown_nm, self.dme.height_ft(self.there)))

    @cached_property
    def fixes(self) -> tuple[Position, ...]:
        """The fix; two where a radial meets a circle twice, nearest to the radial's station first.

        Raises
        ------
        ValueError
            If there is none.
        """
        if self.method == RADIALS:
            return (fixing.fix_from_radials(self.lines),)
        if self.method == DME:
            line = self.lines[0]
            return (dme_fixing.fix_from_radial_and_dme(*line, self.shown_nm, self.altitude_ft),)
        return dme_fixing.fixes_from_radial_and_other_dme(
            self.lines[0], self.dme, self.shown_nm, self.altitude_ft
        )

    @cached_property
    def chosen(self) -> int:
        """Which of the fixes is taken: with two, the one that the third radial suits better."""
        if len(self.fixes) == 1 or len(self.lines) == 1:
            return 0
        station, radial = self.lines[1]
        off = [abs(float(difference_deg(radial, station.radial_deg(f)))) for f in self.fixes]
        return off.index(min(off))

    @property
    def fix(self) -> Position:
        """The fix that is taken."""
        return self.fixes[self.chosen]

    @property
    def error_nm(self) -> float:
        """How far the fix is from the aircraft."""
        fix, there = self.fix, self.there
        apart = inverse(there.lat_deg, there.lon_deg, fix.lat_deg, fix.lon_deg)
        return float(apart.distance_nm)

    @cached_property
    def residuals_deg(self) -> tuple[float, ...]:
        """What each radial was read more than the fix has it."""
        return tuple(float(difference_deg(r, s.radial_deg(self.fix))) for s, r in self.lines)

    @cached_property
    def cut_deg(self) -> float:
        """The angle at which the best crossing lines cross: of radials, or of radial and circle."""
        if self.method != RADIALS:
            return float(dme_cut_deg(self.stations[0], self.dme, self.fix))
        azimuths = [float(s.inverse(self.fix).true_azimuth_end_deg) for s in self.stations]
        return max(
            (
                float(fixing.cut_angle_deg(one, other))
                for i, one in enumerate(azimuths)
                for other in azimuths[:i]
            )
        )

    @property
    def dme_bound_nm(self) -> float:
        """How far what the DME shows may be off, to either side."""
        if self.dme_good_to_nm is not None:
            return self.dme_good_to_nm
        return float(dme_bound_nm(self.shown_nm))

    @property
    def ground_band_nm(self) -> tuple[float, float]:
        """The least and the greatest distance over the ground that the DME leaves open."""
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
        """The error ellipse of the fix; None where it has none, as right over a station."""
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
        """Where three radials cross in pairs; None without three, or where a pair does not."""
        if len(self.lines) != 3 or self.method != RADIALS:
            return None
        try:
            corners = [fixing.fix_from_radials(list(pair)) for pair in combinations(self.lines, 2)]
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
        """Whether radials as good as they are said to be can disagree as much as these do."""
        return max(abs(off) for off in self.residuals_deg) <= self.bound_deg

    @property
    def is_bounded(self) -> bool:
        """Whether the bounds of the lines hold the fix: where they do not, no ellipse does."""
        if len(self.lines) < 3:
            return self.area is not None
        return self.cut_deg > 2.0 * self.bound_deg  # of the two that cross best

    @property
    def ellipse_outline(self) -> Positions | None:
        """The outline within which 95 percent of fixes lie; None where none holds them."""
        if self.ellipse is None or not self.is_bounded:
            return None
        return shifted(self.fix, *ellipse_outline(self.ellipse))

    @cached_property
    def best(self) -> Pair | None:
        """The best pair of stations for a fix here, or None where no pair is received."""
        pairs = rank_pairs(tuple(STATIONS.values()), self.there, self.sigma_deg)
        return pairs[0] if pairs else None
