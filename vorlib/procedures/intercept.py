"""Intercepting a radial: heading, meeting point, lead of the turn, overshoot.

Every answer comes as numbers and as steps in words, to be read aloud.
"""

import math
from dataclasses import dataclass, replace
from typing import overload

from numpy.typing import ArrayLike

from vorlib.aircraft.flight import Aircraft, FlightState
from vorlib.aircraft.wind import CALM, Wind, track, wind_triangle
from vorlib.core.angles import difference_deg, format_direction, wrap_360
from vorlib.core.arguments import ArgumentError, FloatArray, bounded, finite, not_negative
from vorlib.core.scalars import namespace
from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.core.words import spoken_degrees, spoken_minutes
from vorlib.procedures.meeting import meet_radial, turn_across_nm
from vorlib.vor.station import Station

# Double-angle rule, twice the radials to go, at least 20 and at most 90 degrees: Instrument Flying
# Handbook (FAA-H-8083-15B), chapter 9, course interception (read in a copy).
SMALLEST_INTERCEPT_DEG = 20.0
LARGEST_INTERCEPT_DEG = 90.0

ON_THE_RADIAL_DEG = 0.05  # nearer than this there is nothing to intercept
OVERHEAD_NM = 0.01
LEAST_LEAD_DEG = 0.05  # less is said as 0 degrees
LEAST_OVERSHOOT_NM = 0.05  # and less than this as 0 miles
AT_THE_STATION_NM = 0.5  # nearer than this the radials are too close together to fly


@overload
def intercept_angle_deg(radials_to_go_deg: float) -> float: ...
@overload
def intercept_angle_deg(radials_to_go_deg: ArrayLike) -> FloatArray: ...
def intercept_angle_deg(radials_to_go_deg: ArrayLike) -> float | FloatArray:
    """Return the intercept angle by the double-angle rule, in degrees.

    Twice the radials to go on either side, at least 20 and at most 90.

    >>> [float(intercept_angle_deg(radials)) for radials in (2, -15, 60)]
    [20.0, 30.0, 90.0]
    """
    radials = bounded("radials_to_go_deg", radials_to_go_deg, "degrees")
    m = namespace(radials)
    twice = m.maximum(2.0 * abs(radials), SMALLEST_INTERCEPT_DEG)
    angle: FloatArray = m.minimum(twice, LARGEST_INTERCEPT_DEG)
    return angle


@overload
def angle_for_distance_deg(distance_nm: float) -> float: ...
@overload
def angle_for_distance_deg(distance_nm: ArrayLike) -> FloatArray: ...
def angle_for_distance_deg(distance_nm: ArrayLike) -> float | FloatArray:
    """Return the intercept angle by distance, 30 to 45 degrees: steeper near the station.

    45 degrees within 10 NM, 30 degrees beyond 30 NM, changing evenly between. Common practice: near
    the station there is less room left to meet the radial in.

    >>> [float(angle_for_distance_deg(distance)) for distance in (5, 20, 40)]
    [45.0, 37.5, 30.0]
    """
    distance = not_negative("distance_nm", distance_nm, "NM")
    m = namespace(distance)
    share = m.minimum(m.maximum((distance - 10.0) / 20.0, 0.0), 1.0)
    angle: FloatArray = 45.0 - 15.0 * share
    return angle


def side_of_course(radial_deg: float, course_deg: float, *, inbound: bool) -> str:
    """Return on which side the course lies for someone flying it: "left" or "right".

    >>> side_of_course(33.0, 221.0, inbound=True)
    'left'
    """
    to_go = float(difference_deg(course_deg + 180.0 * inbound, radial_deg))
    return "right" if (to_go > 0.0) != inbound else "left"


@dataclass(frozen=True)
class Intercept:
    """How a course is intercepted.

    Attributes
    ----------
    station_name, course_deg, inbound
        What was asked for.
    radial_deg, radials_to_go_deg
        Where the aircraft is, and how far the wanted radial is, positive clockwise.
    side
        "left" or "right": where the course lies for someone flying it.
    angle_deg, heading_deg, track_deg
        Angle between heading and course, the magnetic heading, and its track in the wind.
    minutes, distance_nm
        When the course is met, and how far from the station.
    hold_heading_deg
        Heading that holds the course once on it.
    lead_nm, lead_deg, lead_s
        How early the turn must begin: square to the course, in radials, and in seconds. As far the
        aircraft goes past if it turns only when the needle centers.
    overshoot_nm
        How far it goes past if it turns at once: 0 when there is room for the lead.
    """

    station_name: str
    course_deg: float
    inbound: bool
    radial_deg: float
    radials_to_go_deg: float
    side: str
    angle_deg: float
    heading_deg: float
    track_deg: float
    minutes: float
    distance_nm: float
    hold_heading_deg: float
    lead_nm: float
    lead_deg: float
    lead_s: float
    overshoot_nm: float

    @property
    def _lead_words(self) -> str:
        if self.overshoot_nm >= LEAST_OVERSHOOT_NM:
            return f"Turn at once: there is no room for {self.lead_nm:.1f} NM of lead."
        if self.lead_deg < LEAST_LEAD_DEG:
            return (
                f"Lead the turn by {self.lead_s:.0f} seconds: in degrees that is next to nothing."
            )
        return (
            f"Lead the turn by {self.lead_deg:.1f} degrees, which is {self.lead_nm:.2f} NM or "
            f"{self.lead_s:.0f} seconds."
        )

    @property
    def steps(self) -> tuple[str, ...]:
        """The reasoning, a sentence a step."""
        course, heading = format_direction(self.course_deg), format_direction(self.heading_deg)
        target = format_direction(self.course_deg + 180.0 * self.inbound)
        way, flag = ("inbound", "TO") if self.inbound else ("outbound", "FROM")
        return (
            f"You are on the {format_direction(self.radial_deg)} radial of {self.station_name}, "
            f"{abs(self.radials_to_go_deg):.0f} radials from the {target} radial.",
            f"Select {course}: on the course {way} the flag reads {flag}.",
            f"The course lies to the {self.side} of someone flying it.",
            f"An intercept angle of {spoken_degrees(self.angle_deg)} makes the heading {heading}.",
            f"You meet the course in {spoken_minutes(self.minutes)}, {self.distance_nm:.1f} NM "
            "from the station.",
            self._lead_words,
            f"Then heading {format_direction(self.hold_heading_deg)} holds the course.",
        )


