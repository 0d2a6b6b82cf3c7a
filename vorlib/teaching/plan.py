"""The plan of a lesson: aims, elements, minutes, common errors, questions to ask aloud.

Everything is read from where it stands: the lesson's notebook, its predictions, its questions.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from pathlib import Path

from vorlib.practice.check_flight.plan import ALLOWED_MIN, STAGES
from vorlib.practice.check_flight.words import GOOD
from vorlib.practice.learning.predictions import prediction_text
from vorlib.practice.learning.topic import Topic
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import all_kinds, draw
from vorlib.practice.questions.standards import STANDARD
from vorlib.teaching.lesson_notebook import LessonNotebook, Round, lesson_notebook, lesson_numbers
from vorlib.teaching.reading import reading_words

__all__ = ["CHECK_MET", "STANDARD_MET", "CommonError", "LessonPlan", "PlanStep", "lesson_plan"]

STANDARD_MET = "four of five questions right at the first try, and no misconception held"
"""When a learner has completed a lesson: this course's choice."""
CHECK_MET = f"{GOOD:.0%} of the points, and half of those of each element"
"""When a learner has completed the check flight."""
CHECK = "check_flight"  # what the notebook of the check flight calls
TRIED = 20  # draws of a kind of question that show what errors it can find
HOMEWORK = 10  # questions
# Minutes, with a class; a plan's steps share the lesson's time in these proportions (chosen for
# this course).
INTRODUCE, PREDICT, STEP, SHOW, EXPLAIN, EXAMPLE, QUESTION, SUMMARY = 4, 2, 1, 2, 2, 4, 1, 4
POINT_WORDS = 5, 14  # what an explanation puts in bold makes a point if it has so many
FIRST_STEP = 100  # letters of the first step that learners take, its later sentences left out


@dataclass(frozen=True)
class PlanStep:
    """A part of the lesson: how long it takes, and what everybody does.

    Attributes
    ----------
    minutes
        In whole minutes.
    title
        What it is called.
    instructor, learners
        What they do.
    shown
        The exhibits with their settings, in words.
    point
        What has to come out of it; empty where that is said already.
    """

    minutes: int
    title: str
    instructor: str
    learners: str
    shown: tuple[str, ...] = ()
    point: str = ""


@dataclass(frozen=True)
class CommonError:
    """A misconception that the lesson's questions find out, and what to say to it."""

    name: str
    why_tempting: str
    say: str


@dataclass(frozen=True)
class LessonPlan:
    """The plan of a lesson.

    Attributes
    ----------
    lesson
        What its notebook says.
    after
        Titles of the lessons that come first, by their numbers.
    following
        Number and title of the lesson that comes next; empty after the last one.
    minutes
        How long the lesson takes.
    seed
        Draws the questions to ask aloud.
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
        """When a learner has completed it, in words that go on after "with"."""
        return CHECK_MET if self.is_check else STANDARD_MET

    @cached_property
    def kinds(self) -> tuple[str, ...]:
        """The kinds of question on the lesson: its own, and those that it practices."""
        if self.is_check:
            return tuple(dict.fromkeys(k for s in STAGES for slot in s.slots for k in slot))
        own = [k for k, kind in all_kinds().items() if self.lesson.number in kind.lessons]
        named = (Topic.read(words).kinds for words in self.lesson.practice)
        return tuple(dict.fromkeys([*own, *(kind for kinds in named for kind in kinds)]))

    @property
    def homework(self) -> str:
        """The topic of the homework: the lesson or, if it has no questions, the whole course."""
        own = any(self.lesson.number in kind.lessons for kind in all_kinds().values())
        return self.lesson.number if own else "all"

    @property
    def elements(self) -> tuple[str, ...]:
        """Codes of the elements that the lesson serves: of its questions, and of risk."""
        served = {draw(kind, 1).element for kind in self.kinds} | set(self.lesson.teaching.risks)
        return tuple(code for code in STANDARD if code in served)

    @property
    def reading(self) -> tuple[str, ...]:
        """What to read before."""
        return tuple(reading_words(self.lesson.teaching.reading))

    @cached_property
    def steps(self) -> tuple[PlanStep, ...]:
        """The lesson from minute to minute."""
        steps = tuple(_steps(self.lesson))
        shares = _shared(self.minutes, [step.minutes for step in steps])
        return tuple(
            replace(step, minutes=minutes) for minutes, step in zip(shares, steps, strict=True)
        )

    @cached_property
    def errors(self) -> tuple[CommonError, ...]:
        """The errors that the lesson's questions find out, the likeliest first."""
        return _errors(self.kinds)

    @cached_property
    def asked(self) -> tuple[Question, ...]:
        """Questions to ask aloud, one of each kind: without a picture first, short ones first.

        A picture has to be told in words or drawn on the board.
        """
        drawn = [draw(kind, self.seed) for kind in self.kinds]
        return tuple(sorted(drawn, key=lambda q: (q.figure is not None, len(q.prompt))))


