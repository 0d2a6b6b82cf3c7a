"""How many lesson pages come up without a picture while the machine is busy.

    python tests/bench/openings.py        # 60 openings
    python tests/bench/openings.py 12 13_whole_flight.ipynb instructor/prepare.ipynb

Several pages are opened at a time, and a loop keeps every processor at work. A page is whole once
it shows as many exhibits, predictions and practices as it ever did, and each of them something: an
exhibit its picture and its sentence, the others their question. Whatever misses a part a minute
after all cells have run is counted and named. The figure to hold is none missing.
"""

from __future__ import annotations

import multiprocessing
import os
import shutil
import statistics
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

sys.path.append(str(Path(__file__).parents[1]))
from lab import CHROMIUM_OPTIONS, Lab, running_course

from vorlib.pages.course_folder import shipped

NOTEBOOKS = Path(__file__).parents[2] / "notebooks"
WITHOUT_EXHIBITS = ("glossary.ipynb", "sources.ipynb")
OPENINGS, AT_A_TIME = 60, 3
ALIVE_MS, LATE_S = 180_000, 60.0
PARTS = """() => {
    const all = (part) => [...document.querySelectorAll(part)]
        .filter((one) => !one.closest(".covered.explains"));  // until a prediction is made
    const empty = (part, inside) => all(part).filter((one) =>
        [...one.querySelectorAll(inside)].every((found) => !found.getBoundingClientRect().width));
    const says = (one) => one.querySelector(".vorlib-sentence")?.textContent.trim();
    const exhibits = all(".vorlib-exhibit").filter((one) => one.querySelector(".vorlib-view"));
    return {
        parts: all(".vorlib-exhibit, .vorlib-prediction, .vorlib-practice").length,
        pictures: empty(".vorlib-exhibit", "svg, img, canvas, input, button").length,
        drawn: exhibits.filter((one) => !one.querySelector(".vorlib-picture svg")).length,
        sentences: exhibits.filter((one) => !says(one)).length,
        questions: empty(".vorlib-prediction, .vorlib-practice", "button").length,
        errors: document.querySelector("main").innerText.split("error when executing").length - 1,
    };
}"""
MISSING = ("pictures", "drawn", "sentences", "questions", "errors")


def busy() -> None:
    """Keep a processor at work."""
    while True:
        sum(range(1_000_000))


def is_whole(found: dict[str, int], most: int) -> bool:
    """Return whether nothing is missing from what a page shows."""
    return found["parts"] >= most and not any(found[name] for name in MISSING)


def opened(browser: Any, course: Lab, names: list[str]) -> list[tuple[str, float, Any]]:
    """Open pages at the same time: of each the name, the seconds until it is alive, and itself."""
    pages = [browser.new_page(viewport={"width": 1366, "height": 633}) for _ in names]
    begun = time.monotonic()
    for page, name in zip(pages, names, strict=True):
        page.goto(course.lesson(name), wait_until="commit", timeout=ALIVE_MS)
    alive = []
    for page, name in zip(pages, names, strict=True):
        page.wait_for_selector("body[data-alive]", timeout=ALIVE_MS)
        alive.append((name, time.monotonic() - begun, page))
    return alive


def main(openings: int = OPENINGS, *chosen_names: str) -> None:
    """Print the time of the openings, and what was missing."""
    from playwright.sync_api import sync_playwright

    names = chosen_names or [name for name in shipped() if name not in WITHOUT_EXHIBITS]
    waited: list[float] = []
    most: dict[str, int] = {}
    seconds: list[float] = []
    missing: list[tuple[str, dict[str, int]]] = []
    load = [multiprocessing.Process(target=busy, daemon=True) for _ in range(os.cpu_count() or 1)]
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        notebooks = Path(folder) / "notebooks"
        shutil.copytree(NOTEBOOKS, notebooks)
        chromium = shutil.which("chromium") or shutil.which("chromium-browser")
        browser = playwright.chromium.launch(executable_path=chromium, args=CHROMIUM_OPTIONS)
        with running_course(notebooks, Path(folder) / "home") as course:
            for process in load:
                process.start()
            for first in range(0, openings, AT_A_TIME):
                numbers = range(first, min(first + AT_A_TIME, openings))
                chosen = [names[number % len(names)] for number in numbers]
                for name, took_s, page in opened(browser, course, chosen):
                    begun = time.monotonic()
                    end = begun + LATE_S
                    found = page.evaluate(PARTS)
                    while not is_whole(found, most.get(name, 1)) and time.monotonic() < end:
                        page.wait_for_timeout(250)
                        found = page.evaluate(PARTS)
                    whole = is_whole(found, most.get(name, 1))
                    if not whole:
                        missing.append((name, found))
                    print(f"{name:32}{took_s:6.1f} s  {'whole' if whole else found}", flush=True)
                    most[name] = max(most.get(name, 0), found["parts"])
                    seconds.append(took_s)
                    waited.append(time.monotonic() - begun)
                    page.close(run_before_unload=True)
            for process in load:
                process.terminate()
    print(f"{len(seconds)} openings, {AT_A_TIME} at a time, {len(load)} busy processors")
    print(f"alive after {statistics.median(seconds):.1f} s, at most {max(seconds):.1f} s")
    print(f"whole {statistics.median(waited):.1f} s after that, at most {max(waited):.1f} s")
    print(f"{len(missing)} with something missing")
    for name, found in missing:
        print(f"  {name}: {found}")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:2]), *sys.argv[2:])
