"""Find the stations passed on a flight, from flag and radial."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from vorlib.core.angles import difference_deg
from vorlib.debrief.findings import Passage
from vorlib.debrief.habits.turns import LEAST_TURN_DEG
from vorlib.debrief.indicator_history import ESTABLISHED_TRACK_DEG, IndicatorHistory
from vorlib.vor.receiver import Flag, Reason

__all__ = ["passages"]

ABEAM_NM = 3.0  # nobody who flies its course passes a station farther away
NEAREST_S = 60.0  # how long before or after the flag reverses the station may be nearest
ACTED_S = 120.0  # how long after a passage a new course still belongs to it
ACROSS_DEG = 60.0  # radials of entering and leaving this far apart mean a passage
BEFORE_PASSAGE_S = 30.0  # how long before a passage the heading should be held


def passages(seen: IndicatorHistory) -> Iterator[Passage]:
    """Yield the passages, overhead or abeam, in order of time."""
    shown = np.flatnonzero(seen.flag != Flag.OFF)
    befores, afters = shown[:-1], shown[1:]
    reversed_ = (seen.flag[befores] == Flag.TO) & (seen.flag[afters] == Flag.FROM)
    turned_deg = abs(difference_deg(seen.radial_deg[afters], seen.radial_deg[befores]))
    # Over the station whatever was selected: with the course that leads back FROM turns to TO.
    across = (afters - befores > 1) & (turned_deg > ACROSS_DEG)
    heading = np.unwrap(seen.heading_deg, period=360.0)
    some = reversed_ | across
    for last, first, over in zip(befores[some], afters[some], across[some], strict=True):
        between = seen.reason[last + 1 : first]
        overhead = bool(np.any(between == Reason.CONE))
        turned_ring = seen.course_deg[last] != seen.course_deg[first]
        elsewhere = not np.all(np.isin(between, (Reason.CONE, Reason.ABEAM)))
        retuned = seen.tuned_number[last] != seen.tuned_number[first]
        same = seen.segment == seen.segment[first]
        flags = Flag(int(seen.flag[last])), Flag(int(seen.flag[first]))
        along = overhead or (
            seen.line_angle_deg[first] <= ESTABLISHED_TRACK_DEG
            and seen.distance_nm[last] <= ABEAM_NM
        )
        about = np.flatnonzero(
            same
            & (seen.tuned_number == seen.tuned_number[first])
            & (seen.time_s >= seen.time_s[last] - NEAREST_S)
            & (seen.time_s <= seen.time_s[first] + NEAREST_S)
        )
        nearest = int(about[np.argmin(seen.distance_nm[about])])
        # A turn past the station onto the selected course is not a passage.
        by = about[0] < nearest < about[-1] and seen.course_deg[nearest] == seen.course_deg[last]
        abeam = flags == (Flag.TO, Flag.FROM) and not turned_ring and along and by
        if retuned or elsewhere or not (abeam or (overhead and over)) or not same[last]:
            continue
        time_s = float(seen.time_s[first])
        before = same & (seen.time_s >= time_s - BEFORE_PASSAGE_S) & (seen.time_s <= time_s)
        after = same & (seen.time_s >= seen.time_s[last]) & (seen.time_s <= time_s + ACTED_S)
        moved_deg = abs(difference_deg(seen.course_deg[after], seen.course_deg[last]))
        acted = seen.time_s[after][moved_deg >= LEAST_TURN_DEG] - time_s
        yield Passage(
            station_name=seen.tuned[first].name,
            time_s=time_s,
            nearest_s=float(seen.time_s[nearest]),
            distance_nm=float(seen.distance_nm[nearest]),
            overhead=overhead,
            flags=flags,
            heading_swing_deg=float(np.ptp(heading[before])),
            course_changed_s=float(acted[0]) if acted.size else None,
        )
