"""Practice: questions drawn by chance, worked out by the library, and marked at once.

A kind of question is one module in `vorlib.practice.kinds`, registered by `question_kind`. What a
learner answered is in a `Record`, and what it shows is told by `diagnose` and `agenda`.
"""

from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.learning.diagnosis import diagnose
from vorlib.practice.learning.mastery import Summary, agenda
from vorlib.practice.learning.session import PracticeSet
from vorlib.practice.questions.question import Marking, Misconception, Question, mark
from vorlib.practice.questions.registry import all_kinds, draw, kinds_of_lesson, question_kind
from vorlib.practice.record.exchange import Export, read_export
from vorlib.practice.record.record import Record, RecordError, learners

__all__ = [
    "Attempt",
    "Export",
    "Marking",
    "Misconception",
    "PracticeSet",
    "Question",
    "Record",
    "RecordError",
    "Summary",
    "agenda",
    "all_kinds",
    "diagnose",
    "draw",
    "kinds_of_lesson",
    "learners",
    "mark",
    "question_kind",
    "read_export",
]
