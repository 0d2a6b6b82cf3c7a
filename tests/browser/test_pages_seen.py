"""Lesson pages as they are seen: all of an exhibit at once, and large before a class."""

import shutil
from pathlib import Path

import pytest
from lab import running_course
from seen import WINDOWS, not_in_window, small_texts

NOTEBOOKS = Path(__file__).parents[2] / "notebooks"
ALIVE_MS = 90_000
LEAST_PX = 20.0
CROWDED = ("06_tracking_in_wind.ipynb", "13_whole_flight.ipynb")  # most in their windows


@pytest.fixture(scope="module")
def course(tmp_path_factory):
    folder = tmp_path_factory.mktemp("seen") / "notebooks"
    shutil.copytree(NOTEBOOKS, folder)
    with running_course(folder, tmp_path_factory.mktemp("home")) as course:
        yield course


@pytest.mark.parametrize("name", CROWDED)
def test_all_of_an_exhibit_is_seen_at_once_and_presented_so_large_that_a_back_row_reads_it(
    browser, course, name
):
    page = browser.new_page(viewport={"width": 1366, "height": 633})
    page.goto(course.lesson(name))
    page.wait_for_selector("body[data-alive]", timeout=ALIVE_MS)
    page.locator(".vorlib-picture svg").first.wait_for()
    assert [line for window in WINDOWS for line in not_in_window(page, window)] == []

    page.set_viewport_size({"width": 1280, "height": 720})
    page.get_by_role("button", name="Present").click()
    exhibit = page.locator(".vorlib-exhibit:visible")
    while not exhibit.count():
        page.keyboard.press("PageDown")
    assert not_in_window(page, (1280, 720)) == []
    assert small_texts(page, LEAST_PX) == []
    page.close(run_before_unload=True)
