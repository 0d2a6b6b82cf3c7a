"""Measure what a learner waits for: a question with its picture, its marking, the record opened.

python tests/bench/practice.py
"""

import statistics
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from random import Random

from vorlib.practice import Attempt, Record, all_kinds, draw, mark
from vorlib.practice.questions.question import Question
from vorlib.views.classroom.question_figure import figure_picture, figure_words
from vorlib.views.drawing.svg import to_svg
from vorlib.views.drawing.theme import PROJECTOR, SCREEN

SEEDS = range(30)  # of each kind
ANSWERS = 100_000
OPENED = 9


def milliseconds(work: Callable[[], object]) -> float:
    """Return how long *work* takes."""
    start = time.perf_counter()
    work()
    return 1e3 * (time.perf_counter() - start)


def drawn(kind: str, seed: int) -> None:
    """Draw a question with its picture, for the screen and for the projector."""
    figure = draw(kind, seed).figure
    if figure is not None:
        figure_words(figure)
        for theme in (SCREEN, PROJECTOR):
            to_svg(figure_picture(figure, theme))


def marked(question: Question) -> list[float]:
    """Return the times to mark the answer, every foreseen mistake, and nonsense."""
    texts = [question.form.show(m.would_answer) for m in question.misconceptions]
    texts += [question.form.show(question.answer), "over there"]
    return [milliseconds(lambda text=text: mark(question, text)) for text in texts]


def report(name: str, times: list[float], goal_ms: float) -> None:
    """Print the median, the 95th percentile and the worst of some times, beside the goal."""
    worst, high = max(times), statistics.quantiles(times, n=20)[-1]
    median = statistics.median(times)
    print(f"  {name:32} {median:7.2f} {high:7.2f} {worst:7.2f} ms   goal {goal_ms:g} ms")


def filled(record: Record) -> None:
    """Fill a record with answers of three years."""
    chance, kinds = Random(1), list(all_kinds())
    begun = datetime(2024, 1, 1, tzinfo=UTC)
    record.add(
        *(
            Attempt(
                kind=chance.choice(kinds),
                seed=number,
                verdict="right" if chance.random() < 0.7 else "wrong",
                answered_at=begun + timedelta(minutes=15 * number),
            )
            for number in range(ANSWERS)
        )
    )


def main() -> None:
    """Print the figures."""
    kinds = list(all_kinds())
    cold = [milliseconds(lambda k=k: drawn(k, 0)) for k in kinds]
    warm = [milliseconds(lambda k=k, s=s: drawn(k, s)) for k in kinds for s in SEEDS]
    marking = [t for kind in kinds for seed in SEEDS for t in marked(draw(kind, seed))]
    print(f"{len(kinds)} kinds, {len(SEEDS)} questions of each: median, 95 in 100, worst")
    report("question and two pictures, first", cold, 30.0)
    report("question and two pictures", warm, 30.0)
    report("marking", marking, 5.0)
    with tempfile.TemporaryDirectory() as folder:
        filled(Record("Wenna", folder))
        opened = [milliseconds(lambda: Record("Wenna", folder).summary()) for _ in range(OPENED)]
    report(f"record of {ANSWERS:,} answers opened", opened, 100.0)


if __name__ == "__main__":
    main()
