"""A check flight in a real notebook: sat from the keyboard, cut short, resumed, handed in."""

from lab import wait_for_value

from vorlib.practice.check_flight.plan import check_flight_plan
from vorlib.practice.check_flight.session import CheckFlights
from vorlib.practice.record.record import Record

START = """
import os
os.environ["XDG_DATA_HOME"] = {folder!r}  # where the record is to lie, on Linux
from vorlib.exhibits.check_flight.exhibit import check_flight

check_flight(seed=8)
"""


def right(planned):
    return planned.question.form.show(planned.question.answer)


def test_a_check_flight_outlives_its_kernel_and_ends_in_a_report(
    run_notebook, notebook, lab, tmp_path
):
    plan = check_flight_plan(8)
    lesson = notebook(START.format(folder=str(tmp_path / "data")))
    records = tmp_path / "data" / "vorlib" / "records"
    page = run_notebook(lesson)
    page.get_by_label("Your name").wait_for()
    page.get_by_label("Your name").focus()
    page.keyboard.type("Wenna Dorrick")
    assert not records.exists()
    page.keyboard.press("Enter")
    said = page.get_by_role("status")
    page.get_by_text("Question 1 of 24. ").wait_for()
    page.get_by_text("30 minutes left", exact=True).wait_for()

    page.wait_for_function("document.activeElement.tagName === 'INPUT'")
    page.keyboard.type("over there")
    page.keyboard.press("Enter")
    page.get_by_role("alert").filter(has_text="I need ").wait_for()
    page.keyboard.press("Control+A")
    page.keyboard.type(right(plan[0]))
    page.keyboard.press("Enter")
    said.filter(has_text="Your answer to question 1 is saved.").wait_for()
    page.get_by_role("button", name="Leave for now").click()
    page.get_by_text("Question 3 of 24. ").wait_for()
    page.keyboard.type(right(plan[2]))
    page.keyboard.press("Enter")
    page.get_by_text("Question 4 of 24. ").wait_for()
    page.get_by_role("button", name="Pause").click()
    page.get_by_text("Paused: the question is covered").wait_for()
    page.get_by_text("Question 4 of 24. ").wait_for(state="hidden")

    page.close()
    lab.stop_kernels()
    assert CheckFlights(Record("Wenna Dorrick", records)).reports() == []

    page = run_notebook(lesson)
    said = page.get_by_role("status")
    page.get_by_label("Your name").wait_for()
    page.get_by_label("Your name").fill("wenna dorrick")
    page.get_by_role("button", name="Begin, or go on").click()
    page.get_by_text("Question 4 of 24. ").wait_for()
    said.filter(has_text="You go on with question 4").wait_for()
    page.wait_for_function("document.activeElement.id.startsWith('answer-')")
    page.get_by_role("button", name="Question 1, answered").click()
    page.get_by_text("Question 1 of 24. ").wait_for()
    wait_for_value(page.get_by_label("Your answer"), right(plan[0]))
    page.get_by_role("button", name="Question 2, no answer yet").click()
    page.get_by_text("Question 2 of 24. ").wait_for()
    page.get_by_label("Your answer").fill(right(plan[1]))  # and not kept by its own button
    page.get_by_role("button", name="Hand in", exact=True).click()
    page.get_by_text("Without an answer: 4, 5, ").wait_for()
    page.wait_for_function("document.activeElement.textContent === 'Hand in now'")
    page.keyboard.press("Enter")

    page.get_by_role("heading", name="Check flight of Wenna Dorrick").wait_for()
    page.get_by_text("3 of 24 points").wait_for()
    page.get_by_label("Your answer").wait_for(state="hidden")
    page.get_by_role("button", name="Question 1, answered").wait_for(state="hidden")
    page.get_by_text("1. ✓ right").click()
    page.get_by_text(plan[0].question.worked).wait_for()
    assert len(Record("Wenna Dorrick", records).attempts()) == 3

    write = page.get_by_role("button", name="Write")
    page.get_by_label("Print it to a PDF file").fill(str(tmp_path / "report.pdf"))
    write.click()
    written = said.filter(has_text="Written: ")
    written.wait_for()
    assert abs(written.bounding_box()["y"] - write.bounding_box()["y"]) < 100  # in sight

    page.get_by_label("Print it to a PDF file").fill(str(tmp_path / "report.pdf"))
    page.get_by_role("button", name="Write").click()
    said.filter(has_text="Written: ").wait_for()
    assert (tmp_path / "report.pdf").read_bytes().startswith(b"%PDF")
