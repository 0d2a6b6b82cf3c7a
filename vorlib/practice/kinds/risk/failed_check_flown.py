"""A receiver check that failed, with the flight about to begin."""

from random import Random

from vorlib.core.angles import format_direction
from vorlib.practice.questions.decisions import Way, decision
from vorlib.practice.questions.misconceptions import LIVE_NEEDLE_TRUSTED, PRESSED_ON
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_direction, any_station
from vorlib.practice.questions.standards import ELSEWHERE, LIMITS
from vorlib.receiver_check.check import judge
from vorlib.receiver_check.error_budget import half_width_nm
from vorlib.receiver_check.rules import RULES

SIZES_DEG = (7, 8, 9)  # beyond both limits, 4 degrees on the ground and 6 in the air


@question_kind("failed_check_flown", lessons=("13",))
def make(chance: Random) -> Question:
    """Ask what to do after a check that failed on the ground."""
    station, radial_deg = any_station(chance), any_direction(chance)
    error_deg = chance.choice((-1, 1)) * chance.choice(SIZES_DEG)
    first_nm, leg_nm = chance.randint(12, 20), chance.randint(32, 40)
    outcome = judge("ground checkpoint", float(error_deg))
    at_first_nm, at_end_nm = (float(half_width_nm(abs(error_deg), d)) for d in (first_nm, leg_nm))
    return decision(
        "failed_check_flown",
        chance,
        f"On the ground checkpoint your only receiver reads {abs(error_deg)} degrees "
        f"{'more' if error_deg > 0 else 'less'} than the published radial of {station.name}, twice "
        "over. The needle is lively, the ident is clear, and so is the sky over the field. The "
        "flight was planned above cloud farther on, where you see no ground, along the "
        f"{format_direction(radial_deg)} radial: {first_nm} NM to the coast and {leg_nm} NM to "
        "the next station.",
        (
            Way(
                "Write it up and leave the receiver out: fly in sight of the ground, or not today",
                f"{outcome.reason} By {RULES.name} it may not be used under IFR. {ELSEWHERE} In "
                "sight of the ground the map needs no receiver.",
            ),
            Way(
                "Fly as planned; the needle moves as it should and the ident is right",
                f"With the needle centered {abs(error_deg)} degrees are {at_end_nm:.1f} NM beside "
                f"the radial after {leg_nm} NM, and nothing on the dial shows it.",
                LIVE_NEEDLE_TRUSTED,
            ),
            Way(
                "Take off and check again over the coast; in the air 6 degrees are allowed",
                f"At the coast, {first_nm} NM out, you are {at_first_nm:.1f} NM off already, above "
                "cloud, and a receiver that failed is all you have.",
                PRESSED_ON,
            ),
        ),
        (
            "What is the limit of this check, and what did you measure?",
            "The check found what no look at the needle can find: what does it say about all "
            "that follows?",
            f"{abs(error_deg)} degrees are more than 4. Which of the ways needs no receiver?",
        ),
        LIMITS,
    )
