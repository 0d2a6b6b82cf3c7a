"""How quickly an exhibit answers: in its kernel, and from a slider's step to changed pixels.

Run it on a quiet machine with ``python tests/bench/exhibit.py``. JupyterLab and Chromium are
started as the browser tests start them. The exhibit's steps alternate with those of a slider that
changes one empty label: what is left of the difference is the exhibit's own.
"""

from __future__ import annotations

import shutil
import statistics
import sys
import tempfile
import time
from pathlib import Path

import nbformat
import numpy as np
from playwright.sync_api import sync_playwright

sys.path.append(str(Path(__file__).parent.parent))

from lab import CHROMIUM_OPTIONS, run_all, running_lab

STEPS = 100
WARMING_STEPS = 10
DRAG_S = 2.0

NOTEBOOK = """
import time
import ipywidgets
from IPython.display import display
from vorlib.exhibits import indicator

exhibit = indicator()
asked, times = exhibit.set, open("kernel-ms.txt", "w", buffering=1)

def timed(**changes):
    start = time.perf_counter()
    asked(**changes)
    print(1e3 * (time.perf_counter() - start), file=times)

exhibit.set = timed
slider, label = ipywidgets.FloatSlider(description="bare", max=360, step=1), ipywidgets.Label()
slider.observe(lambda change: setattr(label, "value", str(change["new"])), "value")
label.add_class("bare-label")
display(slider, label, exhibit)
"""

# Times a keydown to the first frame after the watched element has changed.
WATCH = """() => {
  window.steps = [];
  window.watch = (selector) => new Promise((done) => {
    const changed = new Promise((tell) => {
      const observer = new MutationObserver(() => { observer.disconnect(); tell(); });
      observer.observe(document.querySelector(selector),
        { subtree: true, childList: true, attributes: true, characterData: true });
    });
    document.addEventListener("keydown", () => {
      const start = performance.now();
      changed.then(() => requestAnimationFrame(() =>
        setTimeout(() => done(performance.now() - start))));
    }, { capture: true, once: true });
  });
  window.moved = 0; window.drawn = [];
  document.addEventListener("pointermove", () => { window.moved = performance.now(); },
    { capture: true });
  new MutationObserver(() => window.drawn.push(performance.now())).observe(
    document.querySelector(".vorlib-picture svg"),
    { subtree: true, childList: true, attributes: true });
}"""


def main() -> None:
    """Measure and print a small table."""
    with (
        tempfile.TemporaryDirectory() as folder,
        tempfile.TemporaryDirectory() as settings,
        running_lab(Path(folder), Path(settings)) as lab,
        sync_playwright() as playwright,
    ):
        chromium = shutil.which("chromium")
        browser = playwright.chromium.launch(executable_path=chromium, args=CHROMIUM_OPTIONS)
        measure(browser.new_page(viewport={"width": 1280, "height": 900}), lab)
        lab.stop_kernels()


def measure(page, lab) -> None:
    """Run the notebook and print what was measured."""
    cell = nbformat.v4.new_code_cell(NOTEBOOK)
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3"}}
    nbformat.write(nbformat.v4.new_notebook(cells=[cell], metadata=kernel), lab.folder / "b.ipynb")
    received = []
    page.on(
        "websocket",
        lambda socket: socket.on("framereceived", lambda frame: received.append(len(frame))),
    )
    page.goto(lab.page("b.ipynb"))
    run_all(page)
    page.wait_for_selector(".vorlib-picture svg", timeout=60_000)
    page.wait_for_timeout(2000)
    page.evaluate(WATCH)

    bare = page.locator(".widget-slider", has_text="bare").locator(".noUi-handle")
    course = page.locator(".widget-slider", has_text="Selected course").locator(".noUi-handle")
    watched = {
        "an empty label": (bare, ".bare-label"),
        "the indicator exhibit": (course, ".vorlib-picture"),
    }
    steps = {name: [] for name in watched}
    sizes = {name: [] for name in watched}
    for number in range(WARMING_STEPS + STEPS):
        for name, (handle, selector) in watched.items():
            handle.focus()
            page.wait_for_timeout(60)
            received.clear()
            page.evaluate("selector => { window.step = watch(selector) }", selector)
            page.keyboard.press("ArrowRight")
            took = page.evaluate("window.step")
            page.wait_for_timeout(60)
            if number >= WARMING_STEPS:
                steps[name].append(took)
                sizes[name].append(sum(received))
    kernel_ms = np.loadtxt(lab.folder / "kernel-ms.txt")[WARMING_STEPS:]

    print(f"{'one slider step':24}{'to pixels, ms':>20}{'received, bytes':>18}")
    print(f"{'':24}{'median':>10}{'95th':>10}{'median':>18}")
    for name, took in steps.items():
        median, high = np.percentile(took, (50, 95))
        print(f"{name:24}{median:10.1f}{high:10.1f}{statistics.median(sizes[name]):18.0f}")
    median, high = np.percentile(kernel_ms, (50, 95))
    print(f"{'in the kernel':24}{median:10.1f}{high:10.1f}")
    print_drag(page)


def print_drag(page) -> None:
    """Drag the aircraft fast for a while and print how far the picture was behind at the end."""
    aircraft = page.locator("[data-grab=aircraft]")
    aircraft.scroll_into_view_if_needed()
    box = aircraft.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.evaluate("() => { window.drawn.length = 0 }")
    start, moves = time.perf_counter(), 0
    while (now := time.perf_counter() - start) < DRAG_S:
        page.mouse.move(x + 80 * np.sin(9 * now), y - 60 + 60 * np.cos(9 * now))
        moves += 1
    page.wait_for_timeout(1000)
    page.mouse.up()
    moved, drawn = page.evaluate("[window.moved, window.drawn]")
    during = [t for t in drawn if t <= moved]
    print(
        f"\na drag of {DRAG_S:g} s with {moves} moves: {len(during) / DRAG_S:.0f} pictures a second"
    )
    print(f"the last picture came {max(drawn) - moved:.0f} ms after the last move")


if __name__ == "__main__":
    main()
