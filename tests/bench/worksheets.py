"""How long a printed worksheet takes: twenty questions with their key, written as PDF.

Run it on a quiet machine with ``python tests/bench/worksheets.py``.
"""

from __future__ import annotations

import tempfile
import time
from pathlib import Path

from vorlib.paper.worksheet import Worksheet
from vorlib.paper.worksheet_files import save_worksheet
from vorlib.practice.learning.topic import lessons_with_questions

COUNT, SEED = 20, 7
GOAL_S = 10.0


def main() -> None:
    """Measure each lesson and the whole course, and print a table."""
    print(f"{COUNT} questions with key, seconds; the goal is {GOAL_S:g}")
    with tempfile.TemporaryDirectory() as folder:
        for topic in (*lessons_with_questions(), "all"):
            start = time.perf_counter()
            paths = (Path(folder, "sheet.pdf"), Path(folder, "key.pdf"))
            save_worksheet(Worksheet(topic, COUNT, SEED), *paths)
            taken = time.perf_counter() - start
            size = sum(path.stat().st_size for path in paths) / 1000.0
            print(f"{topic:4} {taken:5.1f} {size:5.0f} kB")


if __name__ == "__main__":
    main()
