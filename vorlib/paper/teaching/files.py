"""The instructor's PDF files for a lesson: plans, homework, syllabus and masters."""

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
    """Return lesson plans as PDF, one on each page."""
    pages = [page for plan in plans for page in plan_pages(plan, size)]
    return pdf_bytes(pages, "Lesson plans" if len(plans) > 1 else "Lesson plan")


def save_plan_and_homework(
    plan: LessonPlan, out: Path, sheet: Path, size: PageSize = A4
) -> tuple[Path, ...]:
    """Write a plan and its homework with a key; printing the key again takes a secret.

    The secret is on the plan and on the key.

    Parameters
    ----------
    plan
        The plan of the lesson.
    out, sheet
        Files for the plan and the learners' sheet; the key goes beside the sheet, as
        `sheet_key.pdf`.
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
    """Return the syllabus as PDF."""
    return pdf_bytes(syllabus_pages(syllabus, size), "Syllabus")


def masters_pdf(size: PageSize = A4) -> bytes:
    """Return all masters as PDF, one on each page."""
    return pdf_bytes(master_pages(size), "Masters for board and table")
