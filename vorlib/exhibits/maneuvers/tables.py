"""Intercepts, homing and tracking in numbers: the tables of their lessons."""

from vorlib.core.words import spoken_degrees
from vorlib.exhibits.base.registry import offered
from vorlib.exhibits.maneuvers.homing import HomingState
from vorlib.exhibits.maneuvers.intercept_state import InterceptState
from vorlib.exhibits.maneuvers.tracking_state import TrackingState
from vorlib.procedures.intercept import Intercept, angle_for_distance_deg
from vorlib.procedures.tracking import off_course_nm, off_course_rule_nm, one_in_sixty_deg

__all__ = ["homing_table", "intercept_table", "lead_table", "off_course_table", "pilots_table"]

SPEED_KT = 100.0  # of all these aircraft


@offered
def homing_table(**start: float) -> str:
    """Return how far homing goes off the line, and both pilots' minutes, by the wind's speed."""
    rows = ["wind   off the line   homing     tracking"]
    for wind_kt in (0, 15, 30, 50, 70):
        state = HomingState(**start | {"wind_kt": wind_kt})  # type: ignore[arg-type]
        home, held = state.outcomes
        off = f"{wind_kt:2} kt {abs(home.off_nm):8.1f} NM"
        rows.append(f"{off} {home.minutes:9.1f} min {held.minutes:7.1f} min")
    return "\n".join(rows)


@offered
def intercept_table() -> str:
    """Return what the double-angle rule gives, by the radials to go; below, by the distance."""
    rows = ["to go   angle   from 12 NM: flown      met, from the station"]
    for to_go in (5, 10, 20, 30, 40):
        p = _plan(InterceptState(radial_deg=220 + to_go, distance_nm=12))
        flown = f"{p.minutes / 60 * SPEED_KT:16.1f} NM"
        rows.append(f"{to_go:5} {p.angle_deg:7.0f} {flown} {p.distance_nm:10.1f} NM")
    angles = (f"{nm} NM: {spoken_degrees(angle_for_distance_deg(nm))}." for nm in (5, 10, 20, 30))
    return "\n".join([*rows, " ".join(angles)])


@offered
def lead_table(**start: float | bool) -> str:
    """Return how early to turn onto the course, in miles, degrees and seconds, by the angle."""
    rows = ["angle   lead      at 5 NM      at 10 NM    seconds   (100 kt)"]
    for angle in (90, 60, 45, 30):
        p = _plan(InterceptState(**start | {"angle_deg": angle}))  # type: ignore[arg-type]
        near, far = (float(one_in_sixty_deg(p.lead_nm, out_nm)) for out_nm in (5, 10))
        lead = f"{angle:5} {p.lead_nm:6.2f} NM {near:6.1f} deg {far:8.1f} deg"
        rows.append(f"{lead} {p.lead_s:7.0f}")
    return "\n".join(rows)


def _plan(state: InterceptState) -> Intercept:
    if state.plan is None:
        raise ValueError(state.problem)
    return state.plan


@offered
def off_course_table() -> str:
    """Return how wide a dot is, by the rule of one in sixty and exactly."""
    rows = []
    for far in (6, 15, 30, 60):
        rule, exact = float(off_course_rule_nm(1, far)), float(off_course_nm(1, far))
        rows.append(f"{far:2d} NM out: 1 dot is {rule:.1f} NM by the rule, {exact:.2f} NM exactly")
    return "\n".join(rows)


@offered
def pilots_table() -> str:
    """Return how the pilot who chases the needle and the one who brackets fly near the station."""
    rows = []
    for who in ("the needle-chasing pilot", "the bracketing pilot"):
        flown = TrackingState(seed=1, pilot=who, distance_nm=12.0).replays[0][1]
        near = (flown.distance_nm < 5) & (flown.distance_nm > 1)
        flying, dots = flown.heading_deg[near], abs(flown.flown.reading.dots[near]).max()
        headings = f"headings {min(flying):03.0f} to {max(flying):03.0f}"
        rows.append(f"{who}: {headings}, up to {dots:.1f} dots off")
    return "\n".join(rows)
