"""The receiver and its indicator: what a VOR shows at a place with a course selected.

The reading depends on where the aircraft is and on the selected course, never on its heading.
"""

from dataclasses import dataclass
from typing import Any, Generic, overload

import numpy as np
from numpy.typing import ArrayLike

from vorlib.core.angles import fold_180, fold_360
from vorlib.core.arguments import (
    ArgumentError,
    FloatArray,
    N,
    broadcast_shape,
    finite,
    not_negative,
    within,
)
from vorlib.core.scalars import namespace
from vorlib.core.units import METERS_PER_NM, SECONDS_PER_HOUR
from vorlib.earth.ellipsoid import SEMI_MAJOR_AXIS_M
from vorlib.earth.geodesic import Position, Positions
from vorlib.vor.bearing_errors import BearingErrors
from vorlib.vor.coverage import CONE_HALF_ANGLE_DEG, one_for_all, reaches_nm
from vorlib.vor.reading import NO_SIGNAL, OUTSIDE_VOLUME, Flag, Reading, Readings, Reason
from vorlib.vor.station import Station

__all__ = [
    "ABEAM_HALF_WIDTH_DEG",
    "DEG_PER_DOT",
    "DOTS_FULL_SCALE",
    "FULL_SCALE_DEG",
    "NO_SIGNAL",
    "OUTSIDE_VOLUME",
    "Flag",
    "Reading",
    "Readings",
    "Reason",
    "Receiver",
]

# A dot is 2 degrees: Pilot's Handbook (FAA-H-8083-25C), chapter 16, course deviation indicator
# (read in a copy). Five of them: from memory. Instrument Flying Handbook (FAA-H-8083-15B), chapter
# 9 (read in a copy) has 12 degrees or more, and 10 or 12 to the last dot where it checks the
# receiver: give full_scale_deg=12 for such an instrument.
FULL_SCALE_DEG = 10.0
DOTS_FULL_SCALE = 5
DEG_PER_DOT = FULL_SCALE_DEG / DOTS_FULL_SCALE

# Half-width of the sector either side of the abeam line in which neither TO nor FROM has drive
# enough to show. A receiver manual's bench test (read in a copy) wants the flag to hold to 75
# degrees from the course, so the sector may reach 15; 3 is chosen for teaching.
ABEAM_HALF_WIDTH_DEG = 3.0

# The formulas work with plain numbers: making an array of a member of an enumeration costs as
# much as all the rest.
_FLAGS, _REASONS = tuple(Flag), tuple(Reason)
_OFF, _TO, _FROM = range(len(_FLAGS))
_NONE, _ABEAM, _CONE, _LINE_OF_SIGHT, _OFF_THE_AIR = range(len(_REASONS))


@dataclass(frozen=True, eq=False)
class _Receiver(Generic[N]):
    course_deg: N
    full_scale_deg: float
    cone_half_angle_deg: float
    errors: BearingErrors | None


