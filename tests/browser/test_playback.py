"""A flight played in JupyterLab."""

import re

LESSON = """
from vorlib.exhibits import homing

homing(speed=20.0)
"""
PARALLEL = """
from vorlib.exhibits import intercept

intercept()
"""


class Flight:
    """A flight on a page."""

    def __init__(self, page):
        self.page = page
        page.locator(".vorlib-picture svg").first.wait_for()
        self.time = page.get_by_role("textbox", name=re.compile("^Time"))

    def seconds(self):
        return float(self.time.input_value())

    def press(self, words):
        self.page.get_by_role("button", name=words).click()

    def wait_past(self, seconds):
        self.page.wait_for_function(
            "([box, least]) => Number(box.value) > least", arg=[self.time.element_handle(), seconds]
        )

    def aircraft(self):
        return self.page.locator(".vorlib-picture svg").first.inner_html()


def test_play_moves_the_time_and_pause_stops_it(run_notebook, notebook):
    flight = Flight(run_notebook(notebook(LESSON)))
    assert flight.seconds() == 0  # nothing plays by itself
    start = flight.aircraft()

    flight.press("Play")
    flight.wait_past(10)
    flight.press("Pause")
    flight.page.get_by_role("button", name="Play").wait_for()
    held, picture = flight.seconds(), flight.aircraft()
    assert picture != start
    flight.page.wait_for_timeout(500)
    assert flight.seconds() == held
    assert flight.aircraft() == picture
    said = flight.page.locator(".vorlib-sentence").first.inner_text()
    minutes, seconds = (
        int(found[1]) if (found := re.search(rf"^After .*?\b(\d+) {unit}\b", said)) else 0
        for unit in ("min", "s")
    )
    assert abs(60 * minutes + seconds - held) <= 1

    flight.press("Play")
    flight.wait_past(held + 10)
    flight.press("Pause")


def test_the_time_is_moved_from_the_keyboard(run_notebook, notebook):
    flight = Flight(run_notebook(notebook(LESSON)))
    page = flight.page
    flight.press("On 1 s")
    page.wait_for_function("box => box.value === '1'", arg=flight.time.element_handle())
    slider = page.locator(".vorlib-clock [role=slider]")
    slider.focus()
    for _ in range(3):
        page.keyboard.press("ArrowRight")
    page.wait_for_function("box => box.value === '4'", arg=flight.time.element_handle())
    flight.time.fill("300")
    flight.time.press("Enter")
    said = page.locator(".vorlib-sentence").filter(has_text="After 5 min")
    said.first.wait_for()


def test_the_page_stays_usable_while_a_flight_plays(run_notebook, notebook):
    flight = Flight(run_notebook(notebook(LESSON)))
    flight.press("Play")
    flight.wait_past(5)
    wind = flight.page.get_by_role("textbox", name=re.compile("^Wind speed"))
    wind.fill("10")
    wind.press("Enter")
    flight.page.locator(".vorlib-picture svg").get_by_text("wind 310/10").wait_for()
    flight.wait_past(flight.seconds() + 5)
    flight.press("Pause")


def test_a_case_that_cannot_be_flown_is_answered_beside_the_control(run_notebook, notebook):
    flight = Flight(run_notebook(notebook(PARALLEL)))
    radial = flight.page.get_by_role("textbox", name=re.compile("^Aircraft on radial"))
    radial.fill("220")
    radial.press("Enter")
    flight.page.get_by_role("alert").filter(has_text="on the radial already").wait_for()
    assert flight.page.get_by_role("button", name="Play").is_disabled()
