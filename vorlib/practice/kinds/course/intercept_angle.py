"""The intercept angle by the double-angle rule."""

from random import Random

from vorlib.core.angles import format_direction
from vorlib.practice.questions.answers import DEGREES
from vorlib.practice.questions.misconceptions import ACROSS_NORTH
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_direction, any_station
from vorlib.practice.questions.standards import TRACKING
from vorlib.procedures.intercept import (
    LARGEST_INTERCEPT_DEG,
    SMALLEST_INTERCEPT_DEG,
    intercept_angle_deg,
)

FEW_TO_GO, MANY_TO_GO = range(4, 10), range(47, 71)  # where the least and the largest angle hold
BETWEEN = range(11, 44)
ACROSS_NORTH_SHARE, NEAR_NORTH_DEG = 0.5, 10  # so that north often lies between the radials


@question_kind("intercept_angle", lessons=("05",))
def make(chance: Random) -> Question:
    """Ask for the angle between heading and course."""
    station, radial_deg = any_station(chance), any_direction(chance)
    if chance.random() < ACROSS_NORTH_SHARE:
        radial_deg = chance.randint(-NEAR_NORTH_DEG, NEAR_NORTH_DEG)
    to_go = chance.choice(chance.choice((FEW_TO_GO, BETWEEN, BETWEEN, MANY_TO_GO)))
    target_deg = radial_deg + chance.choice((-1, 1)) * to_go
    answer_deg = float(intercept_angle_deg(to_go))
    radial, target = format_direction(radial_deg), format_direction(target_deg)
    misconceptions = [
        Misconception(
            "radials to go not doubled",
            float(to_go),
            "Their number is the angle between the two radials, so it looks like the angle to fly.",
            "Would that ever bring you to the radial before the station? Draw it.",
        )
    ]
    if 2 * to_go != answer_deg:
        low = 2 * to_go < answer_deg
        misconceptions.append(
            Misconception(
                "the least angle forgotten" if low else "the largest angle forgotten",
                float(2 * to_go),
                "Twice the radials is the whole of the rule that most remember.",
                "The rule has a limit at either end: which one applies here?",
            )
        )
    if abs(float(radial) - float(target)) > 180.0:
        misconceptions.append(ACROSS_NORTH.answering(LARGEST_INTERCEPT_DEG))
    limits = f"at least {SMALLEST_INTERCEPT_DEG:g} and at most {LARGEST_INTERCEPT_DEG:g}"
    return Question(
        kind="intercept_angle",
        prompt=f"You are on the {radial} radial of {station.name} and want to intercept the "
        f"{target}. Which intercept angle does the double-angle rule give, in degrees?",
        form=DEGREES,
        answer=answer_deg,
        tolerance=0.5,
        tolerance_why="The rule gives whole degrees.",
        hints=(
            "How many radials lie between where you are and where you want to be?",
            f"Twice the radials to go, but {limits} degrees.",
            f"There are {to_go} radials to go.",
        ),
        worked=f"From {radial} to {target} there are {to_go} radials to go. Twice that is "
        f"{2 * to_go}; the rule asks for {limits}: {answer_deg:g} degrees.",
        element=TRACKING,
        level="understanding",
        misconceptions=tuple(m for m in misconceptions if m.would_answer != answer_deg),
    )
