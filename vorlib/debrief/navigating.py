"""Find when a pilot was flying by what was selected."""

from __future__ import annotations

import numpy as np

from vorlib.aircraft.ground_track import BoolArray, IntArray, runs
from vorlib.debrief.airborne import Airborne
from vorlib.debrief.indicator_history import CORRECTION_DEG, IndicatorHistory

__all__ = ["navigating"]

BACK_S = 240.0  # back on the course this soon, the pilot had not left it, as in a hold


def navigating(seen: IndicatorHistory, selection: IntArray, air: Airborne) -> BoolArray:
    """Return True where a course was flown by, of shape (n,).

    A selection is flown by in the air, on the first leg away from the field on which it holds, and
    until the pilot leaves the course for good: no circuit and no landing lies in it.

    Parameters
    ----------
    seen
        The flight with what its indicator showed.
    selection
        Which selection holds at each moment; -1 for none.
    air
        When it was in the air.
    """
    flown = air.away & (selection >= 0)
    for number in np.unique(selection[flown]).tolist():
        held = flown & (selection == number)
        flown &= ~held | (air.leg == air.leg[np.argmax(held)])
    judged = seen.judging(flown)
    for number in np.unique(selection[flown]).tolist():
        held = np.flatnonzero(flown & (selection == number))
        flown[held[_left(judged, held) :]] = False
    return flown


def _left(judged: IndicatorHistory, held: IntArray) -> int:
    """How many of the moments of a selection pass before its course is left for good."""
    time_s, leaving = judged.time_s[held], judged.leaving[held]
    gone = leaving & (judged.line_angle_deg[held] > CORRECTION_DEG)
    settled = judged.on_course[held] & judged.drifting[held] & ~leaving
    for begin, end in runs(leaving):
        if not leaving[begin] or not gone[begin:end].any() or not settled[:begin].any():
            continue
        again = np.flatnonzero(settled[end:])
        if not again.size or time_s[end + again[0]] - time_s[begin] > BACK_S:
            return begin
    return held.size
