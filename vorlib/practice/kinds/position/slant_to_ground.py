"""Distance over the ground from a DME reading."""

import math
from random import Random

from vorlib.core.units import FEET_PER_NM
from vorlib.practice.questions.answers import DISTANCE, ROUNDING_NM
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_station
from vorlib.practice.questions.standards import POSITION
from vorlib.procedures.dme_fixing import ground_distance_nm

SHARE_ALLOWED = 0.04  # covers reckoning with 6,000 ft to the mile


@question_kind("slant_to_ground", lessons=("09",))
def make(chance: Random) -> Question:
    """Ask for the ground distance of an aircraft so near and high that the difference matters."""
    station = any_station(chance)
    height_ft = chance.randrange(9000, 18001, 1000)
    height_nm = height_ft / FEET_PER_NM
    slant_nm = round(height_nm * chance.uniform(1.3, 2.2), 1)
    answer_nm = float(ground_distance_nm(slant_nm, height_ft))
    return Question(
        kind="slant_to_ground",
        prompt=f"The DME of {station.name} shows {slant_nm:.1f} NM, and you are {height_ft:,} ft "
        "above it. How far is it over the ground, in NM?",
        form=DISTANCE,
        answer=answer_nm,
        tolerance=SHARE_ALLOWED * answer_nm + ROUNDING_NM,
        tolerance_why="Within 4 percent counts, and so does rounding to a tenth of a mile: 6,000 "
        "ft for a mile will do.",
        hints=(
            "A DME measures along the straight line from the aircraft down to the station.",
            "Draw the triangle from the side: the shown distance is its longest side.",
            f"The height is {height_nm:.2f} NM. Ground = square root of ({slant_nm:.1f} x "
            f"{slant_nm:.1f} less {height_nm:.2f} x {height_nm:.2f}).",
        ),
        worked=f"{height_ft:,} ft are {height_nm:.2f} NM; the root of {slant_nm**2:.1f} - "
        f"{height_nm**2:.1f} is {answer_nm:.2f} NM.",
        element=POSITION,
        level="application",
        misconceptions=(
            Misconception(
                "slant range taken for ground distance",
                slant_nm,
                "The DME shows a distance, and the map measures distances.",
                "Along which line does the DME measure?",
            ),
            Misconception(
                "height subtracted from slant range",
                slant_nm - height_nm,
                "The height has to come off somehow, and subtracting is quick.",
                "Height and ground distance stand at right angles. What does that do to the sum?",
            ),
            Misconception(
                "slant range taken for the ground side",
                math.hypot(slant_nm, height_nm),
                "A right-angled triangle calls for adding two squares.",
                "Which of the three sides is the longest, and which of them did the DME measure?",
            ),
        ),
    )
