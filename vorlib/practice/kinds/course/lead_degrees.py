"""How many degrees before the course the turn onto it begins."""

from math import degrees
from random import Random

from vorlib.aircraft.turns import bank_for_rate_deg, turn_lead_nm, turn_radius_nm
from vorlib.core.angles import format_direction
from vorlib.core.words import rounded
from vorlib.practice.questions.answers import DEGREES
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_direction, any_station
from vorlib.practice.questions.standards import TRACKING
from vorlib.procedures.tracking import one_in_sixty_deg

SPEEDS_KT = (90, 100, 110, 120, 130, 140, 150)
SHARES = {90: "the whole", 45: "three tenths", 30: "an eighth"}  # of the radius; from 1 - cos
LEAST_DEG = 1.0  # less is finer than a needle can be read
SHARE_ALLOWED, ALLOWED_DEG = 0.15, 0.5  # a third of the radius at 45 degrees; a quarter of a dot


@question_kind("lead_degrees", lessons=("05",))
def make(chance: Random) -> Question:
    """Ask for the lead of a standard-rate turn, in degrees at a distance."""
    station, course_deg = any_station(chance), any_direction(chance)
    answer_deg = 0.0
    while answer_deg < LEAST_DEG:
        angle_deg, speed_kt = chance.choice(list(SHARES)), chance.choice(SPEEDS_KT)
        distance_nm = chance.randint(5, 15)
        radius_nm = round(float(turn_radius_nm(speed_kt, bank_for_rate_deg(speed_kt))), 2)
        lead_nm = float(turn_lead_nm(radius_nm, angle_deg))
        answer_deg = float(one_in_sixty_deg(lead_nm, distance_nm))
    lead_words = rounded(lead_nm, 2)
    misconceptions = [
        Misconception(
            "lead in miles given for degrees",
            lead_nm,
            "The turn itself is measured in miles.",
            "At this distance, how many degrees is a mile?",
        ),
        Misconception(
            "the way flown in the turn taken for the lead",
            answer_deg * radius_nm * angle_deg / degrees(1.0) / lead_nm,
            "The turn is a curve, and its length is what you fly.",
            "The lead is measured straight to the course line, not along the curve.",
        ),
    ]
    if angle_deg != max(SHARES):
        misconceptions.append(
            Misconception(
                "the whole radius led, whatever the angle",
                float(one_in_sixty_deg(radius_nm, distance_nm)),
                "That is right for an intercept of 90 degrees.",
                "At this smaller angle, how much of the turn is still to be flown?",
            )
        )
    return Question(
        kind="lead_degrees",
        prompt=f"You meet course {format_direction(course_deg)} at an angle of {angle_deg} "
        f"degrees, {distance_nm} NM from {station.name}, at {speed_kt} kt without wind. A "
        f"standard-rate turn then has a radius of {radius_nm:g} NM. How many degrees before "
        "the course do you begin the turn?",
        form=DEGREES,
        answer=answer_deg,
        tolerance=max(SHARE_ALLOWED * answer_deg, ALLOWED_DEG),
        tolerance_why="Within 15 percent counts, because rules of thumb are no better, and so does "
        "within half a degree, a quarter of a dot.",
        hints=(
            "Two steps: the lead in miles, then how many degrees that is out here.",
            f"At {angle_deg} degrees the lead is {SHARES[angle_deg]} of the radius. One degree is "
            "a mile at 60 miles.",
            f"The lead is {lead_words} NM: times 60, divided by {distance_nm}.",
        ),
        worked=f"Lead: {SHARES[angle_deg]} of the radius, {lead_words} NM. In degrees: "
        f"60 x {lead_words} / {distance_nm} = {rounded(answer_deg)}.",
        element=TRACKING,
        level="application",
        misconceptions=tuple(misconceptions),
    )
