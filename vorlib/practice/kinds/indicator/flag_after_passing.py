"""The flag over and beyond the station."""

from random import Random

from vorlib.core.angles import format_direction, reciprocal_deg
from vorlib.practice.questions.answers import FLAG
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import (
    any_altitude_ft,
    any_direction,
    any_distance_nm,
    any_station,
    flag_of,
)
from vorlib.practice.questions.standards import PASSAGE
from vorlib.vor.coverage import cone_radius_nm
from vorlib.vor.receiver import Flag, Receiver

SHARE_OF_CONE = 0.2  # how far from the middle of the cone the aircraft is still called overhead


@question_kind("flag_after_passing", lessons=("08",))
def make(chance: Random) -> Question:
    """Ask for the flag in the cone or beyond it, with the inbound course or its reciprocal."""
    station, track_deg = any_station(chance), any_direction(chance)
    selected_deg = chance.choice((track_deg, float(reciprocal_deg(track_deg))))
    overhead = chance.random() < 0.3
    altitude_ft, beyond_nm = any_altitude_ft(chance), any_distance_nm(chance)
    cone_nm = float(cone_radius_nm(altitude_ft - float(station.position.altitude_ft)))
    now = station.position_on(
        track_deg, SHARE_OF_CONE * cone_nm if overhead else beyond_nm, altitude_ft
    )
    earlier = station.position_on(reciprocal_deg(track_deg), beyond_nm, altitude_ft)
    receiver = Receiver(selected_deg)
    flag, before = (flag_of(receiver.read(station, place)) for place in (now, earlier))
    after = Flag.FROM if before == Flag.TO else Flag.TO
    track, selected = format_direction(track_deg), format_direction(selected_deg)
    where = (
        "are almost exactly overhead, well inside the cone of confusion"
        if overhead
        else f"have passed overhead and are {beyond_nm} NM beyond"
    )
    return Question(
        kind="flag_after_passing",
        prompt=f"You fly track {track} to {station.name} with {selected} selected, and the flag "
        f"reads {before.name}. Leaving the selector alone you fly on; now you {where}. What does "
        "the flag read: TO, FROM or OFF?",
        form=FLAG,
        answer=flag.name,
        tolerance=0.0,
        tolerance_why="A flag reads one of the three.",
        hints=(
            "What did the flag mean before the station, and what has changed since?",
            "In the cone there is no usable signal. Beyond it, ask again where the selected course "
            "leads from where you are.",
            "Over the station the flag drops out."
            if overhead
            else f"Picture yourself beyond "
            f"{station.name}: does {selected} lead back to it, or away?",
        ),
        worked="Inside the cone of confusion there is no usable signal: the flag reads OFF."
        if overhead
        else f"You are now on the {track} radial. From there {selected} leads "
        f"{'away from' if flag == Flag.FROM else 'back to'} the station: {flag.name}.",
        element=PASSAGE,
        level="understanding",
        misconceptions=_in_the_cone(before, after) if overhead else _beyond(before),
    )


def _in_the_cone(before: Flag, after: Flag) -> tuple[Misconception, Misconception]:
    return (
        Misconception(
            "cone of confusion forgotten",
            before.name,
            "Nothing on the selector has changed.",
            "What becomes of the signal right above the antenna?",
        ),
        Misconception(
            "station passage thought sharp",
            after.name,
            "From afar the change from one flag to the other looks like one moment.",
            "Passing takes a while. What lies between the two flags?",
        ),
    )


def _beyond(before: Flag) -> tuple[Misconception, Misconception]:
    return (
        Misconception(
            "flag thought to stay after passing",
            before.name,
            "You have touched nothing, so nothing should change.",
            "Where does the selected course lead from this side of the station?",
        ),
        Misconception(
            "passing taken for a failed signal",
            Flag.OFF.name,
            "Over the station the flag did drop out for a while.",
            "You are well beyond the cone now. Is there a signal again?",
        ),
    )
