"""The plan of a lesson: aims, elements, minutes, common errors, questions to ask aloud.

It is derived from the lesson's notebook, its predictions and its questions.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from pathlib import Path

from vorlib.practice.check_flight.plan import STAGES
from vorlib.practice.check_flight.words import GOOD
from vorlib.practice.learning.topic import Topic
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import all_kinds, draw
from vorlib.practice.questions.standards import STANDARD
from vorlib.teaching.lesson_notebook import LessonNotebook, lesson_notebook, lesson_numbers
from vorlib.teaching.reading import reading_before
from vorlib.teaching.steps import CHECK, PlanStep, lesson_steps, shared_minutes

__all__ = ["CHECK_MET", "STANDARD_MET", "CommonError", "LessonPlan", "lesson_plan"]

STANDARD_MET = "four of five questions right at the first try, and no misconception held"
"""The standard for completing a lesson: this course's choice."""
CHECK_MET = f"{GOOD:.0%} of the points, and half of those of each element"
"""The standard for completing the check flight."""
TRIED = 20  # draws of a kind of question, to see which errors it can find
HOMEWORK = 10  # questions
LONGEST_MIN = 480  # a day of lessons


@dataclass(frozen=True)
class CommonError:
    """A misconception that the lesson's questions reveal, and what to say about it."""

    name: str
    why_tempting: str
    say: str


@dataclass(frozen=True)
class LessonPlan:
    """The plan of a lesson.

    Attributes
    ----------
    lesson
        The lesson, as its notebook describes it.
    after
        Titles of the lessons to complete first, by number.
    following
        Number and title of the lesson that comes next; empty after the last one.
    minutes
        Length of the lesson.
    seed
        Seed of the questions to ask aloud.
    """

    lesson: LessonNotebook
    after: tuple[tuple[str, str], ...]
    following: str
    minutes: int
    seed: int

    @property
    def is_check(self) -> bool:
        """Whether it is the check flight."""
        return CHECK in self.lesson.calls

    @property
    def completed(self) -> str:
        """The standard for completing it, as words to follow "with"."""
        return CHECK_MET if self.is_check else STANDARD_MET

    @cached_property
    def kinds(self) -> tuple[str, ...]:
        """The kinds of question in the lesson: its own, and others that it practices."""
        if self.is_check:
            return tuple(dict.fromkeys(k for s in STAGES for slot in s.slots for k in slot))
        own = (k for k, kind in all_kinds().items() if self.lesson.number in kind.lessons)
        named = (kind for words in self.lesson.practice for kind in Topic.read(words).kinds)
        return tuple(dict.fromkeys((*own, *named)))

    @property
    def homework(self) -> str:
        """The topic of the homework: the lesson or, if it has no questions, the whole course."""
        own = any(self.lesson.number in kind.lessons for kind in all_kinds().values())
        return self.lesson.number if own else "all"

    @property
    def elements(self) -> tuple[str, ...]:
        """Codes of the elements that the lesson serves: those of its questions, and of risk."""
        served = {draw(kind, 1).element for kind in self.kinds} | set(self.lesson.teaching.risks)
        return tuple(code for code in STANDARD if code in served)

    @property
    def reading(self) -> tuple[str, ...]:
        """What to read before the lesson."""
        return reading_before(self.lesson.number)

    @cached_property
    def steps(self) -> tuple[PlanStep, ...]:
        """The steps of the lesson, with their minutes."""
        steps = lesson_steps(self.lesson)
        shares = shared_minutes(self.minutes, [step.minutes for step in steps])
        return tuple(
            replace(step, minutes=minutes) for minutes, step in zip(shares, steps, strict=True)
        )

    @cached_property
    def errors(self) -> tuple[CommonError, ...]:
        """The errors that the lesson's questions reveal, the likeliest first."""
        return _errors(self.kinds)

    @cached_property
    def asked(self) -> tuple[Question, ...]:
        """One question of each kind; short ones can be asked aloud."""
        return tuple(draw(kind, self.seed) for kind in self.kinds)


def lesson_plan(
    number: str, *, seed: int = 1, minutes: int | None = None, folder: Path | None = None
) -> LessonPlan:
    """Return the plan of a lesson.

    Parameters
    ----------
    number
        Number of the lesson, such as "05".
    seed
        The same seed gives the same questions to ask aloud.
    minutes
        Length of the lesson; by default from its notebook, or so many minutes for each step.
    folder
        Folder of the notebooks; by default the course's own.

    Raises
    ------
    ValueError
        If there is no such lesson, or the minutes are fewer than its steps or more than a day's.
    """
    lesson = lesson_notebook(number, folder)
    numbers = lesson_numbers(folder)
    steps = [step.minutes for step in lesson_steps(lesson)]
    if minutes is None:
        minutes = lesson.minutes or 5 * round(sum(steps) / 5)
    if not len(steps) <= minutes <= LONGEST_MIN:
        raise ValueError(
            f"the minutes must be {len(steps)} or more, one for each step, and at most "
            f"{LONGEST_MIN}, got {minutes}"
        )
    after = tuple((n, lesson_notebook(n, folder).title) for n in lesson.needs if n in numbers)
    coming = next((n for n in numbers if n > lesson.number), "")
    following = f"{coming} {lesson_notebook(coming, folder).title}" if coming else ""
    return LessonPlan(lesson, after, following, minutes, seed)


@lru_cache(maxsize=64)
def _errors(kinds: tuple[str, ...]) -> tuple[CommonError, ...]:
    """Return the errors: first the likeliest of each kind of question, then the second of each."""
    rank: dict[str, int] = {}
    slips: dict[str, Misconception] = {}
    for kind in kinds:
        questions = [draw(kind, seed) for seed in range(1, TRIED + 1)]
        times = Counter(name for question in questions for name in question.foreseen)
        for place, (name, _) in enumerate(times.most_common()):
            rank[name] = min(place, rank.get(name, place))
        for slip in (slip for question in questions for slip in question.misconceptions):
            slips.setdefault(slip.name, slip)
    order = sorted(rank, key=lambda name: rank[name])
    return tuple(CommonError(n, slips[n].why_tempting, slips[n].look_again) for n in order)
