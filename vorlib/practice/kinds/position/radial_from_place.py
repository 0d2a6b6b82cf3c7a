"""The radial of an aircraft that is described from the station or from the cockpit."""

from random import Random

from vorlib.core.angles import format_direction, reciprocal_deg
from vorlib.practice.questions.answers import DIRECTION
from vorlib.practice.questions.misconceptions import (
    HEADING_IS_POSITION,
    RADIAL_LEADS_TO,
    TRUE_FOR_MAGNETIC,
)
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import (
    any_direction,
    any_distance_nm,
    any_station,
)
from vorlib.practice.questions.standards import POSITION


@question_kind("radial_from_place", lessons=("01",))
def make(chance: Random) -> Question:
    """Ask for the radial from the direction of the aircraft, or of the station."""
    station, heading_deg = any_station(chance), any_direction(chance)
    distance_nm = any_distance_nm(chance)
    there = station.position_on(any_direction(chance), distance_nm)
    radial_deg = float(station.radial_deg(there))
    bearing_deg = float(reciprocal_deg(radial_deg))
    true_deg = float(station.true_azimuth_deg(there))
    radial, bearing, true, heading = map(
        format_direction, (radial_deg, bearing_deg, true_deg, heading_deg)
    )
    if chance.random() < 0.5:
        seen = (
            f"From {station.name} an aircraft is seen {distance_nm} NM away in direction {radial} "
            f"by the station's own north, {true} true."
        )
        worked = (
            "A radial leads from the station to the aircraft, and is counted from the station's "
            f"own north: {radial}."
        )
    else:
        seen = (
            f"{station.name} lies {distance_nm} NM from an aircraft in direction {bearing} "
            "by the station's own north; from the station the aircraft is seen "
            f"{true} true."
        )
        worked = (
            f"{bearing} leads from the aircraft to the station. The radial leads the other way: "
            f"its reciprocal, {radial}."
        )
    return Question(
        kind="radial_from_place",
        prompt=f"{seen} Its heading is {heading}. On which radial of {station.name} is it?",
        form=DIRECTION,
        answer=radial_deg,
        tolerance=1.0,
        tolerance_why="Directions are given in whole degrees, so one degree either way is right.",
        hints=(
            "A radial is counted from the station's own north. Where does it begin, and where does "
            "it lead?",
            "It leads from the station to the aircraft. Where the nose points does not matter.",
            f"Stand at {station.name}, face the aircraft, and read the rose round the station.",
        ),
        worked=worked,
        element=POSITION,
        level="understanding",
        misconceptions=(
            RADIAL_LEADS_TO.answering(bearing_deg),
            HEADING_IS_POSITION.answering(float(heading_deg)),
            TRUE_FOR_MAGNETIC.answering(true_deg),
        ),
    )
