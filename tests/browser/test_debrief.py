"""A recorded flight debriefed in a real notebook: one time for all, an error answered, a PDF."""

import re

from lab import wait_for_value

LESSON = """
from vorlib.exhibits import debrief_flight

flight = debrief_flight()
flight
"""


def drag_to(page, share):
    """Drag the cursor along the strip to a share of the flight."""
    box = page.locator('[data-grab="time"] > rect').bounding_box()
    y = box["y"] + box["height"] / 2
    page.mouse.move(box["x"] + 0.1 * box["width"], y)
    page.mouse.down()
    for part in (0.3, 0.7, 1.0):
        page.mouse.move(box["x"] + (0.1 + part * (share - 0.1)) * box["width"], y)
        page.wait_for_timeout(30)
    page.mouse.up()


def at_rest(sentence):
    """Wait until a sentence stays as it is, and return the seconds since the start that it says."""
    before = ""
    while (now := sentence.text_content()) != before:
        before = now
        sentence.page.wait_for_timeout(700)
    minutes, seconds = map(int, re.match(r"After (\d+) min (\d+) s", now).groups())
    return 60 * minutes + seconds


def test_one_time_moves_map_indicator_and_sentence_and_files_go_in_and_out(
    run_notebook, notebook, tmp_path
):
    page = run_notebook(notebook(LESSON))
    strip = page.locator('[data-grab="time"]')
    strip.wait_for()
    strip.scroll_into_view_if_needed()
    sentence = page.locator(".vorlib-sentence")
    described = page.locator(".vorlib-picture svg > desc")
    clock = page.locator(".vorlib-clock input[type=text]")
    begin = described.text_content()

    # the cursor is dragged to the middle: over a minute after the tuning of Pelladine
    drag_to(page, 0.5)
    sentence.filter(has_text="of Pelladine on its").wait_for()
    described.filter(has_text="Course 180 is selected").wait_for(state="attached")
    assert described.text_content() != begin
    page.wait_for_function("([box, time]) => Math.abs(box.value - time) < 60",
                           arg=[clock.element_handle(), 1262])  # fmt: skip
    assert at_rest(sentence) == int(clock.input_value())

    # a press alone goes there as well; keys go on from there
    box = page.locator('[data-grab="time"] > rect').bounding_box()
    page.mouse.click(box["x"] + 0.88 * box["width"], box["y"] + 40)
    page.wait_for_function("() => document.querySelector('.vorlib-sentence').textContent"
                           ".startsWith('After 37 min')")  # fmt: skip
    pressed = at_rest(sentence)
    page.keyboard.press("ArrowRight")
    page.keyboard.press("PageDown")
    page.wait_for_function("([box, time]) => box.value === time",
                           arg=[clock.element_handle(), str(pressed - 59)])  # fmt: skip
    assert strip.get_attribute("aria-label") == "Time"
    assert strip.get_attribute("aria-valuetext").endswith("of 42 min 4 s")
    page.get_by_role("button", name="Previous finding").click()
    sentence.filter(has_text="Finding 7").wait_for()

    # a wrong row is answered beside the rows, and mended
    page.get_by_text("Your own flight: file, stations").click()
    rows = page.get_by_role("textbox", name="What was selected")
    typed = rows.input_value()
    rows.fill(typed.replace("PLX,180", "PLX,480"))
    rows.press("Tab")
    alert = page.locator(".vorlib-control", has=rows).get_by_role("alert")
    refused = alert.filter(has_text="line 4: course must be from 0 to 360 degrees, got 480")
    refused.wait_for()
    rows.fill(typed)
    rows.press("Tab")
    refused.wait_for(state="hidden")
    sentence.filter(has_text="Finding 7").wait_for()
    page.get_by_role("alert").wait_for(state="hidden")

    # a track uploaded, then the example again
    track = tmp_path / "mine.gpx"
    track.write_text("no flight at all")
    with page.expect_file_chooser() as chooser:
        page.get_by_role("button", name="Upload flight file").click()
    chooser.value.set_files(track)
    page.get_by_role("alert").filter(has_text="there is no column").wait_for()
    path = page.get_by_role("textbox", name="Flight file")
    wait_for_value(path, "mine.gpx")
    path.fill("")
    path.press("Tab")
    sentence.filter(has_text="After 0 s").wait_for()

    # and the page is written
    out = tmp_path / "sheets"
    out.mkdir()
    folder = page.get_by_role("textbox", name="Folder")
    folder.fill(str(out))
    folder.press("Tab")
    page.get_by_role("button", name="Write the debrief (PDF)").click()
    page.get_by_role("status").filter(has_text="Written:").wait_for()
    assert [file.suffix for file in out.iterdir()] == [".pdf"]
