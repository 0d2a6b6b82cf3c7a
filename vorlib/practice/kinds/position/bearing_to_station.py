"""The way to the station from a known radial."""

from random import Random

from vorlib.core.angles import format_direction, reciprocal_deg, wrap_360
from vorlib.practice.questions.answers import DIRECTION
from vorlib.practice.questions.misconceptions import HEADING_IS_POSITION, RADIAL_LEADS_TO
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_direction, any_station, somewhere_on
from vorlib.practice.questions.standards import GROUND_KNOWLEDGE


@question_kind("bearing_to_station", lessons=("01",))
def make(chance: Random) -> Question:
    """Ask for the course to the station."""
    station, heading_deg = any_station(chance), any_direction(chance)
    radial_deg = float(station.radial_deg(somewhere_on(chance, station, any_direction(chance))))
    bearing_deg = float(reciprocal_deg(radial_deg))
    radial, bearing = format_direction(radial_deg), format_direction(bearing_deg)
    return Question(
        kind="bearing_to_station",
        prompt=f"You are on the {radial} radial of {station.name}, heading "
        f"{format_direction(heading_deg)}, and there is no wind. Which course leads straight to "
        "the station?",
        form=DIRECTION,
        answer=bearing_deg,
        tolerance=1.0,
        tolerance_why="A course is read and flown to the nearest degree at best.",
        hints=(
            "Draw the station, the radial, and yourself on it.",
            "The radial leads away from the station. You want to go the other way along it.",
            f"Take the reciprocal of {radial}.",
        ),
        worked=f"The {radial} radial leads away from {station.name}; its reciprocal {bearing} "
        "leads there.",
        element=GROUND_KNOWLEDGE,
        level="understanding",
        misconceptions=(
            RADIAL_LEADS_TO.answering(radial_deg),
            HEADING_IS_POSITION.answering(float(heading_deg)),
            Misconception(
                "relative bearing taken for bearing",
                float(wrap_360(bearing_deg - heading_deg)),
                "How far to turn is what the hands want to know.",
                "A course is counted from north, not from the nose.",
            ),
        ),
    )
