"""The flag for a selected course at a known place."""

from random import Random

from vorlib.core.angles import difference_deg, format_direction
from vorlib.practice.questions.answers import FLAG
from vorlib.practice.questions.misconceptions import (
    FLAG_SWAPPED,
    HEADING_MOVES_FLAG,
    RADIAL_LEADS_TO,
)
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import (
    any_direction,
    any_station,
    flag_of,
    somewhere_on,
)
from vorlib.practice.questions.standards import USE
from vorlib.vor.receiver import Flag, Receiver

MISLEADING = 0.6  # how often the heading suggests the other flag
CLEAR_OF_ABEAM_DEG = 15  # so that nobody has to argue about the sector where the flag flips


@question_kind("flag_for_course", lessons=("02",))
def make(chance: Random) -> Question:
    """Ask for TO or FROM, mostly with a heading that suggests the other."""
    station, radial_deg = any_station(chance), any_direction(chance)
    off = 90 - CLEAR_OF_ABEAM_DEG
    course_deg = radial_deg + chance.choice((0, 180)) + chance.randint(-off, off)
    there = somewhere_on(chance, station, radial_deg)
    flag = flag_of(Receiver(course_deg).read(station, there))
    misleads = chance.random() < MISLEADING
    toward = 180 if (flag == Flag.FROM) == misleads else 0
    heading_deg = radial_deg + toward + chance.randint(-off, off)
    other = Flag.TO if flag == Flag.FROM else Flag.FROM
    course, radial = format_direction(course_deg), format_direction(radial_deg)
    apart = abs(float(difference_deg(course_deg, radial_deg)))
    return Question(
        kind="flag_for_course",
        prompt=f"You are on the {radial} radial of {station.name}, in good reception, heading "
        f"{format_direction(heading_deg)}. You select {course}. What does the flag read: TO, FROM "
        "or OFF?",
        form=FLAG,
        answer=flag.name,
        tolerance=0.0,
        tolerance_why="A flag reads one or the other.",
        hints=(
            "The flag compares two directions, and the heading is neither of them.",
            "If you flew the selected course from here, would it take you to the station or away?",
            f"{radial} leads straight away from the station. Is {course} more like that, or more "
            "like its opposite?",
        ),
        worked=f"Course {course} and radial {radial} are {apart:g} degrees apart, "
        f"{'less' if apart < 90 else 'more'} than 90: flying the course would lead "
        f"{'away' if apart < 90 else 'toward the station'}. The flag reads {flag.name}.",
        element=USE,
        level="understanding",
        misconceptions=(
            *((HEADING_MOVES_FLAG.answering(other.name),) if misleads else ()),
            RADIAL_LEADS_TO.answering(other.name),
            FLAG_SWAPPED.answering(other.name),
            Misconception(
                "a flag thought to need the course under you",
                Flag.OFF.name,
                "Off the selected course the needle is off the scale, so the flag seems done too.",
                "What are the reasons for OFF? Does one of them hold here?",
            ),
        ),
    )