def lesson_plan(
    number: str, *, seed: int = 1, minutes: int | None = None, folder: Path | None = None
) -> LessonPlan:
    """Return the plan of a lesson.

    Parameters
    ----------
    number
        Of the lesson, such as "05".
    seed
        The same seed gives the same questions to ask aloud.
    minutes
        How long it may take; by default what its notebook says, or a rule of so much a step.
    folder
        Where the notebooks are; by default the course's own.

    Raises
    ------
    ValueError
        If there is no such lesson, or it has more steps than minutes.
    """
    lesson = lesson_notebook(number, folder)
    numbers = lesson_numbers(folder)
    steps = [step.minutes for step in _steps(lesson)]
    if minutes is None:
        minutes = lesson.minutes or 5 * round(sum(steps) / 5)
    if minutes < len(steps):
        raise ValueError(
            f"the minutes must be {len(steps)} or more, one for each step, got {minutes}"
        )
    after = tuple((n, lesson_notebook(n, folder).title) for n in lesson.needs if n in numbers)
    coming = next((n for n in numbers if n > lesson.number), "")
    following = f"{coming} {lesson_notebook(coming, folder).title}" if coming else ""
    return LessonPlan(lesson, after, following, minutes, seed)


# ---- minute by minute


def _steps(lesson: LessonNotebook) -> Iterator[PlanStep]:
    yield PlanStep(
        INTRODUCE,
        "Introduce",
        f"Say what it is for: {_lower(lesson.subject)}",
        "Say what they know of it already.",
    )
    for number, one in enumerate(lesson.rounds, 1):
        yield _round(number, one)
    if lesson.example:
        yield PlanStep(
            EXAMPLE,
            "Example",
            "Work it at the board, step by step; wait before each.",
            "Say the next step before it is written.",
        )
    if lesson.count:
        yield PlanStep(
            lesson.count * QUESTION,
            "Practice",
            "Ask for the thinking; name the slip, not the answer.",
            f"{lesson.count} questions on the page, each alone.",
        )
    yield PlanStep(
        SUMMARY,
        "Summary",
        "Ask the questions below. Open the summary last.",
        "Say the lesson in three sentences.",
    )


def _round(number: int, one: Round) -> PlanStep:
    texts = [prediction_text(id) for id in one.predictions]
    asked = [f"Ask: {text.question} Answer: {text.answer}. {_ended(text.reason)}" for text in texts]
    title = f"{number}. {one.title[:1].upper()}{one.title[1:]}"
    shown = tuple(exhibit.words for exhibit in one.exhibits)
    if any(exhibit.name == CHECK for exhibit in one.exhibits):
        said, done = "Help nobody. Note who stops, and where.", "Sit it alone, without notes."
        return PlanStep(ALLOWED_MIN, title, said, done, shown)
    look = SHOW if one.exhibits and not one.steps else 0
    return PlanStep(
        PREDICT * len(texts) + STEP * len(one.steps) + look + EXPLAIN,
        title,
        " ".join(asked) or "Show it, and let them explain it to each other.",
        " ".join(filter(None, ("Predict." if texts else "", _tried(one)))),
        shown,
        _ended(one.point) if POINT_WORDS[0] <= len(one.point.split()) <= POINT_WORDS[1] else "",
    )


def _tried(one: Round) -> str:
    """Return the first thing that learners do with an exhibit, and how many more there are."""
    if not one.steps:
        return (
            "Say what it shows before it is told." if one.exhibits else "Explain it to a neighbor."
        )
    said, *more = re.split(r"(?<=[.?!]) (?=[A-Z])", one.steps[0])
    for sentence in more:
        if len(said) + len(sentence) < FIRST_STEP:
            said += f" {sentence}"
    left = len(one.steps) - 1
    return f"{said} And {left} more {'step' if left == 1 else 'steps'}." if left else said


def _shared(total: int, shares: list[int]) -> list[int]:
    """Return whole minutes, none less than one, that add up to a total and keep the shares."""
    whole, given = sum(shares), [0] * len(shares)
    passed = 0
    for n, share in enumerate(shares):
        passed += share
        left = len(shares) - n - 1
        upto = min(max(round(total * passed / whole), sum(given) + 1), total - left)
        given[n] = upto - sum(given)
    return given


def _ended(words: str) -> str:
    return words if words[-1:] in ".!?" else f"{words}."


def _lower(words: str) -> str:
    return words[:1].lower() + words[1:]


# ---- errors


@lru_cache(maxsize=64)
def _errors(kinds: tuple[str, ...]) -> tuple[CommonError, ...]:
    """Return the errors: first the likeliest of each kind of question, then the next of each."""
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
