"""How long the cone of confusion lasts when the station is crossed overhead."""

from random import Random

from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.core.words import rounded
from vorlib.practice.questions.answers import SECONDS, SHARE_ALLOWED
from vorlib.practice.questions.misconceptions import (
    ALTITUDE_FOR_HEIGHT,
    CONE_FROM_HORIZON,
)
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_altitude_ft, any_station
from vorlib.practice.questions.standards import PASSAGE
from vorlib.vor.coverage import CONE_HALF_ANGLE_DEG, cone_radius_nm


@question_kind("seconds_in_cone", lessons=("08",))
def make(chance: Random) -> Question:
    """Ask for the time from one edge of the cone to the other."""
    station, altitude_ft = any_station(chance), any_altitude_ft(chance)
    groundspeed_kt = chance.randrange(90, 151, 10)
    elevation_ft = float(station.position.altitude_ft)
    height_ft = altitude_ft - elevation_ft

    def crossing_s(height_ft: float, half_angle_deg: float = CONE_HALF_ANGLE_DEG) -> float:
        width_nm = 2.0 * float(cone_radius_nm(height_ft, half_angle_deg))
        return width_nm / groundspeed_kt * SECONDS_PER_HOUR

    answer_s = crossing_s(height_ft)
    width_nm = answer_s * groundspeed_kt / SECONDS_PER_HOUR
    return Question(
        kind="seconds_in_cone",
        prompt=f"You cross {station.name} overhead at {altitude_ft:,} ft with a groundspeed of "
        f"{groundspeed_kt} kt; its antenna stands at {elevation_ft:,.0f} ft. Take the cone of "
        f"confusion as {CONE_HALF_ANGLE_DEG:g} degrees either side of the vertical. For how many "
        "seconds are you in it?",
        form=SECONDS,
        answer=answer_s,
        tolerance=SHARE_ALLOWED * answer_s,
        tolerance_why="Within 5 percent counts: 1.2 for the tangent and 6,000 ft for a mile "
        "come well within that.",
        hints=(
            "Find how wide the cone is at your height, then how long that width takes.",
            "Width = 2 x height above the antenna x 1.2. Time = width / groundspeed.",
            f"The cone is {width_nm:.2g} NM wide. At {groundspeed_kt} kt a mile takes "
            f"{SECONDS_PER_HOUR / groundspeed_kt:.3g} seconds.",
        ),
        worked=f"{height_ft:,.0f} ft above the antenna the cone is {rounded(width_nm, 2)} NM wide; "
        f"at {groundspeed_kt} kt that takes {answer_s:.0f} seconds.",
        element=PASSAGE,
        level="application",
        misconceptions=(
            Misconception(
                "radius taken for width",
                answer_s / 2.0,
                "The triangle under the cone gives the radius, and it is easy to stop there.",
                "How far is it from where you fly in to where you fly out?",
            ),
            ALTITUDE_FOR_HEIGHT.answering(crossing_s(altitude_ft)),
            CONE_FROM_HORIZON.answering(crossing_s(height_ft, 90.0 - CONE_HALF_ANGLE_DEG)),
            Misconception(
                "minutes written as seconds",
                answer_s / 60.0,
                "Speed times time is often reckoned in minutes.",
                "Which unit did you work in, and which is asked for?",
            ),
        ),
    )
