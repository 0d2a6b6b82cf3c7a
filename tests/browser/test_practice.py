"""Practice in a real notebook, worked through from the keyboard alone."""

import re

from vorlib.angles import difference_deg
from vorlib.practice import PracticeSet
from vorlib.practice.record import Record

START = """
import os
os.environ["XDG_DATA_HOME"] = {folder!r}  # where the record is to lie, on Linux
from vorlib.exhibits.practice import practice

practice("reciprocal", "sensing", count=2, seed=1)
"""


def shown(question):
    return question.form.show(question.answer)


def test_practice_works_from_the_keyboard(run_notebook, notebook, tmp_path):
    first, _ = PracticeSet(("reciprocal", "sensing"), count=2, seed=1)
    page = run_notebook(notebook(START.format(folder=str(tmp_path / "data"))))
    box = page.get_by_label("Your answer")
    box.wait_for(timeout=30_000)
    assert page.get_by_text(first.prompt).is_visible()
    said = page.get_by_role("status")
    records = tmp_path / "data" / "vorlib" / "records"

    box.focus()
    page.keyboard.type("over there")
    page.keyboard.press("Enter")
    page.get_by_role("alert").filter(has_text="I need ").wait_for(timeout=5_000)

    mistake = first.misconceptions[0]
    page.keyboard.press("Control+A")
    page.keyboard.type(first.form.show(mistake.would_answer))
    assert not records.exists()
    page.keyboard.press("Tab")
    while page.evaluate("document.activeElement.tagName") != "INPUT":
        page.keyboard.press("Tab")
    page.keyboard.type("Wenna Dorrick")
    page.keyboard.press("Enter")
    said.filter(has_text=mistake.look_again).wait_for(timeout=5_000)
    said.filter(has_text="Answers are saved for Wenna Dorrick.").wait_for(timeout=5_000)
    page.wait_for_function("document.activeElement.tagName === 'INPUT'", timeout=5_000)
    assert page.get_by_label("Your name").is_hidden()
    (kept,) = Record("Wenna Dorrick", records).attempts()
    assert kept.misconception == mistake.name

    page.keyboard.press("Control+A")  # the name has gone, and the box is under the fingers again
    page.keyboard.type(shown(first))
    page.keyboard.press("Enter")
    said.filter(has_text="Right: ").wait_for(timeout=5_000)
    said.filter(has_text="1 of 3 right.").wait_for(timeout=5_000)

    for _ in range(2):  # past Check, to Hint
        page.keyboard.press("Tab")
    page.keyboard.type("yr")  # are no shortcuts here: the cell stays what it is
    for words in ("Hint 1: ", "Hint 2: ", "Hint 3: ", "Solution: "):
        page.keyboard.press("Enter")
        said.filter(has_text=words).wait_for(timeout=5_000)
    assert page.get_by_role("button", name="Show the solution").is_disabled()

    page.get_by_role("button", name="Next").focus()
    page.keyboard.press("Enter")  # brings the box back under the fingers
    page.get_by_text("Question 2 of 3. ").wait_for(timeout=5_000)  # one was added for the slip
    page.get_by_text("Is the sensing normal or reverse?").wait_for(timeout=5_000)
    page.wait_for_function("document.activeElement.tagName === 'INPUT'", timeout=5_000)
    assert box.input_value() == ""
    course, heading = re.findall(r"\b\d{3}\b", page.locator(".vorlib-prompt").inner_text())
    against = abs(difference_deg(float(heading), float(course))) > 90
    page.keyboard.type("reverse" if against else "normal")  # at once, faster than values sync
    page.keyboard.press("Enter")
    said.filter(has_text="2 of 4 right.").wait_for(timeout=5_000)
    verdicts = [attempt.verdict for attempt in Record("Wenna Dorrick", records).attempts()]
    assert verdicts == ["wrong", "right", "right"]

    page.get_by_label("Next is").focus()
    page.keyboard.type("r")  # picks reciprocal, though sensing is what helps most
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Enter")
    page.get_by_text("Question 3 of 5. What is the reciprocal of ").wait_for(timeout=5_000)
