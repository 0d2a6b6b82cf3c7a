"""Which way, and how far, to turn for the station."""

from random import Random

from vorlib.core.angles import difference_deg, format_direction, spoken_side
from vorlib.practice.questions.answers import LEFT_RIGHT
from vorlib.practice.questions.misconceptions import ACROSS_NORTH, RADIAL_LEADS_TO
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_direction, any_station
from vorlib.practice.questions.standards import TRACKING
from vorlib.procedures.orientation import direct_to

SMALLEST_TURN_DEG, LARGEST_TURN_DEG = 20, 160  # so that one way round is clearly the shorter


@question_kind("turn_direct", lessons=("04",))
def make(chance: Random) -> Question:
    """Ask for the shorter turn onto the course to the station."""
    station, radial_deg = any_station(chance), any_direction(chance)
    turn_deg = chance.choice((-1, 1)) * chance.randint(SMALLEST_TURN_DEG, LARGEST_TURN_DEG)
    heading_deg = radial_deg + 180 - turn_deg
    way = direct_to(radial_deg, heading_deg)
    answer_deg = float(round(way.turn_deg))
    heading, course = format_direction(heading_deg), format_direction(way.course_deg)
    side = spoken_side(answer_deg)
    plain_deg = float(course) - float(heading)
    across_north = (ACROSS_NORTH.answering(plain_deg),) if abs(plain_deg) > 180.0 else ()
    return Question(
        kind="turn_direct",
        prompt=f"You are on the {format_direction(radial_deg)} radial of {station.name}, heading "
        f"{heading}, and there is no wind. Which is the shorter way to turn for the station, and "
        "by how many degrees?",
        form=LEFT_RIGHT,
        answer=answer_deg,
        tolerance=1.0,
        tolerance_why="All the numbers are whole degrees.",
        hints=(
            "Two steps: the course to the station, then from your heading to it.",
            "The course to the station is the reciprocal of your radial.",
            f"Go round the compass from {heading} to {course}. Do the numbers rise or fall on the "
            "shorter way?",
        ),
        worked=f"The course to the station is {course}. From heading {heading} that is "
        f"{abs(answer_deg):g} degrees to the {side}.",
        element=TRACKING,
        level="application",
        misconceptions=(
            RADIAL_LEADS_TO.answering(float(round(float(difference_deg(radial_deg, heading_deg))))),
            Misconception(
                "left and right mixed up",
                -answer_deg,
                "Drawn with north up, a turn looks reversed whenever you fly south.",
                "Stand on the heading: do the numbers rise to the right or to the left?",
            ),
            *across_north,
        ),
    )
