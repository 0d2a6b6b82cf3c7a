"""What the needle says: on which side the course line lies, and how many degrees away."""

from random import Random

from vorlib.core.angles import format_direction, spoken_side
from vorlib.core.words import rounded, spoken_degrees, spoken_dots
from vorlib.practice.questions.answers import LEFT_RIGHT
from vorlib.practice.questions.figures import Dial, QuestionFigure
from vorlib.practice.questions.misconceptions import DOTS_FOR_DEGREES, NEEDLE_IS_AIRCRAFT
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import (
    any_direction,
    any_station,
    somewhere_on,
)
from vorlib.practice.questions.standards import USE
from vorlib.vor.receiver import DOTS_FULL_SCALE, FULL_SCALE_DEG, Receiver


@question_kind("needle_reading", lessons=("02",))
def make(chance: Random) -> Question:
    """Ask for the side and the degrees of a needle off center."""
    station, course_deg = any_station(chance), any_direction(chance)
    dots = chance.choice((-1, 1)) * chance.choice((1.5, 2.0, 2.5, 3.0, 3.5, 4.0))
    deviation_deg = dots * FULL_SCALE_DEG / DOTS_FULL_SCALE
    radial_deg = chance.choice((course_deg - deviation_deg, course_deg + 180.0 + deviation_deg))
    reading = Receiver(course_deg).read(station, somewhere_on(chance, station, radial_deg))
    answer, shown = float(reading.deviation_deg), round(float(reading.dots), 1)
    course, side = format_direction(course_deg), spoken_side(answer)
    degree_a_dot = FULL_SCALE_DEG / DOTS_FULL_SCALE
    return Question(
        kind="needle_reading",
        prompt=f"{course} is selected on {station.name}, and the dial shows what you see; five "
        f"dots are {FULL_SCALE_DEG:g} degrees. For someone flying {course}, on which side is the "
        "course line, and how many degrees away? (such as 1 left)",
        form=LEFT_RIGHT,
        answer=answer,
        tolerance=0.5,
        tolerance_why="A needle can be read to a quarter of a dot, which is half a degree.",
        hints=(
            "Picture yourself in the middle of the dial, and the needle as the course line.",
            f"The line is where the needle is. One dot is {degree_a_dot:g} degrees.",
            f"Work out {abs(shown):g} times {degree_a_dot:g}, and keep the needle's side.",
        ),
        worked=f"{spoken_dots(shown)} x {degree_a_dot:g} degrees = {spoken_degrees(answer, 1)}, on "
        f"the needle's side: {rounded(abs(answer))} {side}. Flag and heading change "
        "nothing in that.",
        element=USE,
        level="understanding",
        misconceptions=(
            NEEDLE_IS_AIRCRAFT.answering(-answer),
            DOTS_FOR_DEGREES.answering(shown),
        ),
        figure=QuestionFigure((Dial.of(course_deg, reading),)),
    )
