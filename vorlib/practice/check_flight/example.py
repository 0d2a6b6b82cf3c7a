"""Show what a check flight asks, and the report of an invented learner."""

from datetime import UTC, datetime

from vorlib.practice.check_flight.plan import ALLOWED_MIN, STAGES, Planned, check_flight_plan
from vorlib.practice.check_flight.report import CheckReport, assess
from vorlib.practice.questions.misconceptions import NEEDLE_IS_AIRCRAFT, WIND_TOWARD_NAME
from vorlib.practice.questions.registry import all_kinds

SEED = 33
LEARNER = "Tobin Askerel"
HOLDS = (WIND_TOWARD_NAME.name, NEEDLE_IS_AIRCRAFT.name)
LEFT_OUT = (10, 21)  # numbers of questions without an answer
BEGUN = datetime(2026, 6, 1, 15, 30, tzinfo=UTC)
HANDED_IN = datetime(2026, 6, 1, 16, 10, tzinfo=UTC)
USED_MIN, PAUSES = 27.4, 1


def example_report() -> CheckReport:
    """Return an example report, of a learner who holds two misconceptions."""
    plan = check_flight_plan(SEED)
    items = tuple(assess(n, planned, _answer(n, planned)) for n, planned in enumerate(plan, 1))
    return CheckReport(LEARNER, SEED, BEGUN, HANDED_IN, USED_MIN, PAUSES, items)


def _answer(number: int, planned: Planned) -> str:
    """Return what one answers who is misled wherever the question lets him be."""
    question = planned.question
    if number in LEFT_OUT:
        return ""
    misled = [m.would_answer for m in question.misconceptions if m.name in HOLDS]
    return question.form.show(misled[0] if misled else question.answer)


def blueprint() -> str:
    """Return a table of what every check flight asks: stage, lessons and number of questions."""
    rows = [("stage of the flight", "lessons", "questions")]
    for stage in STAGES:
        kinds = [kind for slot in stage.slots for kind in slot]
        lessons = sorted({lesson for kind in kinds for lesson in all_kinds()[kind].lessons})
        rows.append((stage.title, " ".join(lessons), str(len(stage.slots))))
    total = sum(len(stage.slots) for stage in STAGES)
    rows.append((f"in {ALLOWED_MIN} minutes", "", str(total)))
    return "\n".join(f"{title:44} {lessons:16} {count:>9}" for title, lessons, count in rows)
