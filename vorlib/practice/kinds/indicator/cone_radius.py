"""The radius of the cone of confusion at a height."""

from random import Random

from vorlib.practice.questions.answers import DISTANCE, SHARE_ALLOWED
from vorlib.practice.questions.misconceptions import (
    altitude_for_height,
    cone_from_horizon,
    width_for_radius,
)
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_altitude_ft, any_station
from vorlib.practice.questions.standards import PASSAGE
from vorlib.vor.coverage import CONE_HALF_ANGLE_DEG, cone_radius_nm


@question_kind("cone_radius", lessons=("08",))
def make(chance: Random) -> Question:
    """Ask for the cone's radius."""
    station, altitude_ft = any_station(chance), any_altitude_ft(chance)
    elevation_ft = float(station.position.altitude_ft)
    height_ft = altitude_ft - elevation_ft
    radius_nm = float(cone_radius_nm(height_ft))
    return Question(
        kind="cone_radius",
        prompt=f"You fly at {altitude_ft:,} ft near {station.name}, whose antenna stands at "
        f"{elevation_ft:,.0f} ft. Take the cone of confusion as {CONE_HALF_ANGLE_DEG:g} degrees "
        "either side of the vertical. What is its radius at your height, in NM?",
        form=DISTANCE,
        answer=radius_nm,
        tolerance=SHARE_ALLOWED * radius_nm,
        tolerance_why="Within 5 per cent counts: 1.2 for the tangent and 6,000 ft for a mile "
        "come well within that.",
        hints=(
            "Draw the cone from the side: a right-angled triangle standing on its tip.",
            "Radius = height above the antenna x tan 50, and tan 50 is about 1.2.",
            f"You are {height_ft:,.0f} ft above the antenna. Multiply by 1.2, divide by 6,000.",
        ),
        worked=f"{altitude_ft:,} - {elevation_ft:,.0f} = {height_ft:,.0f} ft above the antenna; "
        f"x tan 50 = {radius_nm:.2g} NM.",
        element=PASSAGE,
        level="application",
        misconceptions=(
            altitude_for_height(float(cone_radius_nm(altitude_ft))),
            cone_from_horizon(float(cone_radius_nm(height_ft, 90.0 - CONE_HALF_ANGLE_DEG))),
            width_for_radius(2.0 * radius_nm),
            Misconception(
                "a mile taken for each thousand feet",
                height_ft / 1000.0,
                "One mile to a thousand feet is a rule for slant range, and it sticks.",
                "How many thousand feet make one mile?",
            ),
        ),
    )
