"""The wind triangle: heading, airspeed, wind, track and groundspeed, whichever two are unknown.

All directions of one call count from the same north, magnetic or true. Wind is where it blows from.
"""

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Generic, NamedTuple, overload

import numpy as np
from numpy.typing import ArrayLike

from vorlib.core.angles import fold_180, fold_360
from vorlib.core.arguments import (
    ArgumentError,
    FloatArray,
    N,
    any_true,
    finite,
    first,
    in_one_shape,
    not_negative,
    positive,
)
from vorlib.core.scalars import namespace
from vorlib.core.units import METERS_PER_SECOND_PER_KNOT


@dataclass(frozen=True)
class _Wind(Generic[N]):
    from_deg: N
    speed_kt: N


class Wind(_Wind[N]):
    """A steady wind: direction it blows from, in (0, 360], and speed in knots, 0 or more.

    One, in floats, or many, in arrays of one shape.
    """

    @overload
    def __init__(self: "Wind[float]", from_deg: float, speed_kt: float) -> None: ...
    @overload
    def __init__(self: "Wind[FloatArray]", from_deg: ArrayLike, speed_kt: ArrayLike) -> None: ...
    def __init__(self, from_deg: Any, speed_kt: Any) -> None:
        direction, speed = in_one_shape(
            from_deg=finite("from_deg", from_deg), speed_kt=not_negative("speed_kt", speed_kt, "kt")
        )
        super().__init__(fold_360(direction), speed)

    @cached_property
    def toward_m_s(self) -> tuple[float, float]:
        """Meters per second that one wind carries an aircraft north and east."""
        speed = float(self.speed_kt) * METERS_PER_SECOND_PER_KNOT
        radians = math.radians(float(self.from_deg))
        return -speed * math.cos(radians), -speed * math.sin(radians)

    def at(self, altitude_ft: float) -> "Wind[N]":
        """Return this wind, which blows at every altitude."""
        return self

    def seconds_at(self, altitude_ft: float, climb_ft_min: float) -> float:
        """Return how long a climb or descent stays in this wind: forever."""
        return math.inf


@dataclass(frozen=True)
class WindLayers:
    """Winds by altitude: each blows from its floor in feet up to the next floor.

    Parameters
    ----------
    layers
        Pairs of floor in feet and `Wind`, lowest first; below the first floor the first blows.

    Raises
    ------
    ValueError
        If there is no layer or the floors do not rise.
    """

    layers: tuple[tuple[float, Wind], ...]

    def __post_init__(self) -> None:
        floors = [floor for floor, _ in self.layers]
        if not floors or sorted(set(floors)) != floors:
            raise ArgumentError(
                f"layers must have floors in rising order, got {floors}", argument="layers"
            )

    def at(self, altitude_ft: float) -> Wind:
        """Return the wind at an altitude."""
        blowing = self.layers[0][1]
        for floor_ft, wind in self.layers:
            if altitude_ft >= floor_ft:
                blowing = wind
        return blowing

    def seconds_at(self, altitude_ft: float, climb_ft_min: float) -> float:
        """Return how long a climb or descent stays in the wind of this altitude."""
        climb = climb_ft_min / 60.0
        times = [(floor - altitude_ft) / climb for floor, _ in self.layers] if climb else []
        return min((time for time in times if time > 1e-6), default=math.inf)


CALM = Wind(360.0, 0.0)


class WindTriangle(NamedTuple, Generic[N]):
    """The answer of a wind triangle.

    Attributes
    ----------
    heading_deg
        Heading that holds the course, in (0, 360].
    correction_deg
        Wind correction angle, heading less course, positive to the right.
    groundspeed_kt
        Speed along the course.
    """

    heading_deg: N
    correction_deg: N
    groundspeed_kt: N


class Track(NamedTuple, Generic[N]):
    """Where the aircraft goes over the ground: track in (0, 360] and groundspeed in knots."""

    track_deg: N
    groundspeed_kt: N


@overload
def components_kt(course_deg: float, wind: Wind) -> tuple[float, float]: ...
@overload
def components_kt(course_deg: ArrayLike, wind: Wind[Any]) -> tuple[FloatArray, FloatArray]: ...
def components_kt(course_deg: ArrayLike, wind: Wind[Any]) -> tuple[Any, Any]:
    """Return headwind and crosswind in knots.

    A headwind below 0 helps; a crosswind above 0 blows from the right.

    >>> head, cross = components_kt(90, Wind(45, 40))
    >>> round(head, 1), round(cross, 1)
    (28.3, -28.3)
    """
    return _components_kt(finite("course_deg", course_deg), wind)


def _components_kt(course: Any, wind: Wind[Any]) -> tuple[Any, Any]:
    angle = fold_180(wind.from_deg - course)
    m = namespace(angle)
    radians = m.radians(angle)
    return wind.speed_kt * m.cos(radians), wind.speed_kt * m.sin(radians)


