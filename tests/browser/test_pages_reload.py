"""A page that is reloaded, or whose kernel goes: nothing is lost unsaid."""

import json
import shutil
import urllib.request
from pathlib import Path

import pytest
from lab import running_course

NOTEBOOKS = Path(__file__).parents[2] / "notebooks"
ALIVE_MS = 90_000
STOPPED = "This lesson has stopped."


@pytest.fixture(scope="module")
def course(tmp_path_factory):
    folder = tmp_path_factory.mktemp("reloaded") / "notebooks"
    shutil.copytree(NOTEBOOKS, folder)
    with running_course(folder, tmp_path_factory.mktemp("home")) as course:
        yield course


@pytest.fixture
def page(browser, course):
    page = browser.new_page(viewport={"width": 1366, "height": 633})
    page.set_default_timeout(ALIVE_MS)
    page.goto(course.lesson("13_whole_flight.ipynb"))
    comes_alive(page)
    yield page
    page.close(run_before_unload=True)


def comes_alive(page):
    page.wait_for_selector("body[data-alive]")
    page.locator(".vorlib-flight .vorlib-picture svg").first.wait_for()


def kernel(page):
    config = page.locator("#jupyter-config-data").evaluate("(element) => element.textContent")
    return json.loads(config)["kernelId"]


def flown(page):
    words = page.locator(".vorlib-flight .vorlib-picture svg text").filter(has_text="flown")
    return words.first.text_content()


def test_a_flight_and_a_half_typed_answer_survive_a_reload_and_what_does_not_is_told(page, course):
    flight, practice = page.locator(".vorlib-flight").first, page.locator(".vorlib-practice").first
    for _ in range(3):
        flight.get_by_role("button", name="On 1 s").click()
    page.get_by_text("3 s flown").first.wait_for(state="attached")
    flight.get_by_role("button", name="Play", exact=True).click()
    flight.get_by_role("button", name="Pause").wait_for()
    practice.get_by_label("Your answer").fill("2 degrees to the l")
    heading = flight.locator(".vorlib-number input").first
    heading.fill("07")  # and no Enter

    before = kernel(page)
    page.reload()
    comes_alive(page)
    assert kernel(page) == before
    flight.get_by_role("button", name="Play", exact=True).wait_for()  # it waits for its pilot
    assert "0 s flown" not in flown(page)
    page.wait_for_function("() => document.querySelector('.vorlib-practice input').value")
    assert practice.get_by_label("Your answer").input_value() == "2 degrees to the l"
    assert heading.input_value() == "07"

    restart = f"{course.url}/api/kernels/{before}/restart?token={course.token}"
    urllib.request.urlopen(urllib.request.Request(restart, method="POST")).close()
    page.get_by_text(STOPPED).wait_for()
    flight.locator(".vorlib-stopped").get_by_text("Reload this page.").wait_for()

    page.get_by_role("button", name="Reload the page").click()
    page.get_by_text("What you did on it before is gone.").wait_for()
    assert kernel(page) != before
    assert "0 s flown" in flown(page)
    page.wait_for_function("() => document.querySelector('.vorlib-practice input').value")
    assert practice.get_by_label("Your answer").input_value() == "2 degrees to the l"
