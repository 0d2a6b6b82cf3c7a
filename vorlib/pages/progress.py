"""The progress of the learners on this machine, from their records."""

from __future__ import annotations

from dataclasses import dataclass

from vorlib.practice.learning.topic import lessons_with_questions
from vorlib.practice.questions.registry import kinds_of_lesson
from vorlib.practice.record.record import Record, learners

__all__ = ["LearnerProgress", "learners_progress"]


@dataclass(frozen=True)
class LearnerProgress:
    """A learner's progress in the practice of each lesson begun.

    Attributes
    ----------
    name
        The name that the learner gave.
    lessons
        By lesson number: how many of its kinds of question were right when last answered, and how
        many kinds it has.
    """

    name: str
    lessons: dict[int, tuple[int, int]]


def learners_progress() -> list[LearnerProgress]:
    """Return the progress of every learner with a record; none if the records cannot be read."""
    try:
        return [_progress(name) for name in learners()]
    except (OSError, ValueError):
        return []  # the practice exhibit reports what is wrong


def _progress(learner: str) -> LearnerProgress:
    summary = Record(learner).summary()
    lessons = {}
    for number in lessons_with_questions():
        states = [summary.state(kind) for kind in kinds_of_lesson(number)]
        if any(state != "not attempted" for state in states):
            lessons[int(number)] = (states.count("right"), len(states))
    return LearnerProgress(learner, lessons)