@overload
def wind_triangle(
    course_deg: float, true_airspeed_kt: float, wind_from_deg: float, wind_kt: float
) -> WindTriangle: ...
@overload
def wind_triangle(
    course_deg: ArrayLike,
    true_airspeed_kt: ArrayLike,
    wind_from_deg: ArrayLike,
    wind_kt: ArrayLike,
) -> WindTriangle[FloatArray]: ...
def wind_triangle(
    course_deg: ArrayLike,
    true_airspeed_kt: ArrayLike,
    wind_from_deg: ArrayLike,
    wind_kt: ArrayLike,
) -> WindTriangle[Any]:
    """Return the heading that holds a course, the correction and the groundspeed.

    Parameters
    ----------
    course_deg, wind_from_deg
        Degrees from the same north.
    true_airspeed_kt
        Knots, more than 0.
    wind_kt
        Knots, 0 or more.

    Raises
    ------
    ValueError
        If the crosswind is as strong as the airspeed, so that no heading holds the course, or the
        headwind leaves no groundspeed along it.

    Notes
    -----
    The exact triangle; a handbook prints it rounded to the scale of a hand computer: course 090,
    wind 045 at 40, airspeed 120 gives 88 kt in the Pilot's Handbook (FAA-H-8083-25C), chapter 16,
    wind triangle (read in a copy).

    >>> answer = wind_triangle(90, 120, 45, 40)
    >>> round(answer.correction_deg, 2), round(answer.groundspeed_kt, 2)
    (-13.63, 88.33)
    """
    course: Any = finite("course_deg", course_deg)
    airspeed: Any = positive("true_airspeed_kt", true_airspeed_kt, "kt")
    wind = Wind(finite("wind_from_deg", wind_from_deg), not_negative("wind_kt", wind_kt, "kt"))
    head, cross = _components_kt(course, wind)
    sine = cross / airspeed
    m = namespace(sine)
    _refuse(
        abs(sine) >= 1.0, cross, "true_airspeed_kt must be more than the crosswind, which is {} kt"
    )
    correction = m.degrees(m.arctan2(sine, m.sqrt(1.0 - sine * sine)))
    groundspeed = airspeed * m.sqrt(1.0 - sine * sine) - head
    _refuse(groundspeed <= 0.0, head, "no progress along the course against a headwind of {} kt")
    return WindTriangle(fold_360(course + correction), correction, groundspeed)


@overload
def track(heading_deg: float, true_airspeed_kt: float, wind: Wind) -> Track: ...
@overload
def track(
    heading_deg: ArrayLike, true_airspeed_kt: ArrayLike, wind: Wind[Any]
) -> Track[FloatArray]: ...
def track(heading_deg: ArrayLike, true_airspeed_kt: ArrayLike, wind: Wind[Any]) -> Track[Any]:
    """Return track and groundspeed flown with a heading in a wind.

    With no movement over the ground at all the track is given as 360.
    """
    heading = finite("heading_deg", heading_deg)
    airspeed = not_negative("true_airspeed_kt", true_airspeed_kt, "kt")
    return Track(*_difference(heading, airspeed, wind.from_deg, wind.speed_kt))


@overload
def wind_from(
    heading_deg: float, true_airspeed_kt: float, track_deg: float, groundspeed_kt: float
) -> Wind: ...
@overload
def wind_from(
    heading_deg: ArrayLike,
    true_airspeed_kt: ArrayLike,
    track_deg: ArrayLike,
    groundspeed_kt: ArrayLike,
) -> Wind[FloatArray]: ...
def wind_from(
    heading_deg: ArrayLike,
    true_airspeed_kt: ArrayLike,
    track_deg: ArrayLike,
    groundspeed_kt: ArrayLike,
) -> Wind[Any]:
    """Return the wind that turns heading and airspeed into track and groundspeed.

    All angles in degrees from one north, speeds in knots, 0 or more.

    >>> wind = wind_from(160, 180, 175, 144)
    >>> round(wind.from_deg, 2), round(wind.speed_kt, 2)
    (117.66, 55.34)
    """
    direction, speed = _difference(
        finite("heading_deg", heading_deg),
        not_negative("true_airspeed_kt", true_airspeed_kt, "kt"),
        finite("track_deg", track_deg),
        not_negative("groundspeed_kt", groundspeed_kt, "kt"),
    )
    return Wind(direction, speed)


def _difference(direction_deg: Any, length: Any, less_deg: Any, less: Any) -> tuple[Any, Any]:
    """Direction in (0, 360] and length of one vector less another."""
    m = namespace(direction_deg, length, less_deg, less)
    one, other = m.radians(direction_deg), m.radians(less_deg)
    east = length * m.sin(one) - less * m.sin(other)
    north = length * m.cos(one) - less * m.cos(other)
    return fold_360(m.degrees(m.arctan2(east, north))), m.hypot(east, north)


def _refuse(wrong: Any, value: Any, message: str) -> None:
    if any_true(wrong):
        values = abs(value) if isinstance(wrong, bool) else np.broadcast_to(abs(value), wrong.shape)
        raise ArgumentError(message.format(first(values, wrong)), argument="true_airspeed_kt")
