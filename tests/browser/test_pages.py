"""The lessons as pages: opened like a learner opens them, with nothing to run."""

import json
import re
import time
import urllib.request

import pytest
from lab import PAGE_ALIVE_MS, wait_for_value
from seen import small_texts
from tools.reference_notebooks import made

from vorlib.core.caution import CAUTION
from vorlib.io.notebooks import START
from vorlib.pages.course_folder import shipped
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.learning.predictions import lessons, prediction_texts
from vorlib.practice.record.record import Record

FOREIGN = "handed_in.ipynb"  # as the fixture `course` lays it there


@pytest.fixture
def load(window, course):
    """Return a function that loads a page, which is alive some time after and closed at the end."""
    loaded = []

    def load(name):
        loaded.append(window.new_page())
        loaded[-1].goto(course.lesson(name))
        return loaded[-1]

    yield load
    for page in loaded:
        page.close()


def kernel_of(page):
    config = page.locator("#jupyter-config-data").evaluate("(element) => element.textContent")
    return json.loads(config)["kernelId"]


def answers(name):
    """Why the answers of a page's predictions are right, in words that nothing on it may say."""
    texts = prediction_texts(name[:2]) if name[:2] in lessons() else ()
    return [words for text in texts for words in (text.reason, " ".join(text.because.split()))]


def contents(page):
    return page.locator(".contents a").evaluate_all("links => links.map((a) => a.pathname)")


@pytest.mark.parametrize("name", shipped())
def test_every_page_comes_alive_without_a_press_or_error_and_asks_no_host_outside(open_page, name):
    page = open_page(name)
    assert page.hosts <= {"localhost", None}  # None is data within the page
    is_alive = page.locator(".widget-button, .jupyter-button, .vorlib-picture svg").count()
    assert is_alive or name in made()
    given = page.locator("[data-gives] .jp-OutputArea-output")
    assert given.evaluate_all("all => all.filter((one) => !one.firstElementChild).length") == 0
    assert page.locator("footer").inner_text() == CAUTION
    shown = " ".join(page.locator("main").inner_text().split())
    assert "There was an error when executing" not in shown
    assert not [words for words in answers(name) if words in shown]
    assert "Traceback" not in shown
    assert page.locator(".jp-InputPrompt, .jp-Editor, .cm-editor").count() == 0
    assert page.evaluate("document.documentElement.scrollWidth") <= 1366
    assert page.errors == []


def test_what_is_moved_on_a_page_changes_its_sentence(open_page):
    page = open_page("02_indicator.ipynb")
    exhibit = page.locator(".vorlib-exhibit").first
    box = exhibit.get_by_role("textbox", name="Selected course")
    box.fill("123")
    box.press("Enter")
    exhibit.locator(".vorlib-sentence", has_text="123 selected").wait_for(state="attached")


def test_what_answers_a_prediction_is_covered_until_it_is_made_or_skipped(open_page, pages):
    page = open_page("02_indicator.ipynb")
    told, next_one = page.locator(".explains p").first, page.get_by_text("Heading 130: ")
    printed = page.locator("pre", has_text="On the 034 radial")
    exhibit = page.locator(".vorlib-exhibit").first
    sentence = exhibit.locator(".vorlib-sentence")
    assert exhibit.locator(".vorlib-picture svg").is_visible()
    assert not sentence.is_visible()
    assert not told.is_visible()
    assert not printed.is_visible()
    assert page.get_by_role("heading", name="Explain").first.is_visible()
    asked = page.locator(".vorlib-prediction").first
    asked.get_by_role("button", name="To your right").click()
    asked.get_by_role("button", name="The needle is the line").wait_for()
    assert not told.is_visible()
    asked.get_by_role("button", name="The needle is the line").click()
    told.wait_for()
    printed.wait_for()
    sentence.wait_for()
    assert not next_one.is_visible()  # it answers the second prediction, which is open still
    page.locator(".vorlib-prediction").nth(1).get_by_role("button", name="Skip").click()
    next_one.wait_for()
    pages.pop("02_indicator.ipynb").close()


def test_the_steps_to_an_answer_are_covered_below_a_picture_that_can_be_tried(open_page, pages):
    page = open_page("05_intercepting.ipynb")
    steps = page.locator(".vorlib-notes").first.get_by_text("makes the heading")
    assert page.locator(".vorlib-picture svg").first.is_visible()
    assert not steps.is_visible()
    page.locator(".vorlib-prediction").first.get_by_role("button", name="Skip").click()
    steps.wait_for()
    pages.pop("05_intercepting.ipynb").close()


