"""How quickly a class's results are there: 30 learners with 500 answers each.

Run it on a quiet machine with ``python tests/bench/class_results.py``.
"""

import tempfile
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path

from vorlib.practice.classroom.folder import read_class
from vorlib.practice.classroom.results import ClassResults
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.questions.registry import all_kinds, draw
from vorlib.practice.record.exchange import Export, write_export
from vorlib.views.classroom.chart import class_chart
from vorlib.views.classroom.table import class_table
from vorlib.views.classroom.words import (
    list_words,
    needs_you_words,
    nobody_right_words,
    summary_words,
    teach_again_words,
)
from vorlib.views.drawing.svg import to_svg

LEARNERS, ANSWERS = 30, 500
BEGIN = datetime(2026, 3, 2, 17, tzinfo=UTC)
GOAL_S = 2.0


def main() -> None:
    """Write a class, read it cold, and print how long each part took."""
    with tempfile.TemporaryDirectory() as folder:
        write_class(Path(folder))
        times = {}
        start = time.perf_counter()
        records = read_class(folder)
        times["read the files"] = time.perf_counter() - start
        results = ClassResults(records)
        steps = {
            "summary, list": lambda: (summary_words(results), list_words(results)),
            "what to teach again": lambda: (teach_again_words(results), needs_you_words(results)),
            "what nobody got right": lambda: nobody_right_words(results),
            "the table, as SVG": lambda: to_svg(class_table(results)),
            "the chart, as SVG": lambda: class_chart(results, "day", results.learners[0]).svg,
        }
        for name, step in steps.items():
            start = time.perf_counter()
            step()
            times[name] = time.perf_counter() - start
    print(f"{LEARNERS} learners with {results.answered // LEARNERS} answers each")
    for name, seconds in times.items():
        print(f"{name:28}{seconds:8.3f} s")
    print(f"{'all':28}{sum(times.values()):8.3f} s, goal {GOAL_S:g} s")


def write_class(folder: Path) -> None:
    """Write a class that holds a misconception each, half of it as CSV."""
    kinds = list(all_kinds())
    questions = [(kinds[n % len(kinds)], n % 97) for n in range(ANSWERS)]
    foreseen = [draw(kind, seed).foreseen for kind, seed in questions]
    for number in range(LEARNERS):
        attempts = tuple(
            attempt(number, place, kind, seed, names)
            for place, ((kind, seed), names) in enumerate(zip(questions, foreseen, strict=True))
        )
        suffix = "csv" if number % 2 else "json"
        write_export(Export(f"Learner {number}", attempts), folder / f"{number}.{suffix}")


def attempt(number: int, place: int, kind: str, seed: int, foreseen: tuple[str, ...]) -> Attempt:
    """Return an answer that is wrong one time in three."""
    shown = foreseen[number % len(foreseen)] if foreseen and (number + place) % 3 == 0 else ""
    return Attempt(
        kind,
        seed,
        "wrong" if shown else "right",
        shown,
        foreseen,
        taken_s=30.0,
        answered_at=BEGIN + timedelta(hours=3 * place),
    )


if __name__ == "__main__":
    main()
