"""What the instructor prints before a lesson, as PDF: plans, syllabus and masters."""

from __future__ import annotations

from collections.abc import Sequence

from vorlib.paper.masters import master_pages
from vorlib.paper.page import A4, PageSize, pdf_bytes
from vorlib.paper.teaching.lesson_plan import plan_pages
from vorlib.paper.teaching.syllabus_page import syllabus_pages
from vorlib.teaching.plan import LessonPlan
from vorlib.teaching.syllabus import Syllabus

__all__ = ["masters_pdf", "plans_pdf", "syllabus_pdf"]


def plans_pdf(plans: Sequence[LessonPlan], size: PageSize = A4) -> bytes:
    """Return the plans of some lessons, a page each."""
    pages = [page for plan in plans for page in plan_pages(plan, size)]
    return pdf_bytes(pages, "Lesson plans" if len(plans) > 1 else "Lesson plan")


def syllabus_pdf(syllabus: Syllabus, size: PageSize = A4) -> bytes:
    """Return the syllabus."""
    return pdf_bytes(syllabus_pages(syllabus, size), "Syllabus")


def masters_pdf(size: PageSize = A4) -> bytes:
    """Return the masters, a page each."""
    return pdf_bytes(master_pages(size), "Masters for board and table")
