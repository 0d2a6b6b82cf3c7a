"""The flag for a selected course at a known place."""

from random import Random

from vorlib.core.angles import difference_deg, format_direction
from vorlib.core.words import spoken_degrees
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
SQUARE = 0.25  # how often the course is square to the radial, where only the heading misleads
CLEAR_OF_ABEAM_DEG = 15  # else, so that nobody has to argue about the sector where the flag flips


@question_kind("flag_for_course", lessons=("02",))
def make(chance: Random) -> Question:
    """Ask for the flag, mostly with a heading that suggests another."""
    station, radial_deg = any_station(chance), any_direction(chance)
    off = 90 - CLEAR_OF_ABEAM_DEG
    course_deg = radial_deg + chance.choice((0, 180)) + chance.randint(-off, off)
    if chance.random() < SQUARE:
        course_deg = radial_deg + chance.choice((-90, 90))
    there = somewhere_on(chance, station, radial_deg)
    flag = flag_of(Receiver(course_deg).read(station, there))
    misleads = chance.random() < MISLEADING
    toward = 180 if (flag == Flag.FROM) == misleads else 0
    heading_deg = radial_deg + toward + chance.randint(-off, off)
    by_heading = Flag.TO if toward else Flag.FROM
    course, radial = format_direction(course_deg), format_direction(radial_deg)
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
            "If you flew the selected course from here, would it take you to the station, away, or "
            "neither?",
            f"{radial} leads straight away from the station. Is {course} more like that, more like "
            "its opposite, or square to both?",
        ),
        worked=_solution(course, radial, float(difference_deg(course_deg, radial_deg)), flag),
        element=USE,
        level="understanding",
        misconceptions=_mistakes(flag, by_heading),
    )


def _solution(course: str, radial: str, apart_deg: float, flag: Flag) -> str:
    size, leads = {
        Flag.FROM: ("less than 90", "away"),
        Flag.TO: ("more than 90", "toward the station"),
        Flag.OFF: ("square to each other", "neither toward the station nor away"),
    }[flag]
    return (
        f"Course {course} and radial {radial} are {spoken_degrees(apart_deg)} apart, {size}: "
        f"flying the course would lead {leads}. The flag reads {flag.name}."
    )


def _mistakes(flag: Flag, by_heading: Flag) -> tuple[Misconception, ...]:
    from_heading = () if by_heading == flag else (HEADING_MOVES_FLAG.answering(by_heading.name),)
    if flag == Flag.OFF:
        return from_heading
    other = Flag.TO if flag == Flag.FROM else Flag.FROM
    return (
        *from_heading,
        RADIAL_LEADS_TO.answering(other.name),
        FLAG_SWAPPED.answering(other.name),
        Misconception(
            "a flag thought to need the course under you",
            Flag.OFF.name,
            "Off the selected course the needle is off the scale, so the flag seems done too.",
            "What are the reasons for OFF? Does one of them hold here?",
        ),
    )
