"""Lesson pages as they are seen: all of an exhibit at once, and large before a class."""

import pytest
from seen import WINDOWS, not_in_window, small_texts

LEAST_PX = 20.0
CROWDED = ("06_tracking_in_wind.ipynb", "13_whole_flight.ipynb")  # most in their windows


@pytest.mark.parametrize("name", CROWDED)
def test_all_of_an_exhibit_is_seen_at_once_and_presented_so_large_that_a_back_row_reads_it(
    open_page, name
):
    page = open_page(name)
    page.locator(".vorlib-picture svg").first.wait_for()
    assert [line for window in WINDOWS for line in not_in_window(page, window)] == []

    page.set_viewport_size({"width": 1280, "height": 720})
    page.get_by_role("button", name="Present").click()
    exhibit = page.locator(".vorlib-exhibit:visible")
    while not exhibit.count():
        page.keyboard.press("PageDown")
    assert not_in_window(page, (1280, 720)) == []
    assert small_texts(page, LEAST_PX) == []
    page.keyboard.press("Escape")
