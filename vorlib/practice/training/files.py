"""A record of training as CSV for a spreadsheet, and as JSON for another program."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator
from datetime import date
from typing import Any

from vorlib.core.caution import CAUTION
from vorlib.practice.record.exchange import harmless
from vorlib.practice.training.training_record import NO_ENDORSEMENT, TrainingRecord

__all__ = ["training_csv", "training_json"]

FORMAT, FIRST_VERSION = "vorlib training record", 1
COLUMNS = ("part", "about", "title", "begin", "end", "right", "of", "remark")


def training_csv(record: TrainingRecord) -> str:
    """Return the record as CSV: a row for each thing, its part of the record in front."""
    text = io.StringIO()
    table = csv.DictWriter(text, COLUMNS, restval="", lineterminator="\n")
    table.writeheader()
    for row in _rows(record):
        table.writerow({name: harmless(str(value)) for name, value in row.items()})
    return text.getvalue()


def training_json(record: TrainingRecord, on: date) -> str:
    """Return the record as JSON, with the day on which it was made."""
    parts: dict[str, list[dict[str, Any]]] = {}
    for row in _rows(record):
        parts.setdefault(str(row["part"]), []).append(
            {name: value for name, value in row.items() if name != "part"}
        )
    head = {
        "format": FORMAT,
        "version": FIRST_VERSION,
        "made_on": on.isoformat(),
        "caution": CAUTION,
        "endorsement": NO_ENDORSEMENT,
    }
    return json.dumps(head | parts, ensure_ascii=False, indent=1) + "\n"


def _rows(record: TrainingRecord) -> Iterator[dict[str, Any]]:
    yield {
        "part": "student",
        "about": record.student,
        "right": record.score.right,
        "of": record.score.answered,
        "remark": NO_ENDORSEMENT,
    }
    for lesson in record.lessons:
        for entry in lesson.taught:
            taught = {"begin": entry.day.isoformat(), "remark": entry.remark}
            yield {"part": "taught", "about": lesson.number, "title": lesson.title, **taught}
        if lesson.practiced:
            yield {
                "part": "practiced",
                "about": lesson.number,
                "title": lesson.title,
                "begin": lesson.practiced[0].isoformat(),
                "end": lesson.practiced[-1].isoformat(),
                "right": lesson.score.right,
                "of": lesson.score.answered,
            }
    for one in record.elements:
        result = {"right": one.score.right, "of": one.score.answered}
        yield {"part": "element", "about": one.code, "title": one.title, **result}
    for belief in record.beliefs:
        end = belief.until.isoformat() if belief.until else ""
        yield {
            "part": "misconception",
            "about": belief.name,
            "begin": belief.since.isoformat(),
            "end": end,
            "remark": "put right" if end else "held",
        }
    for check in record.checks:
        points = {"right": f"{check.points:g}", "of": check.out_of}
        yield {"part": "check flight", "begin": check.handed_in_at.date().isoformat(), **points}
    for flight in record.flights:
        done = {"begin": flight.day.isoformat(), "remark": flight.remark}
        yield {"part": "flight", "about": flight.about, **done}
