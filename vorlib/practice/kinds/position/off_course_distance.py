"""How far away the course line is, from the dots and the distance."""

from random import Random

import numpy as np

from vorlib.core.angles import format_direction
from vorlib.practice.questions.answers import DISTANCE, ROUNDING_NM
from vorlib.practice.questions.figures import Dial, QuestionFigure
from vorlib.practice.questions.misconceptions import DOTS_FOR_DEGREES
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import (
    any_altitude_ft,
    any_direction,
    any_distance_nm,
    any_station,
)
from vorlib.practice.questions.standards import POSITION
from vorlib.vor.receiver import DOTS_FULL_SCALE, FULL_SCALE_DEG, Receiver

# 200 ft for each dot and each NM: common practice, found at third hand only. The exact value of a
# dot of 2 degrees is 212 ft.
FEET_PER_DOT_NM = 200
SHARE_ALLOWED = 0.10
RULE_SHARE = 0.06  # by this much the rule falls short


@question_kind("off_course_distance", lessons=("03", "08"))
def make(chance: Random) -> Question:
    """Ask for the distance from the course line in NM."""
    station, course_deg = any_station(chance), any_direction(chance)
    distance_nm = any_distance_nm(chance)
    wanted_dots = chance.choice((-1, 1)) * chance.choice((1, 1.5, 2, 2.5, 3, 4))
    radial_deg = course_deg - wanted_dots * FULL_SCALE_DEG / DOTS_FULL_SCALE
    there = station.position_on(radial_deg, distance_nm, any_altitude_ft(chance))
    reading = Receiver(course_deg).read(station, there)
    dots = abs(round(float(reading.dots), 1))
    off_nm = float(reading.distance_nm * np.sin(np.radians(abs(reading.deviation_deg))))
    by_rule_ft = FEET_PER_DOT_NM * dots * distance_nm
    return Question(
        kind="off_course_distance",
        prompt=f"You are {distance_nm} NM from {station.name} with {format_direction(course_deg)} "
        f"selected, and the dial shows what you see; five dots are {FULL_SCALE_DEG:g} degrees. How "
        "far is the course line from you, in NM?",
        form=DISTANCE,
        answer=off_nm,
        tolerance=max(SHARE_ALLOWED * off_nm, RULE_SHARE * off_nm + ROUNDING_NM),
        tolerance_why="Within 10 percent counts, and so does a tenth of a mile: both the rule of "
        "200 ft for each dot and NM and the exact value do.",
        hints=(
            "The same needle means less distance the nearer you are to the station.",
            f"Rule of thumb: {FEET_PER_DOT_NM} ft for each dot and each NM. 6,000 ft are a mile.",
            f"Work out {FEET_PER_DOT_NM} x {dots:g} x {distance_nm}, then divide by 6,000.",
        ),
        worked=f"{FEET_PER_DOT_NM} ft x {dots:g} x {distance_nm} = {by_rule_ft:,.0f} ft, or "
        f"{by_rule_ft / 6000:.2g} NM by the rule; {off_nm:.2g} NM exactly.",
        element=POSITION,
        level="application",
        misconceptions=(
            DOTS_FOR_DEGREES.answering(off_nm / 2),
            Misconception(
                "distance from the station left out",
                dots,
                "With area navigation a dot can be a mile, wherever you are.",
                "A VOR needle shows an angle. What else is needed for a distance?",
            ),
            Misconception(
                "feet written as miles",
                by_rule_ft,
                "The rule of thumb gives feet.",
                "How many feet are there in a mile?",
            ),
        ),
        figure=QuestionFigure((Dial.of(course_deg, reading),)),
    )
