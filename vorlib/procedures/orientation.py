"""Orientation: the radial the needle tells, where that is, and the course to the station."""

from dataclasses import dataclass

from vorlib.aircraft.wind import CALM, Wind, wind_triangle
from vorlib.core.angles import (
    compass_point,
    difference_deg,
    format_direction,
    reciprocal_deg,
    spoken_side,
    wrap_360,
)
from vorlib.core.arguments import ArgumentError, finite, within
from vorlib.core.words import spoken_degrees
from vorlib.vor.receiver import DOTS_FULL_SCALE, FULL_SCALE_DEG, Flag
from vorlib.vor.sensing import is_reverse_sensing


@dataclass(frozen=True)
class Orientation:
    """Where the indicator puts the aircraft.

    Attributes
    ----------
    radial_deg
        The radial it is on.
    bearing_to_deg
        Magnetic bearing to the station: the course to select to fly there.
    direction
        Compass direction from the station, in words.
    steps
        The reasoning, a sentence a step.
    """

    radial_deg: float
    bearing_to_deg: float
    direction: str
    steps: tuple[str, ...]


def orient(course_deg: float, flag: Flag, dots: float) -> Orientation:
    """Return where the aircraft is from what the indicator shows.

    Parameters
    ----------
    course_deg
        Selected course, magnetic.
    flag
        TO or FROM.
    dots
        Needle, positive right, short of its full scale of 5.

    Raises
    ------
    ValueError
        With the flag OFF, or the needle at full scale, where it only tells a side.
    """
    course = float(wrap_360(finite("course_deg", course_deg)))
    flag = Flag(flag)
    needle = float(within("dots", dots, -DOTS_FULL_SCALE, DOTS_FULL_SCALE, "dots"))
    if flag == Flag.OFF:
        raise ArgumentError(
            "flag must be TO or FROM: with OFF the needle says nothing", argument="flag"
        )
    if abs(needle) >= DOTS_FULL_SCALE:
        raise ArgumentError(
            "dots must be less than 5: turn the course selector until the needle moves",
            argument="dots",
        )
    off = needle * FULL_SCALE_DEG / DOTS_FULL_SCALE
    # With FROM the course is a radial and the needle shows how far it is from ours, clockwise to
    # the right; with TO the course is a bearing to the station, and ours is where it would center.
    radial = wrap_360(course - off) if flag == Flag.FROM else wrap_360(course + off + 180.0)
    bearing = reciprocal_deg(radial)
    centered = course - off if flag == Flag.FROM else course + off
    steps = [
        f"The flag reads {flag.name} with {format_direction(course)} selected.",
        f"The needle would be centered with {format_direction(centered)}.",
    ]
    if flag == Flag.TO:
        steps.append("A course with TO leads to the station, so the radial is its reciprocal.")
    steps.append(
        f"You are on the {format_direction(float(radial))} radial, "
        f"{compass_point(float(radial))} of the station; it bears "
        f"{format_direction(float(bearing))} from you."
    )
    return Orientation(float(radial), float(bearing), compass_point(float(radial)), tuple(steps))


@dataclass(frozen=True)
class DirectTo:
    """The way straight to the station: course to select, heading to fly, and the reasoning."""

    course_deg: float
    heading_deg: float
    turn_deg: float
    steps: tuple[str, ...]


def direct_to(
    radial_deg: float, heading_deg: float, true_airspeed_kt: float = 100.0, wind: Wind = CALM
) -> DirectTo:
    """Return the course from a radial straight to the station.

    Parameters
    ----------
    radial_deg, heading_deg
        Radial the aircraft is on and heading it flies, magnetic.
    true_airspeed_kt, wind
        For the heading that holds the course; wind from magnetic north. `turn_deg` is to that
        heading, in (-180, 180], positive right.

    Raises
    ------
    ValueError
        If the wind is too strong to hold the course.
    """
    course = reciprocal_deg(radial_deg)
    hold = wind_triangle(course, true_airspeed_kt, wind.from_deg, wind.speed_kt)
    turn = float(difference_deg(hold.heading_deg, finite("heading_deg", heading_deg)))
    heading = float(hold.heading_deg)
    side = spoken_side(turn)
    steps = (
        f"From the {format_direction(radial_deg)} radial the station bears the reciprocal, "
        f"{format_direction(float(course))}.",
        f"Select {format_direction(float(course))}: the needle centers with TO.",
        f"Turn {side} {spoken_degrees(turn)} to heading {format_direction(heading)}"
        + (", which holds the course in this wind." if wind.speed_kt else "."),
    )
    return DirectTo(float(course), heading, turn, steps)


def sensing_steps(heading_deg: float, course_deg: float, flag: Flag) -> tuple[str, ...]:
    """Return whether the needle can be followed, and the cure if it cannot, a sentence a step."""
    apart = abs(float(difference_deg(heading_deg, course_deg)))
    heading, course = format_direction(heading_deg), format_direction(course_deg)
    if flag == Flag.OFF:
        return ("The flag is OFF: there is nothing to follow.",)
    apart_words = spoken_degrees(apart)
    if not is_reverse_sensing(heading_deg, course_deg, flag):
        return (
            f"Heading {heading} is {apart_words} from the selected {course}: less than 90.",
            "Normal sensing: turn toward the needle to get back to the course.",
        )
    cure = format_direction(course_deg + 180.0)
    return (
        f"Heading {heading} is {apart_words} from the selected {course}: more than 90.",
        "Reverse sensing: the course is on the side opposite the needle.",
        f"To cure it select the reciprocal, {cure}, and read the needle again.",
    )
