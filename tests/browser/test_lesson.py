"""A lesson worked through in JupyterLab, with the mouse and from the keyboard alone.

Every sentence seen in the browser is compared with what vorlib says of the state it should show.
"""

import math
import re
from dataclasses import replace
from pathlib import Path

import pytest
from lab import wait_for_value

from vorlib.exhibits.position.indicator import IndicatorState, draw, sentence
from vorlib.exhibits.scene.grips import RING_CENTER
from vorlib.views.drawing.theme import SCREEN
from vorlib.views.plan.plan import Overlay, projection

LESSON = """
from vorlib.exhibits import indicator

exhibit = indicator()
exhibit
"""
NOTEBOOKS = Path(__file__).parent.parent.parent / "notebooks"
BOXES = {
    "Selected course": "course_deg",
    "Heading": "heading_deg",
    "Aircraft on radial": "radial_deg",
    "Distance": "distance_nm",
    "Altitude": "altitude_ft",
}


class Exhibit:
    """An exhibit on a page, with the state it should be in."""

    def __init__(self, page):
        self.page = page
        self.whole = page.locator(".vorlib-exhibit", has=page.get_by_text("Selected course")).first
        self.picture = self.whole.locator(".vorlib-picture svg")
        self.picture.wait_for()
        self.picture.scroll_into_view_if_needed()
        self.state = IndicatorState(
            **{field: float(self.box(n).input_value()) for n, field in BOXES.items()}
        )
        self.expect()

    def expect(self, **changes):
        """Wait until the page shows the state with these changes, in words and in the picture."""
        self.state = replace(self.state, **changes)
        words = self.whole.locator(".vorlib-sentence")
        words.filter(has_text=re.compile(f"^{re.escape(sentence(self.state))}$")).wait_for()
        flag = self.state.reading.flag.name
        self.picture.get_by_text(flag, exact=True).last.wait_for()
        assert self.needle_x() == pytest.approx(self.expected_needle_x(), abs=0.06)

    def take_position(self):
        """Wait until the picture has moved and is at rest; take the place from the boxes."""
        words, before = self.whole.locator(".vorlib-sentence"), ""
        old = re.compile(f"^{re.escape(sentence(self.state))}$")
        words.filter(has_not_text=old).wait_for()
        while (now := words.inner_text()) != before:
            before = now
            self.page.wait_for_timeout(700)
        radial, distance = (self.box(n).input_value() for n in ("Aircraft on radial", "Distance"))
        self.expect(radial_deg=float(radial), distance_nm=float(distance))

    def needle_x(self):
        """Where the needle is drawn, from the middle of the face."""
        path = self.picture.locator("path[stroke='#ad3e00']").last.get_attribute("d")
        return float(re.match(r"M(-?[\d.]+)", path)[1])

    def expected_needle_x(self):
        svg = draw(self.state, SCREEN)._repr_svg_()
        paths = re.findall(r'<path d="M(-?[\d.]+) [^"]*" stroke="#ad3e00"', svg)
        return float(paths[-1])

    def on_page(self, x, y):
        """Where a point of the picture is on the page."""
        box, view = self.picture.bounding_box(), self.picture.get_attribute("viewBox").split()
        scale = box["width"] / float(view[2])
        return box["x"] + x * scale, box["y"] + y * scale

    def drag(self, start, end, steps=12):
        self.page.mouse.move(*self.on_page(*start))
        self.page.mouse.down()
        self.page.mouse.move(*self.on_page(*end), steps=steps)
        self.page.mouse.up()

    def aircraft_xy(self):
        layout = projection(self.state.plan_scene(Overlay.NONE))
        return tuple(float(c) for c in layout.to_xy(self.state.there))

    def box(self, name):
        return self.whole.get_by_role("textbox", name=name)


@pytest.fixture
def exhibit(run_notebook, notebook):
    return Exhibit(run_notebook(notebook(LESSON)))


