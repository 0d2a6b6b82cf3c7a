"""The groundspeed along a course in a known wind."""

from random import Random

from vorlib.aircraft.wind import components_kt, wind_triangle
from vorlib.core.angles import format_direction
from vorlib.practice.questions.answers import Quantity
from vorlib.practice.questions.misconceptions import WHOLE_WIND, WIND_TOWARD_NAME
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_direction, any_wind_across
from vorlib.practice.questions.standards import TRACKING

KNOTS = Quantity({"kt": 1.0, "kts": 1.0, "knots": 1.0, "knot": 1.0})

# The exact triangle and airspeed less headwind differ by up to 4 kt (worked out for the drills of
# US Navy P-305, read in a copy); both count.
TOLERANCE_KT = 4.5  # with either rounded to a knot


@question_kind("groundspeed", lessons=("06",))
def make(chance: Random) -> Question:
    """Ask for the groundspeed, in a wind that blows at a slant."""
    course_deg, airspeed_kt = float(any_direction(chance)), float(chance.choice((120, 130, 140)))
    wind = any_wind_across(chance, course_deg, 50, 65)
    speed_kt = float(wind.speed_kt)
    triangle = wind_triangle(course_deg, airspeed_kt, wind.from_deg, speed_kt)
    blown_back = wind_triangle(course_deg, airspeed_kt, wind.from_deg + 180.0, speed_kt)
    head_kt = float(components_kt(course_deg, wind)[0])
    sign = 1.0 if head_kt > 0 else -1.0
    along, less = ("headwind", "-") if head_kt > 0 else ("tailwind", "+")
    return Question(
        kind="groundspeed",
        prompt=f"You hold the course {format_direction(course_deg)} at a true airspeed of "
        f"{airspeed_kt:g} kt. The wind is {format_direction(float(wind.from_deg))} at "
        f"{speed_kt:.0f} kt, counted from the same north. What is your groundspeed, in knots?",
        form=KNOTS,
        answer=float(triangle.groundspeed_kt),
        tolerance=TOLERANCE_KT,
        tolerance_why="Within 4.5 kt counts: so do both the exact triangle and the airspeed less "
        "the headwind.",
        hints=(
            "Does the wind blow more from ahead or more from behind?",
            "Only the part along the course counts: the speed of the wind times the cosine of the "
            "angle between wind and course.",
            f"Of the wind {abs(head_kt):.0f} kt are {along}.",
        ),
        worked=f"{abs(head_kt):.0f} kt of the wind are {along}: {airspeed_kt:g} {less} "
        f"{abs(head_kt):.0f} = {airspeed_kt - head_kt:.0f} kt. The exact triangle gives "
        f"{float(triangle.groundspeed_kt):.0f} kt, because the nose points a little off the "
        "course.",
        element=TRACKING,
        level="application",
        misconceptions=(
            Misconception(
                "airspeed taken for groundspeed",
                airspeed_kt,
                "It is what the airspeed indicator shows.",
                "How fast does the air itself move along your course?",
            ),
            WIND_TOWARD_NAME.answering(float(blown_back.groundspeed_kt)),
            WHOLE_WIND.answering(airspeed_kt - sign * speed_kt),
        ),
    )
