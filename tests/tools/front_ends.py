"""Lesson 2 tried in other surroundings: large type, a tablet, the dark theme, Jupyter Notebook.

    python tests/tools/front_ends.py
    python tests/tools/front_ends.py --notebook .venv/bin/python    # one that has Notebook 7

In each it types, drags, turns the ring by keyboard and predicts, and looks what the page says.
"""

from __future__ import annotations

import argparse
import contextlib
import json
import shutil
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

sys.path.append(str(Path(__file__).parents[1]))
from browser.conftest import NOTEBOOKS, Desk
from lab import CHROMIUM_OPTIONS, running_lab
from seen import open_pages

LESSON = "02_indicator.ipynb"
# A window of 1366 x 633 at 150 % has so many pixels of its own.
ZOOMED = {"viewport": {"width": 911, "height": 422}, "device_scale_factor": 1.5}
TABLET = {"viewport": {"width": 820, "height": 1180}, "has_touch": True, "is_mobile": True}
DARK = '{"theme": "JupyterLab Dark"}'
RUN_ALL = """async () => {
    const { commands, shell, restored } = window.jupyterapp;
    await restored;
    const { context, sessionContext } = shell.currentWidget;
    await context.ready;
    await sessionContext.ready;
    await sessionContext.session.kernel.info;
    await commands.execute('notebook:run-all-cells');
}"""
SAYS = "([sentence, words]) => RegExp(words).test(sentence.textContent)"


def amiss(page: Any, drag: Callable[..., None]) -> list[str]:
    """Do what the first round asks; return what does not work."""
    exhibit = page.locator(".vorlib-exhibit").first
    sentence = exhibit.locator(".vorlib-sentence").first
    aircraft = exhibit.locator("[data-grab=aircraft]")
    box = exhibit.get_by_role("textbox", name="Aircraft on radial")

    def type_radial() -> None:
        box.fill("046")
        box.press("Enter")
        says("on its 046 radial")

    def drag_aircraft() -> None:
        aircraft.scroll_into_view_if_needed()
        drag(page, aircraft.bounding_box(), 60, 60)
        says("on its (0[5-9]|1)\\d+ radial")

    def turn_ring() -> None:
        exhibit.locator("[data-grab=ring]").focus()
        page.keyboard.press("ArrowRight")
        says("With 041 selected")

    def predict() -> None:
        asked = page.locator(".vorlib-prediction").first
        asked.locator("button:visible").first.click()
        asked.get_by_text("Why?").wait_for()
        asked.locator("button:visible").last.click()
        asked.get_by_text("Answer: ").wait_for()

    def fits() -> None:
        if page.locator("main#lesson").count():
            wide = page.evaluate("document.documentElement.scrollWidth - innerWidth")
            assert wide <= 1, f"{wide} px too wide"

    def says(words: str) -> None:
        page.wait_for_function(SAYS, arg=[sentence.element_handle(), words], timeout=30_000)

    found = []
    for step in (type_radial, drag_aircraft, turn_ring, predict, fits):
        try:
            step()
        except Exception as error:
            found.append(f"{step.__name__}: {str(error).splitlines()[0]}")
    return found


def by_mouse(page: Any, box: dict[str, float], right: float, down: float) -> None:
    """Drag with the mouse."""
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + right, y + down, steps=5)
    page.mouse.up()


def by_finger(page: Any, box: dict[str, float], right: float, down: float) -> None:
    """Drag with a finger."""
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    session = page.context.new_cdp_session(page)
    places = [{"x": x + right * i / 5, "y": y + down * i / 5} for i in range(6)]
    for kind, place in zip(["touchStart", *["touchMove"] * 5], places, strict=True):
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [place]})
    session.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


@contextlib.contextmanager
def notebook_page(python: str, module: str, settings: dict[str, str]) -> Iterator[Any]:
    """Open the lesson in JupyterLab or Notebook, with all cells run."""
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        notebooks, chosen = Path(folder) / "notebooks", Path(folder) / "settings"
        notebooks.mkdir()
        for name, words in settings.items():
            path = chosen / f"@jupyterlab/{name}.jupyterlab-settings"
            path.parent.mkdir(parents=True)
            path.write_text(words)
        chromium = shutil.which("chromium") or shutil.which("chromium-browser")
        browser = playwright.chromium.launch(executable_path=chromium, args=CHROMIUM_OPTIONS)
        with running_lab(notebooks, chosen, python=python, module=module) as lab:
            if module == "jupyterlab":
                yield Desk(browser, lab).run(NOTEBOOKS / LESSON)
                return
            copied = json.loads((NOTEBOOKS / LESSON).read_text(encoding="utf-8"))
            for cell in copied["cells"]:
                if cell["cell_type"] == "code":
                    cell["outputs"] = []
            (notebooks / LESSON).write_text(json.dumps(copied), encoding="utf-8")
            page = browser.new_page(viewport={"width": 1366, "height": 633})
            page.goto(f"{lab.url}/notebooks/{LESSON}?token={lab.token}")
            page.wait_for_function("window.jupyterapp")
            page.locator(".jp-Notebook .jp-Cell").first.wait_for()
            page.evaluate(RUN_ALL)
            yield page


def main() -> int:
    """Print what works where; return 1 if something does not."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--notebook", help="a Python that has Notebook 7")
    options = parser.parse_args()
    found: dict[str, list[str]] = {}
    with open_pages() as opened:
        found["page at 150 %"] = amiss(opened(LESSON, **ZOOMED), by_mouse)
        found["page on a tablet, touched"] = amiss(opened(LESSON, **TABLET), by_finger)
    with notebook_page(sys.executable, "jupyterlab", {"apputils-extension/themes": DARK}) as page:
        assert page.locator("body[data-jp-theme-light=false]").count() == 1
        found["JupyterLab, dark"] = amiss(page, by_mouse)
    if options.notebook:
        with notebook_page(options.notebook, "notebook", {}) as page:
            found["Notebook 7"] = amiss(page, by_mouse)
    for where, what in found.items():
        print(f"{where}: {'works' if not what else ''}", *what, sep="\n  ")
    return int(any(found.values()))


if __name__ == "__main__":
    sys.exit(main())
