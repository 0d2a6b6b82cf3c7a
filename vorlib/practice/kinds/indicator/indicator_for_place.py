"""Which of four indicators belongs to a place and a selected course."""

from random import Random

from vorlib.core.angles import format_direction, spoken_side, wrap_360
from vorlib.core.words import spoken_degrees
from vorlib.practice.questions.answers import LETTER
from vorlib.practice.questions.figures import Dial, QuestionFigure
from vorlib.practice.questions.misconceptions import (
    FLAG_SWAPPED,
    HEADING_MOVES_FLAG,
    NEEDLE_IS_AIRCRAFT,
    RADIAL_LEADS_TO,
)
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import (
    any_altitude_ft,
    any_direction,
    any_distance_nm,
    any_station,
    flag_of,
    lettered,
)
from vorlib.practice.questions.standards import USE
from vorlib.vor.receiver import FULL_SCALE_DEG, Flag, Receiver

OFF_DEG = (3, 4, 5, 6, 7, 8)  # between course and line: two needles are 3 dots apart or more
MISLEADING = 0.7  # how often the heading suggests the other flag
SWING_DEG = 60  # of the heading, either side of the way to the station or away


@question_kind("indicator_for_place", lessons=("02",))
def make(chance: Random) -> Question:
    """Ask for the dial; the others have the flag, the needle's side or both the wrong way."""
    station, radial_deg = any_station(chance), any_direction(chance)
    distance_nm = any_distance_nm(chance)
    off_deg = chance.choice((-1, 1)) * chance.choice(OFF_DEG)
    course_deg = float(wrap_360(radial_deg + chance.choice((0, 180)) + off_deg))
    there = station.position_on(radial_deg, distance_nm, any_altitude_ft(chance))
    reading = Receiver(course_deg).read(station, there)
    flag, dots = flag_of(reading), round(float(reading.dots), 1)
    other = Flag.TO if flag == Flag.FROM else Flag.FROM
    misleads = chance.random() < MISLEADING
    toward_deg = 180 if (flag == Flag.FROM) == misleads else 0
    heading_deg = radial_deg + toward_deg + chance.randint(-SWING_DEG, SWING_DEG)
    seen = ((flag, dots), (other, dots), (flag, -dots), (other, -dots))
    letters = lettered(chance)
    dials = [
        Dial(course_deg, *shown, label=letter) for letter, shown in zip(letters, seen, strict=True)
    ]
    radial, course = format_direction(radial_deg), format_direction(course_deg)
    side, apart = spoken_side(dots), spoken_degrees(off_deg)
    leads = "away from the station" if flag == Flag.FROM else "to the station"
    return Question(
        kind="indicator_for_place",
        prompt=f"{station.name} is tuned and identified. You are {distance_nm} NM out on its "
        f"{radial} radial, heading {format_direction(heading_deg)}, and select {course}; five dots "
        f"are {FULL_SCALE_DEG:g} degrees. Which dial do you see: A, B, C or D?",
        form=LETTER,
        answer=letters[0],
        tolerance=0.0,
        tolerance_why="One dial fits.",
        hints=(
            f"The flag first. From where you are, would {course} lead to the station or away? "
            "That leaves two dials.",
            f"Then the needle. Draw the station, your place and the line {course} through the "
            f"station; stand at your place, facing {course}. On which side is the line?",
            f"{course} leads {leads}, and its line is {apart} to the {side}.",
        ),
        worked=f"From the {radial} radial {course} leads {leads}: the flag reads {flag.name}. For "
        f"someone flying {course} the line is {apart} to the {side}, so the needle "
        f"stands {abs(dots):g} dots {side}: dial {letters[0]}. The heading does not matter.",
        element=USE,
        level="application",
        misconceptions=(
            *((HEADING_MOVES_FLAG.answering(letters[1]),) if misleads else ()),
            FLAG_SWAPPED.answering(letters[1]),
            NEEDLE_IS_AIRCRAFT.answering(letters[2]),
            RADIAL_LEADS_TO.answering(letters[3]),
        ),
        figure=QuestionFigure(tuple(sorted(dials, key=lambda dial: dial.label))),
    )