def test_the_chart_of_a_flight_is_covered_while_what_comes_of_it_is_to_be_predicted(
    open_page, pages
):
    page = open_page("06_tracking_in_wind.ipynb")
    exhibit = page.locator(".vorlib-exhibit").first
    exhibit.get_by_text("Strip chart", exact=True).click()
    chart = exhibit.locator(".vorlib-drawn")
    chart.wait_for(state="attached")
    assert not chart.is_visible()
    page.locator(".vorlib-prediction").first.get_by_role("button", name="Skip").click()
    chart.wait_for()
    pages.pop("06_tracking_in_wind.ipynb").close()


def test_the_end_key_goes_to_the_end_of_a_flight_that_has_become_longer(open_page):
    page = open_page("04_to_the_station.ipynb")
    exhibit = page.locator(".vorlib-exhibit", has=page.locator(".vorlib-clock")).first
    end = exhibit.locator(".vorlib-clock [role=slider]")
    before = end.get_attribute("aria-valuemax")
    exhibit.get_by_role("textbox", name="Distance").fill("25")
    page.keyboard.press("Enter")
    exhibit.locator(f".vorlib-clock [role=slider]:not([aria-valuemax='{before}'])").wait_for()
    end.focus()
    page.keyboard.press("End")
    exhibit.locator(".vorlib-sentence", has_text="past the station").wait_for(state="attached")
    assert float(exhibit.get_by_role("textbox", name="Time").input_value()) > float(before)


def test_the_contents_list_the_course_and_nothing_else(open_page, load):
    assert contents(open_page(START)) == [f"/voila/render/{name}" for name in shipped()]
    assert "404" in load(FOREIGN).content()


def test_a_notebook_that_breaks_later_leaves_the_contents(load, course):
    lesson = course.folder / "12_inside_the_signal.ipynb"
    whole = lesson.read_bytes()
    lesson.write_bytes(whole[:5000])
    try:
        listed = contents(load(START))
    finally:
        lesson.write_bytes(whole)
    assert len(listed) == len(shipped()) - 1
    assert not [link for link in listed if "12_" in link]


def test_the_pictures_of_the_course_show_in_jupyterlab_before_a_cell_is_run(course):
    copy = f"{course.url}/api/contents/{START}?token={course.token}"
    with urllib.request.urlopen(copy) as answer:
        cells = json.load(answer)["content"]["cells"]
    assert all(cell["metadata"]["trusted"] for cell in cells if cell["cell_type"] == "code")


def test_links_between_notebooks_lead_from_page_to_page(load):
    page = load(START)
    page.locator("main").get_by_role("link", name="Debrief").first.click()
    page.wait_for_url("**/voila/render/instructor/debrief.ipynb")
    page.locator("main a[href^='../']").first.click()
    page.wait_for_url(re.compile(r"/voila/render/\d\d_\w+\.ipynb$"))
    page.get_by_role("link", name="Next").first.click()
    page.wait_for_selector("body[data-alive]", timeout=PAGE_ALIVE_MS)


def test_the_page_says_where_it_is_and_leads_to_its_notebook(open_page, course):
    page = open_page("05_intercepting.ipynb")
    assert page.locator("header .place").inner_text() == "Lesson 5 of 14"
    assert "token" not in page.url
    with page.expect_popup() as popup:
        page.get_by_role("link", name="Open as a notebook").click()
    popup.value.wait_for_selector(".jp-Notebook .jp-Cell", timeout=PAGE_ALIVE_MS)
    assert popup.value.url.endswith("/lab/tree/05_intercepting.ipynb")
    popup.value.close()
    course.stop_kernels()


def test_a_kernel_ends_with_its_page(open_page, pages, course):
    page = open_page("02_indicator.ipynb")
    kernel = kernel_of(page)
    assert course.runs(kernel)
    pages.pop("02_indicator.ipynb").goto("about:blank")
    end = time.monotonic() + 20
    while course.runs(kernel):
        assert time.monotonic() < end, "the kernel runs on"
        time.sleep(0.2)


def test_a_page_whose_kernel_has_ended_says_so(open_page, pages, course):
    page = open_page("03_where_am_i.ipynb")
    page.evaluate(
        """([kernel, token]) => fetch(`/api/kernels/${kernel}?token=${token}`,
            { method: 'DELETE', headers: { Authorization: `token ${token}` } })""",
        [kernel_of(page), course.token],
    )
    page.get_by_text("This lesson has stopped.").wait_for(timeout=20_000)
    pages.pop("03_where_am_i.ipynb").close()


