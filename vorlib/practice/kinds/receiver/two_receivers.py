"""The difference of two receivers, where a known radial is near to lead astray."""

from random import Random

from vorlib.core.angles import difference_deg, format_direction, wrap_360
from vorlib.core.words import spoken_degrees
from vorlib.practice.questions.answers import DEGREES
from vorlib.practice.questions.misconceptions import ACROSS_NORTH
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_station
from vorlib.practice.questions.standards import ELSEWHERE, GROUND_KNOWLEDGE
from vorlib.receiver_check.check import judge, receivers_apart_deg
from vorlib.receiver_check.rules import RULES

NEAR_NORTH_DEG = 4  # so that the difference often leads across north
TOLERANCE_DEG = 0.4


@question_kind("two_receivers", lessons=("11",))
def make(chance: Random) -> Question:
    """Ask what a check of one receiver against the other gives."""
    station = any_station(chance)
    radial_deg = chance.randint(-NEAR_NORTH_DEG, NEAR_NORTH_DEG)
    first_deg = float(wrap_360(radial_deg + chance.choice((-5, -4, -3, -2, 2, 3))))
    second_deg = float(wrap_360(radial_deg + chance.choice((-3, -1, 1, 4, 5, 6))))
    apart_deg = float(receivers_apart_deg(first_deg, second_deg))
    each_deg = {abs(float(difference_deg(ring, radial_deg))) for ring in (first_deg, second_deg)}
    plain_deg = abs(first_deg - second_deg)
    across_north = (ACROSS_NORTH.answering(plain_deg),) if plain_deg > 180.0 else ()
    one, two = format_direction(first_deg), format_direction(second_deg)
    return Question(
        kind="two_receivers",
        prompt=f"You are parked on the {format_direction(radial_deg)} radial of {station.name}. "
        f"Both receivers are tuned to it and centered with FROM, the first at {one}, the second at "
        f"{two}. You check one against the other, as {RULES.name} of the United States allows: "
        "what goes into the log, in degrees?",
        form=DEGREES,
        answer=apart_deg,
        tolerance=TOLERANCE_DEG,
        tolerance_why="The rings are read to the degree.",
        hints=(
            "One of the three directions plays no part in this check.",
            "What counts is how far apart the two rings are.",
            f"Go from {one} to {two} the short way round.",
        ),
        worked=f"From {one} to {two} is {spoken_degrees(apart_deg)}, whatever the radial. "
        f"{judge('two receivers', apart_deg).reason} {ELSEWHERE}",
        element=GROUND_KNOWLEDGE,
        level="application",
        misconceptions=(
            *(
                Misconception(
                    "dual check read as error from a known radial",
                    error_deg,
                    "A published radial is at hand, and other checks are made against it.",
                    "Which two things does this check compare?",
                )
                for error_deg in sorted(each_deg)
            ),
            *across_north,
        ),
    )
