"""The flag along the line: reverse sensing goes with FROM on the way in, TO on the way out."""

from random import Random
from typing import NamedTuple

from vorlib.core.angles import format_direction, reciprocal_deg, wrap_360
from vorlib.practice.questions.answers import FLAG
from vorlib.practice.questions.misconceptions import FLAG_SWAPPED, HEADING_MOVES_FLAG
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

REVERSED = 0.7  # how often the selected course is the reciprocal of the heading, unless
SQUARE_TO_IT = 0.25  # it is square to it: who goes by the heading expects a flag all the same
OFF_LINE_DEG = 2


class SelectedCourse(NamedTuple):
    """The last hint, the solution and the mistakes for one selected course."""

    hint: str
    worked: str
    misconceptions: tuple[Misconception, ...]


@question_kind("flag_when_reversed", lessons=("07",))
def make(chance: Random) -> Question:
    """Ask for the flag of someone who flies along a line, mostly against the selected course."""
    station, heading_deg = any_station(chance), float(any_direction(chance))
    inbound = chance.random() < 0.5
    reverse = chance.random() < REVERSED
    back_deg = float(reciprocal_deg(heading_deg))
    course_deg = back_deg if reverse else heading_deg
    if chance.random() < SQUARE_TO_IT:
        course_deg = float(wrap_360(heading_deg + chance.choice((-90, 90))))
    radial_deg = (back_deg if inbound else heading_deg) + chance.randint(
        -OFF_LINE_DEG, OFF_LINE_DEG
    )
    flag = flag_of(Receiver(course_deg).read(station, somewhere_on(chance, station, radial_deg)))
    way = "toward" if inbound else "away from"
    heading, course = format_direction(heading_deg), format_direction(course_deg)
    scene = _square(course) if flag == Flag.OFF else _along(course, flag, way, reverse)
    by_heading = Flag.TO if inbound else Flag.FROM
    return Question(
        kind="flag_when_reversed",
        prompt=f"You fly heading {heading} straight {way} {station.name}, in good reception, with "
        f"{course} selected. What does the flag read: TO, FROM or OFF?",
        form=FLAG,
        answer=flag.name,
        tolerance=0.0,
        tolerance_why="A flag reads one of the three.",
        hints=(
            "The flag does not know which way you fly.",
            f"Where would {course} lead from here: to the station, away, or neither?",
            f"You fly {way} the station, and {scene.hint}.",
        ),
        worked=scene.worked,
        element=USE,
        level="understanding",
        misconceptions=(
            *((HEADING_MOVES_FLAG.answering(by_heading.name),) if by_heading != flag else ()),
            *scene.misconceptions,
        ),
    )


def _along(course: str, flag: Flag, way: str, reverse: bool) -> SelectedCourse:
    """Return how the flag is found where the course leads along the line of flight, either way."""
    warned = Misconception(
        "flag thought to warn of reverse sensing",
        Flag.OFF.name,
        "An instrument that leads astray ought to show a flag.",
        "Is anything wrong with the signal here?",
    )
    other = Flag.TO if flag == Flag.FROM else Flag.FROM
    return SelectedCourse(
        f"{course} is the {'opposite' if reverse else 'same'} way",
        f"{course} leads {'to the station' if flag == Flag.TO else 'away from here'}: the flag "
        f"reads {flag.name}. {way.split()[0].capitalize()} with {flag.name} is "
        f"{'reverse' if reverse else 'normal'} sensing.",
        (*((warned,) if reverse else ()), FLAG_SWAPPED.answering(other.name)),
    )


def _square(course: str) -> SelectedCourse:
    """Return how the flag is found where the course leads across the line of flight."""
    return SelectedCourse(
        f"{course} is square to that",
        f"{course} leads neither to the station nor away from it: the flag reads OFF, whichever "
        "way you fly.",
        (),
    )
