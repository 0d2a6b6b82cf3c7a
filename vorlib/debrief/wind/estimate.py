"""Estimate the wind from a track: velocities over the ground lie on a circle about the wind.

At one airspeed in one wind the velocities over the ground in all directions make a circle: its
center is the wind, its radius the true airspeed. An estimate, and only as good as airspeed and wind
were steady.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from vorlib.aircraft.flight import Flight
from vorlib.aircraft.ground_track import GAP_S, BoolArray, OverGround, over_ground
from vorlib.aircraft.wind import Wind
from vorlib.core.angles import COMPASS_POINTS, format_direction, wrap_360
from vorlib.core.arguments import FloatArray, positive
from vorlib.core.words import spoken_degrees
from vorlib.debrief.wind.circle_fit import LEG_S, UNKNOWNS, FittedCircle, fit_circle

__all__ = ["WindEstimate", "air_heading_deg", "estimate_wind"]

# What is taken from the track, chosen for a point every one to ten seconds.
APART_S = 3.0  # velocities so far apart in time
STANDING_KT = 30.0  # slower is on the ground
LEAP = 3.0  # times the usual speed: no flight, but a wrong point
CLIMBING_FT_MIN = 300.0  # a climb or descent is flown at another airspeed
CLIMB_BASE_S = 30.0  # over which a climb is measured

# What is told. Twice the standard deviation is meant by "give or take".
WORST_KT = 6.0  # a less certain wind is not told
LEAST_SHARE = 0.5  # of the velocities, that must fit
CHANGED = (
    "The track does not tell the wind: its legs disagree, perhaps because airspeed or wind changed"
)


@dataclass(frozen=True)
class WindEstimate:
    """A wind estimated from a track.

    Attributes
    ----------
    wind
        True wind; None where the track does not tell.
    true_airspeed_kt
        The airspeed that goes with it; None without a wind.
    give_or_take_kt, give_or_take_deg
        Twice the standard deviation of the wind's speed and direction, the direction at most 180.
    share
        Share of the velocities that one wind and one airspeed fit.
    words
        The estimate in a sentence, or why there is none.
    """

    wind: Wind | None
    true_airspeed_kt: float | None
    give_or_take_kt: float
    give_or_take_deg: float
    share: float
    words: str


def estimate_wind(
    flight: Flight,
    true_airspeed_kt: float | None = None,
    gap_s: float = GAP_S,
    flying: BoolArray | None = None,
) -> WindEstimate:
    """Return the wind that a flight's track tells.

    Parameters
    ----------
    flight
        The flight; only its times and places are used.
    true_airspeed_kt
        The airspeed if it is known, so that two directions are enough. With one direction alone
        nothing but the headwind can be told, and that is said in words.
    gap_s
        No velocity is taken across a silence longer than this.
    flying
        Where the aircraft flew at its usual speed, of shape (n,); everywhere if not given.

    Raises
    ------
    ValueError
        If the airspeed is not a positive number.
    """
    if true_airspeed_kt is not None:
        true_airspeed_kt = float(positive("true_airspeed_kt", true_airspeed_kt, "kt"))
    ground = over_ground(flight, gap_s)
    velocity, apart_s = _velocities(flight, ground, flying)
    if velocity.shape[1] * apart_s < LEG_S:
        return _none("The track is too short to tell the wind from.")
    circle = fit_circle(velocity, apart_s, true_airspeed_kt)
    words = _refusal(velocity, apart_s, circle, true_airspeed_kt)
    return _none(words) if words or circle is None else _told(circle)


def air_heading_deg(ground: OverGround, wind: Wind) -> FloatArray:
    """Return the true headings that velocities over the ground mean in a wind, in (0, 360]."""
    north, east = ground.north_east_kt - _toward_kt(wind)[:, np.newaxis]
    return np.asarray(wrap_360(np.degrees(np.arctan2(east, north))))


def _toward_kt(wind: Wind) -> FloatArray:
    """Return the wind's velocity, north and east, in knots."""
    at = math.radians(float(wind.from_deg))
    return -float(wind.speed_kt) * np.array([math.cos(at), math.sin(at)])


