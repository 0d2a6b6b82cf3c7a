"""The heading that holds a course in a known wind."""

from random import Random

from vorlib.aircraft.wind import wind_triangle
from vorlib.core.angles import format_direction, spoken_side, wrap_360
from vorlib.practice.questions.answers import DIRECTION
from vorlib.practice.questions.misconceptions import WHOLE_WIND, WIND_TOWARD_NAME
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_direction, any_wind_across
from vorlib.practice.questions.standards import TRACKING
from vorlib.procedures.tracking import hold_course


@question_kind("wind_correction_heading", lessons=("06",))
def make(chance: Random) -> Question:
    """Ask for the heading, in a wind that blows at a slant."""
    course_deg, airspeed_kt = float(any_direction(chance)), float(chance.choice((90, 100, 110)))
    wind = any_wind_across(chance, course_deg, 25, 45)
    held = hold_course(course_deg, airspeed_kt, wind)
    correction_deg = float(held.triangle.correction_deg)
    across = 90.0 if correction_deg > 0 else -90.0
    whole = wind_triangle(course_deg, airspeed_kt, course_deg + across, wind.speed_kt)
    course, side = format_direction(course_deg), spoken_side(correction_deg)
    return Question(
        kind="wind_correction_heading",
        prompt=f"Your course is {course}, your true airspeed {airspeed_kt:g} kt. The wind is "
        f"{format_direction(float(wind.from_deg))} at {float(wind.speed_kt):.0f} kt, counted from "
        "the same north. Which heading holds the course?",
        form=DIRECTION,
        answer=float(held.triangle.heading_deg),
        tolerance=2.0,
        tolerance_why="A heading is held to two degrees at best.",
        hints=(
            "From which side does the wind blow, for someone who flies the course?",
            "Take the part of the wind that blows across. In degrees it corrects about 60 times "
            "that, divided by the airspeed.",
            f"The wind is from the {side}: turn the nose about {abs(correction_deg):.0f} degrees "
            "to that side.",
        ),
        worked=" ".join(held.steps),
        element=TRACKING,
        level="application",
        misconceptions=(
            Misconception(
                "course flown without a wind correction",
                course_deg,
                "The course is where you want to go, so the nose wants to point there.",
                "The nose points along the course: where does the wind carry you meanwhile?",
            ),
            WIND_TOWARD_NAME.answering(float(wrap_360(course_deg - correction_deg))),
            WHOLE_WIND.answering(float(whole.heading_deg)),
        ),
    )
