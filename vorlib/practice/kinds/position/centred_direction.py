"""The side of the station on which you are when the needle is centered."""

from random import Random

from vorlib.core.angles import compass_point, format_direction, reciprocal_deg
from vorlib.practice.questions.answers import COMPASS_POINT
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
from vorlib.vor.receiver import Receiver

MARGIN_DEG = 3  # from the edge of a compass point's sector


@question_kind("centred_direction", lessons=("03",))
def make(chance: Random) -> Question:
    """Ask for the compass direction from the station, the same by true and magnetic north."""
    station, heading_deg = any_station(chance), any_direction(chance)
    middle_deg = 45 * chance.randrange(8) - station.declination_deg / 2
    half_width_deg = 22.5 - abs(station.declination_deg) / 2 - MARGIN_DEG
    radial_deg = round(middle_deg + chance.uniform(-half_width_deg, half_width_deg))
    course_deg = radial_deg + chance.choice((0, 180))
    there = somewhere_on(chance, station, radial_deg)
    reading = Receiver(course_deg).read(station, there)
    flag = flag_of(reading)
    radial, course = format_direction(radial_deg), format_direction(course_deg)
    answer = compass_point(float(station.radial_deg(there)))
    opposite = compass_point(float(reciprocal_deg(radial_deg)))
    return Question(
        kind="centred_direction",
        prompt=f"With {course} selected on {station.name} the dial shows what you see; you head "
        f"{format_direction(heading_deg)}. In which direction from the station are you? (one of "
        "eight, such as N or SW)",
        form=COMPASS_POINT,
        answer=answer,
        tolerance=0.0,
        tolerance_why="Eight compass points tell 45 degrees apart.",
        hints=(
            "Find the radial first. Then you know the direction from the station.",
            "FROM: the radial is the selected course. TO: the radial is its reciprocal.",
            f"The radial is {radial}. Which compass point is nearest to it?",
        ),
        worked=f"With {flag.name} you are on the {radial} radial, {answer} of {station.name}.",
        element=POSITION,
        level="application",
        misconceptions=(
            RADIAL_LEADS_TO.answering(opposite),
            FLAG_SWAPPED.answering(opposite),
            HEADING_IS_POSITION.answering(compass_point(heading_deg)),
        ),
        figure=QuestionFigure((Dial.of(course_deg, reading),)),
    )
