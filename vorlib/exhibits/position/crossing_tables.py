"""Tables of how fast the needle moves, and of how long it takes to cross the cone."""

from vorlib.exhibits.base.registry import offered
from vorlib.exhibits.position.crossing import rate_words
from vorlib.exhibits.position.crossing_state import CrossingState

__all__ = ["cone_table", "needle_rate_table"]

ALTITUDE_FT, OFFSET_NM, SPEED_KT = 4500.0, 0.2, 120.0


@offered
def needle_rate_table() -> str:
    """Return the dots and their rate on the way in, at a constant distance off course."""
    rows = ["NM to go   dots left   moving out"]
    for to_go in (6, 4, 3, 2, 1.5):
        s = CrossingState(
            along_nm=-to_go, offset_nm=OFFSET_NM, altitude_ft=ALTITUDE_FT, groundspeed_kt=SPEED_KT
        )
        rate = abs(s.needle_rate_dots_s or 0.0)
        rows.append(f"{to_go:8} {abs(s.reading.dots):11.1f}   {rate_words(rate)}")
    return "\n".join(rows)


@offered
def cone_table() -> str:
    """Return the cone's radius over Quillon and the time to cross it, by altitude and speed."""
    rows = ["altitude   height   radius   seconds at 90, 120, 150 kt over Quillon"]
    for feet in (2000, 4500, 7000, 9000):
        over = [
            CrossingState(offset_nm=0, altitude_ft=feet, groundspeed_kt=kt) for kt in (90, 120, 150)
        ]
        seconds = "".join(f"{s.seconds_in_cone:6.0f}" for s in over)
        up = float(over[0].tuned.height_ft(over[0].there))
        rows.append(f"{feet:6} ft {up:5.0f} ft {over[0].cone_nm:5.1f} NM   {seconds}")
    return "\n".join(rows)
