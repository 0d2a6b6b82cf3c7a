"""The order of the lessons: what comes before what, and which lessons come before which flight."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from vorlib.teaching.flights import FLIGHTS, CourseFlight
from vorlib.teaching.lesson_notebook import lesson_notebook, lesson_numbers
from vorlib.teaching.plan import LessonPlan, lesson_plan

__all__ = ["Syllabus", "read_order", "syllabus"]


@dataclass(frozen=True)
class Syllabus:
    """Lessons in the order in which they are taught.

    Attributes
    ----------
    plans
        Of each lesson in that order.
    """

    plans: tuple[LessonPlan, ...]

    @property
    def minutes(self) -> int:
        """On the ground, all together."""
        return sum(plan.minutes for plan in self.plans)

    @cached_property
    def rows(self) -> tuple[LessonPlan | CourseFlight, ...]:
        """Lessons and flights: each flight once its lessons and those before it are done."""
        return tuple(self._rows())

    def _rows(self) -> Iterator[LessonPlan | CourseFlight]:
        waiting = [flight for flight in FLIGHTS if self._lessons_before(flight)]
        for number, plan in enumerate(self.plans, 1):
            yield plan
            coming = {later.lesson.teaching.flight for later in self.plans[number:]} - {0}
            while waiting and all(waiting[0].number < other for other in coming):
                yield waiting.pop(0)

    def _lessons_before(self, flight: CourseFlight) -> bool:
        return any(plan.lesson.teaching.flight == flight.number for plan in self.plans)


def syllabus(order: Sequence[str] | None = None, folder: Path | None = None) -> Syllabus:
    """Return the syllabus in an order of the lessons.

    Parameters
    ----------
    order
        Numbers of the lessons to be taught; by default all, as the course has them. Some may be
        left out if none that is taught needs them.
    folder
        Where the notebooks are; by default the course's own.

    Raises
    ------
    ValueError
        If a lesson is not there, stands twice, or comes before one that it needs.
    """
    numbers = [lesson_notebook(n, folder).number for n in order or lesson_numbers(folder)]
    there = set(lesson_numbers(folder))
    for place, number in enumerate(numbers):
        lesson = lesson_notebook(number, folder)
        if number in numbers[:place]:
            raise ValueError(f"lesson {number} ({lesson.title}) is in the order twice")
        for need in lesson.needs:
            if need in there and need not in numbers[:place]:
                where = "comes later" if need in numbers else "is left out"
                title = lesson_notebook(need, folder).title
                raise ValueError(
                    f"lesson {number} ({lesson.title}) needs lesson {need} ({title}), which {where}"
                )
    return Syllabus(tuple(lesson_plan(number, folder=folder) for number in numbers))


def read_order(words: str) -> tuple[str, ...]:
    """Return the numbers of lessons that are written, such as "01, 02, 04"; none for no words."""
    return tuple(filter(None, re.split(r"[,\s]+", words.strip())))
