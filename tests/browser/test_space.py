"""The space bar plays and pauses an exhibit from wherever in it the focus is, and never scrolls."""

LESSON = """
from vorlib.exhibits import homing

homing(speed=1.0)
"""
PLACES = [
    '[data-grab="aircraft"], .vorlib-exhibit',
    ".vorlib-side .noUi-handle",
    ".vorlib-side .vorlib-number input",
]


def test_space_plays_and_pauses_and_does_not_scroll(run_notebook, notebook):
    page = run_notebook(notebook(LESSON))
    page.locator(".vorlib-picture svg").wait_for()
    exhibit, play = page.locator(".vorlib-exhibit"), page.locator(".vorlib-play")
    top = exhibit.bounding_box()["y"]
    for place in PLACES:
        for words in ("Pause", "Play"):
            page.locator(place).first.focus()
            page.keyboard.press(" ")
            play.filter(has_text=words).wait_for()
    assert exhibit.bounding_box()["y"] == top
