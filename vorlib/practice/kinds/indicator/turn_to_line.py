"""Which way to turn for the course line, with a needle that may be reversed."""

from random import Random

from vorlib.core.angles import format_direction
from vorlib.practice.questions.answers import ChoiceAnswer
from vorlib.practice.questions.figures import Dial, QuestionFigure
from vorlib.practice.questions.misconceptions import NEEDLE_IS_AIRCRAFT, sensing_beliefs
from vorlib.practice.questions.question import Question
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

SIDE = ChoiceAnswer({"left": ("l", "turn left", "to the left"), "right": ("r", "turn right")})
WIND_CORRECTION_DEG = 15


@question_kind("turn_to_line", lessons=("07",))
def make(chance: Random) -> Question:
    """Ask for the side to turn to, leaving the ring as it is."""
    station, course_deg = any_station(chance), any_direction(chance)
    drift_deg = chance.randint(-WIND_CORRECTION_DEG, WIND_CORRECTION_DEG)
    heading_deg = course_deg + chance.choice((0, 180)) + drift_deg
    radial_deg = (
        course_deg + chance.choice((0, 180)) + chance.choice((-1, 1)) * chance.randint(4, 8)
    )
    reading = Receiver(course_deg).read(station, somewhere_on(chance, station, radial_deg))
    flag = flag_of(reading)
    reverse = bool(is_reverse_sensing(heading_deg, course_deg, flag))
    needle, other = ("left", "right") if reading.deviation_deg < 0 else ("right", "left")
    course, heading = format_direction(course_deg), format_direction(heading_deg)
    answer = other if reverse else needle
    # In reverse sensing this idea comes out right, by two mistakes.
    by_needle = () if reverse else (NEEDLE_IS_AIRCRAFT.answering(other),)
    return Question(
        kind="turn_to_line",
        prompt=f"{course} is selected on {station.name}. The dial shows what you see, and you head "
        f"{heading}. Leaving the ring as it is, which way do you turn for the course line: left or "
        "right?",
        form=SIDE,
        answer=answer,
        tolerance=0.0,
        tolerance_why="There are two ways to turn.",
        hints=(
            "The needle is right for someone who flies the selected course.",
            f"Compare your heading, {heading}, with {course}. Are you that someone?",
            f"Someone flying {course} has the line to the {needle}. You fly "
            f"{'the other way' if reverse else 'the same way'}.",
        ),
        worked=f"{' '.join(sensing_steps(heading_deg, course_deg, flag))} With the ring as it is, "
        f"turn {answer}.",
        element=USE,
        level="application",
        misconceptions=(*sensing_beliefs(reverse, flag, needle, other), *by_needle),
        figure=QuestionFigure((Dial.of(course_deg, reading),)),
    )
