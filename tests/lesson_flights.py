"""Lessons flown from start-up to shut-down, seeded, and what a recorder leaves of each.

Nothing of the library flies here: a point over the ground in a gusty wind, on the plane that keeps
azimuth and distance from the station. All is invented.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

import numpy as np
from pyproj import Geod

STATION = (46.2, -29.7)
DECLINATION_DEG = -9.0
STEP_S = 0.5
CRUISE_KT, CLIMB_KT, APPROACH_KT, LIFT_KT = 102.0, 75.0, 65.0, 55.0
CONE_DEG, FULL_SCALE_DEG = 50.0, 10.0
FEET_PER_NM, METERS_PER_NM = 6076.12, 1852.0
TURN_DEG_S = 3.0
HELD_S = 10.0  # a course crossed at a glance is not tracked yet


def apart_deg(one: float, other: float) -> float:
    """Return how far one direction is clockwise of another, -180 to 180."""
    return (one - other + 180.0) % 360.0 - 180.0


@dataclass
class Truth:
    """What happened, in seconds of the flight."""

    air: list[list[float]] = field(default_factory=list)  # lift-off and landing
    tracked: list[list[Any]] = field(default_factory=list)  # begin, end, course, TO or FROM
    passed: list[float] = field(default_factory=list)  # nearest
    wrong: list[float] = field(default_factory=list)  # turns away from the line
    touches: int = 0

    @property
    def times(self) -> list[float]:
        """Return when anything happened."""
        ends = [at for pair in (*self.air, *self.tracked) for at in pair[:2]]
        return [*ends, *self.passed, *self.wrong]


class Lesson:
    """One flight, flown as it is written down: azimuths true, distances in NM from the station."""

    def __init__(self, seed: int) -> None:
        self.rng = rng = np.random.default_rng(seed)
        self.wind_from, self.wind_kt = rng.uniform(0.0, 360.0), rng.uniform(4.0, 24.0)
        self.gust = [0.0, 0.0]
        self.gusty_kt, self.wander = rng.uniform(0.5, 2.5), 0.0
        self.skill_deg = rng.uniform(0.5, 2.0)
        azimuth, nm = rng.uniform(0.0, 360.0), rng.uniform(6.0, 11.0)
        self.field = nm * math.sin(math.radians(azimuth)), nm * math.cos(math.radians(azimuth))
        self.x, self.y = self.field
        self.runway = round(self.wind_from + rng.uniform(-25.0, 25.0), -1) % 360.0
        self.elevation = float(rng.integers(0, 900))
        self.cruise_ft = self.elevation + float(rng.integers(25, 45)) * 100.0
        self.heading, self.tas, self.alt, self.time = self.runway, 0.0, self.elevation, 0.0
        self.speed, self.track = 0.0, self.heading
        self.rows: list[tuple[float, float | None]] = []
        self.path: list[tuple[float, ...]] = []
        self.truth = Truth()
        self._fly()

    # ---- the aircraft

    def step(self, heading: float, tas: float, alt: float, rate: float = TURN_DEG_S) -> None:
        """Fly half a second toward a heading, an airspeed and an altitude."""
        self._gust()
        turn = apart_deg(heading, self.heading)
        self.heading += max(-rate * STEP_S, min(rate * STEP_S, turn))
        self.tas += max(-1.0, min(1.0, tas - self.tas))
        self.alt += max(-600.0, min(700.0, (alt - self.alt) * 6.0)) / 60.0 * STEP_S
        north, east = self._wind()
        north += self.tas * math.cos(math.radians(self.heading))
        east += self.tas * math.sin(math.radians(self.heading))
        self._move(north, east)

    def roll(self, heading: float, speed: float, rate_kt_s: float) -> None:
        """Roll half a second over the ground toward a speed."""
        self._gust()
        turn = apart_deg(heading, self.heading)
        self.heading += max(-8.0 * STEP_S, min(8.0 * STEP_S, turn))
        change = rate_kt_s * STEP_S
        self.speed += max(-change, min(change, speed - self.speed))
        self.alt = self.elevation
        angle = math.radians(self.heading)
        self._move(self.speed * math.cos(angle), self.speed * math.sin(angle))

    def _move(self, north: float, east: float) -> None:
        self.x += east * STEP_S / 3600.0
        self.y += north * STEP_S / 3600.0
        self.speed = math.hypot(north, east)
        if self.speed > 1.0:
            self.track = math.degrees(math.atan2(east, north))
        self.time += STEP_S
        wind = self._wind()
        self.path.append((self.time, self.x, self.y, self.alt, self.track, self.heading, *wind))

    def _gust(self) -> None:
        keep = math.exp(-STEP_S / 30.0)
        more = self.gusty_kt * math.sqrt(1.0 - keep * keep)
        self.gust = [keep * g + more * self.rng.normal() for g in self.gust]
        keep = math.exp(-STEP_S / 20.0)
        more = self.skill_deg * math.sqrt(1.0 - keep * keep)
        self.wander = keep * self.wander + more * self.rng.normal()

    def _wind(self) -> tuple[float, float]:
        angle = math.radians(self.wind_from + 180.0)
        north, east = self.wind_kt * math.cos(angle), self.wind_kt * math.sin(angle)
        return north + self.gust[0], east + self.gust[1]

    def headwind(self) -> float:
        """Return the wind against the runway's direction."""
        return self.wind_kt * math.cos(math.radians(apart_deg(self.wind_from, self.runway)))

    def crabbed(self, track: float, tas: float) -> float:
        """Return the heading that makes good a track in the mean wind."""
        across = self.wind_kt * math.sin(math.radians(apart_deg(self.wind_from, track)))
        return track + math.degrees(math.asin(max(-0.7, min(0.7, across / tas))))

    # ---- the lesson

    def select(self, course_true: float | None) -> None:
        """Write a row of the log."""
        self.rows.append((self.time, course_true))

    def azimuth(self) -> float:
        """Return the azimuth from the station."""
        return math.degrees(math.atan2(self.x, self.y))

    def distance(self) -> float:
        """Return the distance from the station."""
        return math.hypot(self.x, self.y)

    def _fly(self) -> None:
        rng = self.rng
        first = rng.uniform(0.0, 360.0)  # the course inbound
        if rng.random() < 0.3:
            self.select(first)
        self._taxi_out()
        self._take_off()
        for _ in range(int(rng.choice([0, 0, 0, 2]))):
            self._circuit(stop=False)
        side = rng.choice([-1.0, 1.0])
        self._go_to(first + 180.0 + side * rng.uniform(22.0, 30.0), rng.uniform(14.0, 19.0))
        if not self.rows:
            self.select(first)
        self._track(first, inbound=True, until=None)
        second = first + rng.uniform(-60.0, 60.0)
        self._pass(first, second)
        self._track(second, inbound=False, until=rng.uniform(300.0, 600.0))
        self._leave(second)
        if rng.random() < 0.5:
            third = self.azimuth() + 180.0 + rng.choice([-1.0, 1.0]) * rng.uniform(20.0, 28.0)
            self.select(third)
            self._track(third, inbound=True, until=rng.uniform(200.0, 300.0))
            self._leave(third)
        self._home()
        for _ in range(int(rng.integers(0, 4))):
            self._circuit(stop=False)
        self._circuit(stop=True)
        self._taxi_in()

    def _stand(self, seconds: float) -> None:
        for _ in range(int(seconds / STEP_S)):
            self.roll(self.heading, 0.0, 3.0)

    def _taxi_out(self) -> None:
        self._stand(self.rng.uniform(60.0, 240.0))
        for heading in (self.runway + 180.0, self.runway + 90.0, self.runway):
            for _ in range(int(self.rng.uniform(40.0, 80.0) / STEP_S)):
                self.roll(heading, 14.0, 1.5)
        self._stand(self.rng.uniform(30.0, 90.0))
        self.field = self.x, self.y

    def _take_off(self) -> None:
        while self.speed + self.headwind() < LIFT_KT:
            self.roll(self.runway, 80.0, 2.2)
        self.tas = self.speed + self.headwind()
        self.heading = self.crabbed(self.runway, self.tas)
        self.truth.air.append([self.time, math.nan])
        while self.alt < self.elevation + 700.0:
            self.step(self.crabbed(self.runway, CLIMB_KT), CLIMB_KT, self.elevation + 1000.0)

    def _go_to(self, azimuth: float, nm: float) -> None:
        x = nm * math.sin(math.radians(azimuth))
        y = nm * math.cos(math.radians(azimuth))
        while math.hypot(x - self.x, y - self.y) > 0.7:
            climbing = self.alt < self.cruise_ft - 100.0
            self._toward(x, y, 85.0 if climbing else CRUISE_KT, self.cruise_ft)

    def _toward(self, x: float, y: float, tas: float, alt: float) -> None:
        track = math.degrees(math.atan2(x - self.x, y - self.y))
        self.step(self.crabbed(track, self.tas), tas, alt)

    def _off_nm(self, course: float) -> float:
        """Return how far the course line lies to the right."""
        return -self.distance() * math.sin(math.radians(self.azimuth() - course))

    def _track(self, course: float, *, inbound: bool, until: float | None) -> None:
        """Meet a course and fly it: until over the station, or for some seconds once on it."""
        rng, met, begun, settled = self.rng, None, None, None
        angle, late = rng.uniform(28.0, 45.0), rng.random() < 0.3
        style = rng.choice(["steady", "drifting", "wrong"], p=[0.6, 0.25, 0.15])
        side = math.copysign(1.0, self._off_nm(course))
        happened, since = False, self.time
        while True:
            off = self._off_nm(course)
            lead = 0.03 if late else CRUISE_KT / 3600.0 * angle / TURN_DEG_S * 0.6 * (angle / 40.0)
            if met is None and off * side < lead:
                met = self.time
            if met is None:
                self._hold(course + side * angle)
            elif (
                style == "drifting"
                and not happened
                and self.time - met < 420.0
                and (abs(off) < 0.85 * self.distance() * math.sin(math.radians(6.0)))
                and self.distance() > 4.0
            ):
                self._drift(course, met)
            elif (
                style == "wrong"
                and not happened
                and self.time - met > 90.0
                and (self.distance() > 5.0)
            ):
                self._wrong(course)
                happened = True
            else:
                happened = happened or (style == "drifting" and self.time - met > 60.0)
                back = math.degrees(math.atan2(off, 0.55))
                self._hold(course + max(-25.0, min(25.0, back)), 2.0)
            on = met is not None and self._settled(course)
            settled = (self.time if settled is None else settled) if on else None
            if begun is None and settled is not None and self.time - settled >= HELD_S:
                begun = settled
                self.truth.tracked.append([begun, math.nan, course, inbound])
            if begun is not None and until is not None and self.time - begun > until:
                break
            if inbound and self._in_cone(course):
                break
            if self.time - since > 2400.0:
                raise AssertionError("the course was never met")
        if begun is not None:
            self.truth.tracked[-1][1] = self.time

    def _settled(self, course: float) -> bool:
        deviation = math.degrees(math.asin(self._off_nm(course) / self.distance()))
        return abs(deviation) < 4.0 and abs(apart_deg(self.track, course)) < 15.0

    def _in_cone(self, course: float) -> bool:
        height_nm = self.alt / FEET_PER_NM
        pegged = abs(self._off_nm(course)) > self.distance() * math.sin(math.radians(10.0))
        cone = self.distance() < height_nm * math.tan(math.radians(CONE_DEG))
        return cone or (pegged and self.distance() < 3.0)

    def _hold(self, track: float, rate: float = TURN_DEG_S) -> None:
        self.step(self.crabbed(track, self.tas) + self.wander, CRUISE_KT, self.cruise_ft, rate)

    def _drift(self, course: float, met: float) -> None:
        """Hold a heading a few degrees wrong, so that the line slides away."""
        wrong = math.copysign(5.0, math.sin(met))
        self._hold(course + wrong, 2.0)

    def _wrong(self, course: float) -> None:
        """Slide off by a dot, then turn away from the line, see it, and turn back."""
        side = self.rng.choice([-1.0, 1.0])
        while abs(self._off_nm(course)) < self.distance() * math.sin(math.radians(1.8)) or (
            self._off_nm(course) * side > 0.0
        ):
            self._hold(course + side * 7.0, 2.0)
        self.truth.wrong.append(self.time)
        for _ in range(int(16.0 / STEP_S)):
            self._hold(course + side * 28.0)

    def _pass(self, first: float, second: float) -> None:
        """Go over the station on a heading, then select the next course."""
        heading, nearest, at, gone = self.heading, self.distance(), self.time, None
        wait = self.rng.uniform(3.0, 15.0)
        while True:
            self.step(heading, CRUISE_KT, self.cruise_ft)
            if self.distance() < nearest:
                nearest, at = self.distance(), self.time
            height_nm = self.alt / FEET_PER_NM
            out = self.distance() > height_nm * math.tan(math.radians(CONE_DEG))
            ahead = math.cos(math.radians(self.azimuth() - first)) > 0.2
            gone = self.time if gone is None and out and ahead else gone
            if gone is not None and self.time > gone + wait:
                break
        if self.truth.tracked:
            self.truth.passed.append(at)
        self.select(second)

    def _leave(self, course: float) -> None:
        """Turn off the course for good and fly on for some time."""
        turn = self.rng.choice([-1.0, 1.0]) * self.rng.uniform(50.0, 140.0)
        off_after, said = self.rng.uniform(10.0, 60.0), self.rng.random() < 0.4
        begun = self.time
        while self.time - begun < 120.0:
            self._hold(course + turn)
            if said and self.time - begun > off_after:
                self.select(None)
                said = False

    # ---- the field

    def _at_field(self, along: float, across: float) -> tuple[float, float]:
        """Return a place so far along the runway and to its right."""
        angle = math.radians(self.runway)
        x = self.field[0] + along * math.sin(angle) + across * math.cos(angle)
        y = self.field[1] + along * math.cos(angle) - across * math.sin(angle)
        return x, y

    def _home(self) -> None:
        x, y = self._at_field(1.0, -1.0)
        pattern = self.elevation + 1000.0
        while math.hypot(x - self.x, y - self.y) > 0.4:
            near = math.hypot(x - self.x, y - self.y) < 5.0
            self._toward(x, y, 90.0 if near else CRUISE_KT, pattern if near else self.cruise_ft)

    def _circuit(self, *, stop: bool) -> None:
        """From the climb or the downwind leg round to the runway: a touch-and-go or a stop."""
        pattern = self.elevation + 1000.0
        for along, across, tas, alt in (
            (1.0, -1.0, 90.0, pattern),
            (-1.0, -1.0, 85.0, pattern),
            (-1.6, -0.5, 72.0, self.elevation + 700.0),
            (-1.5, 0.0, APPROACH_KT, self.elevation + 480.0),
        ):
            x, y = self._at_field(along, across)
            while math.hypot(x - self.x, y - self.y) > 0.25:
                self._toward(x, y, tas, alt)
        x, y = self._at_field(0.12, 0.0)
        while self.alt > self.elevation + 8.0:
            left = math.hypot(x - self.x, y - self.y)
            ahead = (x - self.x) * math.sin(math.radians(self.runway)) + (y - self.y) * math.cos(
                math.radians(self.runway)
            )
            aim = x if ahead > 0.1 else self._at_field(3.0, 0.0)[0]
            aim_y = y if ahead > 0.1 else self._at_field(3.0, 0.0)[1]
            goal = self.elevation + max(0.0, left * 320.0 if ahead > 0.0 else -60.0) - 30.0
            self._toward(
                aim, aim_y, APPROACH_KT if self.alt > self.elevation + 40.0 else 57.0, goal
            )
        self.truth.air[-1][1] = self.time
        if stop:
            while self.speed > 12.0:
                self.roll(self.runway, 10.0, 2.5)
            return
        for _ in range(int(self.rng.uniform(6.0, 10.0) / STEP_S)):
            self.roll(self.runway, 0.0, 1.6)
        self.truth.touches += 1
        self._take_off()

    def _taxi_in(self) -> None:
        for heading in (self.runway + 90.0, self.runway + 180.0, self.runway + 270.0):
            for _ in range(int(self.rng.uniform(40.0, 70.0) / STEP_S)):
                self.roll(heading, 14.0, 1.5)
        self._stand(self.rng.uniform(60.0, 240.0))


