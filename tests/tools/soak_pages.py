"""Random hands on all lesson pages for half an hour: what is lost, what grows, what goes wrong.

    python tests/tools/soak_pages.py                       # 30 minutes, all pages
    python tests/tools/soak_pages.py --minutes 12 --seed 2 02_indicator.ipynb 05_intercepting.ipynb

All pages stay open, and the hands go from one to the next. Counted is each message that a page
sends, which its kernel has to answer; each change of a picture, which the kernel numbers; and after
each visit every picture and sentence, which has to be what the kernel holds. Memory is the
proportional share, after the pages have thrown away what they do not need, as a browser does where
memory is short: else it keeps images that it has shown for a while. Fails when a message is lost, a
picture is wrong, an error shows, or after the first five minutes memory grows by a tenth.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import psutil

sys.path.append(str(Path(__file__).parents[1]))
from hand import REST
from seen import open_pages

from vorlib.pages.course_folder import shipped

SETTLED_S, GROWTH = 300.0, 1.10
VISIT_S, SAMPLE_S = 6.0, 60.0
PATIENCE_MS = 2000.0  # with what has gone or moved meanwhile
PARTS = {"kernels": "ipykernel", "browser": "--type=renderer", "server": "vorlib import cli"}
ENTRIES = ("0", "45", "090", "360", "-7", "12.5", "1e9", "abc", "", "Wenna Dorrick", "QLN", "5000")
# Something on the page that a hand can move or press, and what it is; nothing if none is seen.
PICK = """([main, chance]) => {
    const all = [...document.querySelectorAll(
        "main :is(button, select, input:not([type=file]), textarea, .noUi-handle, [data-grab])")];
    const seen = all.filter((one) => !one.disabled && !one.closest("[disabled]")
        && one.checkVisibility({ visibilityProperty: true })
        && !/Full screen/.test(one.textContent));
    return seen[Math.floor(chance * seen.length)] ?? null;
}"""
KIND = """(one) => one.dataset.grab ? "grab" : one.matches(".noUi-handle") ? "slider"
    : one.type === "checkbox" ? "button" : one.localName"""
# Of each picture that the page shows: whether picture and sentence are those of the kernel, which
# is asked for all of it.
WRONG = f"""async () => {{
    const rest = {REST};
    const parts = (names) => [...document.querySelectorAll(names)];
    for (let before = null, tries = 0; tries < 20; tries += 1) {{ // until nothing moves any more
        for (const play of parts(".vorlib-play")) if (/Pause/.test(play.textContent)) play.click();
        await rest();
        const now = parts(".vorlib-picture, .vorlib-sentence").map((one) => one.innerHTML).join();
        if (now === before) break;
        before = now;
    }}
    const manager = await window.jupyterapp.widgetManagerPromise.promise;
    const models = [];
    for (const id of Object.keys(manager._models ?? {{}})) models.push(await manager._models[id]);
    const views = [];
    for (const model of models.filter((one) => one.has("svg_changed"))) {{
        for (const view of await Promise.all(Object.values(model.views ?? {{}}))) {{
            const drawn = view.el.querySelector(".vorlib-picture")?.cloneNode(true);
            const said = view.el.querySelector(".vorlib-sentence")?.textContent;
            if (drawn) views.push([model, drawn, said]);
        }}
        model.send({{ alive: 0, shown: null }}); // all of it, please
    }}
    await rest();
    return views.map(([model, drawn, said]) => {{
        const held = document.createElement("div");
        held.innerHTML = model.get("svg");
        const [shown, whole] = [drawn, held].map((one) => one.firstElementChild);
        const same = shown ? shown.isEqualNode(whole) : !whole;
        const words = model.get("sentence");
        if (said !== words) return `says: ${{said}}, not: ${{words}}`;
        return same ? "" : `shows another picture than: ${{said}}`;
    }});
}}"""


class Wire:
    """What goes between the pages and their kernels, counted."""

    def __init__(self) -> None:
        self.sent: dict[str, str] = {}  # what is not answered yet: its type, by its number
        self.counts: Counter[str] = Counter()
        self.numbers: dict[str, int] = {}  # of the last change of each picture
        self.faults: list[str] = []

    def watch(self, name: str) -> Callable[[Any], None]:
        """Return what listens to a page from its beginning."""

        def fault(words: str) -> None:
            self.faults.append(f"{name}: {' '.join(words.split())[:200]}")

        def watch(page: Any) -> None:
            page.on("console", lambda said: fault(said.text) if said.type == "error" else None)
            page.on("pageerror", lambda error: fault(str(error)))
            page.on("websocket", connect)

        def connect(socket: Any) -> None:
            if "/channels" in socket.url:
                socket.on("framesent", self._goes)
                socket.on("framereceived", lambda frame: self._comes(frame, fault))

        return watch

    def _goes(self, frame: str | bytes) -> None:
        channel, header, _, _ = _message(frame)
        if channel == "shell":
            self.sent[header["msg_id"]] = header["msg_type"]
            self.counts["sent"] += 1

    def _comes(self, frame: str | bytes, fault: Callable[[str], None]) -> None:
        _, header, parent, content = _message(frame)
        kind = header["msg_type"]
        self.counts["received"] += 1
        if kind == "status" and content["execution_state"] == "idle":
            self.counts["answered"] += self.sent.pop(parent.get("msg_id"), None) is not None
        elif kind == "error" or content.get("name") == "stderr":
            fault(str(content.get("text") or content.get("evalue")))
        elif kind == "comm_msg":
            changed = content["data"].get("state", {}).get("svg_changed")
            if changed:
                self._follow(content["comm_id"], changed[0], fault)

    def _follow(self, picture: str, number: int, fault: Callable[[str], None]) -> None:
        before = self.numbers.get(picture, number - 1)
        self.numbers[picture] = number
        self.counts["changes"] += 1
        if number != before + 1:
            fault(f"change {number} of a picture came after {before}")


def _message(frame: str | bytes) -> tuple[str, dict[str, Any], dict[str, Any], dict[str, Any]]:
    """Return channel, header, parent's header and content, as Jupyter's protocol v1 lays them."""
    if isinstance(frame, str):
        told = json.loads(frame)
        return told["channel"], told["header"], told["parent_header"], told["content"]
    words = [int.from_bytes(frame[8 * i : 8 * i + 8], "little") for i in range(6 + 1)]
    channel, header, parent, _, content = (
        frame[words[i] : words[i + 1]] for i in range(1, 6)
    )  # fmt: skip
    return channel.decode(), json.loads(header), json.loads(parent), json.loads(content)


def act(page: Any, chance: random.Random) -> str:
    """Do something at random on a page; return what kind of thing."""
    one = page.evaluate_handle(PICK, [None, chance.random()]).as_element()
    if one is None:
        return ""
    kind = str(one.evaluate(KIND))
    try:
        if kind == "grab":
            one.scroll_into_view_if_needed()
            _drag(page, one, chance)
        elif kind == "slider":
            one.focus()
            key = chance.choice(("ArrowLeft", "ArrowRight", "PageUp", "Home", "End"))
            for _ in range(chance.randint(1, 10)):
                page.keyboard.press(key)
        elif kind == "select":
            one.select_option(index=chance.randrange(one.evaluate("(one) => one.options.length")))
        elif kind == "button":
            one.evaluate("(one) => one.click()")
        else:
            one.fill(chance.choice(ENTRIES))
            one.press("Enter")
    except Exception as error:  # what was picked has gone meanwhile
        kind = f"missed {type(error).__name__}"
    one.dispose()
    return kind


def _drag(page: Any, one: Any, chance: random.Random) -> None:
    box = one.bounding_box()
    if box is None:
        return
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    for _ in range(chance.randint(1, 12)):
        x, y = x + chance.uniform(-60, 60), y + chance.uniform(-60, 60)
        page.mouse.move(x, y, steps=3)
    page.mouse.up()
    if chance.random() < 0.3:
        page.mouse.wheel(0, chance.choice((-300, 300)))


def memory_mb(pages: dict[str, Any]) -> dict[str, float]:
    """Return the megabytes of the parts, each in its proportional share."""
    for page in pages.values():
        session = page.context.new_cdp_session(page)
        session.send("Memory.simulatePressureNotification", {"level": "critical"})
        session.send("HeapProfiler.collectGarbage")
        session.detach()
    found = dict.fromkeys(PARTS, 0.0)
    for process in psutil.Process().children(recursive=True):
        try:
            words = " ".join(process.cmdline())
            part = next((part for part, sign in PARTS.items() if sign in words), None)
            if part:
                found[part] += process.memory_full_info().pss / 1e6
        except psutil.Error:
            continue
    return found


def main() -> int:
    """Let the hands loose; print what comes of it each minute, and return 1 if it is not well."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("names", nargs="*", default=list(shipped()))
    parser.add_argument("--minutes", type=float, default=30.0)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    chance, wire, done = random.Random(options.seed), Wire(), Counter()
    wrong: list[str] = []
    settled: dict[str, float] = {}
    with open_pages() as opened:
        pages = {name: opened(name, wire.watch(name)) for name in options.names}
        for page in pages.values():
            page.set_default_timeout(PATIENCE_MS)
        # while a page opens, Voila may speak to a kernel that knows no widgets yet
        wire.faults = [fault for fault in wire.faults if "No such comm" not in fault]
        begun = sampled = time.monotonic()
        while (passed := time.monotonic() - begun) < 60 * options.minutes:
            for name, page in pages.items():
                page.bring_to_front()
                end = time.monotonic() + VISIT_S
                while time.monotonic() < end and (kind := act(page, chance)):
                    done[kind] += 1
                views = page.evaluate(WRONG)
                wrong += [f"{name}: {said}" for said in views if said]
                done["compared"] += len(views)
                if time.monotonic() - sampled > SAMPLE_S:
                    sampled, passed = time.monotonic(), time.monotonic() - begun
                    now = memory_mb(pages)
                    if passed >= SETTLED_S and not settled:
                        settled = now
                    said = ", ".join(f"{part} {mb:.0f} MB" for part, mb in now.items())
                    print(f"{passed / 60:.0f} min: {said}; {dict(wire.counts)}", flush=True)
        now = memory_mb(pages)
    lost = list(wire.sent.values())
    grown = {part: now[part] / mb for part, mb in settled.items()}
    print(f"done: {dict(done)}\nmessages: {dict(wire.counts)}, lost: {len(lost)} {lost[:5]}")
    print("memory since minute 5:", {part: f"x {by:.3f}" for part, by in grown.items()})
    print(f"{len(wrong)} pictures wrong", *wrong[:20], sep="\n  ")
    print(f"{len(wire.faults)} errors", *Counter(wire.faults).most_common(20), sep="\n  ")
    return int(bool(lost or wrong or wire.faults) or max(grown.values(), default=0.0) > GROWTH)


if __name__ == "__main__":
    sys.exit(main())
