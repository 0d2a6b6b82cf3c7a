"""What a pilot measures among the islands, and the fix that it gives."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from vorlib.core.angles import difference_deg
from vorlib.earth.geodesic import Position, direct, inverse
from vorlib.procedures import dme_fixing, fixing
from vorlib.procedures.dme_error_area import dme_cut_deg
from vorlib.stations.archipelago import STATIONS
from vorlib.vor.station import Station

__all__ = ["DME", "EDGE_NM", "METHODS", "MIDDLE", "OTHER_DME", "RADIALS", "Measurement"]

MIDDLE = Position(46.0, -30.0)  # of the islands
EDGE_NM = 40.0
RADIALS, DME, OTHER_DME = "radials", "dme", "other dme"
METHODS = {
    "Radials": RADIALS,
    "Radial and DME of the first": DME,
    "Radial of the first, DME of the second": OTHER_DME,
}


@dataclass(frozen=True)
class Measurement:
    """An aircraft among the islands, and what its pilot measures.

    Attributes
    ----------
    first, second, third
        Idents of the stations; the third may be empty.
    method
        "radials", "dme" (of the first station) or "other dme" (of the second).
    east_nm, north_nm, altitude_ft
        Where the aircraft is, from the middle of the islands.
    off_deg
        Degrees by which the first station's radial is read too high.
    dme_nm
        What the DME shows; None for the true slant range.

    Raises
    ------
    ValueError
        If the measurements give no fix.
    """

    first: str = "QLN"
    second: str = "PLX"
    third: str = ""
    method: str = RADIALS
    east_nm: float = -15.0
    north_nm: float = -8.0
    altitude_ft: float = 6500.0
    off_deg: float = 0.0
    dme_nm: float | None = None

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
        _ = self.fixes  # raises if there is no fix

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
        """The distance over the ground that corresponds to the DME reading."""
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
        """Index of the fix that is taken; of two, the one that a further radial fits better."""
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
        """Each radial as read less the radial of the fix, positive clockwise."""
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
