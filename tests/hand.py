"""A learner's hand at one exhibit of a lesson page: it does what a step says, in words."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from typing import Any

from lab import WAIT_MS

from vorlib.exhibits.messages.coalesce import LONGEST_REST_S
from vorlib.exhibits.scene.grips import RING_CENTER

__all__ = ["Hand"]

EXHIBITS = ".vorlib-exhibit, .vorlib-practice"
# The exhibit that an instruction speaks of: the first one that its round shows after the heading
# "Try", or else the last one before.
EXHIBIT_OF = """([round, exhibits]) => {
    const follows = (one, other) => other.compareDocumentPosition(one) & 4;
    const heads = [...document.querySelectorAll("main :is(h2, h3)")];
    const begin = heads.findIndex((one) => one.textContent.startsWith(round));
    const tries = heads.slice(begin).find((one) => one.textContent.startsWith("Try"));
    const head = tries ?? heads[begin];
    const next = heads.slice(begin + 1).find((one) => one.tagName === "H2");
    const all = [...document.querySelectorAll(exhibits)];
    const own = all.find((one) => follows(one, head) && !(next && follows(one, next)));
    return all.indexOf(own ?? all.findLast((one) => !follows(one, head)));
}"""
TEXT = """([exhibit, part]) => {
    const parts = part ? exhibit.querySelectorAll(part) : [exhibit];
    const words = [...parts].map((one) => one.textContent + (one.alt ?? one.ariaLabel ?? ""));
    return words.join("\\n").replace(/\\s+/g, " ");
}"""
HOLDS = f"([exhibit, part, words]) => RegExp(words).test(({TEXT})([exhibit, part]))"
PARTS = {
    "sentence": ".vorlib-sentence",
    "alert": "[role=alert]",
    "chart": ".vorlib-drawn",
    "shown": "",
}
# Until the kernel has answered all that a hand has done so far, and the page shows it. A widget
# keeps one message back while one is on its way; the kernel keeps the last place of a drag back
# for a moment. So it is asked before, between and after.
REST = f"""async () => {{
    const frame = () => new Promise((done) => requestAnimationFrame(done));
    const {{ kernel }} = await window.jupyterapp.widgetManagerPromise.promise;
    for (const wait_ms of [0, 0, {1000 * LONGEST_REST_S:g}]) {{
        await new Promise((done) => setTimeout(done, wait_ms));
        await frame().then(frame);
        await kernel.requestKernelInfo();
        await frame().then(frame);
    }}
}}"""
# Press a button until the sentence holds some words; a few presses at a time, as a hand does.
PRESS_UNTIL = """async ([button, sentence, words]) => {
    const { kernel } = await window.jupyterapp.widgetManagerPromise.promise;
    for (let round = 0; round < 150; round += 1) {
        if (RegExp(words).test(sentence.textContent)) return;
        for (let press = 0; press < 5; press += 1) button.click();
        await kernel.requestKernelInfo();
        await new Promise((done) => requestAnimationFrame(done));
    }
}"""
RING_RADIUS, CARD_RADIUS = 140.0, 100.0  # in picture units
PLACE = re.compile(r"([\d.]+) NM out on the (\d+) radial")


def named(label: str) -> re.Pattern[str]:
    """Return what the name of a control is, perhaps with a unit behind it."""
    return re.compile(rf"^{re.escape(label)}(,|$)")


class Hand:
    """What a hand can do at the exhibit of a round."""

    def __init__(self, page: Any, round_: str) -> None:
        self.page = page
        number = page.evaluate(EXHIBIT_OF, [round_, EXHIBITS])
        self.exhibit = page.locator(EXHIBITS).nth(number)
        self.exhibit.scroll_into_view_if_needed()
        self.picture = self.exhibit.locator(".vorlib-picture svg")

    def do(self, step: str) -> None:
        """Carry out a step, and wait until what it does is shown."""
        for pattern, act in STEPS.items():
            if found := re.fullmatch(pattern, step):
                getattr(self, act.__name__)(*found.groups())
                self._rest()
                return
        raise ValueError(f"no hand can do: {step}")

    def find(self, findings: list[str | dict[str, str]]) -> None:
        """Wait until the exhibit says all that a row of a table expects of it."""
        for finding in findings:
            where = {"sentence": finding} if isinstance(finding, str) else finding
            for part, words in where.items():
                self._find(words, part)

    def _find(self, words: str, where: str) -> None:
        element, part = self.exhibit.element_handle(), PARTS[where]
        try:
            self.page.wait_for_function(HOLDS, arg=[element, part, words], timeout=WAIT_MS / 4)
        except Exception:
            said = self.page.evaluate(TEXT, [element, part])
            raise AssertionError(f"expected in the {where}: {words}\nfound: {said}") from None

    def type(self, text: str, label: str) -> None:
        """Type into the box of a name, and press Enter."""
        box = self.exhibit.get_by_role("textbox", name=named(label))
        box.fill(text)
        box.press("Enter")

    def choose(self, option: str, label: str) -> None:
        """Choose from the list of a name the option that begins so."""
        options = self.exhibit.get_by_label(label, exact=True)
        offered = [" ".join(one.split()) for one in options.locator("option").all_inner_texts()]
        wanted = [index for index, one in enumerate(offered) if one.startswith(option)]
        assert wanted, f"{option} is not among {offered}"
        options.select_option(index=wanted[0])

    def switch(self, label: str, to: str) -> None:
        """Switch the switch of a name."""
        self.exhibit.get_by_role("checkbox", name=label, exact=True).set_checked(to == "on")

    def press(self, words: str, times: str | None = None) -> None:
        """Press the button that says so, so often."""
        words_only = re.compile(rf"^\W*{re.escape(words)}$")  # an icon may stand before the words
        button = self.exhibit.get_by_role("button", name=words_only)
        for _ in range(int(times or 1)):
            button.click()

    def press_until(self, words: str, said: str) -> None:
        """Press the button that says so until the sentence holds some words."""
        button = self.exhibit.get_by_role("button", name=words, exact=True).element_handle()
        sentence = self.exhibit.locator(".vorlib-sentence").first.element_handle()
        self.page.evaluate(PRESS_UNTIL, [button, sentence, said])
        self.find([said])

    def keys(self, keys: str, times: str | None, label: str) -> None:
        """Press a key at a slider or at a part of the picture, so often."""
        grab = self.picture.locator(f"[data-grab='{label.removeprefix('the ')}']")
        slider = self.exhibit.get_by_role("slider", name=named(label)).first
        at = grab if label.startswith("the ") else slider
        at.focus()
        for _ in range(int(times or 1)):
            self.page.keyboard.press(keys)

    def play_to_the_end(self) -> None:
        """Press Play and, once time runs, Pause; then move the time to the end."""
        for button in ("Play", "Pause"):
            self.press(button)
            self._rest()
        time = self.exhibit.get_by_role("slider", name=named("Time"))
        self.type(time.get_attribute("aria-valuemax"), "Time")

    def drag_to(self, radial: str, distance: str) -> None:
        """Drag the aircraft to a place on the map round a station."""
        aircraft = self.picture.locator("[data-grab=aircraft]")
        self._drag(self._at(aircraft), self._place(aircraft, radial, distance))

    def drag_by(self, grab: str, right: str, down: str) -> None:
        """Drag a part of the picture by picture units."""
        x, y = self._middle(grab)
        self._drag((x, y), (x + float(right), y + float(down)))

    def turn_ring(self, course: str) -> None:
        """Drag the course ring until a course stands at the index."""
        ring = self.picture.locator("[data-grab=ring]")
        turned = float(ring.get_attribute("aria-valuetext")) - float(course)
        self._drag_round(RING_CENTER, RING_RADIUS, turned)

    def turn_card(self, by: str) -> None:
        """Drag the heading card round to the right by some degrees."""
        self._drag_round(self._middle("heading"), CARD_RADIUS, float(by), begin=60.0)

    def _drag_round(
        self, center: tuple[float, float], radius: float, by: float, begin: float = 0.0
    ) -> None:
        places = [math.radians(begin + by * i / 8) for i in range(9)]
        x, y = center
        self._drag(*((x + radius * math.sin(a), y - radius * math.cos(a)) for a in places))

    def _middle(self, grab: str) -> tuple[float, float]:
        box = self.picture.locator(f"[data-grab='{grab}']").bounding_box()
        (left, top), scale = self._corner_and_scale()
        x = (box["x"] + box["width"] / 2 - left) / scale
        return x, (box["y"] + box["height"] / 2 - top) / scale

    def _place(self, aircraft: Any, radial: str, distance: str) -> tuple[float, float]:
        """Return where on the map a place round its station is, from where the aircraft is."""
        out_nm, from_deg = map(
            float, PLACE.search(aircraft.get_attribute("aria-valuetext")).groups()
        )
        x, y = self._at(aircraft)
        scale = float(distance) / out_nm
        turn = math.radians(float(radial) - from_deg)
        right, down = scale * (x - 240.0), scale * (y - 240.0)
        return (
            240.0 + right * math.cos(turn) - down * math.sin(turn),
            240.0 + right * math.sin(turn) + down * math.cos(turn),
        )

    def _at(self, part: Any) -> tuple[float, float]:
        place = re.search(r"translate\((-?[\d.]+) (-?[\d.]+)\)", part.get_attribute("transform"))
        return float(place[1]), float(place[2])

    def _corner_and_scale(self) -> tuple[tuple[float, float], float]:
        """Return where the picture's corner is on the page, and its scale there."""
        box = self.picture.bounding_box()
        wide = float(self.picture.get_attribute("viewBox").split()[2])
        return (box["x"], box["y"]), box["width"] / wide

    def _drag(self, *places: tuple[float, float]) -> None:
        (left, top), scale = self._corner_and_scale()
        on_page = [(left + scale * x, top + scale * y) for x, y in places]
        mouse = self.page.mouse
        mouse.move(*on_page[0])
        mouse.down()
        for place in on_page[1:]:
            mouse.move(*place, steps=3)
        mouse.up()

    def _rest(self) -> None:
        self.page.evaluate(REST)


STEPS: dict[str, Callable[..., None]] = {
    r"type (.*) into (.+)": Hand.type,
    r"choose (.+) as (.+)": Hand.choose,
    r"switch (.+) (on|off)": Hand.switch,
    r"press (.+) until (.+)": Hand.press_until,
    r"press (.+?)(?: (\d+) times)?": Hand.press,
    r"key (\S+)(?: (\d+) times)? at (.+)": Hand.keys,
    r"play to the end": Hand.play_to_the_end,
    r"drag the aircraft to (\d+) at ([\d.]+) NM": Hand.drag_to,
    r"drag the (.+) by (-?\d+), (-?\d+)": Hand.drag_by,
    r"turn the ring to (\d+)": Hand.turn_ring,
    r"turn the card by (-?\d+)": Hand.turn_card,
}
