"""A lesson from minute to minute: what the instructor does, what the learners do."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from vorlib.core.words import as_sentence, spoken_count
from vorlib.practice.check_flight.plan import ALLOWED_MIN
from vorlib.practice.learning.predictions import prediction_text
from vorlib.teaching.lesson_notebook import LessonNotebook, Round

__all__ = ["CHECK", "PlanStep", "lesson_steps", "shared_minutes"]

CHECK = "check_flight"  # what the notebook of the check flight calls
# Minutes, with a class, in which the steps share the lesson's time: this course's choice.
INTRODUCE, PREDICT, STEP, SHOW, EXPLAIN, EXAMPLE, QUESTION, SUMMARY = 4, 2, 1, 2, 2, 4, 1, 4
POINT_WORDS = 5, 14  # what an explanation puts in bold makes a point if it has so many
FIRST_STEP = 100  # letters of the first step that learners take, its later sentences left out
# How a step is done by mouse or from the keyboard stands on the page.
BY_KEYBOARD = re.compile(
    r"(?:Or press Tab|Keyboard: (?:press )?Tab|By keyboard:|Time takes)[^.?!]*[.?!]"
)
BY_MOUSE = re.compile(
    r"(?:Mouse|Keyboard): (\w)|, or (?:click it and use|turn the wheel over)[^,.:?]*,?"
)


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


def lesson_steps(lesson: LessonNotebook) -> tuple[PlanStep, ...]:
    """Return the parts of a lesson, each with the minutes that it takes by the rule."""
    return tuple(_steps(lesson))


def _steps(lesson: LessonNotebook) -> Iterator[PlanStep]:
    yield PlanStep(
        INTRODUCE,
        "Introduce",
        f"Say what it is for. {lesson.subject}",
        "Say what they know of it already.",
    )
    for number, one in enumerate(lesson.rounds, 1):
        yield _round(number, one)
    if lesson.example:
        yield PlanStep(
            EXAMPLE,
            "Example",
            f"Work it at the board, and wait before each step: {lesson.example.rstrip(':')}",
            "Say the next step before it is written.",
        )
    if lesson.count:
        yield PlanStep(
            lesson.count * QUESTION,
            "Practice",
            "Ask for the thinking; name the slip, not the answer.",
            f"{spoken_count(lesson.count, 'question')} on the page, each alone.",
        )
    yield PlanStep(
        SUMMARY,
        "Summary",
        "Ask the questions below. Open the summary last.",
        "Say the lesson in three sentences.",
    )


def _round(number: int, one: Round) -> PlanStep:
    texts = [prediction_text(id) for id in one.predictions]
    asked = [
        f"Ask: {text.question} Answer: {text.answer}. {as_sentence(text.reason)}" for text in texts
    ]
    title = f"{number}. {one.title[:1].upper()}{one.title[1:]}"
    shown = tuple(exhibit.words for exhibit in one.exhibits)
    if any(exhibit.name == CHECK for exhibit in one.exhibits):
        said, done = "Help nobody. Note who stops, and where.", "Take it alone, without notes."
        return PlanStep(ALLOWED_MIN, title, said, done, shown)
    least, most = POINT_WORDS
    look = SHOW if one.exhibits and not one.steps else 0
    return PlanStep(
        PREDICT * len(texts) + STEP * len(one.steps) + look + EXPLAIN,
        title,
        " ".join(asked) or "Show it, and let them explain it to each other.",
        " ".join(filter(None, ("Predict." if texts else "", _tried(one)))),
        shown,
        as_sentence(one.point) if least <= len(one.point.split()) <= most else "",
    )


def _tried(one: Round) -> str:
    """Return the first thing that learners do with an exhibit, and how many more there are."""
    if not one.steps:
        return (
            "Say what it shows before it is told." if one.exhibits else "Explain it to a neighbor."
        )
    done = BY_KEYBOARD.sub("", one.steps[0])
    done = BY_MOUSE.sub(lambda match: (match[1] or "").upper(), done)
    said, *more = re.split(r"(?<=[.?!]) +(?=[A-Z])", done.strip())
    for sentence in more:
        if len(said) + len(sentence) >= FIRST_STEP:
            break
        said += f" {sentence}"
    left = len(one.steps) - 1
    return f"{said} Then {spoken_count(left, 'more step')}." if left else said


def shared_minutes(total: int, shares: Sequence[int]) -> list[int]:
    """Return whole minutes, none less than one, that add up to a total and keep the shares."""
    whole, given = sum(shares), [0] * len(shares)
    passed = 0
    for n, share in enumerate(shares):
        passed += share
        left = len(shares) - n - 1
        upto = min(max(round(total * passed / whole), sum(given) + 1), total - left)
        given[n] = upto - sum(given)
    return given
