"""The flag along the line: reverse sensing goes with FROM on the way in, TO on the way out."""

from random import Random

from vorlib.core.angles import format_direction, reciprocal_deg
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

REVERSED = 0.7  # how often the selected course is the reciprocal of the heading
OFF_LINE_DEG = 3


@question_kind("flag_when_reversed", lessons=("07",))
def make(chance: Random) -> Question:
    """Ask for the flag of someone who flies along the line, mostly against the selected course."""
    station, heading_deg = any_station(chance), float(any_direction(chance))
    inbound = chance.random() < 0.5
    reverse = chance.random() < REVERSED
    back_deg = float(reciprocal_deg(heading_deg))
    course_deg = back_deg if reverse else heading_deg
    radial_deg = (back_deg if inbound else heading_deg) + chance.randint(
        -OFF_LINE_DEG, OFF_LINE_DEG
    )
    flag = flag_of(Receiver(course_deg).read(station, somewhere_on(chance, station, radial_deg)))
    other = Flag.TO if flag == Flag.FROM else Flag.FROM
    way = "toward" if inbound else "away from"
    heading, course = format_direction(heading_deg), format_direction(course_deg)
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
            f"Where would {course} lead from here: to the station, or away?",
            f"You fly {way} the station, and {course} is the "
            f"{'opposite' if reverse else 'same'} way.",
        ),
        worked=f"{course} leads {'to the station' if flag == Flag.TO else 'away from here'}: the "
        f"flag reads {flag.name}. {way.split()[0].capitalize()} with {flag.name} is "
        f"{'reverse' if reverse else 'normal'} sensing.",
        element=USE,
        level="understanding",
        misconceptions=(
            *(_of_the_reversed(other) if reverse else ()),
            FLAG_SWAPPED.answering(other.name),
        ),
    )


def _of_the_reversed(other: Flag) -> tuple[Misconception, ...]:
    return (
        HEADING_MOVES_FLAG.answering(other.name),
        Misconception(
            "flag thought to warn of reverse sensing",
            Flag.OFF.name,
            "An instrument that leads astray ought to show a flag.",
            "Is anything wrong with the signal here?",
        ),
    )
