"""Miles to the station by the wing-tip rule."""

from random import Random

from vorlib.practice.questions.answers import DISTANCE, WING_TIP_SHARE
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_station
from vorlib.practice.questions.standards import POSITION
from vorlib.procedures.timing import distance_to_station_nm, time_to_station_min


@question_kind("distance_to_station", lessons=("10",))
def make(chance: Random) -> Question:
    """Ask for the distance to go after a timed change of bearing."""
    station = any_station(chance)
    change_deg = chance.choice((5, 8, 10, 12, 15, 20))
    minutes = chance.choice((1, 1.5, 2, 2.5, 3))
    airspeed_kt = chance.randrange(80, 161, 5)
    timed = f"{minutes:g} minute{'' if minutes == 1 else 's'}"
    answer_nm = float(distance_to_station_nm(airspeed_kt, minutes, change_deg))
    to_go_min = float(time_to_station_min(minutes, change_deg))
    return Question(
        kind="distance_to_station",
        prompt=f"{station.name} is on your wing tip. At {airspeed_kt} kt true airspeed the bearing "
        f"changes by {change_deg} degrees in {timed}. There is no wind. How far is the station, in "
        "NM?",
        form=DISTANCE,
        answer=answer_nm,
        tolerance=WING_TIP_SHARE * answer_nm,
        tolerance_why="Within 10 percent counts: the rule does, and so does the exact triangle, "
        "which is up to 9 percent shorter.",
        hints=(
            "Time to go and speed give the distance. You can also take one step for both.",
            "Airspeed x minutes flown / degrees of bearing change.",
            f"{airspeed_kt} x {minutes:g} = {airspeed_kt * minutes:g}. Divide by the degrees.",
        ),
        worked=f"{airspeed_kt} x {minutes:g} / {change_deg} = {answer_nm:.3g} NM; that is "
        f"{to_go_min:.3g} minutes at {airspeed_kt} kt.",
        element=POSITION,
        level="application",
        misconceptions=(
            Misconception(
                "time to go given for distance",
                to_go_min,
                "The minutes come out of the rule first, and they are easy to stop at.",
                "How many miles do you fly in those minutes?",
            ),
            Misconception(
                "distance flown given for distance to go",
                airspeed_kt * minutes / 60.0,
                "Speed times time is a distance you know how to reckon.",
                "That is how far you flew past the station. What do the degrees add?",
            ),
            Misconception(
                "knots multiplied by minutes to go",
                float(round(airspeed_kt * to_go_min)),
                "Speed times time is distance.",
                "A knot is a mile in an hour. How many minutes is that?",
            ),
        ),
    )
