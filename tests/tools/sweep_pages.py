"""Everything that can be measured of the look of the lesson pages, on all of them.

    python tests/tools/sweep_pages.py                          # all pages
    python tests/tools/sweep_pages.py 05_intercepting.ipynb    # some

In four windows: what of an exhibit is not seen at once. Presented at 1280 x 720, on each step: the
same, and what text is smaller than 20 pixels.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path
from typing import Any

sys.path.append(str(Path(__file__).parents[1]))
from lab import CHROMIUM_OPTIONS, running_course
from seen import WINDOWS, not_in_window, small_texts, steps

from vorlib.pages.course_folder import shipped

NOTEBOOKS = Path(__file__).parents[2] / "notebooks"
PRESENTED, LEAST_PX = (1280, 720), 20.0


def sweep(page: Any) -> list[str]:
    """Return what is amiss on a page that is alive."""
    found = [line for window in WINDOWS for line in not_in_window(page, window)]
    not_in_window(page, PRESENTED)
    page.get_by_role("button", name="Present").click()
    page.keyboard.press("1")
    page.keyboard.press("Enter")
    for step in range(1, steps(page) + 1):
        for digit in str(step):
            page.keyboard.press(digit)
        page.keyboard.press("Enter")
        amiss = small_texts(page, LEAST_PX) + not_in_window(page, PRESENTED)
        found += [f"presented, step {step}: {one}" for one in amiss]
    return found


def main(names: list[str]) -> None:
    """Print what is amiss, page by page."""
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        notebooks = Path(folder) / "notebooks"
        shutil.copytree(NOTEBOOKS, notebooks)
        chromium = shutil.which("chromium") or shutil.which("chromium-browser")
        browser = playwright.chromium.launch(executable_path=chromium, args=CHROMIUM_OPTIONS)
        with running_course(notebooks, Path(folder) / "home") as course:
            for name in names or shipped():
                page = browser.new_page(viewport={"width": 1366, "height": 633})
                page.goto(course.lesson(name))
                page.wait_for_selector("body[data-alive]", timeout=180_000)
                found = sweep(page)
                print(f"{name}: {len(found)} amiss", *found, sep="\n  ", flush=True)
                page.close(run_before_unload=True)


if __name__ == "__main__":
    main(sys.argv[1:])
