"""A record of training in words."""

from __future__ import annotations

from collections.abc import Iterator

from vorlib.practice.training.training_record import NO_ENDORSEMENT, TrainingRecord

__all__ = ["training_sentence", "training_words"]


def training_words(record: TrainingRecord) -> str:
    """Return a record of training in lines, the endorsement that it is not first."""
    return "\n".join(_lines(record))


def training_sentence(record: TrainingRecord) -> str:
    """Return in a few sentences how far a student has come."""
    lessons = ", ".join(one.number for one in record.lessons) or "none"
    held = ", ".join(belief.name for belief in record.held) or "none"
    cured = ", ".join(belief.name for belief in record.put_right) or "none"
    return (
        f"{record.student}: lessons covered {lessons}; {record.score} first answers right. "
        f"Misconceptions held now: {held}; put right: {cured}. "
        f"Flights debriefed: {len(record.flights)}. Not an endorsement."
    )


def _lines(record: TrainingRecord) -> Iterator[str]:
    yield f"Record of training of {record.student}: {record.score} first answers right"
    yield NO_ENDORSEMENT
    for lesson in record.lessons:
        taught = ", ".join(f"{one.day}" for one in lesson.taught)
        parts = [f"taught {taught}"] if taught else []
        if lesson.practiced:
            parts.append(f"practiced from {lesson.practiced[0]}, {lesson.score} right")
        yield f"lesson {lesson.number} {lesson.title}: {'; '.join(parts)}"
    for one in record.elements:
        yield f"{one.code} {one.title}: {one.score}, lately {one.lately}"
    for belief in record.beliefs:
        end = f"put right {belief.until}" if belief.until else "held now"
        yield f"misconception {belief.name}: since {belief.since}, {end}"
    for check in record.checks:
        yield f"check flight {check.handed_in_at:%Y-%m-%d}: {check.points:g} of {check.out_of}"
    for flight in record.flights:
        yield f"flight {flight.day} {flight.about}: {flight.remark}".rstrip(": ")
