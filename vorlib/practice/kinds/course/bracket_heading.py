"""The next heading of a bracket: needle off, needle back, needle back from the other side."""

from random import Random
from typing import NamedTuple

from vorlib.core.angles import format_direction, spoken_side, wrap_360
from vorlib.practice.questions.answers import DIRECTION
from vorlib.practice.questions.misconceptions import HOMING_FOR_TRACKING, NEEDLE_IS_AIRCRAFT
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_direction, any_station
from vorlib.practice.questions.standards import TRACKING
from vorlib.procedures.tracking import Bracket
from vorlib.vor.receiver import DOTS_FULL_SCALE, FULL_SCALE_DEG


class BracketStage(NamedTuple):
    """A stage of the bracket: what is told, the search after it, a hint, the misconceptions."""

    told: str
    bracket: Bracket
    hint: str
    misconceptions: tuple[Misconception, ...]


@question_kind("bracket_heading", lessons=("06",))
def make(chance: Random) -> Question:
    """Ask for the heading to fly next."""
    station, course_deg = any_station(chance), float(any_direction(chance))
    dots = chance.choice((-1, 1)) * chance.choice((2.5, 3.0))
    stage = chance.choice((_needle_off, _needle_back, _needle_back_again))(course_deg, dots)
    course = format_direction(course_deg)
    return Question(
        kind="bracket_heading",
        prompt=f"You bracket the course {course} to {station.name}: first 20 degrees toward the "
        f"needle, and half as much each time it is back. {stage.told} Which heading do you fly "
        "now?",
        form=DIRECTION,
        answer=stage.bracket.heading_deg,
        tolerance=2.0,
        tolerance_why="A heading is held to two degrees at best.",
        hints=(
            "Where is the needle: off, or back in the middle?",
            "Needle off: turn toward it. Needle back: keep half of the turn against the wind.",
            stage.hint,
        ),
        worked=stage.bracket.words,
        element=TRACKING,
        level="application",
        misconceptions=stage.misconceptions,
    )


def _needle_off(course_deg: float, dots: float) -> BracketStage:
    """Return the stage where the needle has moved off, with the course as heading."""
    now = Bracket(course_deg).look(dots)
    recentered_deg = course_deg + dots * FULL_SCALE_DEG / DOTS_FULL_SCALE
    return BracketStage(
        f"On heading {format_direction(course_deg)} it has moved to {abs(dots):g} dots "
        f"{spoken_side(dots)}.",
        now,
        f"The needle is to the {spoken_side(dots)}: turn to that side, from the course.",
        (
            NEEDLE_IS_AIRCRAFT.answering(float(wrap_360(course_deg - now.toward * now.step_deg))),
            HOMING_FOR_TRACKING.answering(float(wrap_360(recentered_deg))),
        ),
    )


def _needle_back(course_deg: float, dots: float) -> BracketStage:
    """Return the stage where the needle is centered again."""
    off = Bracket(course_deg).look(dots)
    now = off.look(0.0)
    return BracketStage(
        f"It was off to the {spoken_side(dots)}. You turned {off.step_deg:g} degrees toward it, to "
        f"heading {format_direction(off.heading_deg)}, and now it is centered.",
        now,
        f"Half of {off.step_deg:g} degrees stays, on the {spoken_side(dots)} of the course.",
        _back(course_deg, off.heading_deg),
    )


def _needle_back_again(course_deg: float, dots: float) -> BracketStage:
    """Half of the correction was too much; the half of that step brought the needle back."""
    off = Bracket(course_deg).look(dots)
    held = off.look(0.0)
    beyond = held.look(-dots)
    now = beyond.look(0.0)
    return BracketStage(
        f"You held {abs(held.held_deg):g} degrees to the {spoken_side(dots)}, heading "
        f"{format_direction(held.heading_deg)}, and it moved off to the {spoken_side(-dots)}. You "
        f"turned {beyond.step_deg:g} degrees toward it, to heading "
        f"{format_direction(beyond.heading_deg)}, and now it is centered.",
        now,
        f"One of the last two headings lost the line to the {spoken_side(-dots)}, the "
        "other regained it: take the middle between them.",
        (
            *_back(course_deg, beyond.heading_deg),
            Misconception(
                "bracket begun again from the course",
                held.heading_deg,
                "The rule begins with 20 degrees, and half of that is 10.",
                "That heading has lost the line since. How large was the last step?",
            ),
        ),
    )


def _back(course_deg: float, heading_deg: float) -> tuple[Misconception, Misconception]:
    """Return what goes wrong when the needle is back, with the heading that brought it back."""
    return (
        Misconception(
            "correction dropped once the needle is back",
            course_deg,
            "On the line again, the course seems to be the heading to fly.",
            "This heading lost the line before. What has changed since?",
        ),
        Misconception(
            "correction kept once the needle is back",
            heading_deg,
            "This heading has just worked.",
            "It took you across to the line. Where does it take you next?",
        ),
    )