def test_a_lesson_with_the_mouse(exhibit):
    # drag the aircraft to the northeast: the radial and the flag change with it
    x, y = exhibit.aircraft_xy()
    end = projection(IndicatorState().plan_scene(Overlay.NONE)).to_xy(
        replace(IndicatorState(), radial_deg=50.0, distance_nm=15.0).there
    )
    exhibit.drag((x, y), tuple(float(c) for c in end))
    exhibit.take_position()
    assert exhibit.state.radial_deg == pytest.approx(50.0, abs=0.6)
    assert exhibit.state.distance_nm == pytest.approx(15.0, abs=0.15)
    assert exhibit.state.reading.flag.name == "FROM"

    # turn the ring by 60 degrees clockwise: 40 becomes 340
    (x, y), r = RING_CENTER, 140.0
    turned = math.radians(60.0)
    exhibit.drag((x, y - r), (x + r * math.sin(turned), y - r * math.cos(turned)))
    exhibit.expect(course_deg=340.0)

    # the wheel turns it too, over the ring only
    exhibit.page.mouse.move(*exhibit.on_page(x, y - r))
    exhibit.page.wait_for_timeout(500)
    exhibit.page.mouse.wheel(0, -100)
    exhibit.expect(course_deg=342.0)


def test_a_lesson_from_the_keyboard(exhibit):
    page = exhibit.page
    # the aircraft and the ring are stops of the Tab key, and arrow keys move them
    ring = exhibit.picture.locator("[data-grab=ring]")
    ring.focus()
    page.keyboard.press("ArrowRight")
    exhibit.expect(course_deg=41.0)
    page.keyboard.press("Shift+ArrowUp")
    exhibit.expect(course_deg=51.0)
    assert ring.evaluate("node => node === document.activeElement")
    assert ring.evaluate("node => node.matches(':focus-visible')")
    aircraft = exhibit.picture.locator("[data-grab=aircraft]")
    aircraft.focus()
    for _ in range(12):
        page.keyboard.press("Shift+ArrowUp")
    exhibit.take_position()
    assert exhibit.state.reading.flag.name == "FROM"
    assert aircraft.evaluate("node => node === document.activeElement")

    # a slider by its keys
    exhibit.whole.locator(".widget-slider", has_text="Heading").locator(".noUi-handle").focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    exhibit.expect(heading_deg=42.0)

    # a number typed: a wrong one is answered, and the last good one stays
    course = exhibit.box("Selected course")
    course.fill("north")
    course.press("Enter")
    answer = page.get_by_role("alert").filter(has_text="Selected course: north is not a number")
    answer.wait_for()
    exhibit.expect()
    wait_for_value(course, "051")
    course.fill("-90")
    course.press("Enter")
    exhibit.expect(course_deg=270.0)
    answer.wait_for(state="hidden")


def test_every_slider_has_a_name_before_it_is_focused(exhibit):
    named = exhibit.whole.get_by_role("slider", name=re.compile("."))
    sliders = exhibit.whole.locator("[role=slider]")
    assert named.count() == sliders.count() == len(BOXES) + 2  # and the aircraft and the ring
    assert exhibit.whole.get_by_role("slider", name="Selected course").count() == 2
    ring = exhibit.picture.get_by_role("slider", name="Selected course")
    assert ring.get_attribute("aria-valuetext") == "040"


def test_a_slider_that_is_shown_48_makes_no_other_number_of_it(exhibit):
    exhibit.picture.locator("[data-grab=ring]").focus()
    for _ in range(8):
        exhibit.page.keyboard.press("ArrowUp")
    exhibit.expect(course_deg=48.0)
    slider = exhibit.whole.locator(".widget-slider", has_text="Selected course")
    assert slider.locator(".noUi-target").evaluate("one => one.noUiSlider.get()") == 48
    slider.locator(".noUi-handle").press("ArrowRight")
    exhibit.expect(course_deg=49.0)


def test_a_held_key_is_not_lost_and_moves_no_cell(exhibit):
    exhibit.picture.locator("[data-grab=ring]").focus()
    for _ in range(60):
        exhibit.page.keyboard.press("ArrowUp")
    exhibit.expect(course_deg=100.0)
    selected = exhibit.page.locator(".jp-Notebook .jp-Cell.jp-mod-active")
    assert selected.count() == 1


