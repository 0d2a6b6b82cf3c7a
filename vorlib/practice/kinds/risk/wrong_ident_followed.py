"""A live needle, and the ident of another station: what to do, and where the needle leads."""

import math
from random import Random

from vorlib.core.angles import difference_deg, format_direction, reciprocal_deg
from vorlib.earth.geodesic import Position
from vorlib.practice.questions.decisions import SPEEDS_KT, Way, decision, flown_nm
from vorlib.practice.questions.figures import Dial, QuestionFigure
from vorlib.practice.questions.misconceptions import LIVE_NEEDLE_TRUSTED, PRESSED_ON
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import (
    any_altitude_ft,
    any_direction,
    any_station,
    flag_of,
)
from vorlib.practice.questions.standards import LIMITS
from vorlib.vor.receiver import Receiver
from vorlib.vor.station import Station

FAR_NM = (26, 36)  # from both stations, so that neither is reached meanwhile
LEAST_APART_DEG, MOST_APART_DEG = 35.0, 120.0  # between the ways to them
LATER_MIN, AT_ONCE_MIN = 10, 2


@question_kind("wrong_ident_followed", lessons=("13",))
def make(chance: Random) -> Question:
    """Ask what to do when the needle is centered and the ident is another station's."""
    wanted, heard, there, radial_deg = _scene(chance)
    speed_kt = chance.choice(SPEEDS_KT)
    course = format_direction(reciprocal_deg(radial_deg))
    bearing_deg = round(float(reciprocal_deg(heard.radial_deg(there))))
    seen = format_direction(bearing_deg)
    late_nm, early_nm = (
        _beside_nm(wanted, heard, there, flown_nm(speed_kt, minutes))
        for minutes in (LATER_MIN, AT_ONCE_MIN)
    )
    dial = Dial(bearing_deg, flag_of(Receiver(float(bearing_deg)).read(heard, there)))
    return decision(
        "wrong_ident_followed",
        chance,
        f"You fly direct to {wanted.name}, ident {wanted.ident}, on heading {course} at "
        f"{speed_kt} kt, {wanted.distance_nm(there):.0f} NM out, without wind. You tune, turn the "
        f"ring until the needle is centered with TO, and listen: {heard.ident}.",
        (
            Way(
                f"Hold {course}, tune {wanted.ident} and hear its letters before you follow it",
                f"Two minutes of it cost {flown_nm(speed_kt, AT_ONCE_MIN):.1f} NM along the line "
                "that you know, and none beside it.",
            ),
            Way(
                f"Follow the needle on {seen}; it is alive and centered",
                f"{heard.ident} is {heard.name}. After {LATER_MIN} minutes you are {late_nm:.0f} "
                f"NM off the line to {wanted.name}, and the needle is still centered.",
                LIVE_NEEDLE_TRUSTED,
            ),
            Way(
                f"Turn to {seen} for now and listen again nearer to it",
                f"After {AT_ONCE_MIN} minutes you are {early_nm:.1f} NM off the line to "
                f"{wanted.name} already, and the letters will be the same.",
                PRESSED_ON,
            ),
        ),
        (
            "Which station is the needle about?",
            f"You hear {heard.ident} and want {wanted.ident}. Which direction do you know to be "
            "right without the needle?",
            f"Only one of the three goes by what you know: heading {course} was right before.",
        ),
        LIMITS,
        QuestionFigure((dial,)),
    )


def _scene(chance: Random) -> tuple[Station, Station, Position, float]:
    """Return the station wanted, the one heard, the place, and the wanted one's radial there."""
    while True:
        wanted, heard = any_station(chance), any_station(chance)
        radial_deg = float(any_direction(chance))
        there = wanted.position_on(radial_deg, chance.randint(*FAR_NM), any_altitude_ft(chance))
        if not FAR_NM[0] <= float(heard.distance_nm(there)) <= FAR_NM[1]:
            continue
        apart_deg = abs(
            float(difference_deg(wanted.true_azimuth_deg(there), heard.true_azimuth_deg(there)))
        )
        received = Receiver(heard.radial_deg(there)).read(heard, there).assured
        if received and LEAST_APART_DEG <= apart_deg <= MOST_APART_DEG:
            return wanted, heard, there, radial_deg


def _beside_nm(wanted: Station, heard: Station, there: Position, flown: float) -> float:
    """Return how far beside the line to one station a flight of so many NM to the other ends."""
    left_nm = float(heard.distance_nm(there)) - flown
    end = heard.position_on(float(heard.radial_deg(there)), left_nm)
    off_deg = float(difference_deg(wanted.radial_deg(end), wanted.radial_deg(there)))
    return abs(float(wanted.distance_nm(end)) * math.sin(math.radians(off_deg)))
