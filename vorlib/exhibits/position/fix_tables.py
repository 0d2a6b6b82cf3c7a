"""Tables and a chart of how accurate a fix is, by its radials, its cut and its DME."""

import math

from vorlib.exhibits.base.registry import offered
from vorlib.exhibits.position.fix_state import FixState
from vorlib.procedures.dme_fixing import ground_distance_nm
from vorlib.views.drawing.chart import Chart
from vorlib.views.fix_scatter import Cloud, fix_scatter

__all__ = ["bound_table", "cut_table", "dme_table", "scattered_fixes", "slant_range_table"]

TO_95_PERCENT = 2.45  # standard errors in two dimensions: the root of -2 ln 0.05


@offered
def bound_table() -> str:
    """Return the error of a fix for radials of different accuracy."""
    rows = ["good to   at most   95 percent within"]
    for bound in (1, 2, 4, 6):
        s = FixState("QLN", "PLX", bound_deg=bound)
        semi_major_nm = s.ellipse.semi_major_nm if s.ellipse else math.inf  # parallel lines
        across = 2 * TO_95_PERCENT * semi_major_nm
        rows.append(f"{bound} deg {s.worst_nm:8.1f} NM {across:8.1f} NM across")
    return "\n".join(rows)


@offered
def cut_table() -> str:
    """Return the greatest error of a fix for different cut angles."""
    rows = ["   cut   from the stations   at most"]
    for east, north in ((-3.5, -23), (0.9, -17.5), (3.4, -14.4), (5.3, -12)):
        s = FixState(east_nm=east, north_nm=north)
        far = " and ".join(f"{station.distance_nm(s.there):.0f}" for station in s.stations)
        rows.append(f"{s.cut_deg:3.0f} deg {far:>13} NM {s.worst_nm:14.1f} NM")
    return "\n".join(rows)


@offered
def slant_range_table() -> str:
    """Return by how much a DME reading exceeds the distance over the ground."""
    rows = ["NM too far, if what the DME shows is taken for ground distance"]
    for height_ft in (3000, 6000, 12000):
        words = "".join(
            f"{shown - float(ground_distance_nm(shown, height_ft)):7.2f} at {shown}"
            for shown in (3, 6, 12, 24)
        )
        rows.append(f"{height_ft:6} ft up:{words} NM")
    return "\n".join(rows)


@offered
def dme_table() -> str:
    """Return the error of a fix by radial and DME: across the radial, along it, and in all."""
    rows = ["radial good to 4 degrees, DME as ICAO has it"]
    for east in (-10, -20, -40):
        s = FixState("QLN", method="dme", east_nm=east, north_nm=-8)
        across = float(s.dme.distance_nm(s.fix)) * 4 / 60
        rows.append(
            f"{s.ground_nm:3.0f} NM out: {across:.1f} across, {s.dme_bound_nm:.1f} along, "
            f"at most {s.worst_nm:.1f} NM out"
        )
    return "\n".join(rows)


@offered
def scattered_fixes(*cases: FixState) -> Chart:
    """Return a chart of simulated fixes in each case, with the 95 percent ellipse."""
    return fix_scatter([Cloud((s.stations[0], s.stations[1]), s.there, s.sigma_deg) for s in cases])