def test_a_finger_drags_the_aircraft_and_does_not_scroll_the_page(exhibit):
    page = exhibit.page
    scrolled = "document.querySelector('.jp-WindowedPanel-outer').scrollTop"
    before = page.evaluate(scrolled)
    x, y = exhibit.on_page(*exhibit.aircraft_xy())
    finger = page.context.new_cdp_session(page)

    def touch(kind, *points):
        finger.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": list(points)})

    touch("touchStart", {"x": x, "y": y})
    for i in range(1, 11):
        touch("touchMove", {"x": x + 4 * i, "y": y - 12 * i})
    touch("touchEnd")
    exhibit.take_position()
    assert exhibit.state.radial_deg != IndicatorState().radial_deg
    assert page.evaluate(scrolled) == before


def test_scrolling_the_page_does_not_turn_the_ring_on_the_way(exhibit):
    page = exhibit.page
    over_the_plan, over_the_ring = (240, 240), (RING_CENTER[0], RING_CENTER[1] - 140)
    page.evaluate(
        """(places) => { for (const [x, y] of places) {
            const turned = { clientX: x, clientY: y, deltaY: 30, bubbles: true, cancelable: true };
            document.elementFromPoint(x, y).dispatchEvent(new WheelEvent('wheel', turned));
        } }""",
        [exhibit.on_page(*place) for place in (over_the_plan, over_the_ring, over_the_ring)],
    )
    page.wait_for_timeout(300)
    exhibit.expect(course_deg=40.0)


def test_the_lesson_on_the_indicator_as_a_learner_works_through_it(run_notebook):
    page = run_notebook(NOTEBOOKS / "02_indicator.ipynb")
    page.locator(".vorlib-prediction").first.get_by_role("button", name="Skip").click()
    exhibit = Exhibit(page)
    course = exhibit.state.course_deg
    exhibit.picture.locator("[data-grab=ring]").focus()
    for _ in range(3):
        exhibit.page.keyboard.press("ArrowRight")
    exhibit.expect(course_deg=course + 3.0)
    x, y = exhibit.aircraft_xy()
    exhibit.drag((x, y), (240.0 - (x - 240.0), 240.0 - (y - 240.0)))  # to the other side
    exhibit.take_position()
    assert exhibit.state.reading.flag.name == "TO"


def test_a_prediction_covers_the_exhibit_until_it_is_made(run_notebook, notebook):
    page = run_notebook(
        notebook("from vorlib import exhibits as x\nx.predict('02-2', then=x.indicator())")
    )
    button = page.get_by_role("button", name="It swings to the right")
    button.wait_for()
    assert page.locator(".vorlib-picture").count() == 0
    button.focus()
    page.keyboard.press("Enter")
    why = page.get_by_role("button", name="My left and right have changed places")
    why.wait_for()
    assert page.locator(".vorlib-picture").count() == 0
    why.focus()
    page.keyboard.press("Enter")
    page.get_by_text("You predicted: It swings to the right. Your reason: My left").wait_for()
    page.get_by_text("Answer: It stays where it is.").wait_for()
    page.locator(".vorlib-picture svg").wait_for()


@pytest.mark.parametrize("control", [".widget-checkbox input", ".vorlib-choices button"])
def test_a_letter_typed_at_a_control_is_no_shortcut_of_the_notebook(
    run_notebook, notebook, control
):
    page = run_notebook(
        notebook(
            "from vorlib import exhibits as x\nx.indicator()",
            "x.predict('02-2')",
        )
    )
    page.locator(".vorlib-picture svg").wait_for()
    page.locator(control).first.focus()
    cells = page.locator(".jp-Cell").count()
    page.keyboard.press("b")  # which adds a cell where the notebook hears it
    page.wait_for_timeout(500)
    assert page.locator(".jp-Cell").count() == cells


def test_what_answers_a_prediction_is_covered_in_a_notebook_as_on_its_page(run_notebook):
    page = run_notebook(NOTEBOOKS / "02_indicator.ipynb")
    sentence = page.locator(".vorlib-sentence").first
    page.locator(".vorlib-picture svg").first.wait_for()
    sentence.wait_for(state="hidden")
    page.locator(".vorlib-prediction").first.get_by_role("button", name="Skip").click()
    sentence.wait_for()
