"""A class's results as CSV: a row for each learner, for a spreadsheet or a register."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from vorlib.practice.classroom.results import ClassFinding, ClassResults, Learner, score
from vorlib.practice.classroom.teaching import lately
from vorlib.practice.record.exchange import harmless

__all__ = ["results_csv"]

COLUMNS = ("learner", "handed_in", "questions", "right", "latest", "latest_right", "holds")
WORDS = {ClassFinding.HOLDS: "holds", ClassFinding.SHOWED: "showed", ClassFinding.CLEAR: "clear"}


def results_csv(results: ClassResults, missing: Sequence[str] = ()) -> str:
    """Return the results as CSV.

    Questions count at their first answer; `latest` are the newest 20 of them. After the
    misconceptions held comes a column for each that anybody showed: "holds 4/5" is behind 4 of the
    latest 5 answers that spoke for or against it, empty is never asked. Those of a class list who
    have handed in nothing follow with "no".
    """
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\n")
    table.writerow([*COLUMNS, *map(harmless, results.misconceptions)])
    for one in results.learners:
        cells = [_evidence(one, name) for name in results.misconceptions]
        table.writerow([*map(harmless, (*_facts(one), *cells))])
    for name in missing:
        table.writerow(
            [harmless(name), "no", *[""] * (len(COLUMNS) - 2 + len(results.misconceptions))]
        )
    return text.getvalue()


def _facts(one: Learner) -> tuple[str, ...]:
    every, latest = score(one.first_tries), lately(one)
    counts = (every.answered, every.right, latest.answered, latest.right)
    return (one.name, "yes", *map(str, counts), "; ".join(one.holds))


def _evidence(one: Learner, misconception: str) -> str:
    about = one.about(misconception)
    if about.finding is ClassFinding.NOT_ASKED:
        return ""
    return f"{WORDS[about.finding]} {about.showed}/{about.asked}"
