"""Which way the nose turns when an aircraft homes to a station in wind."""

from random import Random

from vorlib.core.angles import format_direction, reciprocal_deg, wrap_360
from vorlib.practice.questions.answers import ChoiceAnswer
from vorlib.practice.questions.misconceptions import HOMING_FOR_TRACKING, WIND_TOWARD_NAME
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_direction, any_station
from vorlib.practice.questions.standards import TRACKING

AIRSPEED_KT = 100
# Below the airspeed: then the pursuit curve reaches the station, and all the way the nose turns
# into the wind without ever pointing straight into it (closed form, checked by integration).
WINDS_KT = (25, 30, 35)
WAY = ChoiceAnswer(
    {
        "left": ("l", "to the left", "turns left"),
        "right": ("r", "to the right", "turns right"),
        "neither": ("none", "stays", "it stays", "n"),
    }
)


@question_kind("homing_end", lessons=("04",))
def make(chance: Random) -> Question:
    """Ask for the way the heading turns during homing."""
    station, radial_deg = any_station(chance), any_direction(chance)
    course_deg = float(reciprocal_deg(radial_deg))
    across_deg = chance.choice((-1, 1)) * chance.randrange(60, 121, 10)
    wind_from_deg = float(wrap_360(course_deg + across_deg))
    wind_kt = chance.choice(WINDS_KT)
    side, other = ("right", "left") if across_deg > 0 else ("left", "right")
    course, wind = format_direction(course_deg), format_direction(wind_from_deg)
    return Question(
        kind="homing_end",
        prompt=f"You fly to {station.name} from far out at {AIRSPEED_KT} kt, in a wind from {wind} "
        f"at {wind_kt} kt, counted from the same north as your course. You begin on course "
        f"{course} and re-center the needle with TO again and again, each time turning the nose to "
        "the new course. Until you arrive, which way does your heading turn: left, right or "
        "neither?",
        form=WAY,
        answer=side,
        tolerance=0.0,
        tolerance_why="The heading turns one way or the other, or stays.",
        hints=(
            "Which way does the wind carry you off the straight line?",
            "From there, on which side is the station? The nose follows it.",
            f"A wind from {wind} carries you to the {other} of the line to the station.",
        ),
        worked=f"The wind from {wind} carries you to the {other} of the line, so the station comes "
        f"to lie to the {side}, and the nose follows it: it turns {side}, into the wind, more and "
        "more as you come near. You fly a curve that is longer than the straight line, and you do "
        "arrive, because the wind is slower than you are.",
        element=TRACKING,
        level="understanding",
        misconceptions=(
            HOMING_FOR_TRACKING.answering("neither"),
            WIND_TOWARD_NAME.answering(other),
        ),
    )