@dataclass(frozen=True)
class Recorded:
    """What a recorder left of a lesson, once in so many seconds, with its errors and gaps."""

    time_s: Any
    lat_deg: Any
    lon_deg: Any
    altitude_ft: Any
    gaps: list[tuple[float, float]]


@lru_cache(maxsize=8)
def lesson(seed: int) -> Lesson:
    """Return a lesson."""
    return Lesson(seed)


def recorded(one: Lesson, seed: int, every_s: int, *, height: bool) -> Recorded:
    """Return a recording of a lesson: places that wander by meters, heights by more, silences."""
    rng = np.random.default_rng(10_000 + seed)
    path = np.array(one.path)[:: int(every_s / STEP_S)]
    time_s = path[:, 0]
    lat, lon = places(path[:, 1], path[:, 2])
    slow = rng.uniform(1.0, 3.0)
    north, east = (
        _wandering(rng, time_s, slow, 45.0) + rng.normal(0.0, rng.uniform(0.1, 1.5), len(time_s))
        for _ in "ne"
    )
    lat = lat + north / 111_200.0
    lon = lon + east / 111_200.0 / np.cos(np.radians(lat))
    alt = path[:, 3] + _wandering(rng, time_s, 12.0, 90.0) + rng.normal(0.0, 4.0, len(time_s))
    keep, gaps = np.ones(len(time_s), dtype=bool), []
    for seconds in rng.choice([8.0, 45.0, 90.0], size=int(rng.integers(0, 3))):
        begin = rng.uniform(0.1, 0.9) * time_s[-1]
        if not any(begin - 60.0 < t < begin + seconds + 60.0 for t in one.truth.times):
            gaps.append((float(begin), float(begin + seconds)))
            keep &= (time_s < begin) | (time_s > begin + seconds)
    return Recorded(time_s[keep], lat[keep], lon[keep], alt[keep] if height else None, gaps)


def places(x: Any, y: Any) -> tuple[Any, Any]:
    """Return latitude and longitude of places on the plane about the station."""
    count = np.size(x)
    azimuth, meters = np.degrees(np.arctan2(x, y)), np.hypot(x, y) * METERS_PER_NM
    lat, lon = np.full(count, STATION[0]), np.full(count, STATION[1])
    lon, lat, _ = Geod(ellps="WGS84").fwd(lon, lat, azimuth, meters)
    return np.asarray(lat), np.asarray(lon)


def _wandering(rng: np.random.Generator, time_s: Any, deviation: float, together_s: float) -> Any:
    keep = np.exp(-np.diff(time_s, prepend=time_s[0]) / together_s)
    error = np.empty(len(time_s))
    error[0] = rng.normal(0.0, deviation)
    more = rng.normal(0.0, deviation, len(time_s)) * np.sqrt(1.0 - keep**2)
    for i in range(1, len(time_s)):
        error[i] = keep[i] * error[i - 1] + more[i]
    return error
