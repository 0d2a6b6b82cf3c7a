"""How far the needle moves out when the same miles off the line are flown nearer to the station."""

from random import Random

import numpy as np

from vorlib.practice.questions.answers import Quantity
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_station
from vorlib.practice.questions.standards import TRACKING
from vorlib.vor.receiver import DEG_PER_DOT

DOTS = Quantity({"dots": 1.0, "dot": 1.0})
TOLERANCE_DOTS = 0.25
# How many times nearer, and dots there were: what comes of it is on the scale and not pegged.
CASES = ((2, 1.0), (2, 1.5), (2, 2.0), (3, 1.0), (3, 1.5), (4, 0.75), (4, 1.0))


@question_kind("needle_near_station", lessons=("08",))
def make(chance: Random) -> Question:
    """Ask for the dots nearer to the station, flying parallel to the course line."""
    station, (times, before) = any_station(chance), chance.choice(CASES)
    near_nm = chance.choice((4, 5, 6, 7))
    far_nm = times * near_nm
    off_nm = far_nm * np.sin(np.radians(before * DEG_PER_DOT))
    angle_deg = float(np.degrees(np.arcsin(off_nm / near_nm)))
    answer = round(angle_deg / DEG_PER_DOT, 1)  # as fine as anybody reads a needle
    misconceptions = [
        Misconception(
            "needle thought to show miles",
            before,
            "You have not come any nearer to the line, so nothing seems to change.",
            "The needle shows an angle at the station. What happens to it as you come nearer?",
        ),
        Misconception(
            "needle thought to calm down near the station",
            before / times,
            "Everything comes together at the station, so the error seems to shrink.",
            "The same miles off, seen from the station: do they look wider from far or from near?",
        ),
    ]
    if times > 2:
        misconceptions.append(
            Misconception(
                "one doubling taken for the whole way in",
                2.0 * before,
                "Twice as touchy is how the rule is remembered.",
                "How often does the distance left go into the distance there was?",
            )
        )
    return Question(
        kind="needle_near_station",
        prompt=f"{far_nm} NM from {station.name} the needle stands {before:g} "
        f"{'dot' if before == 1.0 else 'dots'} off. You fly on "
        f"parallel to the course line, neither nearer to it nor farther. At how many dots does the "
        f"needle stand {near_nm} NM from the station? (such as 1.5)",
        form=DOTS,
        answer=answer,
        tolerance=TOLERANCE_DOTS,
        tolerance_why="A needle can be read to a quarter of a dot.",
        hints=(
            "The needle shows an angle, not miles.",
            "Miles off = distance x degrees / 60. The miles stay, and the distance shrinks.",
            f"The distance goes from {far_nm} to {near_nm} NM: it is {times} times less.",
        ),
        worked=f"The same miles off the line, at {times} times less distance, are {times} times "
        f"the angle: {times} x {before:g} = {answer:g} dots.",
        element=TRACKING,
        level="understanding",
        misconceptions=tuple(misconceptions),
    )
