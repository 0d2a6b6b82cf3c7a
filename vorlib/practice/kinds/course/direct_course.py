"""The course that leads straight to the station, from what the indicator shows now."""

from random import Random

from vorlib.core.angles import format_direction, wrap_360
from vorlib.core.words import spoken_degrees, spoken_dots
from vorlib.practice.questions.answers import DIRECTION
from vorlib.practice.questions.figures import Dial, QuestionFigure
from vorlib.practice.questions.misconceptions import FLAG_SWAPPED, NEEDLE_IS_AIRCRAFT
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import (
    any_direction,
    any_station,
    flag_of,
    somewhere_on,
)
from vorlib.practice.questions.standards import TRACKING
from vorlib.procedures.orientation import orient
from vorlib.vor.receiver import FULL_SCALE_DEG, Flag, Receiver


@question_kind("direct_course", lessons=("04",))
def make(chance: Random) -> Question:
    """Ask for the course at which the needle centers with TO."""
    station, course_deg = any_station(chance), any_direction(chance)
    off_deg = chance.choice((-1, 1)) * chance.choice((3, 4, 5, 6, 7, 8))
    radial_deg = course_deg + chance.choice((0, 180)) + off_deg
    reading = Receiver(course_deg).read(station, somewhere_on(chance, station, radial_deg))
    flag, dots = flag_of(reading), round(float(reading.dots), 1)
    place = orient(course_deg, flag, dots)
    answer_deg = place.bearing_to_deg
    other_way = orient(course_deg, flag, -dots)
    by_other_flag = orient(course_deg, Flag.FROM if flag == Flag.TO else Flag.TO, dots)
    course = format_direction(course_deg)
    return Question(
        kind="direct_course",
        prompt=f"{station.name}, identified. {course} is selected, and the dial shows what you "
        f"see; five dots are {FULL_SCALE_DEG:g} degrees. At which course will the needle center "
        "with TO?",
        form=DIRECTION,
        answer=answer_deg,
        tolerance=1.0,
        tolerance_why="The ring is set to the nearest degree at best.",
        hints=(
            "Look at the flag first: does the selected course lead there or away?",
            "With TO a needle to the right asks for a higher number, one to the left for a lower "
            "number. With FROM it is the other way round, and then you are only half done.",
            f"{spoken_dots(dots)} are {spoken_degrees(2.0 * dots)}. Where would the needle center? "
            "Does the flag read TO there?",
        ),
        worked=" ".join(place.steps),
        element=TRACKING,
        level="application",
        misconceptions=(
            FLAG_SWAPPED.answering(place.radial_deg),  # the course for FROM
            FLAG_SWAPPED.answering(by_other_flag.bearing_to_deg),
            NEEDLE_IS_AIRCRAFT.answering(other_way.bearing_to_deg),
            Misconception(
                "needle left out",
                float(wrap_360(course_deg + (0.0 if flag.name == "TO" else 180.0))),
                "The flag alone tells roughly where the station lies.",
                "The needle is not in the middle yet: how many degrees are its dots?",
            ),
        ),
        figure=QuestionFigure((Dial.of(course_deg, reading),)),
    )
