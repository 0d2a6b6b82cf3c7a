"""Station passage, and something else calls: what comes first, and what the rest costs."""

import math
from random import Random

from vorlib.core.angles import format_direction, wrap_360
from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.practice.questions.decisions import SPEEDS_KT, Way, decision, flown_nm
from vorlib.practice.questions.figures import Dial, QuestionFigure
from vorlib.practice.questions.misconceptions import OFF_NEEDLE_FOLLOWED, ONE_TASK_ALONE
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_altitude_ft, any_direction, any_station
from vorlib.practice.questions.standards import DISTRACTION
from vorlib.vor.coverage import cone_radius_nm
from vorlib.vor.receiver import Flag

CALLS = (
    "a passenger feels sick and asks for a bag",
    "the other radio calls you twice",
    "a door rattles and is not quite shut",
    "a pencil and the map slide off your knee",
)
TURNS_DEG = (40, 50, 60, 70)
CHASE_DEG = 30  # a turn after the needle
LATE_MIN = 3


@question_kind("distracted_at_passage", lessons=("13",))
def make(chance: Random) -> Question:
    """Ask what comes first when the flag goes OFF over a station and somebody calls."""
    station, speed_kt = any_station(chance), chance.choice(SPEEDS_KT)
    inbound_deg, altitude_ft = any_direction(chance), any_altitude_ft(chance)
    turn_deg = chance.choice((-1, 1)) * chance.choice(TURNS_DEG)
    inbound, outbound = (
        format_direction(float(wrap_360(deg))) for deg in (inbound_deg, inbound_deg + turn_deg)
    )
    across_nm = 2.0 * float(cone_radius_nm(float(altitude_ft - station.position.altitude_ft)))
    in_cone_s = across_nm / speed_kt * SECONDS_PER_HOUR
    chased_nm = across_nm * math.sin(math.radians(CHASE_DEG))
    late_nm = flown_nm(speed_kt, LATE_MIN) * math.sin(math.radians(abs(turn_deg)))
    return decision(
        "distracted_at_passage",
        chance,
        f"Inbound to {station.name} on {inbound} at {altitude_ft:,} ft and {speed_kt} kt, without "
        f"wind, you are to leave it on {outbound}. The needle begins to swing, the flag goes to "
        f"OFF, and {chance.choice(CALLS)}.",
        (
            Way(
                f'Hold {inbound}, note the time, say "wait"; with FROM turn to {outbound} and '
                "select it, then see to the rest",
                f"The cone is {across_nm:.1f} NM wide at your height: {in_cone_s:.0f} seconds on "
                "a steady heading, and you leave it on the line that you came on. All else can "
                "wait that long.",
            ),
            Way(
                "Turn after the needle, so as not to lose the line",
                f"In the cone the needle means nothing. {CHASE_DEG} degrees after it for "
                f"{in_cone_s:.0f} seconds put you {chased_nm:.1f} NM beside the line.",
                OFF_NEEDLE_FOLLOWED,
            ),
            Way(
                "See to that at once; the station is not going to move",
                f"In {LATE_MIN} minutes you fly {flown_nm(speed_kt, LATE_MIN):.1f} NM beyond it "
                f"on the old heading and are {late_nm:.1f} NM off the {outbound} radial, with "
                "nobody having looked out.",
                ONE_TASK_ALONE,
            ),
        ),
        (
            "Fly, then navigate, then talk: what is due in the next minute?",
            "A steady heading carries you through the cone. How long is that at your speed?",
            f"The cone takes {in_cone_s:.0f} seconds. Which of the ways needs neither needle nor "
            "luck?",
        ),
        DISTRACTION,
        QuestionFigure((Dial(inbound_deg, Flag.OFF),)),
    )
