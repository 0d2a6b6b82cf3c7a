"""What a page keeps through a reload, and what goes in and out of it: sounds and files."""

import json
import re
import urllib.request

import pytest

ALIVE_MS = 90_000
STOPPED = "This lesson has stopped."


@pytest.fixture
def open_page(browser, course):
    """Return a function that opens a page and waits until it is alive."""
    window = browser.new_context(viewport={"width": 1366, "height": 633})
    window.set_default_timeout(ALIVE_MS)

    def opened(name):
        page = window.new_page()
        page.goto(course.lesson(name))
        comes_alive(page)
        return page

    yield opened
    window.close()


def comes_alive(page):
    page.wait_for_selector("body[data-alive]")
    page.locator(".vorlib-picture svg").first.wait_for()


def kernel(page):
    config = page.locator("#jupyter-config-data").evaluate("(element) => element.textContent")
    return json.loads(config)["kernelId"]


def flown(page):
    words = page.locator(".vorlib-flight .vorlib-picture svg text").filter(has_text="flown")
    return words.first.text_content()


def test_a_flight_and_a_half_typed_answer_survive_a_reload_and_what_does_not_is_told(
    open_page, course
):
    page = open_page("13_whole_flight.ipynb")
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
    assert not re.search(r"\b0 s flown", flown(page))
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
    assert re.search(r"\b0 s flown", flown(page))
    page.wait_for_function("() => document.querySelector('.vorlib-practice input').value")
    assert practice.get_by_label("Your answer").input_value() == "2 degrees to the l"


def test_a_sound_plays_on_a_page_and_an_export_is_saved_and_brought_in_again(open_page, tmp_path):
    page = open_page("13_whole_flight.ipynb")
    page.get_by_role("button", name="Identify").first.click()
    sound = page.locator("audio[aria-label='QLN in Morse']")
    sound.wait_for()
    sound.evaluate("(audio) => audio.play()")  # fails where the sound cannot be played
    assert sound.evaluate("(audio) => audio.duration") > 1.0

    practice = page.locator(".vorlib-practice").first
    practice.get_by_label("Your name").fill("Perran Tolvey")
    practice.get_by_label("Your answer").fill("1")
    practice.get_by_role("button", name="Check").click()
    practice.get_by_text("Your record").click()
    with page.expect_download() as download:
        practice.get_by_role("button", name="Export as JSON").click()
    export = tmp_path / download.value.suggested_filename
    download.value.save_as(export)
    practice.get_by_label("Bring in an export").set_input_files(export)
    practice.get_by_text(f"of {export.name} added.").wait_for()
    page.locator("body[data-alive]").wait_for()
    assert page.get_by_text(STOPPED).count() == 0  # a file that is saved is no page that is left


def test_a_stations_file_is_uploaded_on_a_page(open_page, tmp_path):
    page = open_page("instructor/prepare.ipynb")
    stations = tmp_path / "stations.csv"
    stations.write_text(
        "ident,name,lat_deg,lon_deg,elevation_ft,declination_deg,frequency_mhz,service\n"
        "ZED,Zeddar,30.4,-40.1,100,-12,113.40,H\n"
    )
    with page.expect_file_chooser() as chooser:
        page.get_by_role("button", name="Upload stations file").click()
    chooser.value.set_files(stations)
    page.locator(".vorlib-picture svg").get_by_text("Zeddar ZED").wait_for()
