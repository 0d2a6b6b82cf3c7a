"""Low in a valley without a signal: go on, follow a dead needle, or turn while there is room."""

from random import Random

from vorlib.aircraft.turns import turn_radius_nm
from vorlib.practice.questions.decisions import MINUTES_PER_HOUR, SPEEDS_KT, Way, decision
from vorlib.practice.questions.misconceptions import OFF_NEEDLE_FOLLOWED, PRESSED_ON
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_station
from vorlib.practice.questions.standards import LOST_SIGNAL
from vorlib.vor.coverage import line_of_sight_nm

BANK_DEG = 30.0
CLIMBS_FT_MIN = (300, 350, 400)
RISES_FT_NM = (350, 400, 450, 500)  # of the valley's floor: steeper than the climb at any speed
HEIGHTS_FT = (700, 800, 900, 1000)
DRIFT_KT = (10, 12, 15)


@question_kind("signal_behind_hills", lessons=("13",))
def make(chance: Random) -> Question:
    """Ask what to do when a station in reach is not heard and the ground rises."""
    station, speed_kt = any_station(chance), chance.choice(SPEEDS_KT)
    height_ft, climb_ft_min = chance.choice(HEIGHTS_FT), chance.choice(CLIMBS_FT_MIN)
    rise_ft_nm, across_kt = chance.choice(RISES_FT_NM), chance.choice(DRIFT_KT)
    altitude_ft = chance.randrange(2000, 3001, 100)
    sight_nm = float(line_of_sight_nm(altitude_ft, float(station.position.altitude_ft)))
    distance_nm = chance.randint(12, 20)
    climb_ft_nm = climb_ft_min * MINUTES_PER_HOUR / speed_kt
    met_min = height_ft / (rise_ft_nm - climb_ft_nm) * MINUTES_PER_HOUR / speed_kt
    turn_nm = 2.0 * float(turn_radius_nm(speed_kt, BANK_DEG))
    half_nm = round(turn_nm + 0.3, 1)  # from the middle of the valley to either slope
    aside_min = half_nm / across_kt * MINUTES_PER_HOUR
    return decision(
        "signal_behind_hills",
        chance,
        f"At {altitude_ft:,} ft you fly up the middle of a valley, below its ridges and "
        f"{height_ft:,} ft above its floor, which rises {rise_ft_nm} ft for each NM. The slopes "
        f"are {half_nm:g} NM away on either side, the crosswind is {across_kt} kt. You make "
        f"{speed_kt} kt and can climb {climb_ft_min} ft a minute. {station.name} is "
        f"{distance_nm} NM away: no ident, the flag reads OFF, the needle is in the middle.",
        (
            Way(
                "Turn back now, climb where it is wide, and tune again above the ridges",
                f"Banked {BANK_DEG:.0f} degrees, the turn takes {turn_nm:.1f} of the {half_nm:g} "
                f"NM to the slope. Over a smooth sea you would receive the station at "
                f"{altitude_ft:,} ft as far as {sight_nm:.0f} NM: the ridges are in the way. Above "
                "them you hear it.",
            ),
            Way(
                "Climb straight on up the valley until the signal comes",
                f"At {speed_kt} kt your climb is {climb_ft_nm:.0f} ft for each NM and the floor "
                f"rises {rise_ft_nm}. It meets you after {met_min:.2g} minutes, signal or none.",
                PRESSED_ON,
            ),
            Way(
                "Keep the needle in the middle, which holds you clear of both slopes",
                f"Nothing drives this needle. A crosswind of {across_kt} kt carries you the "
                f"{half_nm:g} NM to a slope in {aside_min:.2g} minutes, and it does not move.",
                OFF_NEEDLE_FOLLOWED,
            ),
        ),
        (
            "What stands between you and the station, and which way is there room?",
            f"Compare what you climb for each NM with {rise_ft_nm} ft.",
            f"You climb {climb_ft_nm:.0f} ft for each NM. Which of the ways does not need the "
            "signal?",
        ),
        LOST_SIGNAL,
    )
