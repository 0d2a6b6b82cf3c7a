"""How quickly every exhibit answers on a page: a slider's step, a drag, and play at 1 times.

    python tests/bench/pages.py               # every exhibit
    python tests/bench/pages.py homing fix    # some

Each stands on a page of its own, with a slider that changes one empty label. Steps of the two
sliders alternate, so that whatever else the machine does slows both: a step to changed pixels is
given as a ratio. A drag moves each part of the picture that can be held, in circles, as fast as
the browser takes it. Play is at 1 times. Pictures a second are frames in which something of the
picture has changed.
"""

from __future__ import annotations

import math
import shutil
import statistics
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import nbformat

sys.path.append(str(Path(__file__).parents[1]))
from lab import CHROMIUM_OPTIONS, running_course

from vorlib.exhibits.base.registry import all_exhibits
from vorlib.pages.course_folder import shipped

ALIVE_MS = 120_000
STEPS, WARMING_STEPS = 40, 5
LONGEST_MS = 3000  # a step that changes nothing
DRAG_S, PLAY_S = 2.0, 4.0
REACH_PX = 40.0

# In cells of their own: of several widgets that one cell shows a page may lose the last.
CELLS = (
    """
import ipywidgets
from vorlib import exhibits as x

slider, label = ipywidgets.FloatSlider(description="bare", max=1000, step=1), ipywidgets.Label()
slider.observe(lambda change: setattr(label, "value", str(change["new"])), "value")
label.add_class("bare-label")
ipywidgets.VBox([slider, label])
""",
    "x.{name}()",
)

# Times a keydown to the first frame after the watched element has changed; counts frames with one.
WATCH = """() => {
  const what = { subtree: true, childList: true, attributes: true, characterData: true };
  window.watch = (selector) => new Promise((done) => {
    const changed = new Promise((tell) => {
      const observer = new MutationObserver(() => { observer.disconnect(); tell(); });
      observer.observe(document.querySelector(selector), what);
    });
    document.addEventListener("keydown", () => {
      const start = performance.now();
      setTimeout(() => done(null), LONGEST);
      changed.then(() => requestAnimationFrame(() =>
        setTimeout(() => done(performance.now() - start))));
    }, { capture: true, once: true });
  });
  window.frames_ = 0;
  let waiting = false;
  new MutationObserver(() => {
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(() => { waiting = false; window.frames_ += 1; });
  }).observe(document.querySelector(".vorlib-picture"), what);
}""".replace("LONGEST", str(LONGEST_MS))


class Answers(NamedTuple):
    """How quickly an exhibit answers; None and nothing where it has no slider, Play or grip.

    Attributes
    ----------
    label_ms, picture_ms
        From a slider's step to the changed label, and to the changed picture.
    played_per_s, dragged_per_s
        Pictures a second of play, and of a drag by what is held.
    """

    label_ms: float | None
    picture_ms: float | None
    played_per_s: float | None
    dragged_per_s: dict[str, float]

    @property
    def ratio(self) -> float | None:
        """How many times an empty label's time a picture takes."""
        return self.picture_ms / self.label_ms if self.picture_ms and self.label_ms else None

    def __str__(self) -> str:
        row = f"{'no step':>28}"
        if self.ratio is not None:
            row = f"{self.label_ms:9.1f}{self.picture_ms:10.1f}{self.ratio:9.2f}"
        row += f"{'-':>8}" if self.played_per_s is None else f"{self.played_per_s:8.0f}"
        return row + "".join(f"   {held} {n:.0f}" for held, n in self.dragged_per_s.items())


def step_ms(page: Any, handle: Any, selector: str, key: str) -> float | None:
    """Return how long a slider's step takes to changed pixels; None if nothing changed."""
    handle.focus()
    page.wait_for_timeout(40)
    page.evaluate("selector => { window.step = watch(selector) }", selector)
    page.keyboard.press(key)
    took: float | None = page.evaluate("window.step")
    return took


def steps_ms(page: Any, exhibit: Any) -> tuple[list[float], list[float]]:
    """Return what steps of the empty label and of the exhibit's picture take."""
    bare = page.locator(".widget-slider", has_text="bare").locator(".noUi-handle")
    sliders = exhibit.locator(".vorlib-side .noUi-handle").filter(visible=True)
    empty: list[float] = []
    shown: list[float] = []
    if not sliders.count():
        return empty, shown
    for number in range(WARMING_STEPS + STEPS):
        key = "ArrowRight" if number % 16 < 8 else "ArrowLeft"  # it stays away from both ends
        one = step_ms(page, bare, ".bare-label", "ArrowRight")
        other = step_ms(page, sliders.first, ".vorlib-picture", key)
        if number >= WARMING_STEPS and one and other:
            empty.append(one)
            shown.append(other)
    return empty, shown


