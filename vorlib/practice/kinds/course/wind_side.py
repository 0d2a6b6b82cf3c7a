"""The side the wind blows from, told from the heading held and from what the needle does."""

from random import Random

from vorlib.aircraft.wind import Wind, components_kt, track, wind_triangle
from vorlib.core.angles import format_direction, reciprocal_deg, spoken_side
from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.earth.geodesic import direct
from vorlib.practice.questions.answers import ChoiceAnswer
from vorlib.practice.questions.figures import Dial, QuestionFigure
from vorlib.practice.questions.misconceptions import NEEDLE_IS_AIRCRAFT
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import (
    any_altitude_ft,
    any_direction,
    any_station,
    any_wind_across,
    flag_of,
)
from vorlib.practice.questions.standards import TRACKING
from vorlib.vor.receiver import Receiver

SIDE_OR_NEITHER = ChoiceAnswer(
    {"left": ("l", "from the left"), "right": ("r", "from the right"), "neither": ("none", "n")}
)
CASES = ("holds",) * 5 + ("drifts",) * 4 + ("along",)  # the wind: held, not held, not across
BEGUN_NM, WATCHED_S = 20.0, 180.0


@question_kind("wind_side", lessons=("06",))
def make(chance: Random) -> Question:
    """Ask for the side of the wind: the course flown as heading, or a correction that holds."""
    station = any_station(chance)
    course_deg, airspeed_kt = float(any_direction(chance)), float(chance.choice((90, 100, 110)))
    wind = any_wind_across(chance, course_deg, 30, 60)
    side = spoken_side(components_kt(course_deg, wind)[1])
    case, inbound = chance.choice(CASES), chance.random() < 0.5
    if case == "along":
        wind, side = Wind(course_deg + chance.choice((0, 180)), wind.speed_kt), "neither"
    holds = case == "holds"
    heading_deg = course_deg
    if holds:
        triangle = wind_triangle(course_deg, airspeed_kt, wind.from_deg, wind.speed_kt)
        heading_deg = float(triangle.heading_deg)
    radial_deg = float(reciprocal_deg(course_deg)) if inbound else course_deg
    altitude_ft = any_altitude_ft(chance)
    there = station.position_on(radial_deg, BEGUN_NM if inbound else BEGUN_NM / 2, altitude_ft)
    over_ground = track(heading_deg, airspeed_kt, wind)
    flown_nm = float(over_ground.groundspeed_kt) * WATCHED_S / SECONDS_PER_HOUR
    azimuth_deg = float(over_ground.track_deg) + station.declination_deg
    reading = Receiver(course_deg).read(station, direct(there, azimuth_deg, flown_nm))
    needle_dots = round(float(reading.dots) * 2.0) / 2.0  # as near as a needle is read
    course, heading = format_direction(course_deg), format_direction(heading_deg)
    return Question(
        kind="wind_side",
        prompt=f"Course {course} is selected on {station.name}. You were on the course line and "
        f"have held heading {heading} for {WATCHED_S / 60:.0f} minutes; the dial shows what you "
        "see now. From which side of the course does the wind blow: left, right or neither?",
        form=SIDE_OR_NEITHER,
        answer=side,
        tolerance=0.0,
        tolerance_why="A side is one or the other.",
        hints=(
            "Picture the course line, yourself, and which way your nose points.",
            "Without wind you would move the way the nose points.",
            f"The nose points {_pointing(heading_deg, course_deg, side)}. Did you stay on the "
            "line, and if not, on which side of you is it now?",
        ),
        worked=_solution(case, side),
        element=TRACKING,
        level="understanding",
        misconceptions=_mistakes(case, side),
        figure=QuestionFigure((Dial(course_deg, flag_of(reading), needle_dots),)),
    )


def _pointing(heading_deg: float, course_deg: float, side: str) -> str:
    return "along the course" if heading_deg == course_deg else f"to the {side} of the course"


def _other(side: str) -> str:
    return "left" if side == "right" else "right"


def _solution(case: str, side: str) -> str:
    if case == "holds":
        return (
            f"The nose points to the {side} of the course and you stay on the line: the wind "
            f"pushes back from the {side}."
        )
    if case == "drifts":
        return (
            f"The nose points along the course and the line is now to the {side}: you were carried "
            f"the other way, by a wind from the {side}."
        )
    return (
        "The nose points along the course and you stay on the line: neither side. A wind may "
        "still blow from ahead or from behind."
    )


def _mistakes(case: str, side: str) -> tuple[Misconception, ...]:
    if case == "along":
        return ()
    if case == "drifts":
        return (NEEDLE_IS_AIRCRAFT.answering(_other(side)),)
    return (
        Misconception(
            "centered needle taken for no wind",
            "neither",
            "Nothing moves on the indicator.",
            "Compare heading and course: in still air, where would this heading take you?",
        ),
        Misconception(
            "nose thought to point downwind",
            _other(side),
            "A thing in a stream seems to point where it is carried.",
            "Nose one way, and yet you stay on the line: which way does the air push?",
        ),
    )
