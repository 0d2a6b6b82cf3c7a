"""A student's record of training, printed for the student's file."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from vorlib.paper.page import A4, BODY, HEADING, Column, PageSize, Sheet
from vorlib.practice.check_flight.words import number_words
from vorlib.practice.classroom.results import Score
from vorlib.practice.training.training_record import (
    NO_ENDORSEMENT,
    HeldBelief,
    LessonCovered,
    TrainingRecord,
)
from vorlib.views.drawing.document import pdf_bytes
from vorlib.views.drawing.picture import Picture

__all__ = ["training_pages", "training_pdf"]

TITLE = "Record of training on the ground"
LEAST_REMARKS, MOST_REMARKS = 2, 8  # rows to write in: as many of them as fit on the page
ROW = 22.0  # height of one, in points
COUNTED = (
    "Only first answers count; lately means the latest 20 of them. A misconception is held when "
    "the answers cannot be explained without it."
)


def training_pdf(record: TrainingRecord, on: date, size: PageSize = A4) -> bytes:
    """Return a record of training as PDF, made on a day."""
    return pdf_bytes(training_pages(record, on, size), f"{TITLE}: {record.student}")


def training_pages(record: TrainingRecord, on: date, size: PageSize = A4) -> tuple[Picture, ...]:
    """Return the pages of a record of training, made on a day."""
    sheet = Sheet(TITLE, size, f"{on}")
    sheet.paragraph(record.student, HEADING, bold=True)
    sheet.paragraph(NO_ENDORSEMENT, bold=True)
    sheet.paragraph(f"Right in all: {record.score}. {COUNTED}")
    for title, columns, rows in _tables(record):
        sheet.heading(title, keep=60.0)
        if rows:
            sheet.table(columns, rows, BODY)
        else:
            sheet.paragraph("Nothing yet.")
    sheet.heading("Remarks", keep=(LEAST_REMARKS + 1.0) * ROW)
    room = int((sheet.bottom - sheet.y) / ROW) - 1  # below the titles
    remarks = min(max(room, LEAST_REMARKS), MOST_REMARKS)
    sheet.table((Column("day", 1.0), Column("", 8.0)), [["", ""]] * remarks, BODY, ROW)
    return sheet.pages()


def _tables(
    record: TrainingRecord,
) -> Iterator[tuple[str, tuple[Column, ...], Sequence[Sequence[str]]]]:
    yield (
        "What was covered",
        (Column("lesson", 3.0), Column("taught", 4.0), Column("practiced", 2.6), _right("right")),
        [
            [
                f"{one.number} {one.title}",
                _taught(one),
                _days(one.practiced),
                _score(one.score),
            ]
            for one in record.lessons
        ],
    )
    yield (
        "Results by element of the standard",
        (Column("code", 1.5), Column("about", 5.0), _right("right"), _right("lately")),
        [[one.code, one.title, _score(one.score), _score(one.lately)] for one in record.elements],
    )
    yield (
        "Misconceptions",
        (Column("misconception", 5.0), Column("held since", 1.6), Column("put right", 1.6)),
        [[belief.name, f"{belief.since}", _until(belief)] for belief in record.beliefs],
    )
    yield (
        "Check flights on the ground",
        (Column("handed in", 2.0), _right("points"), _right("of")),
        [
            [f"{one.handed_in_at:%Y-%m-%d}", number_words(one.points), f"{one.out_of}"]
            for one in record.checks
        ],
    )
    yield (
        "Flights debriefed",
        (Column("day", 1.2), Column("flight", 3.0), Column("remark", 5.0)),
        [[f"{one.day}", one.about, one.remark] for one in record.flights],
    )


def _right(title: str) -> Column:
    return Column(title, 1.2, "end")


def _taught(lesson: LessonCovered) -> str:
    return "; ".join(f"{one.day} {one.remark}".strip() for one in lesson.taught)


def _days(days: Sequence[date]) -> str:
    """Return the first and the last of some days."""
    if not days:
        return ""
    return f"{days[0]}" if len(days) == 1 else f"{days[0]} to {days[-1]}"


def _score(score: Score) -> str:
    return str(score) if score.answered else ""


def _until(belief: HeldBelief) -> str:
    return f"{belief.until}" if belief.until else "held now"
