"""Practice: questions drawn by chance, worked out by the library, and marked at once.

A kind of question is one module in `vorlib.practice.kinds`, registered by `question_kind`.
"""

from vorlib.practice.question import Marking, Misconception, Question, mark
from vorlib.practice.registry import all_kinds, draw, kinds_of_lesson, question_kind
from vorlib.practice.session import PracticeSet

__all__ = [
    "Marking",
    "Misconception",
    "PracticeSet",
    "Question",
    "all_kinds",
    "draw",
    "kinds_of_lesson",
    "mark",
    "question_kind",
]
