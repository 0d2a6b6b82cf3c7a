"""What a step of the time costs in the debrief of a flight of four hours at one point a second.

    python tests/bench/scrub.py             # in the kernel, and in JupyterLab
    python tests/bench/scrub.py --kernel    # in the kernel only

Run it on a quiet machine. In the kernel it is all of a step, from the new time to the picture, the
sentence and the controls: 5 ms at most, as for the other exhibits. In JupyterLab it is a fast drag
along the strip, beside one of the indicator exhibit's aircraft.
"""

from __future__ import annotations

import shutil
import statistics
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

import numpy as np
from tracks import FOUR_HOURS_S, LEG_S, four_hours, gpx

from vorlib.exhibits.base.inputs import Opened
from vorlib.exhibits.debrief.exhibit import debrief_flight

STEPS = 400
DRAG_S = 3.0
COURSES = (("QLN", 30), ("PLX", 180), ("OBL", 270))

NOTEBOOK = """
from pathlib import Path
from vorlib.exhibits import indicator
from vorlib.exhibits import debrief_flight
from vorlib.exhibits.base.inputs import Opened

track = Opened("four hours", Path("flight.gpx").read_text())
debrief_flight(track=track, selections=Path("rows.csv").read_text())
"""
WATCH = """() => {
  window.moved = 0; window.drawn = [];
  document.addEventListener("pointermove", () => { window.moved = performance.now(); },
    { capture: true });
  new MutationObserver(() => window.drawn.push(performance.now())).observe(
    document.querySelector(".vorlib-picture svg"),
    { subtree: true, childList: true, attributes: true });
}"""


def rows() -> str:
    """Return a selection for each leg of the flight."""
    lines = ["time,station,course"]
    for i, begin in enumerate(range(0, FOUR_HOURS_S, LEG_S)):
        ident, course = COURSES[i % len(COURSES)]
        lines.append(f"{begin},{ident},{course:03d}")
    return "\n".join(lines)


def in_the_kernel(text: str) -> None:
    """Print what a step costs without a browser."""
    begin_s = time.perf_counter()
    exhibit = debrief_flight(track=Opened("four hours", text), selections=rows())
    print(f"read, analyzed and drawn: {time.perf_counter() - begin_s:.2f} s")
    for projector in (False, True):
        exhibit.set(projector=projector)
        for how, step_s in (("dragged along", 5), ("jumping about", 4111)):
            ms, sizes = [], []
            for i in range(STEPS):
                moment = float((i * step_s + 1) % FOUR_HOURS_S)
                start = time.perf_counter()
                exhibit.set(time_s=moment)
                ms.append(1e3 * (time.perf_counter() - start))
                sizes.append(len(exhibit.picture.svg))
            ms.sort()
            print(
                f"{'projector' if projector else 'screen':10}{how:15}"
                f"median {statistics.median(ms):5.2f} ms, 95th {ms[int(0.95 * STEPS)]:5.2f} ms, "
                f"{max(sizes):,} bytes at most"
            )


def in_jupyterlab(text: str) -> None:
    """Print how a fast drag along the strip goes, and one of the indicator exhibit's aircraft."""
    import nbformat
    from lab import CHROMIUM_OPTIONS, run_all, running_lab
    from playwright.sync_api import sync_playwright

    with (
        tempfile.TemporaryDirectory() as folder,
        tempfile.TemporaryDirectory() as settings,
        running_lab(Path(folder), Path(settings)) as lab,
        sync_playwright() as playwright,
    ):
        (lab.folder / "flight.gpx").write_text(text)
        (lab.folder / "rows.csv").write_text(rows())
        chromium = shutil.which("chromium") or shutil.which("chromium-browser")
        browser = playwright.chromium.launch(executable_path=chromium, args=CHROMIUM_OPTIONS)
        kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3"}}
        for name, source in (("debrief", NOTEBOOK), ("indicator", f"{NOTEBOOK}\nindicator()")):
            cell = nbformat.v4.new_code_cell(source)
            notebook = nbformat.v4.new_notebook(cells=[cell], metadata=kernel)
            nbformat.write(notebook, lab.folder / f"{name}.ipynb")
            page = browser.new_page(viewport={"width": 1280, "height": 1000})
            page.goto(lab.page(f"{name}.ipynb"))
            run_all(page)
            dragged(page, name)
            page.close()
            lab.stop_kernels()


def dragged(page: Any, name: str) -> None:
    """Drag to and fro for a while, and print how many pictures came and how late the last was."""
    grab = "time" if name == "debrief" else "aircraft"
    held = page.locator(f"[data-grab={grab}] > :first-child")
    held.wait_for(timeout=60_000)
    held.scroll_into_view_if_needed()
    page.wait_for_timeout(1500)
    page.evaluate(WATCH)
    box = held.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    reach = 0.4 * box["width"] if grab == "time" else 90.0
    page.mouse.move(x, y)
    page.mouse.down()
    page.evaluate("() => { window.drawn.length = 0 }")
    start, moves = time.perf_counter(), 0
    while (now := time.perf_counter() - start) < DRAG_S:
        page.mouse.move(x + reach * np.sin(3 * now), y + 10 * np.cos(3 * now))
        moves += 1
    page.wait_for_timeout(1000)
    page.mouse.up()
    moved, drawn = page.evaluate("[window.moved, window.drawn]")
    during = [t for t in drawn if t <= moved]
    print(
        f"{name:10}a drag of {DRAG_S:g} s with {moves} moves: {len(during) / DRAG_S:.0f} pictures "
        f"a second, the last {max(drawn) - moved:.0f} ms after the last move"
    )


if __name__ == "__main__":
    sys.path.append(str(Path(__file__).parent.parent))
    flown = gpx(four_hours()).decode()
    in_the_kernel(flown)
    if "--kernel" not in sys.argv:
        in_jupyterlab(flown)
