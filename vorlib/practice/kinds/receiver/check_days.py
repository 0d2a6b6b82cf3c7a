"""For how many more days a receiver check holds."""

from datetime import date, timedelta
from random import Random

from vorlib.core.words import spoken_count
from vorlib.practice.questions.answers import Quantity
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.standards import ELSEWHERE, GROUND_KNOWLEDGE
from vorlib.receiver_check.check import days_left, last_day
from vorlib.receiver_check.rules import RULES

DAYS = Quantity({"days": 1.0, "day": 1.0, "d": 1.0})
TOLERANCE_DAYS = 0.4


@question_kind("check_days", lessons=("11",))
def make(chance: Random) -> Question:
    """Ask for the days left of a check made in a month that does not have 30 days."""
    month = chance.choice((1, 2, 3, 5, 7, 8, 10, 12))
    made_on = date(chance.choice((2026, 2027, 2028)), month, chance.randint(2, 28))
    today = made_on + timedelta(days=chance.randint(3, 26))
    left, until = days_left(made_on, today), last_day(made_on)
    following = (made_on.replace(day=1) + timedelta(days=31)).replace(day=made_on.day)
    return Question(
        kind="check_days",
        prompt=f"The last receiver check in the log was passed on {made_on.isoformat()}. Today is "
        f"{today.isoformat()}. For how many more days after today may you fly under IFR on it, "
        f"by {RULES.name}, the rule of the United States?",
        form=DAYS,
        answer=float(left),
        tolerance=TOLERANCE_DAYS,
        tolerance_why="Days are whole.",
        hints=(
            f"The rule counts {RULES.valid_days} days, not a calendar month.",
            f"How many days have gone since {made_on.isoformat()}?",
            f"{RULES.valid_days} less those {RULES.valid_days - left} days.",
        ),
        worked=f"{RULES.valid_days} days from {made_on.isoformat()} lead to {until.isoformat()}: "
        f"{spoken_count(left, 'day')} left "
        f"({RULES.valid_paragraph}). {ELSEWHERE}",
        element=GROUND_KNOWLEDGE,
        level="application",
        misconceptions=(
            Misconception(
                "calendar month counted",
                float((following - today).days),
                "30 days sound like a month.",
                "How many days has that month?",
            ),
            Misconception(
                "days gone by taken for days left",
                float((today - made_on).days),
                "The days since the check are the ones you count first.",
                "Those days are used up: how many of the 30 remain?",
            ),
        ),
    )
