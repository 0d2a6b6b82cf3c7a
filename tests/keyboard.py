"""A learner's hand that has a keyboard and nothing else: Tab, arrows, Space, Enter and letters."""

from __future__ import annotations

import re
from typing import Any

from hand import REST, Hand, named

from vorlib.exhibits.scene.grips import KEY_STEP

__all__ = ["KeyboardHand", "answer_everything"]

FAR = 400  # presses of Tab; no page has so many things that take the focus
# Where an element is as seen from the focus: 0 here, 1 after it, -1 before it on the page.
WHERE = """(element) => {
    const focused = document.activeElement;
    if (element === focused || element.contains(focused)) return 0;
    return focused.compareDocumentPosition(element) & 2 ? -1 : 1;
}"""
OPTIONS = "(list) => [...list.options].map((one) => one.textContent.replace(/\\s+/g, ' ').trim())"


def tab_to(page: Any, element: Any) -> None:
    """Press Tab, or Shift and Tab, until an element of the page has the focus."""
    handle = element.element_handle()
    assert handle, f"{element} is not there"
    for _ in range(FAR):
        way = handle.evaluate(WHERE)
        if way == 0:
            return
        page.keyboard.press("Tab" if way > 0 else "Shift+Tab")
    raise AssertionError(f"Tab does not come to {element}")


class KeyboardHand(Hand):
    """What a hand without a mouse can do at the exhibit of a round."""

    def type(self, text: str, label: str) -> None:
        """Type into the box of a name, and press Enter."""
        self._go(self.exhibit.get_by_role("textbox", name=named(label)))
        self.page.keyboard.press("Control+a")
        self.page.keyboard.type(text)
        self.page.keyboard.press("Enter")

    def choose(self, option: str, label: str) -> None:
        """Choose with the arrow keys, from the list of a name, the option that begins so."""
        options = self.exhibit.get_by_label(label, exact=True)
        self._go(options)
        offered = options.evaluate(OPTIONS)
        wanted = [index for index, one in enumerate(offered) if one.startswith(option)]
        assert wanted, f"{option} is not among {offered}"
        by = wanted[0] - options.evaluate("(list) => list.selectedIndex")
        self._press(by, "ArrowDown", "ArrowUp")
        assert options.evaluate("(list) => list.selectedIndex") == wanted[0]

    def switch(self, label: str, to: str) -> None:
        """Switch the switch of a name."""
        box = self.exhibit.get_by_role("checkbox", name=label, exact=True)
        self._go(box)
        if box.is_checked() != (to == "on"):
            self.page.keyboard.press("Space")

    def press(self, words: str, times: str | None = None) -> None:
        """Press the button that says so, so often."""
        words_only = re.compile(rf"^\W*{re.escape(words)}$")
        self._go(self.exhibit.get_by_role("button", name=words_only))
        self._press(int(times or 1), "Space")

    def press_until(self, words: str, said: str) -> None:
        """Press the button that says so until the sentence holds some words."""
        sentence = self.exhibit.locator(".vorlib-sentence").first
        while not re.search(said, sentence.inner_text()):
            self.press(words, "5")
            self._rest()
        self.find([said])

    def keys(self, keys: str, times: str | None, label: str) -> None:
        """Press a key at a slider or at a part of the picture, so often."""
        slider = self.exhibit.get_by_role("slider", name=named(label)).first
        self._go(self._grab(label.removeprefix("the ")) if label.startswith("the ") else slider)
        self._press(int(times or 1), keys)

    def drag_to(self, radial: str, distance: str) -> None:
        """Move the aircraft with the arrow keys to a place on the map round a station.

        They step over the map, so what they miss is typed, where there is a box for it.
        """
        aircraft = self._grab("aircraft")
        (x, y), (to_x, to_y) = self._at(aircraft), self._place(aircraft, radial, distance)
        self._move("aircraft", to_x - x, to_y - y)
        self._rest()
        for label, value in (("Aircraft on radial", radial), ("Distance", distance)):
            box = self.exhibit.get_by_role("textbox", name=named(label)).filter(visible=True)
            if box.count() and float(box.input_value()) != float(value):
                self.type(value, label)

    def drag_by(self, grab: str, right: str, down: str) -> None:
        """Move a part of the picture with the arrow keys by picture units."""
        self._move(grab, float(right), float(down))

    def turn_ring(self, course: str) -> None:
        """Turn the course ring with the arrow keys until a course stands at the index."""
        ring = self._grab("ring")
        self._go(ring)
        by = round(float(course) - float(ring.get_attribute("aria-valuetext")))
        self._press_far((by + 180) % 360 - 180, "ArrowRight", "ArrowLeft")

    def turn_card(self, by: str) -> None:
        """Turn the heading card to the right with the arrow keys by some degrees."""
        self._go(self._grab("heading"))
        self._press_far(-int(by), "ArrowRight", "ArrowLeft")

    def _grab(self, name: str) -> Any:
        return self.picture.locator(f"[data-grab='{name}']")

    def _go(self, element: Any) -> None:
        tab_to(self.page, element)

    def _move(self, grab: str, right: float, down: float) -> None:
        self._go(self._grab(grab))
        self._press_far(round(right / KEY_STEP), "ArrowRight", "ArrowLeft")
        self._press_far(round(down / KEY_STEP), "ArrowDown", "ArrowUp")

    def _press_far(self, by: int, more: str, less: str) -> None:
        """Press a key so often, ten times as far with Shift."""
        tens = int(by / 10)
        self._press(tens, f"Shift+{more}", f"Shift+{less}")
        self._press(by - 10 * tens, more, less)

    def _press(self, times: int, more: str, less: str = "") -> None:
        for _ in range(abs(times)):
            self.page.keyboard.press(more if times > 0 else less)


def answer_everything(page: Any) -> int:
    """Predict, and answer a question of each practice, by keyboard; return how many there were."""
    predictions = page.locator(".vorlib-prediction")
    practices = page.locator(".vorlib-practice:not(.vorlib-check)")
    for index in range(predictions.count()):
        asked = predictions.nth(index)
        buttons = asked.locator("button:visible:enabled")
        for button in (buttons.first, buttons.last):  # a choice, and then a reason
            tab_to(page, button)
            page.keyboard.press("Space")
            page.evaluate(REST)
        asked.get_by_text("Answer: ").wait_for()
    for index in range(practices.count()):
        practice = practices.nth(index)
        tab_to(page, practice.get_by_role("textbox", name="Your answer"))
        page.keyboard.type("7")
        page.keyboard.press("Enter")
        page.evaluate(REST)
        said = practice.locator(".vorlib-feedback, .vorlib-message").all_inner_texts()
        assert any(said), practice.inner_text()
    return predictions.count() + practices.count()
