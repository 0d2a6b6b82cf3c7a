"""Lesson 2 as a page in Firefox: typed, dragged, turned by keyboard, predicted; errors counted.

pip install marionette_driver   # Mozilla's own driver of Firefox, for this tool alone
python tests/tools/firefox.py --firefox /usr/lib/firefox-esr/firefox-esr
python tests/tools/firefox.py --picture page.png
"""

from __future__ import annotations

import argparse
import base64
import os
import shutil
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

sys.path.append(str(Path(__file__).parents[1]))
from lab import running_course
from marionette_driver import By, Keys, Wait
from marionette_driver.errors import MarionetteException
from marionette_driver.marionette import ActionSequence, Marionette, WebElement

NOTEBOOKS = Path(__file__).parents[2] / "notebooks"
LESSON = "02_indicator.ipynb"
ALIVE_S, SAYS_S = 120, 30
FIREFOX = os.path.realpath(shutil.which("firefox") or "firefox")


class Page:
    """The first exhibit and the first prediction of the lesson."""

    def __init__(self, firefox: Marionette) -> None:
        self.firefox = firefox
        self.exhibit = self.find(".vorlib-exhibit")

    def find(self, selector: str) -> WebElement:
        """Return the first element of a selector."""
        return self.firefox.find_element(By.CSS_SELECTOR, selector)

    def says(self, words: str, where: str = ".vorlib-exhibit .vorlib-sentence") -> None:
        """Wait until words stand somewhere."""
        Wait(self.firefox, timeout=SAYS_S).until(
            lambda _: words in (self.find(where).get_property("textContent") or ""),
            message=f"{words!r} is not said",
        )

    def type_radial(self) -> None:
        """Type a radial into its box."""
        boxes = self.exhibit.find_elements(By.CSS_SELECTOR, "input[type=text]")
        box = next(one for one in boxes if one.computed_label.startswith("Aircraft on radial"))
        box.click()
        box.clear()
        box.send_keys("046" + Keys.ENTER)
        self.says("on its 046 radial")

    def drag_aircraft(self) -> None:
        """Drag the aircraft with the mouse."""
        aircraft = self.find(".vorlib-exhibit [data-grab=aircraft]")
        self.firefox.execute_script("arguments[0].scrollIntoView({block: 'center'})", [aircraft])
        hand = ActionSequence(self.firefox, "pointer", "hand", {"pointerType": "mouse"})
        hand.pointer_move(0, 0, origin=aircraft).pointer_down()
        for _ in range(5):
            hand.pointer_move(12, 12, origin="pointer", duration=50)
        hand.pointer_up().perform()
        Wait(self.firefox, timeout=SAYS_S).until(
            lambda _: "on its 046 radial" not in self.find(".vorlib-sentence").text,
            message="the aircraft does not follow",
        )

    def turn_ring(self) -> None:
        """Turn the ring with an arrow key."""
        ring = self.find(".vorlib-exhibit [data-grab=ring]")
        self.firefox.execute_script("arguments[0].focus()", [ring])
        ring.send_keys(Keys.ARROW_RIGHT)
        self.says("With 041 selected")

    def predict(self) -> None:
        """Choose an answer and a reason."""
        asked = self.find(".vorlib-prediction")
        for chosen, then in ((0, "Why?"), (-1, "Answer: ")):
            buttons = asked.find_elements(By.CSS_SELECTOR, "button")
            [one for one in buttons if one.is_displayed()][chosen].click()
            self.says(then, ".vorlib-prediction")

    def fit(self) -> None:
        """Hold everything within the width of the window."""
        wide = self.firefox.execute_script(
            "return document.documentElement.scrollWidth - innerWidth"
        )
        assert wide <= 1, f"{wide} px too wide"


def amiss(page: Page) -> list[str]:
    """Do what the first round asks; return what does not work.

    The sentence is covered until the prediction is made.
    """
    steps: list[Callable[[], None]]
    steps = [page.predict, page.type_radial, page.drag_aircraft, page.turn_ring, page.fit]
    found = []
    for step in steps:
        try:
            step()
        except (AssertionError, StopIteration, MarionetteException) as error:
            found.append(f"{step.__name__}: {(str(error).splitlines() or ['not found'])[0]}")
    return found


def main() -> int:
    """Print what works; return 1 if something does not."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--firefox", default=FIREFOX, help="the program, beside its own files")
    parser.add_argument("--picture", type=Path, help="where to save what is seen at the end")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        notebooks = Path(folder) / "notebooks"
        shutil.copytree(NOTEBOOKS, notebooks)
        log = str(Path(folder) / "gecko.log")
        firefox = Marionette(bin=options.firefox, headless=True, gecko_log=log)
        with running_course(notebooks, Path(folder) / "home") as course:
            firefox.start_session()
            firefox.set_window_rect(width=1366, height=768)
            begun = time.monotonic()
            firefox.navigate(course.lesson(LESSON))
            Wait(firefox, timeout=ALIVE_S).until(
                lambda _: firefox.find_elements(By.CSS_SELECTOR, "body[data-alive]")
            )
            print(f"alive after {time.monotonic() - begun:.1f} s")
            found = amiss(Page(firefox))
            if options.picture:
                options.picture.write_bytes(base64.b64decode(firefox.screenshot(full=False)))
            version = firefox.session_capabilities["browserVersion"]
            firefox.delete_session()
            firefox.cleanup()
    print(f"Firefox {version}: {'works' if not found else ''}", *found, sep="\n  ")
    return int(bool(found))


if __name__ == "__main__":
    sys.exit(main())
