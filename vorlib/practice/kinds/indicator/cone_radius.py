"""The radius of the cone of confusion at a height."""

from random import Random

from vorlib.practice.questions.answers import DISTANCE, ROUNDING_NM
from vorlib.practice.questions.misconceptions import (
    ALTITUDE_FOR_HEIGHT,
    CONE_FROM_HORIZON,
)
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_altitude_ft, any_station
from vorlib.practice.questions.standards import PASSAGE
from vorlib.stations.archipelago import STATIONS
from vorlib.vor.coverage import CONE_HALF_ANGLE_DEG, cone_radius_nm

SHARE_ALLOWED = 0.02  # of the rule of 1.2 and 6,000 ft
HIGH_SHARE, HIGH_FT = 0.6, 1000  # antennas over which altitude and height are clearly apart


@question_kind("cone_radius", lessons=("08",))
def make(chance: Random) -> Question:
    """Ask for the cone's radius."""
    station, altitude_ft = any_station(chance), any_altitude_ft(chance)
    if chance.random() < HIGH_SHARE:
        station = chance.choice([s for s in STATIONS.values() if s.position.altitude_ft > HIGH_FT])
    elevation_ft = float(station.position.altitude_ft)
    height_ft = altitude_ft - elevation_ft
    radius_nm = float(cone_radius_nm(height_ft))
    tolerance_nm = SHARE_ALLOWED * radius_nm + ROUNDING_NM
    altitude_nm = float(cone_radius_nm(altitude_ft))
    # over a low antenna the two are too near to be told apart
    is_apart = altitude_nm - radius_nm > 2.1 * tolerance_nm
    by_altitude = (ALTITUDE_FOR_HEIGHT.answering(altitude_nm),) if is_apart else ()
    return Question(
        kind="cone_radius",
        prompt=f"You fly at {altitude_ft:,} ft near {station.name}, whose antenna stands at "
        f"{elevation_ft:,.0f} ft. Take the cone of confusion as {CONE_HALF_ANGLE_DEG:g} degrees "
        "either side of the vertical. What is its radius at your height, in NM?",
        form=DISTANCE,
        answer=radius_nm,
        tolerance=tolerance_nm,
        tolerance_why="Rounding to a tenth of a mile is fine, and so are 1.2 for the tangent "
        "and 6,000 ft for a mile.",
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
            *by_altitude,
            CONE_FROM_HORIZON.answering(
                float(cone_radius_nm(height_ft, 90.0 - CONE_HALF_ANGLE_DEG))
            ),
            Misconception(
                "width taken for radius",
                2.0 * radius_nm,
                "The cone is crossed from edge to edge.",
                "From where to where does a radius reach?",
            ),
            Misconception(
                "a mile taken for each thousand feet",
                height_ft / 1000.0,
                "One mile to a thousand feet is a rule for slant range, and it sticks.",
                "How many thousand feet make one mile?",
            ),
        ),
    )
