"""Where the nose of an aircraft points that homes to a station in wind."""

from random import Random

from vorlib.aircraft.wind import wind_triangle
from vorlib.core.angles import format_direction, reciprocal_deg, wrap_360
from vorlib.practice.questions.answers import DIRECTION
from vorlib.practice.questions.misconceptions import wind_for_its_target
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_direction, any_station
from vorlib.practice.questions.standards import TRACKING

AIRSPEED_KT = 100


@question_kind("homing_end", lessons=("04",))
def make(chance: Random) -> Question:
    """Ask for the heading toward which homing turns."""
    station, radial_deg = any_station(chance), any_direction(chance)
    course_deg = float(reciprocal_deg(radial_deg))
    across = chance.choice((-1, 1)) * chance.randrange(60, 121, 10)
    wind_from_deg = float(wrap_360(course_deg + across))
    wind_kt = chance.choice((25, 30, 35))
    held = wind_triangle(course_deg, AIRSPEED_KT, wind_from_deg, wind_kt)
    course, wind = format_direction(course_deg), format_direction(wind_from_deg)
    return Question(
        kind="homing_end",
        prompt=f"You fly to {station.name} from far out at {AIRSPEED_KT} kt, in a wind from {wind} "
        f"at {wind_kt} kt, counted from the same north as your course. You begin on course "
        f"{course} and re-centre the needle with TO again and again, each time turning the nose to "
        "the new course. Toward which heading does the nose turn until you arrive?",
        form=DIRECTION,
        answer=wind_from_deg,
        tolerance=5.0,
        tolerance_why="The nose comes close to that heading and only just reaches it.",
        hints=(
            "Which way does the wind carry you off the straight line?",
            "From there, on which side is the station? The nose follows it round.",
            "You end downwind of the station: what is ahead of you then, besides the station?",
        ),
        worked=f"The wind from {wind} carries you to the other side of the line. The nose follows "
        f"the station round until the station lies straight into the wind: toward {wind}.",
        element=TRACKING,
        level="understanding",
        misconceptions=(
            Misconception(
                "homing thought to hold the course",
                course_deg,
                "The needle is centred all the time, and that looks like being on course.",
                "The ring is turned each time. Is it still the same line?",
            ),
            Misconception(
                "homing taken for tracking",
                float(held.heading_deg),
                "Someone who tracks the course does hold that heading.",
                "Here nobody corrects for the wind: where does the nose point, and where is the "
                "aircraft carried?",
            ),
            wind_for_its_target(float(reciprocal_deg(wind_from_deg))),
        ),
    )
