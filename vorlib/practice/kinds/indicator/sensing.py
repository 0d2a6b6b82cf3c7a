"""Whether the needle points to the side on which the course lies for the pilot."""

from random import Random

from vorlib.core.angles import format_direction, reciprocal_deg
from vorlib.practice.questions.answers import SENSING
from vorlib.practice.questions.figures import Dial, QuestionFigure
from vorlib.practice.questions.misconceptions import sensing_beliefs
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import (
    any_direction,
    any_station,
    flag_of,
    somewhere_on,
)
from vorlib.practice.questions.standards import USE
from vorlib.vor.receiver import Receiver
from vorlib.vor.sensing import is_reverse_sensing

WIND_CORRECTION_DEG = 30  # heading and track differ by no more than this


@question_kind("sensing", lessons=("07",))
def make(chance: Random) -> Question:
    """Ask for normal or reverse sensing."""
    station, course_deg = any_station(chance), any_direction(chance)
    along = chance.choice((course_deg, float(reciprocal_deg(course_deg))))
    heading_deg = along + chance.randint(-WIND_CORRECTION_DEG, WIND_CORRECTION_DEG)
    radial_deg = course_deg + chance.choice((0, 180)) + chance.choice((-4, -3, 3, 4))
    reading = Receiver(course_deg).read(station, somewhere_on(chance, station, radial_deg))
    reverse = bool(is_reverse_sensing(heading_deg, course_deg, reading.flag))
    course, heading = format_direction(course_deg), format_direction(heading_deg)
    return Question(
        kind="sensing",
        prompt=f"{course} is selected on {station.name}. The dial shows what you see, and you head "
        f"{heading}. Is the sensing normal or reverse?",
        form=SENSING,
        answer="reverse" if reverse else "normal",
        tolerance=0.0,
        tolerance_why="Sensing is one or the other.",
        hints=(
            "Compare two of the numbers you are given. One thing you are given does not matter.",
            "The needle is right for someone flying the selected course.",
            f"Do you fly roughly along {course}, or roughly against it?",
        ),
        worked=f"Heading {heading} runs roughly {'against' if reverse else 'along'} the selected "
        f"course {course}: sensing is {'reverse' if reverse else 'normal'}, whatever the flag.",
        element=USE,
        level="application",
        misconceptions=sensing_beliefs(reverse, flag_of(reading), "normal", "reverse"),
        figure=QuestionFigure((Dial.of(course_deg, reading),)),
    )
