"""A demonstration class of thirty invented people with known misconceptions.

They practice lessons 01 to 07 for three weeks, three days a week. The same each time.
"""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from types import MappingProxyType

from vorlib.practice.classroom.folder import ClassRecords, read_class
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.questions.misconceptions import (
    DOTS_FOR_DEGREES,
    HEADING_IS_POSITION,
    HOMING_FOR_TRACKING,
    NEVER_REVERSED,
    RADIAL_LEADS_TO,
    WIND_TOWARD_NAME,
)
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import draw
from vorlib.practice.record.exchange import Export, as_json, write_export
from vorlib.practice.record.learner import tidy_name
from vorlib.stations.archipelago import TODAY

BEGIN = datetime(TODAY.year, TODAY.month, TODAY.day, 17, tzinfo=UTC) - timedelta(days=21)
FIRST = ("bearing_to_station", "radial_from_place", "radial_from_true", "reciprocal")
THIRD = ("centred_radial", "centred_direction", "off_course_distance")
DAYS = (  # after how many days, and which kinds of question
    (0, FIRST),
    (2, ("needle_reading", "flag_for_course", "sensing")),
    (4, THIRD),
    (7, ("direct_course", "turn_direct", "homing_end")),
    (9, FIRST),
    (11, ("intercept_angle", "intercept_inbound", "intercept_outbound")),
    (14, ("bracket_heading", "groundspeed", "wind_correction_heading")),
    (16, ("course_to_follow", "flag_when_reversed", "turn_to_line")),
    (18, THIRD),
)
QUESTIONS = 15  # a day
HOLDING = 0.9  # how often a misconception decides, where it can
WRONG = (0.26, 0.20, 0.12)  # how often an answer is wrong all the same, by week
FORESEEN = 0.2  # how many of those show a misconception
HARD = ("intercept_angle", 76)  # nobody gets this one right

BEARING, PLACE = RADIAL_LEADS_TO.name, HEADING_IS_POSITION.name
WIND, HOMING = WIND_TOWARD_NAME.name, HOMING_FOR_TRACKING.name
AGAINST, DOTS = NEVER_REVERSED.name, DOTS_FOR_DEGREES.name
DOUBLE = "radials to go not doubled"
HELD = MappingProxyType(
    {
        "Ansa Tremorrow": (BEARING, WIND),
        "Bevil Oakhampt": (),
        "Corrin Selwood": (AGAINST,),
        "Dessa Pellowin": (BEARING,),
        "Edrik Vannorth": (),
        "Fenna Lusk": (BEARING, AGAINST, DOUBLE),
        "Garran Tolver": (DOTS,),
        "Hesper Quindle": (),
        "Idwen Marrack": (WIND,),
        "Jorren Ashlake": (PLACE, BEARING),
        "Kessa Brandlow": (),
        "Lowen Trevask": (AGAINST,),
        "Mirren Coldwater": (WIND, DOUBLE),
        "Nessa Holloran": (),
        "Orrin Dunmarsh": (BEARING,),
        "Perrin Ostlake": (DOUBLE,),
        "Quenna Sandover": (AGAINST, WIND),
        "Rosen Tamblyght": (),
        "Sorrel Inchmoor": (BEARING, DOTS, WIND, AGAINST),
        "Tamsel Wrayburn": (),
        "Ulric Penwether": (AGAINST,),
        "Verran Goldcleft": (BEARING,),
        "Wella Carrowby": (),
        "Xenna Moorfold": (HOMING,),
        "Yestin Farrowgate": (WIND, AGAINST),
        "Zanna Birchholm": (),
        "Aldren Sloane-Mere": (DOUBLE, DOTS),
        "Brisel Underlake": (BEARING,),
        "Calder Finnisk": (),
        "Derrin Haverwick": (PLACE,),
    }
)
"""The misconceptions that each learner holds at the end."""

PUT_RIGHT = MappingProxyType(
    {"Edrik Vannorth": BEARING, "Kessa Brandlow": BEARING, "Rosen Tamblyght": PLACE}
)
"""The misconceptions held until the lesson was practiced again."""

FEW_DAYS = MappingProxyType({"Tamsel Wrayburn": 4, "Zanna Birchholm": 6, "Wella Carrowby": 0})
"""The learners who came only on the first few days."""

FEW = 4  # answers of one who came on none


def demo_class() -> ClassRecords:
    """Return the records of the class, read from a folder that is gone afterwards."""
    with TemporaryDirectory() as folder:
        write_demo_class(folder)
        return read_class(folder)


def write_demo_class(folder: str | Path) -> None:
    """Write the class's files: one of each learner, one of them twice, and two bad ones.

    Raises
    ------
    OSError
        If the folder cannot be written to.
    """
    where = Path(folder)
    exports = [Export(tidy_name(name), tuple(_answers(name))) for name in HELD]
    for number, export in enumerate(exports):
        suffix = "csv" if number % 5 == 4 else "json"
        write_export(export, where / f"{_file(export)}.{suffix}")
    again = exports[1]
    write_export(again, where / f"{_file(again)} (1).csv")
    whole = as_json(exports[2])
    (where / f"{_file(exports[2])} (1).json").write_text(whole[: len(whole) // 2], "utf-8")
    (where / "timetable.csv").write_text("day,room,teacher\nMonday,2,Marrane\n", "utf-8")


def _file(export: Export) -> str:
    return export.learner.casefold().replace(" ", "-")


def _answers(name: str) -> Iterator[Attempt]:
    """Yield all that one learner answers."""
    chance = Random(name)
    days = FEW_DAYS.get(name, len(DAYS))
    asked = [
        (day, place, kind, seed)
        for day in range(max(days, 1))
        for place, (kind, seed) in enumerate(_asked(day))
    ]
    for day, place, kind, seed in asked if days else asked[:FEW]:
        after_days, _ = DAYS[day]
        question = _question(kind, seed)
        shown = _held(name, day, question) if chance.random() < HOLDING else ""
        slips = chance.random() < WRONG[after_days // 7]
        if slips and not shown and question.foreseen and chance.random() < FORESEEN:
            shown = chance.choice(question.foreseen)
        yield Attempt(
            kind,
            seed,
            "wrong" if shown or slips or (kind, seed) == HARD else "right",
            shown,
            question.foreseen,
            taken_s=float(chance.randrange(15, 90)),
            answered_at=BEGIN + timedelta(days=after_days, minutes=place),
            key=f"{chance.getrandbits(64):016x}",
        )


def _asked(day: int) -> list[tuple[str, int]]:
    """Return the questions of a day as kinds and seeds, for all the same."""
    _, kinds = DAYS[day]
    return [
        (kinds[number % len(kinds)], QUESTIONS * day + number // len(kinds))
        for number in range(QUESTIONS)
    ]


def _held(name: str, day: int, question: Question) -> str:
    """Return the misconception that decides a learner's answer, or nothing."""
    held, (_, kinds) = HELD[name], DAYS[day]
    if name in PUT_RIGHT and kinds not in [earlier for _, earlier in DAYS[:day]]:
        held = (*held, PUT_RIGHT[name])
    return next((one for one in held if one in question.foreseen), "")


@cache
def _question(kind: str, seed: int) -> Question:
    return draw(kind, seed)
