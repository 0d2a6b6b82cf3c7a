"""Tasks for a flight by hand: each is a sentence and a test of the present state."""

from __future__ import annotations

from vorlib.core.angles import difference_deg, format_direction
from vorlib.earth.geodesic import inverse
from vorlib.exhibits.flown_by_hand.hand_flight import FlightTask, HandFlightState
from vorlib.stations.archipelago import AIRFIELDS, STATIONS
from vorlib.vor.receiver import DEG_PER_DOT, Flag

__all__ = [
    "arrive",
    "identify",
    "intercept",
    "meet_radial",
    "orient",
    "pass_over",
    "select",
    "track_in",
    "track_out",
    "tune",
]

CENTERED_DEG = DEG_PER_DOT  # one dot
READ_DEG = CENTERED_DEG / 2.0  # centered this well, the needle lets a radial be read
# A heading within this of the course, both from the station's north, counts as flying along it:
# it leaves room for a wind correction.
ALONG_DEG = 20.0


def tune(ident: str) -> FlightTask:
    """Tune a station."""
    station = STATIONS[ident]
    return FlightTask(
        f"Tune {station.name} on {station.frequency_mhz:.2f}.",
        lambda state: state.station == ident,
    )


def identify(ident: str) -> FlightTask:
    """Listen to the ident of a station."""
    return FlightTask(
        f"Identify {STATIONS[ident].name} before you trust it.",
        lambda state: state.heard == ident == state.station,
    )


def select(ident: str, course_deg: float) -> FlightTask:
    """Select a course with a station tuned."""
    course = format_direction(course_deg)
    return FlightTask(f"Select {course}.", lambda state: _selected(state, ident, course_deg))


def orient(ident: str) -> FlightTask:
    """Find the radial by centering the needle with FROM."""
    return FlightTask(
        f"Find your radial of {STATIONS[ident].name}: center the needle with FROM.",
        lambda state: (
            state.station == ident
            and state.reading.flag == Flag.FROM
            and abs(float(state.reading.deviation_deg)) <= READ_DEG
        ),
    )


def intercept(ident: str, course_deg: float) -> FlightTask:
    """Get established on a course to a station."""
    course = format_direction(course_deg)
    return FlightTask(
        f"Intercept the {course} course to {STATIONS[ident].name} and fly it.",
        lambda state: _established(state, ident, course_deg, Flag.TO),
    )


def track_in(ident: str, course_deg: float, distance_nm: float) -> FlightTask:
    """Track a course to a station until within a distance of it."""
    course = format_direction(course_deg)
    return FlightTask(
        f"Track the {course} course to {STATIONS[ident].name} to within {distance_nm:g} NM.",
        lambda state: (
            _established(state, ident, course_deg, Flag.TO)
            and bool(state.reading.distance_nm <= distance_nm)
        ),
    )


def pass_over(ident: str, course_deg: float) -> FlightTask:
    """Fly on until the flag has changed from TO to FROM."""
    return FlightTask(
        f"Fly to {STATIONS[ident].name} and wait for station passage.",
        lambda state: _selected(state, ident, course_deg) and state.reading.flag == Flag.FROM,
    )


def track_out(ident: str, course_deg: float, distance_nm: float) -> FlightTask:
    """Track a radial outbound to a distance from the station."""
    radial = format_direction(course_deg)
    return FlightTask(
        f"Track the {radial} radial of {STATIONS[ident].name} outbound to {distance_nm:g} NM.",
        lambda state: (
            _established(state, ident, course_deg, Flag.FROM)
            and bool(state.reading.distance_nm >= distance_nm)
        ),
    )


def meet_radial(ident: str, radial_deg: float) -> FlightTask:
    """Hold the heading to a radial of another station: a fix."""
    radial = format_direction(radial_deg)
    return FlightTask(
        f"Select {radial} with {STATIONS[ident].name} and hold your heading until the needle comes "
        "to the middle with FROM: the fix.",
        lambda state: (
            _selected(state, ident, radial_deg)
            and state.reading.flag == Flag.FROM
            and abs(float(state.reading.deviation_deg)) <= CENTERED_DEG
        ),
    )


def arrive(ident: str, within_nm: float) -> FlightTask:
    """Arrive over an airfield, within a distance."""
    field = AIRFIELDS[ident]
    return FlightTask(
        f"Fly on until {field.name} lies below: within {within_nm:g} NM.",
        lambda state: bool(
            inverse(
                state.moment.lat_deg,
                state.moment.lon_deg,
                field.position.lat_deg,
                field.position.lon_deg,
            ).distance_nm
            <= within_nm
        ),
    )


def _selected(state: HandFlightState, ident: str, course_deg: float) -> bool:
    return state.station == ident and abs(float(difference_deg(state.course_deg, course_deg))) < 1.0


def _established(state: HandFlightState, ident: str, course_deg: float, flag: Flag) -> bool:
    heading_deg = state.moment.true_heading_deg - state.tuned.declination_deg
    along = abs(float(difference_deg(heading_deg, course_deg))) <= ALONG_DEG
    near = abs(float(state.reading.deviation_deg)) <= CENTERED_DEG
    return _selected(state, ident, course_deg) and state.reading.flag == flag and near and along
