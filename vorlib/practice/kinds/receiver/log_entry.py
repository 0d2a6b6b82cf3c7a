"""What is missing from the log entry of a receiver check."""

from datetime import timedelta
from random import Random

from vorlib.practice.questions.answers import ChoiceAnswer
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.standards import ELSEWHERE, GROUND_KNOWLEDGE
from vorlib.receiver_check.rules import RULES
from vorlib.stations.archipelago import TODAY

ITEMS = ("date", "place", "error", "signature")  # 14 CFR 91.171(d) (read in a quotation)
NOTHING, MORE = "nothing", "altitude"
MISSING = ChoiceAnswer(
    {
        "date": ("the date", "day"),
        "place": ("the place", "location"),
        "error": ("the error", "bearing error"),
        "signature": ("the signature", "name", "initials"),
        NOTHING: ("none", "complete", "no item"),
        MORE: ("the altitude", "height"),
    }
)
PLACES = (
    "Quillon Field, ground checkpoint",
    "over the pier of Marrow Sound, airborne checkpoint",
    "Tessarin Landing, test signal",
)
NAMES = ("T. Askerel", "W. Dorrick", "I. Marrane")


@question_kind("log_entry", lessons=("11",))
def make(chance: Random) -> Question:
    """Ask which item that the rule requires is missing, if any is."""
    answer = chance.choice((*ITEMS, *ITEMS, NOTHING))
    day = TODAY - timedelta(days=chance.randint(1, 25))
    written = {
        "date": day.isoformat(),
        "place": chance.choice(PLACES),
        "error": f"error {chance.choice((-3, -2, 2, 3)):+d} degrees",
        "signature": f"signed {chance.choice(NAMES)}",
    }
    entry = "; ".join(words for item, words in written.items() if item != answer)
    misconceptions = [
        Misconception(
            "more thought to be required than the rule says",
            MORE,
            "An altitude looks like something a log should have.",
            "Count the items that the rule names, and no others.",
        )
    ]
    if answer != NOTHING:
        misconceptions.append(
            Misconception(
                "entry thought complete without all four items",
                NOTHING,
                "The error is what the check is about, and the rest seems to be paperwork.",
                "Could somebody else tell when, where, how much and by whom?",
            )
        )
    return Question(
        kind="log_entry",
        prompt=f'The log says of a receiver check: "{entry}." Which item that {RULES.name} '
        "of the United States requires is missing: date, place, error, signature, altitude, or "
        "nothing?",
        form=MISSING,
        answer=answer,
        tolerance=0.0,
        tolerance_why="An item is there or it is not.",
        hints=(
            "The rule asks for four items.",
            "When, where, how much, and by whom.",
            "Tick off date, place, bearing error and signature.",
        ),
        worked=f"Date, place, bearing error and signature are required. Missing: {answer}. "
        f"{ELSEWHERE}",
        element=GROUND_KNOWLEDGE,
        level="understanding",
        misconceptions=tuple(misconceptions),
    )
