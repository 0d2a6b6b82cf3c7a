"""The course to select so that the needle can be followed: the cure of reverse sensing."""

from random import Random

from vorlib.core.angles import format_direction, reciprocal_deg, wrap_360
from vorlib.practice.questions.answers import DIRECTION
from vorlib.practice.questions.figures import Dial, QuestionFigure
from vorlib.practice.questions.misconceptions import sensing_beliefs
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import (
    any_direction,
    any_station,
    flag_of,
    somewhere_on,
)
from vorlib.practice.questions.standards import USE
from vorlib.procedures.orientation import sensing_steps
from vorlib.vor.receiver import Receiver
from vorlib.vor.sensing import is_reverse_sensing

DRIFT_DEG = (15, 20, 25)  # between heading and line, so that the heading is no answer


@question_kind("course_to_follow", lessons=("07",))
def make(chance: Random) -> Question:
    """Ask for the course that makes the needle point to the line; sometimes it is selected."""
    station, course_deg = any_station(chance), float(any_direction(chance))
    against = chance.random() < 0.6
    heading_deg = course_deg + 180.0 * against + chance.choice((-1, 1)) * chance.choice(DRIFT_DEG)
    radial_deg = (
        course_deg + chance.choice((0, 180)) + chance.choice((-1, 1)) * chance.randint(4, 8)
    )
    reading = Receiver(course_deg).read(station, somewhere_on(chance, station, radial_deg))
    flag = flag_of(reading)
    reverse = bool(is_reverse_sensing(heading_deg, course_deg, flag))
    other_deg = float(reciprocal_deg(course_deg))
    course, heading = format_direction(course_deg), format_direction(heading_deg)
    return Question(
        kind="course_to_follow",
        prompt=f"{course} is selected on {station.name}. The dial shows what you see, and you head "
        f"{heading}, along the line and into the wind. Which course has to be selected so that you "
        f"may turn toward the needle? (Write {course} if it is right as it is.)",
        form=DIRECTION,
        answer=other_deg if reverse else course_deg,
        tolerance=1.0,
        tolerance_why="The ring is set to the nearest degree at best.",
        hints=(
            "Compare two of the directions. One thing you are told does not matter.",
            f"Heading {heading} and selected course {course}: more than 90 degrees apart, or less?",
            "More than 90: the reciprocal is the cure. Less: there is nothing to cure.",
        ),
        worked=" ".join(sensing_steps(heading_deg, course_deg, flag))
        + ("" if reverse else f" Leave {course} selected."),
        element=USE,
        level="application",
        misconceptions=(
            *sensing_beliefs(reverse, flag, course_deg, other_deg),
            Misconception(
                "ring set to the heading",
                float(wrap_360(heading_deg)),
                "With the heading on the ring the needle is never reversed.",
                "Which line would the needle then show: the one you mean to fly?",
            ),
        ),
        figure=QuestionFigure((Dial.of(course_deg, reading),)),
    )