def drawn_per_s(page: Any, seconds: float) -> float:
    """Return the pictures a second while time passes."""
    before = page.evaluate("window.frames_")
    page.wait_for_timeout(1000 * seconds)
    return float(page.evaluate("window.frames_") - before) / seconds


def played_per_s(page: Any, exhibit: Any) -> float | None:
    """Return the pictures a second of play at 1 times, in a turn if it is flown by hand."""
    play = exhibit.locator(".vorlib-play")
    if not play.count() or not play.is_enabled():
        return None
    exhibit.get_by_label("Speed", exact=True).select_option("1 times")
    play.click()
    page.wait_for_timeout(500)
    drawn = drawn_per_s(page, PLAY_S)
    play.click()
    return drawn


def dragged_per_s(page: Any, held: Any) -> float:
    """Return the pictures a second while a part of the picture is dragged.

    A ring is turned by its edge, and turns about its middle; what is small goes round in a circle.
    """
    box = held.bounding_box()
    x, top, half = box["x"] + box["width"] / 2, box["y"], box["height"] / 2
    is_ring = half > 2 * REACH_PX
    radius = 0.6 * half if is_ring else REACH_PX
    x, y = x - (0 if is_ring else radius), top + half
    page.mouse.move(x + radius, y)
    page.mouse.down()
    before = page.evaluate("window.frames_")
    begun = time.perf_counter()
    while (now := time.perf_counter() - begun) < DRAG_S:
        page.mouse.move(x + radius * math.cos(4 * now), y - radius * math.sin(4 * now))
    drawn = page.evaluate("window.frames_") - before
    page.mouse.up()
    return float(drawn) / now


def answers(page: Any) -> Answers:
    """Return how quickly the exhibit of a page answers."""
    exhibit = page.locator(".vorlib-exhibit")
    exhibit.scroll_into_view_if_needed()
    page.evaluate(WATCH)
    label_ms, picture_ms = (statistics.median(ms) if ms else None for ms in steps_ms(page, exhibit))
    parts = exhibit.locator(".vorlib-picture [data-grab]")
    dragged = {
        str(part.get_attribute("data-grab")): dragged_per_s(page, part.locator("> :first-child"))
        for part in (parts.nth(number) for number in range(parts.count()))
    }
    return Answers(label_ms, picture_ms, played_per_s(page, exhibit), dragged)


def measured(*chosen: str) -> Iterator[tuple[str, Answers]]:
    """Yield the exhibits with how quickly they answer: those chosen, or all."""
    from playwright.sync_api import sync_playwright

    names = chosen or tuple(all_exhibits())
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        notebooks = Path(folder) / "notebooks"
        (notebooks / "instructor").mkdir(parents=True)
        pages = dict(zip(names, shipped(), strict=False))
        for name, on in pages.items():
            cells = [nbformat.v4.new_code_cell(cell.format(name=name)) for cell in CELLS]
            nbformat.write(nbformat.v4.new_notebook(cells=cells), notebooks / on)
        chromium = shutil.which("chromium") or shutil.which("chromium-browser")
        browser = playwright.chromium.launch(executable_path=chromium, args=CHROMIUM_OPTIONS)
        with running_course(notebooks, Path(folder) / "home") as course:
            for name, on in pages.items():
                page = browser.new_page(viewport={"width": 1366, "height": 900})
                page.goto(course.lesson(on), timeout=ALIVE_MS)
                page.wait_for_selector("body[data-alive]", timeout=ALIVE_MS)
                page.wait_for_selector(".vorlib-picture svg", timeout=ALIVE_MS)
                page.wait_for_timeout(1000)
                yield name, answers(page)
                page.close(run_before_unload=True)


def main(*chosen: str) -> None:
    """Print a row for each exhibit."""
    print(f"{'':18}{'label, ms':>10}{'picture':>10}{'ratio':>9}{'play':>8}   drags")
    for name, answer in measured(*chosen):
        print(f"{name:18}{answer}", flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
