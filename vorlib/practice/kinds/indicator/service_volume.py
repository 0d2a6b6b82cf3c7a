"""How far from a station its signal is promised, by class and height."""

from random import Random

from vorlib.practice.questions.answers import DISTANCE
from vorlib.practice.questions.misconceptions import ALTITUDE_FOR_HEIGHT
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.standards import GROUND_KNOWLEDGE
from vorlib.vor.coverage import SERVICE_VOLUMES, line_of_sight_nm, service_radius_nm

# Classes with a limit at which the radius changes, and heights a few hundred feet below it.
EDGES_FT = {"VL": (5000,), "VH": (5000, 14_500), "H": (14_500,)}
ELEVATIONS_FT = (600, 700, 800, 900, 1000)


@question_kind("service_volume", lessons=("02",))
def make(chance: Random) -> Question:
    """Ask for the radius of the service volume just under or well over one of its edges."""
    service = chance.choice(list(EDGES_FT))
    edge_ft, elevation_ft = chance.choice(EDGES_FT[service]), chance.choice(ELEVATIONS_FT)
    # Above the edge by altitude, below it by height above the antenna.
    altitude_ft = edge_ft + 100 * chance.randint(1, elevation_ft // 100 - 1)
    height_ft = altitude_ft - elevation_ft
    answer = float(service_radius_nm(service, height_ft))
    by_altitude = float(service_radius_nm(service, altitude_ft))
    sight = float(line_of_sight_nm(altitude_ft, elevation_ft))
    widest = max(band.radius_nm for band in SERVICE_VOLUMES[service])
    told = "; ".join(
        f"{band.floor_ft:,.0f} to {band.ceiling_ft:,.0f} ft, {band.radius_nm:g} NM"
        for band in SERVICE_VOLUMES[service]
    )
    misconceptions = [
        ALTITUDE_FOR_HEIGHT.answering(by_altitude),
        Misconception(
            "line of sight taken for the service volume",
            sight,
            "What can be received is easily taken for what is promised.",
            "Who says how far this station may be used: the horizon, or the table?",
        ),
    ]
    if widest > by_altitude:
        misconceptions.append(
            Misconception(
                "widest part taken for the whole service volume",
                widest,
                "One number is easier to keep than a table.",
                "Which line of the table holds your height?",
            )
        )
    return Question(
        kind="service_volume",
        prompt="In the United States the class of a VOR tells its service volume (AIM 1-1-8). One "
        f"of class {service} stands {elevation_ft} ft above the sea. Its volume, by height above "
        f"the antenna: {told}; where two hold, the wider. You fly at {altitude_ft:,} ft. Out to "
        "how many NM is its signal promised?",
        form=DISTANCE,
        answer=answer,
        tolerance=1.0,
        tolerance_why="The table has whole numbers: one of them is the answer.",
        hints=(
            "The table counts heights from the antenna, not from the sea.",
            f"Take {elevation_ft} ft off your altitude.",
            f"You are {height_ft:,} ft above the antenna: find the line that holds it.",
        ),
        worked=f"{altitude_ft:,} less {elevation_ft} is {height_ft:,} ft above the antenna, where "
        f"the volume reaches {answer:g} NM. Farther out you may receive it, but nobody promises "
        "that it is right. Other states publish a range for each station instead of a class.",
        element=GROUND_KNOWLEDGE,
        level="application",
        misconceptions=tuple(misconceptions),
    )
