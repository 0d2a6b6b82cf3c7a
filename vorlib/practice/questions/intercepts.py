"""The question for an intercept heading, which is the same inbound and outbound."""

from random import Random

from vorlib.core.angles import format_direction, reciprocal_deg, wrap_360
from vorlib.practice.questions.answers import DIRECTION
from vorlib.practice.questions.misconceptions import (
    ANGLE_FROM_OWN_RADIAL,
    NO_INTERCEPT_ANGLE,
    RADIAL_LEADS_TO,
    WRONG_SIDE_OF_COURSE,
)
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.scenes import any_direction, any_station
from vorlib.practice.questions.standards import TRACKING
from vorlib.procedures.intercept import side_of_course

ANGLES_DEG = (30, 45, 60)
FEWEST_TO_GO, ROOM_DEG = 8, 8  # the angle is larger than the radials to go by so much or more


def intercept_heading(chance: Random, kind: str, *, inbound: bool) -> Question:
    """Return a question for the heading that intercepts an assigned radial at a given angle."""
    station, radial_deg = any_station(chance), any_direction(chance)
    angle_deg = chance.choice(ANGLES_DEG)
    to_go = chance.choice((-1, 1)) * chance.randint(FEWEST_TO_GO, angle_deg - ROOM_DEG)
    target_deg = float(wrap_360(radial_deg + to_go))
    course_deg = float(reciprocal_deg(target_deg)) if inbound else target_deg
    side = side_of_course(radial_deg, course_deg, inbound=inbound)
    sign = 1.0 if side == "right" else -1.0
    heading_deg = float(wrap_360(course_deg + sign * angle_deg))
    radial, target = format_direction(radial_deg), format_direction(target_deg)
    course, way = format_direction(course_deg), "inbound" if inbound else "outbound"
    reason = f"the reciprocal of {target}" if inbound else "the radial itself"
    return Question(
        kind=kind,
        prompt=f"You are on the {radial} radial of {station.name}. Intercept the {target} radial "
        f"{way}, with an intercept angle of {angle_deg} degrees. There is no wind. Which heading?",
        form=DIRECTION,
        answer=heading_deg,
        tolerance=2.0,
        tolerance_why="A heading is held to two degrees at best.",
        hints=(
            f"First the course to fly {way}. Set it on the ring.",
            f"The course is {reason}. Then draw both radials: on which side of you does the line "
            "lie, for someone flying the course?",
            f"The course is {course}, and the line lies to the {side}. Lay the angle off to "
            "that side.",
        ),
        worked=f"The course {way} is {reason}, {course}. It lies to the {side} of someone "
        f"flying it: {course} {'+' if sign > 0 else '-'} {angle_deg} = "
        f"{format_direction(heading_deg)}.",
        element=TRACKING,
        level="application",
        misconceptions=_misconceptions(radial_deg, course_deg, sign * angle_deg, inbound),
    )


def _misconceptions(
    radial_deg: float, course_deg: float, turned_deg: float, inbound: bool
) -> tuple[Misconception, ...]:
    """Return the misconceptions, for a heading so far from the course, positive to the right."""
    back_deg = reciprocal_deg(course_deg)
    from_own_deg = radial_deg + 180.0 * inbound
    return (
        WRONG_SIDE_OF_COURSE.answering(float(wrap_360(course_deg - turned_deg))),
        RADIAL_LEADS_TO.answering(float(wrap_360(back_deg - turned_deg))),  # inbound flown outbound
        RADIAL_LEADS_TO.answering(float(wrap_360(back_deg + turned_deg))),  # all of it turned about
        NO_INTERCEPT_ANGLE.answering(course_deg),
        ANGLE_FROM_OWN_RADIAL.answering(float(wrap_360(from_own_deg + turned_deg))),
    )
