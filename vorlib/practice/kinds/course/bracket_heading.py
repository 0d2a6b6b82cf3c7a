"""The next heading of a bracket: needle off, needle back, needle off on the other side."""

from random import Random
from typing import NamedTuple

from vorlib.core.angles import format_direction, wrap_360
from vorlib.practice.questions.answers import DIRECTION
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_direction, any_station
from vorlib.practice.questions.standards import TRACKING
from vorlib.procedures.tracking import Bracket
from vorlib.vor.receiver import DOTS_FULL_SCALE, FULL_SCALE_DEG


class BracketStage(NamedTuple):
    """A stage of the bracket: what is told, the search after it, a last hint, the mistakes."""

    told: str
    bracket: Bracket
    hint: str
    misconceptions: tuple[Misconception, ...]


@question_kind("bracket_heading", lessons=("06",))
def make(chance: Random) -> Question:
    """Ask for the heading to fly next."""
    station, course_deg = any_station(chance), float(any_direction(chance))
    dots = chance.choice((-1, 1)) * chance.choice((2.5, 3.0))
    stage = chance.choice((_needle_off, _needle_back, _needle_beyond))(course_deg, dots)
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
    """The needle has moved off, with the course as heading."""
    now = Bracket(course_deg).look(dots)
    recentred_deg = course_deg + dots * FULL_SCALE_DEG / DOTS_FULL_SCALE
    return BracketStage(
        f"On heading {format_direction(course_deg)} it has moved to {abs(dots):g} dots "
        f"{_side(dots)}.",
        now,
        f"The needle is to the {_side(dots)}: turn to that side, from the course.",
        (
            _away(course_deg - now.toward * now.step_deg),
            Misconception(
                "homing taken for tracking",
                float(wrap_360(recentred_deg)),
                "A turn of the ring centres the needle at once, and that course looks like the "
                "heading to fly.",
                "Is the line that the ring then shows the one you were to fly?",
            ),
        ),
    )


def _needle_back(course_deg: float, dots: float) -> BracketStage:
    """The needle is centred again."""
    off = Bracket(course_deg).look(dots)
    now = off.look(0.0)
    return BracketStage(
        f"It was off to the {_side(dots)}. You turned {off.step_deg:g} degrees toward it, to "
        f"heading {format_direction(off.heading_deg)}, and now it is centred.",
        now,
        f"Half of {off.step_deg:g} degrees stays, on the {_side(dots)} of the course.",
        (
            Misconception(
                "correction dropped once the needle is back",
                course_deg,
                "On the line again, the course seems to be the heading to fly.",
                "This heading lost the line before. What has changed since?",
            ),
            Misconception(
                "correction kept once the needle is back",
                off.heading_deg,
                "This heading has just worked.",
                "It took you across to the line. Where does it take you next?",
            ),
        ),
    )


def _needle_beyond(course_deg: float, dots: float) -> BracketStage:
    """With half of the correction kept, the needle goes to the other side."""
    off = Bracket(course_deg).look(dots)
    held = off.look(0.0)
    now = held.look(-dots)
    return BracketStage(
        f"You hold {abs(held.held_deg):g} degrees to the {_side(dots)}, heading "
        f"{format_direction(held.heading_deg)}, and now it moves off to the {_side(-dots)}.",
        now,
        f"The step is now {now.step_deg:g} degrees, to the {_side(-dots)}, from the heading you "
        "hold.",
        (
            _away(held.heading_deg - now.toward * now.step_deg),
            Misconception(
                "bracket begun again from the course",
                float(wrap_360(course_deg + now.toward * off.step_deg)),
                "The rule begins with 20 degrees toward the needle.",
                "You know more by now: how large is the next step, and from which heading?",
            ),
        ),
    )


def _side(sign: float) -> str:
    return "right" if sign > 0 else "left"


def _away(would_answer: float) -> Misconception:
    return Misconception(
        "corrected away from the needle",
        float(wrap_360(would_answer)),
        "The needle is easily read as yourself, to be brought back the other way.",
        "You are the middle of the dial and the needle is the line: which way to it?",
    )
