"""The flag goes OFF while the needle stays in the middle: what to do, and where each way ends."""

from random import Random

from vorlib.aircraft.wind import components_kt
from vorlib.core.angles import format_direction, reciprocal_deg, spoken_side
from vorlib.practice.questions.decisions import SPEEDS_KT, Way, decision, flown_nm
from vorlib.practice.questions.figures import Dial, QuestionFigure
from vorlib.practice.questions.misconceptions import OFF_NEEDLE_FOLLOWED, ONE_TASK_ALONE
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_direction, any_station, any_wind_across
from vorlib.practice.questions.standards import LOST_SIGNAL
from vorlib.vor.receiver import Flag

NEAR_NM, FAR_NM = 22, 32
DRIFT_MIN, INSIDE_MIN = 10, 2


@question_kind("flag_lost", lessons=("13",))
def make(chance: Random) -> Question:
    """Ask what to do when a needle in the middle has no flag to stand for it."""
    station, course_deg = any_station(chance), any_direction(chance)
    wind = any_wind_across(chance, course_deg, 50, 80)
    speed_kt, distance_nm = chance.choice(SPEEDS_KT), chance.randint(NEAR_NM, FAR_NM)
    course = format_direction(course_deg)
    _, cross_kt = components_kt(course_deg, wind)
    side = spoken_side(cross_kt)
    drifted_nm = flown_nm(abs(float(cross_kt)), DRIFT_MIN)
    inside_nm = flown_nm(speed_kt, INSIDE_MIN)
    return decision(
        "flag_lost",
        chance,
        f"You track the {format_direction(reciprocal_deg(course_deg))} radial of {station.name} "
        f"inbound, {distance_nm} NM out. The wind is from the {side}, "
        f"{abs(float(cross_kt)):.0f} kt across the course, and a heading held into it has kept "
        "the needle centered. The flag goes to OFF, the needle stays, the ident is gone.",
        (
            Way(
                "Hold the heading that worked and the time, look out, then try the ident, the "
                "other receiver and the map",
                "The heading still makes good the course while the wind is the same, and the "
                "time tells how far along you are.",
            ),
            Way(
                f"Let the nose come back to {course}: the needle is centered",
                f"Nothing drives this needle, and it stays in the middle. After {DRIFT_MIN} "
                f"minutes of {abs(float(cross_kt)):.0f} kt from the {side} you are "
                f"{drifted_nm:.1f} NM off the course.",
                OFF_NEEDLE_FOLLOWED,
            ),
            Way(
                "Look for the fault at once: switches, circuit breakers, the handbook",
                f"With your eyes inside for {INSIDE_MIN} minutes at {speed_kt} kt you fly "
                f"{inside_nm:.1f} NM unseen, and somebody as fast who comes toward you was "
                f"{2.0 * inside_nm:.1f} NM away when you looked down.",
                ONE_TASK_ALONE,
            ),
        ),
        (
            "What of all that you see and know is still true?",
            "The flag says that the needle has nothing to show. Which number kept you on the "
            "course so far?",
            "Fly first, on what is known: only one of the three does, and keeps looking out.",
        ),
        LOST_SIGNAL,
        QuestionFigure((Dial(course_deg, Flag.OFF),)),
    )