def test_the_start_offers_to_go_on_and_says_how_far_the_learner_is(load, tmp_path_factory):
    data = next(tmp_path_factory.getbasetemp().glob("data*"))
    record = Record("Wenna Dorrick", data / "vorlib" / "records")
    record.add(Attempt("reciprocal", 1, "right"))
    load("07_reverse_sensing.ipynb")
    page = load(START)
    go_on = page.get_by_role("link", name="Go on with 7. Reverse sensing")
    assert go_on.get_attribute("href").endswith("/07_reverse_sensing.ipynb")
    learner = page.locator(".learner")
    assert "Wenna Dorrick" in learner.inner_text()
    assert re.search(r"1\. Radials\s+1 of \d+ kinds of question right", learner.inner_text())


@pytest.mark.parametrize("size", [(1280, 620), (1920, 950), (820, 1180)])
def test_a_page_fits_the_width_of_the_window(open_page, size):
    page = open_page("05_intercepting.ipynb")
    page.set_viewport_size(dict(zip(("width", "height"), size, strict=True)))
    assert page.evaluate("document.documentElement.scrollWidth") <= size[0]
    widths = page.locator(".prose p").evaluate_all("all => all.map((p) => p.offsetWidth)")
    assert max(widths) <= 44 * 16


def test_presenting_shows_one_step_at_a_time_with_the_keys_of_a_clicker(open_page):
    page = open_page("01_radials.ipynb")
    headings = page.locator("main :is(h1, h2, h3):visible")
    everything = headings.count()
    page.get_by_role("button", name="Present").click()
    step = page.locator("#step")
    step.filter(has_text=re.compile(r"^1 of \d+$")).wait_for()
    page.get_by_role("heading", name="1. Radials").wait_for()
    assert headings.count() < everything

    while "Round 1" not in headings.first.inner_text():
        page.keyboard.press("PageDown")
    page.get_by_text("You turn on the spot").wait_for()
    page.keyboard.press("b")
    assert page.locator("body.blank").count() == 1
    page.keyboard.press("b")
    page.keyboard.press("2")
    page.keyboard.press("Enter")
    assert step.inner_text().startswith("2 of")
    page.keyboard.press("PageUp")
    assert step.inner_text().startswith("1 of")
    page.keyboard.press("Escape")
    assert headings.count() == everything


def test_the_clicker_uncovers_the_answer_and_goes_on_to_the_next_question_asked_aloud(
    open_page, pages
):
    page = open_page("instructor/round.ipynb")
    page.set_viewport_size({"width": 1280, "height": 720})
    page.get_by_role("button", name="Present").click()
    oral = page.locator(".vorlib-oral:visible")
    while not oral.count():
        page.keyboard.press("PageDown")
    step = page.locator("#step").inner_text()
    said = oral.locator(".vorlib-sentence")
    said.filter(has_text="Question 1 of 20").filter(has_text="The answer is covered.").wait_for(
        state="attached"
    )
    assert small_texts(page, 20.0) == []
    for key, words in (
        ("PageDown", ("Question 1 of 20", "Answer: ")),
        ("PageDown", ("Question 2 of 20", "The answer is covered.")),
        ("PageUp", ("Question 1 of 20", "The answer is covered.")),
    ):
        page.keyboard.press(key)
        shown = said
        for word in words:
            shown = shown.filter(has_text=word)
        shown.wait_for(state="attached")
        assert small_texts(page, 20.0) == []
        assert page.locator("#step").inner_text() == step
    page.keyboard.press("PageUp")
    assert page.locator("#step").inner_text() != step
    pages.pop("instructor/round.ipynb").close()  # as it is still presented


def test_r_begins_the_exhibit_again_at_the_same_step(open_page, pages):
    page = open_page("01_radials.ipynb")
    page.get_by_role("button", name="Present").click()
    exhibit = page.locator(".vorlib-exhibit:visible")
    while not exhibit.count():
        page.keyboard.press("PageDown")
    step = page.locator("#step").inner_text()
    page.keyboard.press("c")
    box = exhibit.first.get_by_role("textbox", name="Heading")
    before = box.input_value()
    box.fill("123")
    box.press("Enter")
    box.blur()
    page.keyboard.press("r")
    page.wait_for_function(
        "(step) => document.getElementById('step').textContent === step",
        arg=step,
        timeout=PAGE_ALIVE_MS,
    )
    page.keyboard.press("c")
    wait_for_value(exhibit.first.get_by_role("textbox", name="Heading"), before)
    pages.pop("01_radials.ipynb").close()  # as it is still presented
