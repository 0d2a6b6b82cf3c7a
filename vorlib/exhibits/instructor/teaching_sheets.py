"""Lesson plans, the syllabus and masters chosen on a page: shown as printed, and out as PDF.

The pages are those of `vorlib.paper.teaching` and `vorlib.paper.masters`. For training on the
ground, not for navigation.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache
from pathlib import Path

from vorlib.exhibits.base.controls import Button, ChoiceControl
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.base.inputs import Words
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.sheets.page_preview import PROJECTOR_PAGE, as_picture
from vorlib.exhibits.sheets.save_sheets import SaveSheets
from vorlib.io.atomic import write_whole
from vorlib.paper.masters import MASTERS, master_pages
from vorlib.paper.page import PAGE_SIZES, PageSize
from vorlib.paper.teaching.files import (
    masters_pdf,
    plans_pdf,
    save_plan_and_homework,
    syllabus_pdf,
)
from vorlib.paper.teaching.lesson_plan import plan_pages
from vorlib.paper.teaching.syllabus_page import syllabus_pages
from vorlib.paper.worksheet import new_seed
from vorlib.teaching.flights import CourseFlight
from vorlib.teaching.lesson_notebook import lesson_notebook, lesson_numbers
from vorlib.teaching.plan import LessonPlan, lesson_plan
from vorlib.teaching.syllabus import Syllabus, read_order, syllabus
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import PROJECTOR, SCREEN, Theme

__all__ = ["TeachingSheets", "TeachingSheetsState", "teaching_sheets"]

PLAN, SYLLABUS, MASTER = "Lesson plan", "Syllabus", "Masters"
PERIOD_MIN = range(15, 181)  # lengths of a lesson that make sense


@dataclass(frozen=True)
class TeachingSheetsState:
    """The choices for what is printed before a lesson.

    Attributes
    ----------
    shown
        Which of the sheets is shown.
    lesson, minutes, seed
        As of `vorlib.teaching.plan.lesson_plan`.
    order
        Numbers of the lessons in the syllabus; empty for the course's own order.
    paper
        Name of the paper's size.
    page
        Which page is shown, counted round and round from 1.
    folder
        Where the sheets are to be written.
    """

    shown: str = PLAN
    lesson: str = "05"
    minutes: int | None = None
    seed: int = 1
    order: tuple[str, ...] = ()
    paper: str = "Letter"
    page: int = 1
    folder: str = ""

    @cached_property
    def plan(self) -> LessonPlan:
        """The plan of the lesson."""
        return lesson_plan(self.lesson, seed=self.seed, minutes=self.minutes)

    @cached_property
    def syllabus(self) -> Syllabus:
        """The lessons in their order."""
        return syllabus(self.order)

    @property
    def size(self) -> PageSize:
        """The paper."""
        return PAGE_SIZES[self.paper]

    def pages(self, shown: str, size: PageSize) -> tuple[Picture, ...]:
        """Return the pages of one of the sheets."""
        if shown == MASTER:
            return _masters(size)
        if shown == SYLLABUS:
            return syllabus_pages(self.syllabus, size)
        return plan_pages(self.plan, size)


@lru_cache(maxsize=4)
def _masters(size: PageSize) -> tuple[Picture, ...]:
    return master_pages(size)


def draw(state: TeachingSheetsState, theme: Theme) -> Picture:
    """Return the page that is shown, as it will be printed; a plan narrower for the projector."""
    is_narrow = theme is PROJECTOR and state.shown == PLAN
    pages = state.pages(state.shown, PROJECTOR_PAGE if is_narrow else state.size)
    return as_picture(pages[(state.page - 1) % len(pages)], theme)


def sentence(state: TeachingSheetsState) -> str:
    """Say what is on the sheet that is shown."""
    if state.shown == MASTER:
        names = [master.title.lower() for master in MASTERS.values()]
        return f"Masters to copy and draw on: {', '.join(names)}."
    if state.shown == SYLLABUS:
        rows = state.syllabus.rows
        hours, minutes = divmod(state.syllabus.minutes, 60)
        flights = sum(isinstance(row, CourseFlight) for row in rows)
        lessons = f"{len(rows) - flights} lessons in {hours} h {minutes} min"
        return f"Syllabus: {lessons} on the ground, before {flights} flights."
    plan = state.plan
    title = f"{int(plan.lesson.number)}. {plan.lesson.title.rstrip('?')}"
    return (
        f"Lesson plan {title}: {plan.minutes} minutes in {len(plan.steps)} steps, with "
        f"{len(plan.elements)} elements of the standard. {len(plan.asked)} questions can be asked "
        "aloud."
    )


class TeachingSheets(Exhibit[TeachingSheetsState]):
    """The exhibit with the pages of its sheets as pictures."""

    def sheet(self, shown: str, number: int = 1) -> Picture:
        """Return a page of the "Lesson plan", the "Syllabus" or the "Masters"."""
        return as_picture(self.state.pages(shown, self.state.size)[number - 1], SCREEN)


@exhibit(lesson="round", state=TeachingSheetsState)
def teaching_sheets() -> TeachingSheets:
    """Return the exhibit that prints what is needed before a lesson."""
    lessons = {f"{int(n)} {lesson_notebook(n).title}": n for n in lesson_numbers()}
    controls = [
        ChoiceControl(
            "shown", "Show", {name: name for name in (PLAN, SYLLABUS, MASTER)}, _first_page
        ),
        ChoiceControl("lesson", "Lesson", lessons, _first_page),
        Words(
            "order",
            "Order of lessons",
            _order,
            ", ".join,
            example="such as 01, 02, 03",
            consequences=_first_page,
        ),
        Words("minutes", "Minutes", _minutes, _minutes_words, example="as planned").put_away(),
        ChoiceControl("paper", "Paper", {name: name for name in PAGE_SIZES}).put_away(),
        SaveSheets(
            "folder",
            {
                "Write plan, homework and key (PDF)": _save_plan,
                "Write all plans (PDF)": _save_all,
                "Write the syllabus (PDF)": _save_syllabus,
                "Write the masters (PDF)": _save_masters,
            },
        ),
        Button("seed", "Other questions", lambda state: {"seed": new_seed()}),
        Button("page", "Previous page", lambda state: {"page": state.page - 1}).put("transport"),
        Button("page", "Next page", lambda state: {"page": state.page + 1}).put("transport"),
    ]
    exhibit = TeachingSheets(TeachingSheetsState(), draw, sentence, controls)
    exhibit.widget.add_class("vorlib-prepare")
    return exhibit


def _first_page(state: TeachingSheetsState, value: object) -> dict[str, int]:
    return {"page": 1}


def _order(words: str) -> tuple[str, ...]:
    """Return an order in which lessons can be taught, or say why they cannot."""
    numbers = tuple(number.zfill(2) for number in read_order(words))
    syllabus(numbers)
    return numbers


def _minutes(words: str) -> int | None:
    if not words:
        return None
    if not words.isdecimal() or int(words) not in PERIOD_MIN:
        raise ValueError(
            f"a lesson takes {PERIOD_MIN[0]} to {PERIOD_MIN[-1]} whole minutes, got {words!r}"
        )
    return int(words)


def _minutes_words(minutes: int | None) -> str:
    return "" if minutes is None else str(minutes)


def _save_plan(state: TeachingSheetsState, folder: Path) -> tuple[Path, ...]:
    """Write the plan with its homework, whose secret is a new one each time."""
    plan, sheet = (folder / f"{what}-{state.lesson}.pdf" for what in ("lesson-plan", "homework"))
    return save_plan_and_homework(state.plan, plan, sheet, state.size)


def _save_all(state: TeachingSheetsState, folder: Path) -> Path:
    plans = tuple(lesson_plan(number, seed=state.seed) for number in lesson_numbers())
    return write_whole(folder / "lesson-plans.pdf", plans_pdf(plans, state.size))


def _save_syllabus(state: TeachingSheetsState, folder: Path) -> Path:
    return write_whole(folder / "syllabus.pdf", syllabus_pdf(state.syllabus, state.size))


def _save_masters(state: TeachingSheetsState, folder: Path) -> Path:
    return write_whole(folder / "masters.pdf", masters_pdf(state.size))
