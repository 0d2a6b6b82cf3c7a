"""What the instructor prints before a lesson, as PDF: plans, homework, syllabus and masters."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from vorlib.io.atomic import write_whole
from vorlib.paper.masters import master_pages
from vorlib.paper.page import A4, PageSize
from vorlib.paper.teaching.lesson_plan import plan_pages
from vorlib.paper.teaching.syllabus_page import syllabus_pages
from vorlib.paper.worksheet import Worksheet, new_secret
from vorlib.paper.worksheet_files import key_beside, save_worksheet
from vorlib.teaching.plan import HOMEWORK, LessonPlan
from vorlib.teaching.syllabus import Syllabus
from vorlib.views.drawing.document import pdf_bytes

__all__ = ["masters_pdf", "plans_pdf", "save_plan_and_homework", "syllabus_pdf"]


def plans_pdf(plans: Sequence[LessonPlan], size: PageSize = A4) -> bytes:
    """Return the plans of some lessons, a page each."""
    pages = [page for plan in plans for page in plan_pages(plan, size)]
    return pdf_bytes(pages, "Lesson plans" if len(plans) > 1 else "Lesson plan")


def save_plan_and_homework(
    plan: LessonPlan, out: Path, sheet: Path, size: PageSize = A4
) -> tuple[Path, ...]:
    """Write a plan, and its homework with a key that nobody can make without the plan or the key.

    Parameters
    ----------
    plan
        Of the lesson.
    out, sheet
        The plan and the sheet for the learners; the key is beside the sheet, as `sheet_key.pdf`.
    size
        The paper.

    Raises
    ------
    OSError
        If a file cannot be written.
    """
    homework = Worksheet(plan.homework, HOMEWORK, plan.seed, secret=new_secret())
    page = pdf_bytes(plan_pages(plan, size, homework), "Lesson plan")
    written = save_worksheet(homework, sheet, key_beside(sheet), size=size)
    return (write_whole(out, page), *written)


def syllabus_pdf(syllabus: Syllabus, size: PageSize = A4) -> bytes:
    """Return the syllabus."""
    return pdf_bytes(syllabus_pages(syllabus, size), "Syllabus")


def masters_pdf(size: PageSize = A4) -> bytes:
    """Return the masters, a page each."""
    return pdf_bytes(master_pages(size), "Masters for board and table")
