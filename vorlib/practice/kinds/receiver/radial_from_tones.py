"""The radial from the phases of the two 30 Hz tones."""

from random import Random

from vorlib.core.angles import format_direction, reciprocal_deg, wrap_360
from vorlib.practice.questions.answers import DIRECTION
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.standards import GROUND_KNOWLEDGE
from vorlib.signal import CompositeSignal, measure_radial

STEP_DEG = 5  # phases are given in whole steps, for the head


@question_kind("radial_from_tones", lessons=("12",))
def make(chance: Random) -> Question:
    """Ask for the radial from the phases at which the crests of the two tones come."""
    fm_deg = STEP_DEG * chance.randrange(360 // STEP_DEG)
    lag_deg = STEP_DEG * chance.randrange(1, 360 // STEP_DEG)
    am_deg = (fm_deg + lag_deg) % 360
    radial_deg = round(measure_radial(CompositeSignal(lag_deg).samples(0.1)).radial_deg or 0.0)
    around = f" + 360 = {am_deg + 360}; {am_deg + 360}" if am_deg < fm_deg else ""
    return Question(
        kind="radial_from_tones",
        prompt=f"In each turn the crest of the FM tone comes at {fm_deg} degrees and that of the "
        f"AM tone at {am_deg}. On which radial are you?",
        form=DIRECTION,
        answer=float(radial_deg),
        tolerance=1.0,
        tolerance_why="The phases are given in whole degrees, so the radial is one too.",
        hints=(
            "The radial is by how much one tone comes after the other.",
            "The AM tone lags: count from the FM tone's crest on to the AM tone's.",
            "When the AM tone's number is the smaller one, add 360 to it first.",
        ),
        worked=f"{am_deg}{around} - {fm_deg} = {format_direction(radial_deg)}.",
        element=GROUND_KNOWLEDGE,
        level="understanding",
        misconceptions=(
            Misconception(
                "lead taken for lag",
                float(wrap_360(-lag_deg)),
                "The difference of two numbers can be taken either way.",
                "Which of the two tones comes later, and which way do you count from it?",
            ),
            Misconception(
                "half a circle added to the difference",
                float(reciprocal_deg(lag_deg)),
                "The way to the station comes to mind.",
                "The phases hold the radial, which leads from the station to you.",
            ),
            Misconception(
                "one tone's phase taken for the difference",
                float(wrap_360(am_deg)),
                "The AM tone is the one that moves with the radial.",
                "Moves against what? Count from the FM tone's crest.",
            ),
        ),
    )
