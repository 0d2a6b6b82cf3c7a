"""A flight as its indicator showed it: each moment's reading with the course then selected."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike

from vorlib.aircraft.flight import Flight
from vorlib.aircraft.ground_track import BoolArray, IntArray, runs, segments
from vorlib.core.angles import difference_deg, wrap_360
from vorlib.core.arguments import FloatArray, finite
from vorlib.debrief.indices import following, latest, numbered
from vorlib.earth.geodesic import Position
from vorlib.vor.receiver import DEG_PER_DOT, FULL_SCALE_DEG, Flag, Readings, Reason, Receiver
from vorlib.vor.station import Station

# Established: the needle within two dots and the track within 30 degrees of the course line. Both
# are chosen for teaching; ICAO Doc 8168, volume I has half of full scale, which is 2.5 dots (from
# memory).
ESTABLISHED_DOTS = 2.0
ESTABLISHED_TRACK_DEG = 30.0

# Settled, from when on deviations are those of tracking: the track along the line, or the needle
# centered (chosen for teaching).
SETTLED_TRACK_DEG, SETTLED_DOTS = 5.0, 0.5

# The track along the line within this for so long is settled as well: a slow drift is tracking.
DRIFT_DEG, DRIFT_S = 15.0, 20.0

# A track so far from the course line is no correction but leaves it, from where it last was within
# the smaller angle; so does one away from the line beyond that angle until the needle is pegged or
# the next course is selected (chosen for teaching).
DEPARTED_DEG, LEAVING_DEG = 60.0, 15.0
TURNING_OFF_DEG_S = 1.0  # a track that turns off the line so fast is not steady on its way to it
TURNED_OFF_DEG = 10.0  # so far into a turn off the line it is left, on whichever side it began
CORRECTION_DEG = 40.0  # a track farther from the line is no correction, toward it or held away


@dataclass(frozen=True, eq=False)
class IndicatorHistory:
    """A flight with what the indicator showed, arrays of shape (n,).

    Attributes
    ----------
    time_s
        Increasing times.
    tuned
        The station tuned at each moment.
    course_deg
        Selected course.
    heading_deg, track_deg
        Where the nose pointed by the compass; where the aircraft went by the station's north.
    flag, reason, assured, dots, deviation_deg, radial_deg, distance_nm
        As in `vorlib.vor.receiver.Readings`.
    segment
        Number of the unbroken segment of the recording.
    judged
        False where no course was to be flown: on the ground, or with nothing selected.
    """

    time_s: FloatArray
    tuned: tuple[Station, ...]
    course_deg: FloatArray
    heading_deg: FloatArray
    track_deg: FloatArray
    flag: IntArray
    reason: IntArray
    assured: BoolArray
    dots: FloatArray
    deviation_deg: FloatArray
    radial_deg: FloatArray
    distance_nm: FloatArray
    segment: IntArray
    judged: BoolArray

    def judging(self, when: BoolArray) -> IndicatorHistory:
        """Return the history with nothing to be judged but some moments: no flag is elsewhere."""
        return replace(
            self,
            judged=when,
            flag=np.where(when, self.flag, int(Flag.OFF)),
            reason=np.where(when, self.reason, int(Reason.NONE)),
        )

    @property
    def reading(self) -> Readings:
        """What the indicator showed, as one reading."""
        pegged = abs(self.deviation_deg) > FULL_SCALE_DEG
        return Readings(
            self.flag,
            self.deviation_deg,
            self.dots,
            pegged,
            self.radial_deg,
            self.distance_nm,
            self.reason,
            self.assured,
        )

    @cached_property
    def lasting_s(self) -> FloatArray:
        """How long each moment lasts: until the next; the last one of a segment not at all."""
        if not self.time_s.size:
            return self.time_s
        lasting = np.diff(self.time_s, append=self.time_s[-1])
        return np.where(np.diff(self.segment, append=self.segment[-1]) == 0, lasting, 0.0)

    @cached_property
    def tuned_number(self) -> IntArray:
        """Number of the station tuned, the same whenever it is."""
        return _told_apart(self.tuned)

    @cached_property
    def selection(self) -> IntArray:
        """Number of the selection: of one station and course, segment of recording and judging."""
        return numbered(self.tuned_number, self.course_deg, self.segment, self.judged)

    @cached_property
    def leg(self) -> IntArray:
        """Number of the leg: of one selection and one flag."""
        return numbered(self.selection, self.flag)

    @cached_property
    def line_angle_deg(self) -> FloatArray:
        """Angle between the track and the course line, flown either way: 0 to 90."""
        apart = abs(difference_deg(self.track_deg, self.course_deg))
        return np.minimum(apart, 180.0 - apart)

    @cached_property
    def on_course(self) -> BoolArray:
        """True where the course is flown on: the needle near the center, the track along it."""
        on: BoolArray = (
            (self.flag != Flag.OFF)
            & (abs(self.deviation_deg) <= ESTABLISHED_DOTS * DEG_PER_DOT)
            & (self.line_angle_deg <= ESTABLISHED_TRACK_DEG)
        )
        return on

    @cached_property
    def turned_onto(self) -> BoolArray:
        """True where the course is flown on for some time, and not merely crossed."""
        onto: BoolArray = self.on_course & self.drifting
        return onto

    @cached_property
    def attempt(self) -> IntArray:
        """Number of the attempt at a course: one begins with a selection and with a departure."""
        begins = np.searchsorted(self.selection, self.selection)
        far = latest(self.line_angle_deg > DEPARTED_DEG)
        on = latest(self.on_course)
        departed = (on >= begins) & (far > on)
        begun = departed & ~np.concatenate([np.zeros(min(departed.size, 1), bool), departed[:-1]])
        return numbered(self.selection, np.cumsum(begun))

    @cached_property
    def established(self) -> BoolArray:
        """True from when a course is first turned onto, until another is selected or it is left."""
        since: BoolArray = latest(self.turned_onto) >= np.searchsorted(self.attempt, self.attempt)
        return since

    @cached_property
    def tracking(self) -> BoolArray:
        """True from when the course was settled on, with the flag and off the stops, until left."""
        along = self.line_angle_deg <= np.where(
            abs(self.dots) <= SETTLED_DOTS, DRIFT_DEG, SETTLED_TRACK_DEG
        )
        begins = np.searchsorted(self.attempt, self.attempt)
        settled = latest(self.on_course & (along | self.drifting)) >= begins
        shown: BoolArray = (self.flag != Flag.OFF) & (abs(self.deviation_deg) <= FULL_SCALE_DEG)
        return settled & shown & ~self.leaving

    @cached_property
    def drifting(self) -> BoolArray:
        """True while the track is about along the line for some time."""
        return self._lasting((self.line_angle_deg <= DRIFT_DEG) & (self.flag != Flag.OFF))

    def _lasting(self, when: BoolArray) -> BoolArray:
        """Return where a condition lasts for some time with one selection."""
        lasting = when.copy()
        for begin, end in runs(np.where(when, self.selection, -1)):
            if self.time_s[end - 1] - self.time_s[begin] < DRIFT_S:
                lasting[begin:end] = False
        return lasting

    @cached_property
    def closing(self) -> BoolArray:
        """True where the track leads toward the course line."""
        across = np.sin(np.radians(difference_deg(self.track_deg, self.course_deg)))
        toward: BoolArray = across * np.sign(self.deviation_deg) > 0.0
        return toward

    @cached_property
    def _turning_off_deg_s(self) -> FloatArray:
        """How fast the track turns off the direction of the line."""
        if self.time_s.size < 2:
            return np.zeros(self.time_s.size)
        return np.asarray(np.gradient(self.line_angle_deg, self.time_s))

    @cached_property
    def leaving(self) -> BoolArray:
        """True from where the track turns away from the line, until it is gone from it."""
        ends = np.searchsorted(self.selection, self.selection, "right")
        last = np.append(np.diff(self.selection) != 0, True)
        away = self.line_angle_deg > LEAVING_DEG
        pegged = (abs(self.deviation_deg) > FULL_SCALE_DEG) & (self.flag != Flag.OFF)
        far = following((self.line_angle_deg > DEPARTED_DEG) | (away & (pegged | last)))
        turned = last & (self.line_angle_deg > ESTABLISHED_TRACK_DEG)
        beyond = self.line_angle_deg > CORRECTION_DEG
        held = self._lasting(beyond & ~self.closing & (self.flag != Flag.OFF))
        departed = following((self.line_angle_deg > DEPARTED_DEG) | turned | held)
        steady = self.closing & ~beyond & (self._turning_off_deg_s < TURNING_OFF_DEG_S)
        back, near = following(~away | self.closing), following(~away | steady)
        left = ((far < back) & (far < ends)) | ((departed < near) & (departed < ends))
        return self._from_the_turn(left & away)

    def _from_the_turn(self, left: BoolArray) -> BoolArray:
        """Move the end of a phase back to where the turn off the line began, on either side."""
        whole = left.copy()
        track = np.unwrap(self.track_deg, period=360.0)
        for begin, end in runs(left):
            if not left[begin]:
                continue
            side = np.sign(track[end - 1] - track[begin])
            at = begin
            while at > 0 and self.selection[at - 1] == self.selection[begin]:
                turned = side * (track[at] - track[at - 1])
                if turned < TURNING_OFF_DEG_S * (self.time_s[at] - self.time_s[at - 1]):
                    break
                at -= 1
            before = side * (track[at:begin] - track[at]) >= TURNED_OFF_DEG
            whole[at:begin] |= before
        return whole


def _told_apart(stations: Sequence[Station]) -> IntArray:
    """Return the number of each station: with the same ident in two places they are two."""
    numbers: dict[tuple[str, float, float], int] = {}
    known = {}
    for one in dict(zip(map(id, stations), stations, strict=True)).values():
        where = one.ident, float(one.position.lat_deg), float(one.position.lon_deg)
        known[id(one)] = numbers.setdefault(where, len(numbers))
    return np.fromiter(map(known.__getitem__, map(id, stations)), int, len(stations))


def indicator_history(
    flight: Flight,
    station: Station | Sequence[Station],
    course_deg: ArrayLike,
    variation_deg: float | None = None,
    gap_s: float = math.inf,
) -> IndicatorHistory:
    """Return a flight with what its indicator showed.

    Parameters
    ----------
    flight
        The flight, with n moments.
    station
        The station tuned, or one for each moment.
    course_deg
        The course selected, magnetic, or one for each moment.
    variation_deg
        Variation of the compass, positive east; the stations' declinations if none is given.
    gap_s
        A silence longer than this parts the flight into segments.

    Raises
    ------
    ValueError
        If there are not as many stations or courses as moments.
    """
    n = flight.time_s.size
    tuned = (station,) * n if isinstance(station, Station) else tuple(station)
    course = np.asarray(wrap_360(finite("course_deg", course_deg)))
    if len(tuned) != n:
        raise ValueError(f"station must be one, or one for each of {n} moments, got {len(tuned)}")
    if course.shape not in ((), (n,)):
        raise ValueError(f"course_deg must have shape () or ({n},), got {course.shape}")
    course = np.broadcast_to(course, (n,))
    station_number = _told_apart(tuned)
    numbers = {name: np.zeros(n) for name in ("dots", "deviation_deg", "radial_deg", "distance_nm")}
    states = {name: np.zeros(n, dtype=int) for name in ("flag", "reason")}
    assured = np.zeros(n, dtype=bool)
    declination = np.zeros(n)
    where = flight.position
    lat, lon, altitude = np.broadcast_arrays(where.lat_deg, where.lon_deg, where.altitude_ft)
    for number, first in enumerate(np.unique(station_number, return_index=True)[1].tolist()):
        one, here = tuned[first], station_number == number
        place = Position(lat[here], lon[here], altitude[here])
        reading = Receiver(course[here]).read(one, place)
        declination[here], assured[here] = one.declination_deg, reading.assured
        for name, values in (numbers | states).items():
            values[here] = getattr(reading, name)
    variation = declination if variation_deg is None else variation_deg
    return IndicatorHistory(
        time_s=flight.time_s,
        tuned=tuned,
        course_deg=course,
        heading_deg=np.asarray(wrap_360(flight.true_heading_deg - variation)),
        track_deg=np.asarray(wrap_360(flight.true_track_deg - declination)),
        flag=states["flag"],
        reason=states["reason"],
        assured=assured,
        segment=segments(flight.time_s, gap_s),
        judged=np.ones(n, dtype=bool),
        **numbers,
    )
