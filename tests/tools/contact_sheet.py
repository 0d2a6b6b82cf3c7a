"""Make one picture of all lesson pages, to look at before a release.

    python tests/tools/contact_sheet.py                              # contact_sheet.png
    python tests/tools/contact_sheet.py sheet.png 05_intercepting.ipynb
    python tests/tools/contact_sheet.py --readme                     # the three that README shows

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
README = Path(__file__).parents[2] / ".github" / "pictures"
COLORS = 128  # of a picture in README: fewer show in the map, more take half as much again


def first_exhibit(page: Any) -> bytes:
    """Return a screenshot with the first exhibit of a page at the top; without one, of its top."""
    exhibits = page.locator(".vorlib-exhibit, .vorlib-practice").filter(visible=True)
    if exhibits.count():
        exhibits.first.evaluate("(exhibit) => exhibit.scrollIntoView({ block: 'start' })")
    rest(page)
    return bytes(page.screenshot())


def uncover(page: Any) -> None:
    """Skip all predictions, so that exhibits say what they show."""
    for skip in page.locator(".vorlib-prediction").get_by_role("button", name="Skip").all():
        skip.click()


def presented(page: Any) -> bytes:
    """Return a screenshot of the first step with an exhibit, as a class sees it."""
    uncover(page)
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


def tried(page: Any) -> bytes:
    """Return a screenshot of what a lesson asks to try, with the needle off the center."""
    uncover(page)
    page.set_viewport_size({"width": 1280, "height": 790})
    page.locator("[data-grab=aircraft]").filter(visible=True).first.focus()
    for _ in range(6):
        page.keyboard.press("ArrowRight")
    page.get_by_role("heading", name="Try").first.evaluate(
        "(heading) => { document.activeElement.blur(); heading.scrollIntoView(); }"
    )
    rest(page)
    return bytes(page.screenshot(clip={"x": 130, "y": 0, "width": 1020, "height": 790}))


def flown(page: Any) -> bytes:
    """Return a screenshot of a recorded flight on its map, at a moment of it."""
    uncover(page)
    page.set_viewport_size({"width": 1280, "height": 760})
    exhibit = page.locator(".vorlib-exhibit").filter(visible=True).first
    time = exhibit.get_by_role("textbox", name="Time").first
    time.fill("1500")
    time.press("Enter")
    exhibit.evaluate("(exhibit) => { document.activeElement.blur(); exhibit.scrollIntoView(); }")
    rest(page)
    return bytes(page.screenshot())


def write_readme() -> None:
    """Write the pictures with which README opens."""
    shots = {
        "lesson": ("02_indicator.ipynb", tried),
        "class": (PRESENTED, presented),
        "debrief": ("instructor/debrief.ipynb", flown),
    }
    README.mkdir(exist_ok=True)
    with open_pages() as opened:
        for name, (lesson, shot) in shots.items():
            image = Image.open(io.BytesIO(shot(opened(lesson)))).convert("RGB")
            path = README / f"{name}.png"
            image.quantize(COLORS, dither=Image.Dither.NONE).save(path, optimize=True)
            print(f"{path}: {image.width} x {image.height}, {path.stat().st_size / 1000:.0f} kB")


def main(path: str = "contact_sheet.png", *names: str) -> None:
    """Write the sheet."""
    if path == "--readme":
        write_readme()
        return
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
