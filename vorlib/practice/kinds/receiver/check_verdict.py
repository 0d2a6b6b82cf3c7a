"""Pass or fail of a receiver check, from the ring and the published radial."""

from collections.abc import Iterator
from random import Random

from vorlib.core.angles import format_direction, wrap_360
from vorlib.practice.questions.answers import ChoiceAnswer
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_direction, any_station
from vorlib.practice.questions.standards import ELSEWHERE, GROUND_KNOWLEDGE
from vorlib.receiver_check.check import bearing_error_deg, judge
from vorlib.receiver_check.rules import RULES
from vorlib.vor.receiver import Flag

VERDICT = ChoiceAnswer({"pass": ("passes", "passed", "p"), "fail": ("fails", "failed", "f")})
PLACES = {
    "ground checkpoint": "On the ground checkpoint",
    "airborne checkpoint": "Over the designated airborne checkpoint",
    "airway": "Low over a landmark on an airway's centerline",
}
SIZES_DEG = (3, 4, 5, 5, 6, 6, 7)  # most of them between the limits on the ground and in the air


@question_kind("check_verdict", lessons=("11",))
def make(chance: Random) -> Question:
    """Ask whether a check against a published radial passes."""
    key, station, radial_deg = (
        chance.choice(list(PLACES)),
        any_station(chance),
        any_direction(chance),
    )
    ring_deg = float(wrap_360(radial_deg + chance.choice((-1, 1)) * chance.choice(SIZES_DEG)))
    error_deg = float(bearing_error_deg(ring_deg, Flag.FROM, radial_deg))
    outcome = judge(key, error_deg)
    verdict, other = ("pass", "fail") if outcome.passed else ("fail", "pass")
    radial, ring = format_direction(radial_deg), format_direction(ring_deg)
    return Question(
        kind="check_verdict",
        prompt=f"{PLACES[key]} the published radial of {station.name} is {radial}. Your needle is "
        f"centered with FROM at {ring}. Does the check pass or fail by {RULES.name}, the rule of "
        "the United States?",
        form=VERDICT,
        answer=verdict,
        tolerance=0.0,
        tolerance_why="A check passes or fails.",
        hints=(
            "First the error: what does the ring read, less what it should read?",
            f"{ring} less {radial} is {error_deg:+g} degrees. Which limit belongs to this check?",
            f"By {RULES.name} the limit is 4 degrees on the ground and 6 in the air.",
        ),
        worked=f"{ring} less {radial} is {error_deg:+g} degrees. {outcome.reason} The answer is "
        f"{verdict}. {ELSEWHERE}",
        element=GROUND_KNOWLEDGE,
        level="application",
        misconceptions=tuple(_slips(key, abs(error_deg), other)),
    )


def _slips(key: str, size_deg: float, other: str) -> Iterator[Misconception]:
    """Yield the misconceptions that lead to the other verdict: the other limit, and a mix-up."""
    airborne = RULES.kind(key).airborne
    taken = RULES.kind("ground checkpoint" if airborne else "airborne checkpoint").limit_deg
    if (size_deg <= taken) == (other == "pass"):
        used, here = ("ground", "air") if airborne else ("air", "ground")
        yield Misconception(
            f"limit of the {used} used {'in the air' if airborne else 'on the ground'}",
            other,
            "There are two limits, and they are close together.",
            f"Where is this check made? Which limit belongs to the {here}?",
        )
    yield Misconception(
        "error held against the limit the wrong way round",
        other,
        "With two directions and a limit in your head, it is easy to mix them up.",
        "Write down the error first, then the limit beside it: which is greater?",
    )