def _velocities(
    flight: Flight, ground: OverGround, flying: BoolArray | None
) -> tuple[FloatArray, float]:
    """Velocities in level flight, north and east, and how many seconds each stands for."""
    time_s = ground.time_s
    altitude = np.broadcast_to(np.asarray(flight.position.altitude_ft), time_s.shape)
    half = CLIMB_BASE_S / 2.0
    change = np.interp(time_s + half, time_s, altitude) - np.interp(time_s - half, time_s, altitude)
    climb = change / (CLIMB_BASE_S / 60.0)
    speed = ground.groundspeed_kt
    moving = ground.known & (speed > STANDING_KT)
    if flying is not None:
        moving &= flying
    # A point several times as fast as the rest is wrong.
    usual = float(np.median(speed[moving])) if moving.any() else 0.0
    good = moving & (speed < LEAP * usual) & (abs(climb) < CLIMBING_FT_MIN)
    # One velocity for each few seconds: more of them would tell nothing new.
    slot = np.floor(time_s / APART_S)
    first = np.diff(slot, prepend=-1.0) > 0.0
    kept = np.flatnonzero(good & first)
    step = float(np.median(np.diff(time_s[first]))) if first.sum() > 1 else APART_S
    return ground.north_east_kt[:, kept], max(step, APART_S)


def _refusal(
    velocity: FloatArray, apart_s: float, circle: FittedCircle | None, airspeed: float | None
) -> str:
    """Why the wind cannot be told, or nothing."""
    flown = _directions(velocity, apart_s)
    if circle is not None and _worst_kt(circle) <= WORST_KT and circle.radius_kt > STANDING_KT:
        steady = _share(circle) >= LEAST_SHARE
        return "" if steady else f"{CHANGED}: no single airspeed and wind fit even half of it."
    if circle is not None and len(flown) > UNKNOWNS:
        return f"{CHANGED}: the wind would be unsure by {_worst_kt(circle):.0f} kt."
    words = (
        "The track does not tell the wind: it went in too few directions "
        f"({', '.join(flown) or 'none'} for half a minute or more). Three that differ by 60 "
        "degrees or more are needed, or a turn through most of a circle."
    )
    if airspeed is not None and len(flown) <= 1:
        head = airspeed - float(np.median(np.hypot(*velocity)))
        words += (
            f" At {airspeed:.0f} kt true airspeed one direction shows a "
            f"{'headwind' if head >= 0.0 else 'tailwind'} of about {abs(head):.0f} kt along the "
            "track, if there was little crosswind; the crosswind itself it does not show."
        )
    return words


def _share(circle: FittedCircle) -> float:
    """Return the share of velocities within about two and a half standard deviations."""
    return float(np.mean(circle.weight > 0.5))


def _directions(velocity: FloatArray, apart_s: float) -> list[str]:
    """Return the eighths of the compass flown for some time, in words."""
    eighth = np.round(np.degrees(np.arctan2(velocity[1], velocity[0])) / 45.0).astype(int) % 8
    seconds = np.bincount(eighth, minlength=8) * apart_s
    return [COMPASS_POINTS[i] for i in np.flatnonzero(seconds >= LEG_S)]


def _worst_kt(circle: FittedCircle) -> float:
    """Return twice the standard deviation of the wind in its least sure direction."""
    return 2.0 * math.sqrt(float(np.linalg.eigvalsh(circle.covariance[:2, :2])[-1]))


def _told(circle: FittedCircle) -> WindEstimate:
    speed = math.hypot(circle.north_kt, circle.east_kt)
    wind = Wind(math.degrees(math.atan2(-circle.east_kt, -circle.north_kt)), speed)
    along = np.array([circle.north_kt, circle.east_kt]) / max(speed, 1e-9)
    across = np.array([-along[1], along[0]])
    center = circle.covariance[:2, :2]
    give_kt = 2.0 * math.sqrt(float(along @ center @ along)) if speed else _worst_kt(circle)
    give_across = 2.0 * math.sqrt(float(across @ center @ across)) if speed else _worst_kt(circle)
    give_deg = math.degrees(math.asin(give_across / speed)) if give_across < speed else 180.0
    share = _share(circle)
    if give_deg >= 90.0:
        blowing = f"{speed:.0f} kt, too little to tell from where"
    else:
        blowing = (
            f"from {format_direction(float(wind.from_deg))} true at {speed:.0f} kt, give or take "
            f"{max(give_kt, 1.0):.0f} kt and {spoken_degrees(max(give_deg, 2.0))}"
        )
    words = (
        f"Wind estimated from the track: {blowing}, with a true airspeed of about "
        f"{circle.radius_kt:.0f} kt; both are taken as steady, as they were for "
        f"{100.0 * share:.0f} % of the level flight."
    )
    return WindEstimate(wind, circle.radius_kt, give_kt, give_deg, share, words)


def _none(words: str) -> WindEstimate:
    return WindEstimate(None, None, math.inf, 180.0, 0.0, words)
