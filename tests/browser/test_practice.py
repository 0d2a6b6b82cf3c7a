"""Practice in a real notebook, worked through from the keyboard alone."""

import re

from lab import wait_for_value

from vorlib.core.angles import difference_deg, reciprocal_deg
from vorlib.practice import PracticeSet
from vorlib.practice.record.exchange import read_export
from vorlib.practice.record.record import Record

START = """
import os
os.environ["XDG_DATA_HOME"] = {folder!r}  # where the record is to lie, on Linux
from vorlib.exhibits.learner.practice import practice

practice("reciprocal", "sensing", count=2, seed=1)
"""


def shown(question):
    return question.form.show(question.answer)


def test_practice_works_from_the_keyboard(run_notebook, notebook, tmp_path):
    first, _ = PracticeSet(("reciprocal", "sensing"), count=2, seed=1)
    page = run_notebook(notebook(START.format(folder=str(tmp_path / "data"))))
    box = page.get_by_label("Your answer")
    box.wait_for()
    page.get_by_text(first.prompt).wait_for()
    said = page.get_by_role("status")
    records = tmp_path / "data" / "vorlib" / "records"

    box.focus()
    page.keyboard.type("over there")
    page.keyboard.press("Enter")
    page.get_by_role("alert").filter(has_text="I need ").wait_for()

    mistake = first.misconceptions[0]
    page.keyboard.press("Control+A")
    page.keyboard.type(first.form.show(mistake.would_answer))
    assert not records.exists()
    page.keyboard.press("Tab")
    while page.evaluate("document.activeElement.tagName") != "INPUT":
        page.keyboard.press("Tab")
    page.keyboard.type("Wenna Dorrick")
    page.keyboard.press("Enter")
    said.filter(has_text=mistake.look_again).wait_for()
    said.filter(has_text="Answers are saved for Wenna Dorrick.").wait_for()
    page.wait_for_function("document.activeElement.tagName === 'INPUT'")
    page.get_by_label("Your name").wait_for(state="hidden")
    (kept,) = Record("Wenna Dorrick", records).attempts()
    assert kept.misconception == mistake.name

    page.keyboard.press("Control+A")  # the name has gone, and the box is under the fingers again
    page.keyboard.type(shown(first))
    page.keyboard.press("Enter")
    said.filter(has_text="Right: ").wait_for()
    said.filter(has_text="1 of 3 right.").wait_for()

    for _ in range(2):  # past Check, to Hint
        page.keyboard.press("Tab")
    page.keyboard.type("yr")  # are no shortcuts here: the cell stays what it is
    for words in ("Hint 1: ", "Hint 2: ", "Hint 3: ", "Solution: "):
        page.keyboard.press("Enter")
        said.filter(has_text=words).wait_for()
    assert page.get_by_role("button", name="Show the solution").is_disabled()

    page.get_by_role("button", name="Next").focus()
    page.keyboard.press("Enter")  # brings the box back under the fingers
    page.get_by_text("Question 2 of 3. ").wait_for()  # one was added for the slip
    page.get_by_text("Is the sensing normal or reverse?").wait_for()
    page.wait_for_function("document.activeElement.tagName === 'INPUT'")
    wait_for_value(box, "")
    course, heading = re.findall(r"\b\d{3}\b", page.locator(".vorlib-prompt").inner_text())
    against = abs(difference_deg(float(heading), float(course))) > 90
    page.keyboard.type("reverse" if against else "normal")  # at once, faster than values sync
    page.keyboard.press("Enter")
    said.filter(has_text="2 of 4 right.").wait_for()
    page.keyboard.press("Enter")  # a right answer is not marked twice: Enter goes on
    page.get_by_text("Question 3 of 4. ").wait_for()
    verdicts = [attempt.verdict for attempt in Record("Wenna Dorrick", records).attempts()]
    assert verdicts == ["wrong", "right", "right"]

    page.get_by_label("Next is").focus()
    page.keyboard.type("r")  # picks reciprocal, though sensing is what helps most
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Enter")
    page.get_by_text("Question 4 of 5. What is the reciprocal of ").wait_for()


def test_a_record_is_exported_deleted_and_changed_from_the_keyboard(
    run_notebook, notebook, tmp_path
):
    first, _ = PracticeSet(("reciprocal", "sensing"), count=2, seed=1)
    page = run_notebook(notebook(START.format(folder=str(tmp_path / "data"))))
    records = tmp_path / "data" / "vorlib" / "records"
    said, keys = page.get_by_role("status"), page.keyboard
    fold = page.get_by_text("Your record", exact=True)

    def reach(name, role="button"):
        control = page.get_by_role(role, name=name)
        for _ in range(30):
            if control.evaluate("element => element === document.activeElement"):
                return
            keys.press("Tab")
        raise AssertionError(f"{name} is not reached with Tab")

    def answer_as(name):
        page.get_by_label("Your answer").focus()
        keys.type(shown(first))
        reach("Your name", "textbox")
        keys.type(name)
        keys.press("Enter")
        said.filter(has_text=f"Answers are saved for {name}.").wait_for()

    page.get_by_label("Your answer").wait_for()
    fold.wait_for(state="hidden")  # there is no record yet
    answer_as("Wenna")
    fold.focus()
    keys.press("Enter")
    said.filter(has_text="1 answer of Wenna in ").wait_for()

    reach("Export as JSON")
    with page.expect_download() as download:
        keys.press("Enter")
    assert download.value.suggested_filename == "learner-wenna.json"
    download.value.save_as(tmp_path / "wenna.json")
    assert read_export(tmp_path / "wenna.json").learner == "Wenna"
    page.get_by_label("Bring in an export").set_input_files(tmp_path / "wenna.json")
    said.filter(has_text="0 answers of wenna.json added.").wait_for()  # it has them

    reach("Somebody else sits down", "textbox")
    keys.type("../boss")
    keys.press("Enter")
    page.get_by_role("alert").filter(has_text="learner's name may have").wait_for()
    keys.press("Control+A")
    keys.type("Tobin")
    keys.press("Enter")
    said.filter(has_text="Answers are saved for Tobin.").wait_for()
    wait_for_value(page.get_by_label("Your answer"), "")
    page.wait_for_function("document.activeElement.id.startsWith('answer-')")
    prompt = page.locator(".vorlib-prompt").inner_text()  # the questions are planned anew
    (asked,) = re.findall(r"Question 1 of 2. What is the reciprocal of (\d{3})", prompt)
    keys.type(f"{reciprocal_deg(float(asked)):.0f}")
    keys.press("Enter")
    said.filter(has_text="Right: ").wait_for()
    assert len(Record("Tobin", records).attempts()) == len(Record("Wenna", records).attempts()) == 1

    fold.focus()
    keys.press("Enter")
    for choice in ("Keep it", "Delete for good"):
        reach("Delete the record")
        keys.press("Enter")
        page.get_by_text("Delete the record of Tobin: 1 answer").wait_for()
        assert Record("Tobin", records).attempts()
        page.wait_for_function("document.activeElement.textContent === 'Keep it'")
        reach(choice)
        keys.press("Enter")
        asked = page.get_by_text("Delete the record of Tobin: 1 answer")
        asked.wait_for(state="hidden")
    said.filter(has_text="The record of Tobin is deleted.").wait_for()
    assert [path.name for path in records.iterdir()] == ["learner-wenna.sqlite3"]
    page.get_by_label("Your name").wait_for()
