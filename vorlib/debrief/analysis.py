"""The debrief of a flight: what was held, overshot, passed and turned the wrong way.

Every finding has its numbers and a sentence. Nothing is known but the flight, the station tuned
and the course selected at each moment.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike

from vorlib.aircraft.flight import Flight
from vorlib.aircraft.ground_track import BoolArray, IntArray, runs
from vorlib.core.angles import wrap_360
from vorlib.core.arguments import FloatArray
from vorlib.debrief.findings import (
    CROSSED_DOTS,
    LIMIT_DEG,
    SHORTEST_PHASE_S,
    SHORTEST_S,
    Intercepted,
    Phase,
    Unassured,
)
from vorlib.debrief.habits.search import habits, homing
from vorlib.debrief.habits.turns import corrections, wrong_turns
from vorlib.debrief.indicator_history import (
    ESTABLISHED_DOTS,
    IndicatorHistory,
    indicator_history,
)
from vorlib.debrief.passages import passages
from vorlib.debrief.summary import Debrief
from vorlib.vor.receiver import DEG_PER_DOT, DOTS_FULL_SCALE, FULL_SCALE_DEG, Flag
from vorlib.vor.station import Station

__all__ = ["Debrief", "debrief", "debrief_history"]

PARALLEL_DEG = 5.0  # a track so near the course line follows it
JUST_SELECTED_S = 10.0  # a line crossed so soon after its course was selected was not met yet
OVERSHOT_S = 180.0  # how long after the line was met its overshoot may last
ROLLED_OUT_S = 60.0  # and how long after the track is along the line
SURE_JITTERS = 3.0  # a place is surely off the line by so many times what it may jump about


def debrief(
    flight: Flight,
    station: Station | Sequence[Station],
    course_deg: ArrayLike,
    variation_deg: float | None = None,
    gap_s: float = math.inf,
    identified: ArrayLike | None = None,
) -> Debrief:
    """Return the findings in a flight whose stations and courses are known as they were set.

    Parameters
    ----------
    flight
        The flight, with n moments; none at all is a short one.
    station, course_deg
        The station tuned and the course selected, one or n of each.
    variation_deg
        Variation of the compass, positive east; the stations' declinations if none is given.
    gap_s
        Nothing is found across a silence longer than this.
    identified
        Whether the ident of the station tuned had been taken, at each moment; unknown if not given.

    Raises
    ------
    ValueError
        If there are not as many stations or courses as moments.
    """
    seen = indicator_history(flight, station, course_deg, variation_deg, gap_s)
    if not seen.time_s.size:
        return Debrief()
    homed = homing(seen)
    found = debrief_history(seen, apart=homed)
    taken = None if identified is None else np.asarray(identified, dtype=bool)
    return replace(found, habits=habits(seen, homed, found.wrong_turns, taken))


def debrief_history(
    seen: IndicatorHistory,
    jitter_nm: float = 0.0,
    flown_s: float | None = None,
    apart: BoolArray | None = None,
) -> Debrief:
    """Return the findings in a flight, given what its indicator showed.

    Parameters
    ----------
    seen
        The flight.
    jitter_nm
        By how much its places jump about, as a recorder leaves them: the needle has not crossed
        the center where no more than that may have.
    flown_s
        How long it was in the air, in seconds; all the time if not given.
    apart
        Moments at which no course was tracked, whatever the needle showed.
    """
    if not seen.time_s.size:
        return Debrief()
    apart = np.zeros(seen.time_s.size, dtype=bool) if apart is None else apart
    shown = seen.established & (seen.flag != Flag.OFF) & ~apart
    off, two_dots_deg = abs(seen.deviation_deg), ESTABLISHED_DOTS * DEG_PER_DOT
    into = _crossings(seen, jitter_nm)
    return Debrief(
        duration_s=float(seen.lasting_s.sum()) if flown_s is None else flown_s,
        established_s=_seconds(seen, shown),
        outside_two_dots_s=_seconds(seen, shown & (off > two_dots_deg)),
        outside_full_scale_s=_seconds(seen, shown & (off > FULL_SCALE_DEG)),
        crossings=len(into),
        intercepts=tuple(_intercepts(seen, into)),
        corrections=corrections(seen),
        phases=tuple(_phases(seen, into, apart)),
        passages=tuple(passages(seen)),
        wrong_turns=tuple(wrong_turns(seen)),
        unassured=tuple(_unassured(seen)),
    )


def _seconds(seen: IndicatorHistory, when: BoolArray) -> float:
    return float(seen.lasting_s[when].sum())


def _crossings(seen: IndicatorHistory, jitter_nm: float) -> IntArray:
    """Return the moments at which the needle has crossed since it was last off center."""
    off_nm = seen.distance_nm * np.sin(np.radians(abs(seen.deviation_deg)))
    sure = (abs(seen.dots) > CROSSED_DOTS) & (off_nm > SURE_JITTERS * jitter_nm)
    off = np.flatnonzero(sure & (seen.flag != Flag.OFF))
    side, leg = np.sign(seen.dots[off]), seen.leg[off]
    crossed: IntArray = off[1:][(side[1:] != side[:-1]) & (leg[1:] == leg[:-1])]
    return crossed


def _intercepts(seen: IndicatorHistory, crossings: IntArray) -> Iterator[Intercepted]:
    off = abs(seen.deviation_deg)
    off_nm = seen.distance_nm * np.sin(np.radians(off))
    parallel = seen.on_course & (seen.line_angle_deg < PARALLEL_DEG)
    for begin, end in runs(seen.attempt):
        settled = begin + np.flatnonzero(seen.turned_onto[begin:end])
        if not settled.size:
            continue
        # A crossing long before was on the way to somewhere else.
        since_s = seen.time_s[settled[0]] - OVERSHOT_S
        since_s = max(since_s, min(seen.time_s[begin] + JUST_SELECTED_S, seen.time_s[settled[0]]))
        begin = max(begin, int(np.searchsorted(seen.time_s, since_s)))
        on = begin + np.flatnonzero(seen.on_course[begin:end])
        if off[begin : on[0] + 1].max() <= ESTABLISHED_DOTS * DEG_PER_DOT:
            continue
        met, worst = int(on[0]), -1
        crossed = crossings[(crossings >= begin) & (crossings < end)]
        if crossed.size and not np.any(parallel[begin : crossed[0]]):
            met, back = int(crossed[0]), int(crossed[1]) if crossed.size > 1 else end
            back = min(back, _turned_along(seen, met))
            past = met + np.flatnonzero(seen.leg[met:back] == seen.leg[met])
            worst = int(past[np.argmax(off_nm[past])])
        past_deg = float(off[worst]) if worst >= 0 else 0.0
        yield Intercepted(
            station_name=seen.tuned[begin].name,
            course_deg=float(seen.course_deg[begin]),
            time_s=float(seen.time_s[met]),
            overshoot_dots=min(past_deg / DEG_PER_DOT, float(DOTS_FULL_SCALE)),
            overshoot_deg=past_deg,
            overshoot_nm=float(off_nm[worst]) if worst >= 0 else 0.0,
        )


def _turned_along(seen: IndicatorHistory, met: int) -> int:
    """Index at which the turn onto a line met has been over for some time: what follows is drift.

    The number of moments if that never comes.
    """
    drifting = met + np.flatnonzero(seen.drifting[met:])
    if not drifting.size:
        return seen.time_s.size
    over_s = seen.time_s[drifting[0]] + ROLLED_OUT_S
    return int(np.searchsorted(seen.time_s, over_s, "right"))


def _phases(seen: IndicatorHistory, crossings: IntArray, apart: BoolArray) -> Iterator[Phase]:
    tracking = seen.tracking & ~apart
    for begin, end in runs(np.where(tracking, seen.leg, -1)):
        begin_s, end_s = float(seen.time_s[begin]), float(seen.time_s[end - 1])
        if not tracking[begin] or end_s - begin_s < SHORTEST_PHASE_S:
            continue
        off, lasting = seen.deviation_deg[begin:end], _about_s(seen.time_s[begin:end])
        off_nm = seen.distance_nm[begin:end] * np.sin(np.radians(off))
        mean = float(np.average(off, weights=lasting))
        course, flag = float(seen.course_deg[begin]), Flag(int(seen.flag[begin]))
        radial = course + 180.0 + mean if flag == Flag.TO else course - mean
        worst = int(np.argmax(abs(off)))
        yield Phase(
            station_name=seen.tuned[begin].name,
            course_deg=course,
            flag=flag,
            begin_s=begin_s,
            end_s=end_s,
            mean_radial_deg=float(wrap_360(radial)),
            mean_off_deg=mean,
            mean_away_deg=float(np.average(abs(off), weights=lasting)),
            mean_away_nm=float(np.average(abs(off_nm), weights=lasting)),
            largest_off_deg=float(abs(off[worst])),
            largest_at_nm=float(seen.distance_nm[begin + worst]),
            largest_off_nm=float(abs(off_nm).max()),
            within_limit=float(np.average(abs(off) <= LIMIT_DEG, weights=lasting)),
            crossings=int(np.sum((crossings >= begin) & (crossings < end))),
        )


def _about_s(time_s: FloatArray) -> FloatArray:
    """Return each moment's share of time: half of the interval before and half of that after."""
    half = np.diff(time_s) / 2.0
    about: FloatArray = np.append(half, 0.0) + np.append(0.0, half)
    return about


def _unassured(seen: IndicatorHistory) -> Iterator[Unassured]:
    """Yield times with a live flag outside the service volume, whatever was selected meanwhile."""
    live = (seen.flag != Flag.OFF) & ~seen.assured
    both = seen.segment * (seen.tuned_number.max() + 1) + seen.tuned_number
    for begin, end in runs(np.where(live, both, -1)):
        begin_s, end_s = float(seen.time_s[begin]), float(seen.time_s[end - 1])
        if live[begin] and end_s - begin_s >= SHORTEST_S:
            yield Unassured(seen.tuned[begin].name, begin_s, end_s)
