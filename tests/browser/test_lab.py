"""The notebooks in JupyterLab, on the first day and on the second."""

import json
import time

import nbformat
import pytest
from lab import WAIT_MS, running_course
from nbformat.sign import NotebookNotary
from tools.save_notebooks import add_start, protect

from vorlib.io.notebooks import START, WIDGET_VIEW

TEXT = "Read this.\n\n" * 30  # so that the last cell is far below the first


@pytest.fixture
def course(tmp_path):
    """`vorlib course --lab` with one lesson, which is marked as trusted, and imports nothing."""
    new = nbformat.v4
    lesson = new.new_notebook(
        cells=[
            new.new_markdown_cell("# 0. Start here"),
            new.new_code_cell("dial = x.indicator()\ndial"),
            new.new_code_cell("dial.say()"),
            new.new_markdown_cell(TEXT),
            new.new_code_cell('print(f"all {v.wrap_360(-6):g} run")'),
        ],
        metadata={"kernelspec": {"name": "python3", "display_name": "Python 3"}},
    )
    add_start(lesson)
    protect(lesson)
    folder, home = tmp_path / "notebooks", tmp_path / "home"
    folder.mkdir()
    (home / "jupyter").mkdir(parents=True)
    nbformat.write(lesson, folder / START)
    NotebookNotary(data_dir=str(home / "jupyter")).sign(lesson)
    with running_course(folder, home, "--lab") as course:
        yield course


def test_a_lesson_is_started_by_its_button_and_its_pictures_are_there_another_day(
    browser, course, tmp_path
):
    assert course.opens == f"/lab/tree/{START}"
    shipped = (course.folder / START).read_bytes()
    page = browser.new_page(viewport={"width": 1366, "height": 633})
    page.set_default_timeout(WAIT_MS)
    page.goto(course.page(START))
    page.get_by_text("| Idle").wait_for()
    page.get_by_role("button", name="Start the exhibits").click()
    page.get_by_text("all 354 run", exact=True).wait_for()  # as the last cell says
    exhibit = page.locator(".vorlib-exhibit")
    exhibit.locator(".vorlib-picture svg").wait_for()
    title = page.get_by_role("heading", name="0. Start here")
    page.wait_for_function("(h) => h.getBoundingClientRect().top > 0", arg=title.element_handle())
    assert page.locator(".jp-Dialog").count() == 0

    assert page.get_by_text("In words").count() == 0  # the exhibit says it, and as it now stands

    page.keyboard.press("Control+s")
    copy = tmp_path / "home" / "vorlib-course" / START
    end = time.monotonic() + 60
    while "Still picture" not in (saved := copy.read_text(encoding="utf-8")):
        assert time.monotonic() < end, "the notebook was not saved"
        page.wait_for_timeout(300)
    assert WIDGET_VIEW not in saved
    assert json.loads(saved)["cells"][2]["outputs"]
    assert (course.folder / START).read_bytes() == shipped
    course_box = exhibit.get_by_role("textbox", name="Selected course")
    course_box.fill("123")  # saved, it lives on
    course_box.press("Enter")
    exhibit.locator(".vorlib-sentence", has_text="123 selected").wait_for()
    page.close()

    course.stop_kernels()
    page = browser.new_page(viewport={"width": 1366, "height": 633})
    page.set_default_timeout(WAIT_MS)
    page.goto(course.page(START))
    page.locator(".jp-RenderedSVG img").wait_for()
    page.get_by_text("| Idle").wait_for()
    for lost in ("Error displaying widget", "model not found"):
        assert page.get_by_text(lost).count() == 0
    page.close()
    course.stop_kernels()
