"""The place, of four on the map, that an indicator belongs to."""

from random import Random

from vorlib.core.angles import format_direction, wrap_360
from vorlib.practice.questions.answers import LETTER
from vorlib.practice.questions.figures import Dial, Map, QuestionFigure, Spot
from vorlib.practice.questions.misconceptions import (
    FLAG_SWAPPED,
    NEEDLE_IS_AIRCRAFT,
    RADIAL_LEADS_TO,
)
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import (
    any_altitude_ft,
    any_direction,
    any_station,
    flag_of,
    lettered,
)
from vorlib.practice.questions.standards import POSITION
from vorlib.procedures.orientation import orient
from vorlib.vor.receiver import FULL_SCALE_DEG, Flag, Receiver

OFF_DEG = (7, 8, 9)  # between course and place: two places on one side are 14 degrees apart or more
NEAR_NM, FAR_NM = 12, 18  # one of those two is near and one far, to keep them well apart


@question_kind("place_for_indicator", lessons=("03",))
def make(chance: Random) -> Question:
    """Ask for the place; the others lie on the wrong side of the line, of the station, or both."""
    station, course_deg = any_station(chance), any_direction(chance)
    off_deg = chance.choice((-1, 1)) * chance.choice(OFF_DEG)
    radial_deg = course_deg + chance.choice((0, 180)) + off_deg
    near = chance.random() < 0.5
    first_nm, second_nm = (NEAR_NM, FAR_NM) if near else (FAR_NM, NEAR_NM)
    there = station.position_on(radial_deg, first_nm, any_altitude_ft(chance))
    reading = Receiver(course_deg).read(station, there)
    dial = Dial.of(course_deg, reading)
    place, flag = orient(course_deg, dial.flag, dial.dots), flag_of(reading)
    letters = lettered(chance)
    places = (
        (radial_deg, first_nm),
        (radial_deg + 180, first_nm),
        (radial_deg - 2 * off_deg, second_nm),
        (radial_deg - 2 * off_deg + 180, second_nm),
    )
    spots = [
        Spot(float(wrap_360(radial)), distance, letter)
        for letter, (radial, distance) in zip(letters, places, strict=True)
    ]
    course, leads = format_direction(course_deg), "to" if flag == Flag.TO else "away from"
    return Question(
        kind="place_for_indicator",
        prompt=f"{station.name} is tuned and identified. With {course} selected "
        f"the dial shows what you see; five dots are {FULL_SCALE_DEG:g} degrees. At which "
        "of the places on the map are you: A, B, C or D?",
        form=LETTER,
        answer=letters[0],
        tolerance=0.0,
        tolerance_why="One place fits.",
        hints=(
            "Flag and needle each rule out two of the places. Find your radial from both.",
            f"The flag reads {flag.name}: {course} leads {leads} the station. That leaves "
            "the two places on one side of it.",
            f"{place.steps[1]} Which radial is that?",
        ),
        worked=f"{' '.join(place.steps)} That is place {letters[0]}.",
        element=POSITION,
        level="application",
        misconceptions=(
            RADIAL_LEADS_TO.answering(letters[1]),
            NEEDLE_IS_AIRCRAFT.answering(letters[2]),
            FLAG_SWAPPED.answering(letters[3]),
        ),
        figure=QuestionFigure(
            (dial,), Map(station, tuple(sorted(spots, key=lambda spot: spot.label)))
        ),
    )
