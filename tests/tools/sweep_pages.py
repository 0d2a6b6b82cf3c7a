"""Everything that can be measured of the look of the lesson pages, on all of them.

    python tests/tools/sweep_pages.py                          # all pages
    python tests/tools/sweep_pages.py 05_intercepting.ipynb    # some

In four windows: what of an exhibit is not seen at once. Presented at 1280 x 720, on each step: the
same, and what text is smaller than 20 pixels.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

sys.path.append(str(Path(__file__).parents[1]))
from seen import WINDOWS, not_in_window, open_pages, small_texts, step_to, steps

from vorlib.pages.course_folder import shipped

PRESENTED, LEAST_PX = (1280, 720), 20.0


def sweep(page: Any) -> list[str]:
    """Return what is amiss on a page that is alive."""
    for skip in page.get_by_role("button", name="Skip", exact=True).all():
        skip.click()  # what explains has exhibits as well
    found = [line for window in WINDOWS for line in not_in_window(page, window)]
    not_in_window(page, PRESENTED)
    page.get_by_role("button", name="Present").click()
    step_to(page, 1)
    for step in range(1, steps(page) + 1):
        step_to(page, step)
        amiss = small_texts(page, LEAST_PX) + not_in_window(page, PRESENTED)
        found += [f"presented, step {step}: {one}" for one in amiss]
    return found


def main(names: list[str]) -> None:
    """Print what is amiss, page by page."""
    with open_pages() as opened:
        for name in names or shipped():
            page = opened(name)
            found = sweep(page)
            print(f"{name}: {len(found)} amiss", *found, sep="\n  ", flush=True)
            page.close(run_before_unload=True)


if __name__ == "__main__":
    main(sys.argv[1:])