def plan_intercept(
    station: Station,
    state: FlightState,
    aircraft: Aircraft,
    course_deg: float,
    *,
    inbound: bool,
    angle_deg: float | None = None,
    wind: Wind = CALM,
) -> Intercept:
    """Return how to intercept a course to or from a station from where the aircraft is.

    Parameters
    ----------
    station, state, aircraft
        The station tuned; where the aircraft is (its heading does not matter); how it flies.
    course_deg
        Course to fly once established, magnetic: the radial outbound, its reciprocal inbound.
    inbound
        True to meet the course before the station, False to meet it beyond.
    angle_deg
        Intercept angle, more than 0, at most 90; by the double-angle rule if none is given.
    wind
        True wind.

    Raises
    ------
    ValueError
        If the aircraft is on the radial or over the station, if the course cannot be held in the
        wind, or if it is not met: the reason is said in words.
    """
    course = float(wrap_360(finite("course_deg", course_deg)))
    line = station.inverse(state.position)
    distance = float(line.distance_nm)
    if distance < OVERHEAD_NM:
        raise ArgumentError(
            "the aircraft is over the station: fly the course, there is no intercept",
            argument="state",
        )
    radial = float(station.radial_of_azimuth_deg(line.true_azimuth_deg))
    target = course + 180.0 * inbound
    to_go = float(difference_deg(target, radial))
    if abs(to_go) < ON_THE_RADIAL_DEG:
        raise ArgumentError(
            "the aircraft is on the radial already: turn to the course and track it",
            argument="state",
        )
    angle = intercept_angle_deg(to_go) if angle_deg is None else finite("angle_deg", angle_deg)
    if not 0.0 < angle <= LARGEST_INTERCEPT_DEG:
        raise ArgumentError(
            f"angle_deg must be more than 0 and at most 90 degrees, got {angle:g}",
            argument="angle_deg",
        )
    side = side_of_course(radial, course, inbound=inbound)
    heading = float(wrap_360(course + (angle if side == "right" else -angle)))
    local = Wind(wind.from_deg - station.declination_deg, wind.speed_kt)  # from magnetic north
    hold = wind_triangle(course, aircraft.true_airspeed_kt, local.from_deg, local.speed_kt)
    over_ground = track(heading, aircraft.true_airspeed_kt, local)
    level = replace(
        state,
        true_heading_deg=float(wrap_360(heading + station.declination_deg)),
        bank_deg=0.0,
        climb_ft_min=0.0,
    )
    met = meet_radial(station, level, aircraft, target, wind)
    met_nm = float(station.distance_nm(met.position))
    lead_nm = turn_across_nm(heading, float(hold.heading_deg), course, aircraft, local)
    if met_nm < max(lead_nm, AT_THE_STATION_NM):
        raise ArgumentError(
            f"heading {format_direction(heading)} meets the {format_direction(target)} radial only "
            "at the station, where there is no room to turn onto it: choose another angle",
            argument="angle_deg",
        )
    closing = math.radians(float(difference_deg(over_ground.track_deg, course)))
    across_kt = abs(float(over_ground.groundspeed_kt) * math.sin(closing))
    room_nm = distance * abs(math.sin(math.radians(to_go)))
    return Intercept(
        station_name=station.name,
        course_deg=course,
        inbound=inbound,
        radial_deg=radial,
        radials_to_go_deg=to_go,
        side=side,
        angle_deg=angle,
        heading_deg=heading,
        track_deg=float(over_ground.track_deg),
        minutes=(met.time_s - state.time_s) / 60.0,
        distance_nm=met_nm,
        hold_heading_deg=float(hold.heading_deg),
        lead_nm=lead_nm,
        lead_deg=math.degrees(math.atan2(lead_nm, met_nm)),
        lead_s=lead_nm / across_kt * SECONDS_PER_HOUR,
        overshoot_nm=max(0.0, lead_nm - room_nm),
    )
