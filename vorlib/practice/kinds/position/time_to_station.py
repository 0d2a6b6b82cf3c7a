"""Minutes to the station by the wing-tip rule."""

from random import Random

from vorlib.practice.questions.answers import MINUTES, WING_TIP_SHARE
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_station
from vorlib.practice.questions.standards import POSITION
from vorlib.procedures.timing import RULE_MINUTES, time_to_station_min


@question_kind("time_to_station", lessons=("10",))
def make(chance: Random) -> Question:
    """Ask for the minutes to go after a timed change of bearing."""
    station = any_station(chance)
    change_deg = chance.choice((5, 8, 10, 12, 15, 20))
    seconds = chance.randrange(45, 241, 15)
    minutes = seconds / 60.0
    answer_min = float(time_to_station_min(minutes, change_deg))
    return Question(
        kind="time_to_station",
        prompt=f"{station.name} is on your wing tip and you start the stopwatch. After {seconds} "
        f"seconds on the same heading the bearing has changed by {change_deg} degrees. There is no "
        "wind. How many minutes is it to the station?",
        form=MINUTES,
        answer=answer_min,
        tolerance=WING_TIP_SHARE * answer_min,
        tolerance_why="Within 10 percent counts: the rule does, and so does the exact triangle, "
        "which is up to 9 percent shorter.",
        hints=(
            "The slower the bearing changes, the farther away the station is.",
            "60 x minutes flown / degrees of bearing change.",
            f"{seconds} seconds are {minutes:g} {'minute' if minutes == 1.0 else 'minutes'}. "
            f"Multiply by 60, divide by {change_deg}.",
        ),
        worked=f"60 x {minutes:g} / {change_deg} = {answer_min:.3g} minutes. (Seconds / degrees "
        "gives the same.)",
        element=POSITION,
        level="application",
        misconceptions=(
            Misconception(
                "isosceles rule used for the wing-tip run",
                minutes,
                "Both rules begin with a stopwatch, and this one needs no reckoning.",
                "Where did the station stand when you started: ahead, or on the wing tip?",
            ),
            Misconception(
                "seconds taken for minutes",
                float(round(RULE_MINUTES * answer_min)),
                "The stopwatch counts seconds, and the rule says 60.",
                "Which unit does the 60 in the rule go with?",
            ),
            Misconception(
                "sixty left out",
                minutes / change_deg,
                "Time over degrees feels like the whole of the rule.",
                "You have the time for one degree of change. What does the rule do with it?",
            ),
        ),
    )
