"""Time to the station when its relative bearing has doubled."""

from random import Random

from vorlib.core.words import spoken_time
from vorlib.practice.questions.answers import MINUTES, SHARE_ALLOWED
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_station
from vorlib.practice.questions.standards import POSITION
from vorlib.procedures.timing import isosceles_time_to_station_min, time_to_station_min


@question_kind("isosceles_time", lessons=("10",))
def make(chance: Random) -> Question:
    """Ask for the minutes to go."""
    station, side = any_station(chance), chance.choice(("left", "right"))
    off_deg = chance.choice((10, 15, 20, 25, 35, 40))
    seconds = chance.randrange(120, 601, 30)
    minutes = float(isosceles_time_to_station_min(seconds / 60.0))
    return Question(
        kind="isosceles_time",
        prompt=f"{station.name} is {off_deg} degrees {side} of the nose. You hold the heading; "
        f"after {spoken_time(seconds)} it is {2 * off_deg} degrees {side} of the nose. There is no "
        "wind, and you turn to the station now. How many minutes is it to the station?",
        form=MINUTES,
        answer=minutes,
        tolerance=SHARE_ALLOWED * minutes,
        tolerance_why="Within 5 percent counts: the turn alone takes a few seconds.",
        hints=(
            "Draw the triangle: where you started, where you are, the station.",
            f"At the station's corner the triangle has an angle too: {2 * off_deg} less {off_deg}.",
            "Two equal angles, so two equal sides. Which two?",
        ),
        worked=f"The angles at the start and at the station are both {off_deg} degrees, so the way "
        f"to go is as long as the way flown: {minutes:.3g} minutes.",
        element=POSITION,
        level="understanding",
        misconceptions=(
            Misconception(
                "wing-tip rule used for the isosceles run",
                float(time_to_station_min(seconds / 60.0, off_deg)),
                "There is a change of bearing and a time, so the rule of sixty seems to fit.",
                "The rule of sixty begins with the station abeam. Where was it here?",
            ),
            Misconception(
                "twice the time flown",
                2.0 * minutes,
                "The angle has doubled, so the time seems to.",
                "Which sides of the triangle are equal?",
            ),
            Misconception(
                "half the time flown",
                0.5 * minutes,
                "The angle has doubled, so half the way seems left.",
                "Which sides of the triangle are equal?",
            ),
        ),
    )
