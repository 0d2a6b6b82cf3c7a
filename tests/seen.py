"""What of a lesson page is seen in a window: measured in a real browser."""

from __future__ import annotations

import contextlib
import shutil
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from lab import CHROMIUM_OPTIONS, running_course

__all__ = ["WINDOWS", "not_in_window", "open_pages", "small_texts", "step_to", "steps"]

NOTEBOOKS = Path(__file__).parents[1] / "notebooks"
ALIVE_MS = 600_000

# A small laptop less its browser's bars, a smaller one, a large screen, a tablet held upright.
WINDOWS = ((1366, 633), (1280, 620), (1920, 950), (820, 1180))

# Of each exhibit, scrolled to the top of the window: what does not end within it. What is folded
# away, and what stands under the stage, is not part of what is seen at once; and a sheet of paper
# or a long table moves with the page, in no frame of its own: drawn smaller it could not be read.
OUTSIDE = """() => {
    const bottoms = (exhibit, part) => [...exhibit.querySelectorAll(part)]
        .filter((one) => one.offsetParent)
        .map((one) => one.getBoundingClientRect().bottom - exhibit.getBoundingClientRect().top);
    const PARTS = [".vorlib-picture", ".vorlib-sentence", ".vorlib-transport",
        ".vorlib-full-screen", ".vorlib-stage .vorlib-control"];
    const found = [];
    [...document.querySelectorAll(".vorlib-exhibit")].forEach((exhibit, index) => {
        if (!exhibit.offsetParent || !exhibit.querySelector(".vorlib-view")) return;
        const name = `exhibit ${index + 1}`;
        const sheet = exhibit.querySelector(".vorlib-sheet");
        for (const part of sheet ? PARTS.slice(1, 3) : PARTS) {
            const over = Math.max(0, ...bottoms(exhibit, part)) - innerHeight;
            if (over > 1) found.push(`${name}: ${part} is ${Math.round(over)} px too low`);
        }
        const framed = [...exhibit.querySelectorAll(".vorlib-side, .vorlib-picture")]
            .filter((one) => one.scrollHeight - one.clientHeight > 2
                && getComputedStyle(one).overflowY !== "visible");
        for (const one of framed) {
            const by = one.scrollHeight - one.clientHeight;
            found.push(`${name}: ${one.classList[0]} ${one.classList[1]} scrolls by ${by} px`);
        }
        const pressed = [...exhibit.querySelectorAll(".vorlib-stage :is(button, select, input)")]
            .filter((one) => one.offsetParent && one.type !== "file")
            .map((one) => one.getBoundingClientRect());
        const cross = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 2
            && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 2;
        const over = pressed.filter((a, i) => pressed.slice(i + 1).some((b) => cross(a, b)));
        if (over.length) found.push(`${name}: ${over.length} controls lie over others`);
        const width = exhibit.querySelector(".vorlib-picture svg")?.getBoundingClientRect().width;
        if (width < 300) found.push(`${name}: a picture of ${Math.round(width)} px`);
        const stage = exhibit.querySelector(".vorlib-stage").getBoundingClientRect();
        if (stage.right > innerWidth + 1) found.push(`${name}: wider than the window`);
    });
    return found;
}"""

# Every text that is drawn, with the size it has on the screen.
TEXTS = """() => {
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const found = [];
    // the small print of a sheet that is as wide as the window is not for the back row
    const isPaper = (svg) => svg?.closest(".vorlib-sheet")
        && svg.getBoundingClientRect().width > 0.97 * innerWidth;
    const isSeen = ({ width, height } = { width: 9, height: 9 }) => width > 2 && height > 2;
    while (walker.nextNode()) {
        const holder = walker.currentNode.parentElement;
        const words = walker.currentNode.textContent.trim();
        if (!words || !holder.checkVisibility({ visibilityProperty: true })) continue;
        if (holder.closest("script, style, option, desc, title")) continue;
        const range = document.createRange();
        range.selectNode(walker.currentNode);
        if (!isSeen(range.getBoundingClientRect())) continue;
        if (!isSeen(holder.closest("label")?.getBoundingClientRect())) continue; // for reading out
        let size = parseFloat(getComputedStyle(holder).fontSize);
        const matrix = holder.ownerSVGElement && holder.getScreenCTM();
        if (matrix && isPaper(holder.ownerSVGElement)) continue;
        if (matrix) size *= Math.hypot(matrix.a, matrix.b);
        found.push([words.slice(0, 60), size]);
    }
    const fields = "main :is(input:not([type=checkbox]), select, textarea)";
    for (const field of document.querySelectorAll(fields)) {
        const size = parseFloat(getComputedStyle(field).fontSize);
        if (field.offsetParent) found.push([field.value.slice(0, 60), size]);
    }
    return found;
}"""
HEIGHT = "() => [document.documentElement.scrollHeight, scrollY]"


def rest(page: Any) -> None:
    """Wait until nothing on a page changes its place any more."""
    before = None
    while (now := page.evaluate(HEIGHT)) != before:
        before = now
        page.wait_for_timeout(300)


def not_in_window(page: Any, window: tuple[int, int]) -> list[str]:
    """Return what of the exhibits of a page is not seen at once in a window of a size."""
    page.set_viewport_size(dict(zip(("width", "height"), window, strict=True)))
    rest(page)
    return [f"{window[0]} x {window[1]}: {found}" for found in page.evaluate(OUTSIDE)]


def small_texts(page: Any, least_px: float) -> list[str]:
    """Return the texts that are seen on a page and are smaller than that, with their sizes."""
    rest(page)
    sizes = page.evaluate(TEXTS)
    return [f"{text}: {size:.1f} px" for text, size in sizes if size < least_px - 0.05]


def steps(page: Any) -> int:
    """Return how many steps the presentation of a page has, which has begun."""
    words = page.locator("#step").inner_text()
    return int(words.split()[-1])


def step_to(page: Any, step: int) -> None:
    """Go to a step of a presentation, which has begun."""
    for digit in str(step):
        page.keyboard.press(digit)
    page.keyboard.press("Enter")


@contextlib.contextmanager
def open_pages() -> Iterator[Callable[..., Any]]:
    """Start the course and a browser: a function that opens a page and waits until it is alive.

    It takes the name of a page, what is to be done with it before anything is loaded, and the
    browser's options for it.
    """
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        notebooks = Path(folder) / "notebooks"
        shutil.copytree(NOTEBOOKS, notebooks)
        chromium = shutil.which("chromium") or shutil.which("chromium-browser")
        browser = playwright.chromium.launch(executable_path=chromium, args=CHROMIUM_OPTIONS)
        with running_course(notebooks, Path(folder) / "home") as course:

            def opened(
                name: str, watch: Callable[[Any], None] = lambda page: None, **options: Any
            ) -> Any:
                laptop = {"viewport": {"width": 1366, "height": 633}}
                page = browser.new_page(**laptop | options)
                watch(page)
                page.goto(course.lesson(name), timeout=ALIVE_MS)
                page.wait_for_selector("body[data-alive]", timeout=ALIVE_MS)
                return page

            yield opened
