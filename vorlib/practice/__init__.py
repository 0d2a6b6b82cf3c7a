"""Practice: questions drawn by chance, worked out by the library, and marked at once.

A kind of question is one module in `vorlib.practice.kinds`, registered by `question_kind`. What a
learner answered is in a `Record`, and what it shows is told by `diagnose` and `agenda`.
"""

from vorlib.practice.attempt import Attempt
from vorlib.practice.diagnosis import diagnose
from vorlib.practice.exchange import Export, read_export
from vorlib.practice.question import Marking, Misconception, Question, mark
from vorlib.practice.record import Record, RecordError, learners
from vorlib.practice.registry import all_kinds, draw, kinds_of_lesson, question_kind
from vorlib.practice.session import PracticeSet
from vorlib.practice.standing import Summary, agenda

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
