"""Figures that a browser or a class waits for, as promised; some minutes on a quiet machine."""

from __future__ import annotations

import shutil
import statistics
import sys
import tempfile
import time
from functools import cache, partial
from pathlib import Path
from typing import Any

sys.path.append(str(Path(__file__).parent))
sys.path.append(str(Path(__file__).parents[1]))

import class_of
import pages
from lab import CHROMIUM_OPTIONS, running_course

from tests.bench.figures import Figure, Measured
from vorlib.pages.course_folder import shipped

ALIVE_MS = 120_000
LEARNERS, MINUTE_S = 30, 60.0
MEMORY_MB = 79.0 + 114.0  # what kernel and server took before they were lowered


def first_pictures() -> Measured:
    """Return the median, over all lessons, of the seconds from a click to a living picture."""
    from playwright.sync_api import sync_playwright

    lessons = [name for name in shipped() if name[:2].isdigit() and name[:2] != "00"]
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        notebooks = Path(folder) / "notebooks"
        shutil.copytree(class_of.NOTEBOOKS, notebooks)
        chromium = shutil.which("chromium") or shutil.which("chromium-browser")
        browser = playwright.chromium.launch(executable_path=chromium, args=CHROMIUM_OPTIONS)
        with running_course(notebooks, Path(folder) / "home") as course:
            return Measured(
                statistics.median(_opened_s(browser, course.lesson(name)) for name in lessons)
            )


def _opened_s(browser: Any, address: str) -> float:
    page = browser.new_page(viewport={"width": 1366, "height": 633})
    begun = time.monotonic()
    page.goto(address, wait_until="commit", timeout=ALIVE_MS)
    page.wait_for_selector(".vorlib-picture svg", timeout=ALIVE_MS)
    opened_s = time.monotonic() - begun
    page.wait_for_selector("body[data-alive]", timeout=ALIVE_MS)
    page.wait_for_timeout(5000)  # as a reader does, while the kernel of the next lesson starts
    page.close(run_before_unload=True)
    return opened_s


@cache
def _answers() -> tuple[pages.Answers, ...]:
    return tuple(answers for _, answers in pages.measured())


def slowest_picture() -> Measured:
    """Return how many times an empty label's time a step's picture takes, of any exhibit."""
    return Measured(max(one.ratio for one in _answers() if one.ratio is not None))


def between_dragged() -> Measured:
    """Return the most milliseconds between two pictures of a drag, of any grip."""
    slowest = min(per_s for one in _answers() for per_s in one.dragged_per_s.values())
    return Measured(1e3 / slowest)


@cache
def _taught(lesson: str) -> class_of.Taught:
    done = class_of.class_of(LEARNERS, lesson, MINUTE_S)
    if done.lost or done.failed:
        raise RuntimeError(f"not all went well in a class: {done}")
    return done


def _median(lesson: str) -> Measured:
    return Measured(_taught(lesson).median_ms)


def _late(lesson: str) -> Measured:
    return Measured(_taught(lesson).late_ms)


def memory() -> Measured:
    """Return the megabytes of a learner's kernel and server, in the heaviest lesson."""
    parts = _taught(class_of.HEAVIEST).memory_mb.values()
    return Measured(sum(statistics.fmean(mb) for mb in parts))


WAITS = (
    Figure("a lesson opened, to its first picture, median", 3.0, "s", first_pictures),
    Figure("a slider's step to its picture, of an empty label's", 1.2, "x", slowest_picture),
    Figure("between two pictures of a drag", 25.0, "ms", between_dragged),
    *(
        figure
        for lesson in class_of.LESSONS
        for figure in (
            Figure(
                f"a move of one in a class of {LEARNERS}, lesson {lesson}, median",
                class_of.MEDIAN_MS, "ms", partial(_median, lesson),
            ),
            Figure(
                f"a move of one in a class of {LEARNERS}, lesson {lesson}, 95 in 100",
                class_of.LATE_MS, "ms", partial(_late, lesson),
            ),
        )
    ),
    Figure("a learner on a hub, server and kernel", MEMORY_MB, "MB", memory),
)  # fmt: skip
