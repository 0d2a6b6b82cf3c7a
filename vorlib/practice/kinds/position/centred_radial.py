"""The radial when the needle is centered, with FROM or, as a trap, with TO."""

from random import Random

from vorlib.core.angles import format_direction, reciprocal_deg
from vorlib.practice.questions.answers import DIRECTION
from vorlib.practice.questions.figures import Dial, QuestionFigure
from vorlib.practice.questions.misconceptions import (
    FLAG_SWAPPED,
    HEADING_IS_POSITION,
    RADIAL_LEADS_TO,
)
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import (
    any_direction,
    any_station,
    flag_of,
    somewhere_on,
)
from vorlib.practice.questions.standards import POSITION
from vorlib.vor.receiver import Flag, Receiver


@question_kind("centred_radial", lessons=("03",))
def make(chance: Random) -> Question:
    """Ask for the radial from a centered needle."""
    station, course_deg = any_station(chance), any_direction(chance)
    heading_deg = any_direction(chance)
    there = somewhere_on(chance, station, course_deg + chance.choice((0, 180)))
    reading = Receiver(course_deg).read(station, there)
    flag = flag_of(reading)
    radial_deg = float(station.radial_deg(there))
    other_end = float(reciprocal_deg(radial_deg))
    radial, course = format_direction(radial_deg), format_direction(course_deg)
    read_off = flag == Flag.FROM
    return Question(
        kind="centred_radial",
        prompt=f"{station.name} is tuned and identified. With {course} selected the dial shows "
        f"what you see; you head {format_direction(heading_deg)}. On which radial are you?",
        form=DIRECTION,
        answer=radial_deg,
        tolerance=1.0,
        tolerance_why="A centered needle is set to the nearest degree at best.",
        hints=(
            "A centered needle puts you on a line through the station. The flag tells which half.",
            "FROM: the selected course leads away from the station, as a radial does. TO: it leads "
            "to the station.",
            f"The flag reads {flag.name}: is {course} the radial itself, or its reciprocal?",
        ),
        worked=f"With FROM and a centered needle the radial is the selected course: {radial}."
        if read_off
        else f"With TO the selected course {course} leads to the station; you are on its "
        f"reciprocal, the {radial} radial.",
        element=POSITION,
        level="application",
        misconceptions=(
            RADIAL_LEADS_TO.answering(other_end),
            FLAG_SWAPPED.answering(other_end),
            HEADING_IS_POSITION.answering(float(heading_deg)),
        ),
        figure=QuestionFigure((Dial.of(course_deg, reading),)),
    )
