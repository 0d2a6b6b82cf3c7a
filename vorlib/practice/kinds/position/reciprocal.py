"""The opposite of a direction."""

from random import Random

from vorlib.core.angles import format_direction, reciprocal_deg, wrap_360
from vorlib.practice.questions.answers import DIRECTION
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_direction
from vorlib.practice.questions.standards import GROUND_KNOWLEDGE


@question_kind("reciprocal", lessons=("01",))
def make(chance: Random) -> Question:
    """Ask for the reciprocal of a direction."""
    direction_deg = any_direction(chance)
    sign = 1 if direction_deg <= 180 else -1
    first, then = ("add 200", "take 20 off") if sign > 0 else ("take 200 off", "add 20")
    asked, answer = format_direction(direction_deg), float(reciprocal_deg(direction_deg))
    return Question(
        kind="reciprocal",
        prompt=f"What is the reciprocal of {asked}?",
        form=DIRECTION,
        answer=answer,
        tolerance=0.5,
        tolerance_why="A reciprocal is exact: whole degrees go in and whole degrees come out.",
        hints=(
            "The reciprocal is the opposite direction: half a circle away.",
            f"Half a circle is 180 degrees. In your head: {first}, then {then}.",
            f"Begin with {direction_deg} {'+' if sign > 0 else '-'} 200.",
        ),
        worked=f"{direction_deg} {'+' if sign > 0 else '-'} 180 = {format_direction(answer)}.",
        element=GROUND_KNOWLEDGE,
        level="recall",
        misconceptions=(
            Misconception(
                "no turn at all",
                float(direction_deg),
                "A line has the same look from either end.",
                "Point along the direction, then point behind you.",
            ),
            Misconception(
                "a quarter turn",
                float(wrap_360(direction_deg + 90)),
                "Ninety degrees is the turn made most often.",
                "How many degrees is half a circle?",
            ),
            Misconception(
                "the rule of 200 and 20 left half done",
                float(wrap_360(direction_deg + 200 * sign)),
                "The 200 is the large step, and the 20 is forgotten behind it.",
                f"After the 200 there is a second step: {then}.",
            ),
        ),
    )
