"""The radial from a true direction on the chart and the station's declination."""

from random import Random

from vorlib.core.angles import format_direction, reciprocal_deg, wrap_360
from vorlib.earth.geodesic import direct
from vorlib.earth.variation import variation_deg
from vorlib.practice.questions.answers import DIRECTION
from vorlib.practice.questions.misconceptions import RADIAL_LEADS_TO, TRUE_FOR_MAGNETIC
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import (
    any_direction,
    any_distance_nm,
    any_station,
)
from vorlib.practice.questions.standards import GROUND_KNOWLEDGE
from vorlib.stations.archipelago import DECLINATION_YEARS, TODAY

TELLING_DIFFERENCE_DEG = 3.0  # variation and declination closer than this cannot be told apart


@question_kind("radial_from_true", lessons=("01",))
def make(chance: Random) -> Question:
    """Ask for the radial along a true direction measured on the chart."""
    station, true_deg = any_station(chance), any_direction(chance)
    there = direct(station.position, true_deg, any_distance_nm(chance))
    radial_deg = float(station.radial_deg(there))
    declination_deg = station.declination_deg
    variation = round(float(variation_deg(station.position, TODAY)))
    misconceptions = [
        TRUE_FOR_MAGNETIC.answering(float(true_deg)),
        RADIAL_LEADS_TO.answering(float(reciprocal_deg(radial_deg))),
        Misconception(
            "declination applied the wrong way",
            float(wrap_360(true_deg + declination_deg)),
            "Adding and subtracting west are easily swapped.",
            "With that north west of true north, is the angle from it larger or smaller?",
        ),
    ]
    today = ""
    if abs(variation - declination_deg) >= TELLING_DIFFERENCE_DEG:
        today = f" Today's variation there is {_east_west(variation)}."
        misconceptions.append(
            Misconception(
                "today's variation taken for declination",
                float(wrap_360(true_deg - variation)),
                "The chart prints today's variation, and both turn true into magnetic.",
                "The station was lined up once, in the year given, and has not turned since.",
            )
        )
    return Question(
        kind="radial_from_true",
        prompt=f"On a chart you measure {format_direction(true_deg)} true from {station.name} to "
        f"a ship. The station's declination is {_east_west(declination_deg)}, set in "
        f"{DECLINATION_YEARS[station.ident]}.{today} On which radial is the ship?",
        form=DIRECTION,
        answer=radial_deg,
        tolerance=1.0,
        tolerance_why="The chart and the declination are read in whole degrees.",
        hints=(
            "Radials are counted from the station's own north, not from true north.",
            "Radial = true direction less declination, with west counted as minus.",
            f"The station's north is {_east_west(declination_deg)} of true north: every direction "
            f"counted from it is that much {'larger' if declination_deg < 0 else 'smaller'}.",
        ),
        worked=f"{true_deg} - ({declination_deg:g}) = {true_deg - declination_deg:g}: the "
        f"{format_direction(radial_deg)} radial.",
        element=GROUND_KNOWLEDGE,
        level="application",
        misconceptions=tuple(misconceptions),
    )


def _east_west(declination_deg: float) -> str:
    return f"{abs(declination_deg):g} degrees {'west' if declination_deg < 0 else 'east'}"
