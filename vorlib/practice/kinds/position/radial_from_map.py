"""The radial of an aircraft on the map."""

from random import Random

from vorlib.core.angles import format_direction, reciprocal_deg
from vorlib.practice.questions.answers import DIRECTION
from vorlib.practice.questions.figures import Map, QuestionFigure, Spot
from vorlib.practice.questions.misconceptions import (
    HEADING_IS_POSITION,
    RADIAL_LEADS_TO,
    TRUE_FOR_MAGNETIC,
)
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_direction, any_station
from vorlib.practice.questions.standards import POSITION

NEAREST_NM, FARTHEST_NM = 12, 18  # near the rose, but clear of its figures


@question_kind("radial_from_map", lessons=("01",))
def make(chance: Random) -> Question:
    """Ask for the radial, which the station's rose shows."""
    station, radial_deg = any_station(chance), any_direction(chance)
    heading_deg, distance_nm = any_direction(chance), chance.randint(NEAREST_NM, FARTHEST_NM)
    there = station.position_on(radial_deg, distance_nm)
    true_deg = float(station.true_azimuth_deg(there))
    radial, true = format_direction(radial_deg), format_direction(true_deg)
    west = -station.declination_deg
    return Question(
        kind="radial_from_map",
        prompt=f"The map shows an aircraft {distance_nm} NM from {station.name}, heading "
        f"{format_direction(heading_deg)}. True north is up; the rose is the station's own. On "
        "which radial is the aircraft?",
        form=DIRECTION,
        answer=float(radial_deg),
        tolerance=3.0,
        tolerance_why="A line laid over a rose with a mark every 5 degrees is read to 3 degrees.",
        hints=(
            "Lay a line from the station through the aircraft. Where does it meet the rose?",
            "Count from the numeral nearest to it: a mark is 5 degrees. The rose's 360 is the "
            "filled arrowhead, not true north.",
            f"Seen from the station the aircraft is in the true direction {true}, and the rose is "
            f"turned {west:g} degrees to the west.",
        ),
        worked=f"The line from {station.name} through the aircraft meets the rose at {radial}. It "
        f"is {true} by true north, and the station's north lies {west:g} degrees west of that: "
        f"{true} + {west:g} = {radial}.",
        element=POSITION,
        level="understanding",
        misconceptions=(
            RADIAL_LEADS_TO.answering(float(reciprocal_deg(radial_deg))),
            TRUE_FOR_MAGNETIC.answering(true_deg),
            HEADING_IS_POSITION.answering(float(heading_deg)),
        ),
        figure=QuestionFigure((), Map(station, (Spot(radial_deg, distance_nm, "", heading_deg),))),
    )
