"""A debrief of a simulated lesson held against what happened on it."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

import lesson_flights as flown
import numpy as np

import vorlib as v
from vorlib.aircraft.ground_track import GAP_S
from vorlib.debrief.recorded import RecordedDebrief, debrief_recording
from vorlib.tracks.points import Points
from vorlib.tracks.recording import recording
from vorlib.tracks.selections import Selection

BEGIN = datetime(2026, 6, 1, 9, 0, tzinfo=UTC)
STATION = v.Station(
    "SIM", v.Position(*flown.STATION, 0.0), flown.DECLINATION_DEG, 113.4, name="Simula", service="H"
)
WIND_KT, WIND_DEG, RADIAL_DEG, PASSED_S, ENDS_S = 3.0, 10.0, 0.3, 3.0, 10.0
LIGHT_KT = 8.0  # 10 degrees of less wind are hardly a knot
GLANCE_S = 30.0  # what was tracked for less need not be found
NEAR_S = 90.0  # an intercept is that of a course met so long before or after


@dataclass
class Judged:
    """How far a debrief is from the truth; lists of errors, and findings in words."""

    wind_kt: list[float] = field(default_factory=list)
    wind_deg: list[float] = field(default_factory=list)
    radial_deg: list[float] = field(default_factory=list)
    passed_s: list[float] = field(default_factory=list)
    begin_s: list[float] = field(default_factory=list)
    end_s: list[float] = field(default_factory=list)
    air_s: list[float] = field(default_factory=list)
    missed: list[str] = field(default_factory=list)
    invented: list[str] = field(default_factory=list)

    def add(self, other: Judged) -> None:
        """Add what was judged of another flight."""
        for name, values in vars(self).items():
            values += getattr(other, name)


def debriefed(seed: int, every_s: int, *, height: bool) -> tuple[RecordedDebrief, Any, Any]:
    """Return the debrief of a lesson, the lesson and its recording."""
    one = flown.lesson(seed)
    kept = flown.recorded(one, seed, every_s, height=height)
    n = len(kept.time_s)
    none = np.full(n, np.nan)
    points = Points(
        kept.time_s + BEGIN.timestamp(),
        kept.lat_deg,
        kept.lon_deg,
        none if kept.altitude_ft is None else kept.altitude_ft,
        none,
        none,
        np.ones(n, dtype=int),
        np.arange(n),
    )
    read = recording(points, None, None if height else one.cruise_ft)
    first_s = float(kept.time_s[0])
    chosen = []
    for i, (time_s, course) in enumerate(one.rows):
        if course is not None:
            ends = [at for at, what in one.rows[i + 1 :] if what is None]
            until = ends[0] - first_s if ends else np.inf
            magnetic = course - STATION.declination_deg
            chosen.append(Selection(time_s - first_s, STATION, magnetic, until))
    return debrief_recording(read.flight, chosen, start=read.start), one, kept


def judged(seed: int, every_s: int, *, height: bool) -> Judged:
    """Return how far the debrief of a lesson is from the truth."""
    made, one, kept = debriefed(seed, every_s, height=height)
    truth, first_s, path = one.truth, float(kept.time_s[0]), np.array(one.path)
    it = Judged()
    _wind(it, made, path, truth)
    _tracked(it, made, one, kept, first_s, path)
    passages = list(made.found.passages)
    for at in truth.passed:
        near = [p for p in passages if abs(p.nearest_s + first_s - at) < 60.0]
        if near:
            it.passed_s.append(near[0].nearest_s + first_s - at)
            passages.remove(near[0])
        else:
            it.missed.append(f"passage {at:.0f}")
    it.invented += [p.words for p in passages if not _went_by(path, p.nearest_s + first_s)]
    turns = list(made.found.wrong_turns)
    for at in truth.wrong:
        near = [t for t in turns if -15.0 < t.time_s + first_s - at < 30.0]
        if near:
            turns.remove(near[0])
        else:
            it.missed.append(f"wrong turn {at:.0f}")
    it.invented += [t.words for t in turns]
    begins = [begin for begin, *_ in truth.tracked]
    for met in made.found.intercepts:
        if not any(abs(met.time_s + first_s - at) < NEAR_S for at in begins):
            it.invented.append(met.words)
    it.invented += [one.words for one in (*made.found.unassured, *made.found.habits)]
    _air(it, made, truth, first_s)
    return it


def _went_by(path: Any, at_s: float) -> bool:
    """Whether the station was nearest about then, though no lesson called for it."""
    about = path[abs(path[:, 0] - at_s) < 60.0]
    nm = np.hypot(about[:, 1], about[:, 2])
    return bool(abs(about[np.argmin(nm), 0] - at_s) < 2.0 * PASSED_S)


def _wind(it: Judged, made: RecordedDebrief, path: Any, truth: Any) -> None:
    wind = made.wind.wind
    if wind is None:
        it.missed.append("wind")
        return
    air = np.zeros(len(path), dtype=bool)
    for up, down in truth.air:
        air |= (path[:, 0] > up) & (path[:, 0] < down)
    north, east = path[air, 6].mean(), path[air, 7].mean()
    it.wind_kt.append(float(wind.speed_kt) - float(np.hypot(north, east)))
    came = np.degrees(np.arctan2(-east, -north))
    if np.hypot(north, east) > LIGHT_KT:
        it.wind_deg.append(flown.apart_deg(float(wind.from_deg), came))


def _pieces(begin: float, end: float, gaps: Any) -> list[tuple[float, float]]:
    cut = [(a, b) for a, b in sorted(gaps) if b - a > GAP_S and begin < a < end]
    edges = [begin, *(at for gap in cut for at in gap), end]
    return list(zip(edges[::2], edges[1::2], strict=True))


def _tracked(
    it: Judged, made: RecordedDebrief, one: Any, kept: Any, first_s: float, path: Any
) -> None:
    phases = list(made.found.phases)
    azimuth = np.degrees(np.arctan2(path[:, 1], path[:, 2]))
    for begin, end, course, inbound in one.truth.tracked:
        for a, b in _pieces(begin, end, kept.gaps):
            over = [
                p for p in phases if min(p.end_s + first_s, b) - max(p.begin_s + first_s, a) > 0.0
            ]
            if b - a <= GLANCE_S:
                for p in over:
                    phases.remove(p)
                continue
            if not over:
                it.missed.append(f"tracking {a:.0f} to {b:.0f}")
                continue
            it.begin_s.append(over[0].begin_s + first_s - a)
            it.end_s.append(over[-1].end_s + first_s - b)
            if len(over) > 1:
                it.invented.append(f"{len(over)} phases for one: {[p.words for p in over]}")
            for p in over:
                phases.remove(p)
                part = (path[:, 0] >= p.begin_s + first_s) & (path[:, 0] <= p.end_s + first_s)
                line = course + 180.0 * inbound
                apart = (azimuth[part] - line + 180.0) % 360.0 - 180.0
                held = line + float(apart.mean()) - STATION.declination_deg
                it.radial_deg.append(flown.apart_deg(p.mean_radial_deg, held))
    it.invented += [p.words for p in phases]


def _air(it: Judged, made: RecordedDebrief, truth: Any, first_s: float) -> None:
    change = np.flatnonzero(np.diff(made.air.flying.astype(int)))
    found = [float(made.seen.time_s[i + 1]) + first_s for i in change.tolist()]
    known = [at for pair in truth.air for at in pair]
    if len(found) != len(known):
        it.invented.append(f"{len(found)} lift-offs and landings for {len(known)}")
        return
    it.air_s += [a - b for a, b in zip(found, known, strict=True)]
