"""Every exhibit in the windows it is seen in: what a hand moves and what it changes, at once."""

import pytest

from vorlib.exhibits.base.registry import all_exhibits

EXHIBITS = tuple(all_exhibits())
LESSON = f"""
from IPython.display import display
from vorlib import exhibits as x

for name in {EXHIBITS}:
    display(getattr(x, name)().widget.add_class(f"the-{{name}}"))
"""
LAPTOP, SMALL, LARGE, TABLET = (1366, 633), (1280, 620), (1920, 950), (820, 1180)
# Sheets of paper and a long table, which move with the page, and forms longer than a window.
LONG = ("class_results", "prepare", "teaching_sheets", "worksheets", "debrief_flight")

# Where the parts of each exhibit end, measured from where it begins, and the height there is.
PARTS = """([names, parts]) => names.map((name) => {
    const exhibit = document.querySelector(`.the-${name}`);
    exhibit.scrollIntoView({ block: 'start' });
    const { top, right } = exhibit.getBoundingClientRect();
    const ends = parts.map((part) => [...exhibit.querySelectorAll(part)]
        .filter((one) => one.offsetParent || one.closest('svg'))
        .map((one) => one.getBoundingClientRect()));
    const panel = exhibit.closest('.jp-WindowedPanel-outer').getBoundingClientRect();
    return {
        room: panel.height, over: Math.max(...ends.flat().map((one) => one.right)) - right,
        bottoms: ends.map((each) => Math.max(0, ...each.map((one) => one.bottom - top))),
        picture: exhibit.querySelector('.vorlib-picture svg').getBoundingClientRect().width,
        sheet: Boolean(exhibit.querySelector('.vorlib-sheet')),
    };
})"""
SEEN = [
    ".vorlib-picture",
    ".vorlib-sentence",
    ".vorlib-transport",
    ".vorlib-full-screen",
    ".vorlib-stage .vorlib-control",
]


@pytest.fixture
def page(run_notebook, notebook):
    page = run_notebook(notebook(LESSON))
    for name in EXHIBITS:
        page.locator(f".the-{name} .vorlib-picture svg").wait_for(state="attached")
    return page


def measured(page):
    """The parts of each exhibit by its name, once they have come to rest."""
    before = None
    while (now := page.evaluate(PARTS, [EXHIBITS, SEEN])) != before:
        before = now
        page.wait_for_timeout(500)
    return dict(zip(EXHIBITS, now, strict=True))


def test_every_exhibit_is_in_the_window_with_its_sentence_and_its_controls(page):
    too_long, too_small = [], []
    for size in (LAPTOP, SMALL, LARGE, TABLET):
        page.set_viewport_size(dict(zip(("width", "height"), size, strict=True)))
        if size == TABLET:  # held upright it has no room for the list of files
            page.keyboard.press("Control+b")
        for name, parts in measured(page).items():
            seen = parts["bottoms"][1:3] if parts["sheet"] else parts["bottoms"]
            seen = seen[: -1 if name in LONG else None]
            if max(seen) > parts["room"] or parts["over"] > 1:
                too_long.append((size, name, parts))
            if parts["picture"] < 300:
                too_small.append((size, name, parts))
    assert not too_long
    assert not too_small


def test_what_is_folded_away_opens_and_closes_beside_a_large_picture_too(run_notebook, notebook):
    page = run_notebook(notebook("from vorlib import exhibits as x\nx.intercept()"))
    page.set_viewport_size({"width": LAPTOP[0], "height": LAPTOP[1]})
    fold = page.locator(".vorlib-fold")
    fold.click()
    page.get_by_role("checkbox", name="Projector").click()
    page.locator(".vorlib-projector").wait_for()
    fold.click()
    page.get_by_role("checkbox", name="Projector").wait_for(state="hidden")
    page.locator(".vorlib-projector .vorlib-picture svg").wait_for()
