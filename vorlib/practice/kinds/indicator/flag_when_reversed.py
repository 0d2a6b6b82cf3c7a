"""The flag that goes with reverse sensing: FROM on the way in, TO on the way out."""

from random import Random

from vorlib.core.angles import format_direction, reciprocal_deg
from vorlib.practice.questions.answers import FLAG
from vorlib.practice.questions.misconceptions import flag_by_the_heading
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

OFF_LINE_DEG = 3


@question_kind("flag_when_reversed", lessons=("07",))
def make(chance: Random) -> Question:
    """Ask for the flag of someone who flies along the line against the selected course."""
    station, heading_deg = any_station(chance), float(any_direction(chance))
    inbound = chance.random() < 0.5
    course_deg = float(reciprocal_deg(heading_deg))
    radial_deg = (course_deg if inbound else heading_deg) + chance.randint(
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
            f"You fly {way} the station, and {course} is the opposite way.",
        ),
        worked=f"{course} leads {'away from here' if inbound else 'to the station'}: the flag "
        f"reads {flag.name}. {way.split()[0].capitalize()} with {flag.name} is reverse "
        "sensing.",
        element=USE,
        level="understanding",
        misconceptions=(
            flag_by_the_heading(other.name),
            Misconception(
                "flag thought to warn of reverse sensing",
                Flag.OFF.name,
                "An instrument that leads astray ought to show a flag.",
                "Is anything wrong with the signal here?",
            ),
        ),
    )