class Receiver(_Receiver[N]):
    """A VOR receiver with a selected course.

    Parameters
    ----------
    course_deg
        Selected course, magnetic; any finite number or an array of them.
    full_scale_deg
        Deviation at which the needle reaches its last dot; more than 0, less than 90.
    cone_half_angle_deg
        Half-angle of the cone of confusion from the vertical, 0 to 89.9.
    errors
        Bearing errors; None for a perfect sky.

    Raises
    ------
    ValueError
        If an argument is out of range.
    """

    @overload
    def __init__(
        self: "Receiver[float]",
        course_deg: float,
        full_scale_deg: float = FULL_SCALE_DEG,
        cone_half_angle_deg: float = CONE_HALF_ANGLE_DEG,
        errors: BearingErrors | None = None,
    ) -> None: ...
    @overload
    def __init__(
        self: "Receiver[FloatArray]",
        course_deg: ArrayLike,
        full_scale_deg: float = FULL_SCALE_DEG,
        cone_half_angle_deg: float = CONE_HALF_ANGLE_DEG,
        errors: BearingErrors | None = None,
    ) -> None: ...
    def __init__(
        self,
        course_deg: Any,
        full_scale_deg: float = FULL_SCALE_DEG,
        cone_half_angle_deg: float = CONE_HALF_ANGLE_DEG,
        errors: BearingErrors | None = None,
    ) -> None:
        within("full_scale_deg", full_scale_deg, 0.1, 89.9, "degrees")
        within("cone_half_angle_deg", cone_half_angle_deg, 0.0, 89.9, "degrees")
        course = fold_360(finite("course_deg", course_deg))
        super().__init__(course, full_scale_deg, cone_half_angle_deg, errors)

    @overload
    def read(self: "Receiver[float]", station: Station, there: Position) -> Reading: ...
    @overload
    def read(self: "Receiver[FloatArray]", station: Station, there: Position[Any]) -> Readings: ...
    @overload
    def read(self: "Receiver[Any]", station: Station, there: Positions) -> Readings: ...
    def read(self: "Receiver[Any]", station: Station, there: Position[Any]) -> Reading | Readings:
        """Return what the indicator shows at *there*.

        Positions and selected courses broadcast against each other.

        Notes
        -----
        With r the radial and c the course, deviation is asin(sin(c - r)); FROM when
        cos(r - c) > 0, TO when < 0. OFF has one reason, the first that holds of: off the air,
        line of sight, cone, abeam. Outside the service volume the reading is live, not assured.
        """
        line = station.inverse(there)
        altitude = one_for_all(there.altitude_ft)
        azimuth: Any = line.true_azimuth_deg
        reading: Reading | Readings
        reading = self.read_along(station, azimuth, line.distance_nm, altitude)
        return reading

    @overload
    def read_along(
        self: "Receiver[float]",
        station: Station,
        true_azimuth_deg: float,
        distance_nm: float,
        altitude_ft: float,
    ) -> Reading: ...
    @overload
    def read_along(
        self: "Receiver[Any]",
        station: Station,
        true_azimuth_deg: FloatArray,
        distance_nm: FloatArray,
        altitude_ft: float | FloatArray,
    ) -> Readings: ...
    def read_along(
        self: "Receiver[Any]",
        station: Station,
        true_azimuth_deg: Any,
        distance_nm: Any,
        altitude_ft: Any,
    ) -> Reading | Readings:
        """Return what `read` does where the geodesic from the station is known already.

        Parameters
        ----------
        station
            The station tuned.
        true_azimuth_deg, distance_nm
            The geodesic at the station: its true azimuth, and its length in NM; unchecked.
        altitude_ft
            Of the aircraft, one for all or one for each.
        """
        radial = fold_360(true_azimuth_deg - station.declination_deg)
        if self.errors is not None:
            radial = fold_360(radial + self.errors.at(radial, distance_nm))
        return self._read(station, altitude_ft, radial, distance_nm)

    def glance(
        self, station: Station, true_azimuth_deg: Any, distance_nm: Any, altitude_ft: Any
    ) -> tuple[Any, Any]:
        """Return what a pilot sees of `read_along`: the needle in dots and the flag's number.

        Without bearing errors; of one course.
        """
        beside, _, dots = self._needle(true_azimuth_deg - station.declination_deg)
        _, cone, seen = self._reaches(station, altitude_ft)
        return dots, _flag(station, distance_nm, cone, seen, beside)[1]

    @overload
    def needle_rate_dots_s(
        self: "Receiver[float]",
        station: Station,
        there: Position,
        true_track_deg: float,
        groundspeed_kt: float,
    ) -> float: ...
    @overload
    def needle_rate_dots_s(
        self: "Receiver[Any]",
        station: Station,
        there: Position[Any],
        true_track_deg: ArrayLike,
        groundspeed_kt: ArrayLike,
    ) -> FloatArray: ...
    def needle_rate_dots_s(
        self: "Receiver[Any]",
        station: Station,
        there: Position[Any],
        true_track_deg: ArrayLike,
        groundspeed_kt: ArrayLike,
    ) -> float | FloatArray:
        """Return how fast the deviation moves, in dots per second, positive to the right.

        Counts on beyond the last dot, where the needle itself can no longer move.

        Parameters
        ----------
        station, there
            The station tuned and the aircraft's position.
        true_track_deg
            Track over the ground, true degrees.
        groundspeed_kt
            Knots, 0 or more.

        Raises
        ------
        ValueError
            Exactly over the station, where the rate has no limit.
        """
        track: Any = finite("true_track_deg", true_track_deg)
        speed: Any = not_negative("groundspeed_kt", groundspeed_kt, "kt")
        line = station.inverse(there)
        m = namespace(track, speed, line.distance_nm, self.course_deg)
        if np.any(line.distance_nm == 0.0):
            raise ArgumentError(
                "there must be off the station: overhead the needle rate has no limit",
                argument="there",
            )
        # A step across the radial turns it by the step over the reduced length of the geodesic,
        # on a sphere of the earth's size R sin(s / R).
        radius_nm = SEMI_MAJOR_AXIS_M / METERS_PER_NM
        reduced_nm = radius_nm * m.sin(line.distance_nm / radius_nm)
        across_kt = speed * m.sin(m.radians(track - line.true_azimuth_end_deg))
        radial_deg_s = m.degrees(across_kt / reduced_nm) / SECONDS_PER_HOUR
        radial = fold_360(line.true_azimuth_deg - station.declination_deg)
        away = abs(fold_180(self.course_deg - radial)) <= 90.0
        rate: float | FloatArray = (
            m.where(away, -radial_deg_s, radial_deg_s) * self._dots_per_degree
        )
        return rate

    @property
    def _dots_per_degree(self) -> float:
        return DOTS_FULL_SCALE / self.full_scale_deg

    def _read(
        self, station: Station, altitude: Any, radial: Any, distance: Any
    ) -> Reading | Readings:
        shape = broadcast_shape(course_deg=self.course_deg, position=radial)
        beside, deviation, dots = self._needle(radial)
        served, cone, seen = self._reaches(station, altitude)
        heard, flag = _flag(station, distance, cone, seen, beside)
        m = namespace(beside)
        unheard = (
            m.where(distance > seen, _LINE_OF_SIGHT, _CONE)
            if station.on_the_air
            else (_OFF_THE_AIR)
        )
        reason = m.where(flag != _OFF, _NONE, m.where(heard, _ABEAM, unheard))
        assured = (distance <= served) & heard
        pegged = abs(deviation) > self.full_scale_deg
        if shape == ():
            shown, why = _FLAGS[flag], _REASONS[reason]
            return Reading(shown, deviation, dots, pegged, radial, distance, why, assured)
        values: Any = (flag, deviation, dots, pegged, radial, distance, reason, assured)
        return Readings(*(v if np.shape(v) == shape else np.broadcast_to(v, shape) for v in values))

    def _needle(self, radial: Any) -> tuple[Any, Any, Any]:
        """Angle between course and radial, the deviation it makes, and the needle in dots."""
        apart: Any = fold_180(self.course_deg - radial)
        m = namespace(apart)
        beside = abs(apart)
        # asin(sin(apart)) without the digits that the sine loses near 90 degrees.
        deviation = m.where(beside <= 90.0, apart, m.copysign(180.0 - beside, apart))
        last_dot = float(DOTS_FULL_SCALE)
        dots = m.minimum(m.maximum(deviation * self._dots_per_degree, -last_dot), last_dot)
        return beside, deviation, dots

    def _reaches(self, station: Station, altitude: Any) -> tuple[Any, Any, Any]:
        antenna_ft = station.position.altitude_ft
        return reaches_nm(station.service, altitude, antenna_ft, self.cone_half_angle_deg)


def _flag(station: Station, distance: Any, cone: Any, seen: Any, beside: Any) -> tuple[Any, Any]:
    """Whether there is a usable signal, and the number of the flag; it is OFF abeam as well."""
    m = namespace(beside)
    heard = (distance > cone) & (distance <= seen) & station.on_the_air
    shows = heard & (abs(beside - 90.0) > ABEAM_HALF_WIDTH_DEG)
    return heard, m.where(shows, m.where(beside < 90.0, _FROM, _TO), _OFF)
