"""Make one picture of all lesson pages, to look at before a release.

    python tests/tools/contact_sheet.py                              # contact_sheet.png
    python tests/tools/contact_sheet.py sheet.png 05_intercepting.ipynb

Of each page what a small laptop shows of its first exhibit; after them a lesson as it is presented,
and the debrief of a flight.
"""

from __future__ import annotations

import io
import sys
from pathlib import Path
from typing import Any

from PIL import Image, ImageDraw, ImageFont

sys.path.append(str(Path(__file__).parents[1]))
from matplotlib.font_manager import findfont
from seen import open_pages, rest, step_to, steps

from vorlib.pages.course_folder import shipped

PRESENTED, DEBRIEFED = "05_intercepting.ipynb", "13_whole_flight.ipynb"
WIDTH, ACROSS, GAP, LABEL = 683, 3, 12, 26


def first_exhibit(page: Any) -> bytes:
    """Return a screenshot with the first exhibit of a page at the top; without one, of its top."""
    exhibits = page.locator(".vorlib-exhibit, .vorlib-practice").filter(visible=True)
    if exhibits.count():
        exhibits.first.evaluate("(exhibit) => exhibit.scrollIntoView({ block: 'start' })")
    rest(page)
    return bytes(page.screenshot())


def presented(page: Any) -> bytes:
    """Return a screenshot of the first step with an exhibit, as a class sees it."""
    page.set_viewport_size({"width": 1280, "height": 720})
    page.get_by_role("button", name="Present").click()
    for step in range(1, steps(page) + 1):
        step_to(page, step)
        if page.locator(".vorlib-exhibit").filter(visible=True).count():
            break
    page.locator(".vorlib-play").filter(visible=True).first.click()
    page.wait_for_timeout(4000)
    rest(page)
    return bytes(page.screenshot())


def debriefed(page: Any) -> bytes:
    """Return a screenshot of the debrief of the flight that the lesson's pilots flew."""
    flight = page.locator(".vorlib-flight").last
    flight.get_by_role("button", name="Debrief").click()
    debrief = flight.locator(".vorlib-debrief")
    debrief.get_by_role("heading", name="Debrief").wait_for()
    debrief.evaluate("(debrief) => debrief.scrollIntoView({ block: 'start' })")
    rest(page)
    return bytes(page.screenshot())


def sheet(shots: list[tuple[str, bytes]]) -> Image.Image:
    """Return the screenshots side by side, each with its name above it."""
    small = []
    for name, shot in shots:
        image = Image.open(io.BytesIO(shot)).convert("RGB")
        small.append((name, image.resize((WIDTH, round(image.height * WIDTH / image.width)))))
    rows = [small[first : first + ACROSS] for first in range(0, len(small), ACROSS)]
    talls = [max(image.height for _, image in row) + LABEL + GAP for row in rows]
    whole = Image.new("RGB", (ACROSS * (WIDTH + GAP) + GAP, sum(talls) + GAP), "#4a5763")
    draw, font = ImageDraw.Draw(whole), ImageFont.truetype(findfont("DejaVu Sans"), 16)
    y = GAP
    for row, tall in zip(rows, talls, strict=True):
        for column, (name, image) in enumerate(row):
            x = GAP + column * (WIDTH + GAP)
            draw.text((x, y), name, "white", font)
            whole.paste(image, (x, y + LABEL))
        y += tall
    return whole


def main(path: str = "contact_sheet.png", *names: str) -> None:
    """Write the sheet."""
    shots = []
    with open_pages() as opened:
        for name in names or shipped():
            page = opened(name)
            shots.append((name, first_exhibit(page)))
            if name == PRESENTED:
                shots.append((f"{name}, presented", presented(page)))
            if name == DEBRIEFED:
                shots.append((f"{name}, debriefed", debriefed(page)))
            page.close(run_before_unload=True)
    sheet(shots).save(path)
    print(f"{path}: {len(shots)} screenshots")


if __name__ == "__main__":
    main(*sys.argv[1:])
