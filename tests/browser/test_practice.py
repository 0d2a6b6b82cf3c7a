"""Practice in a real notebook, worked through from the keyboard alone."""

from vorlib.practice import PracticeSet

START = """
from vorlib.exhibits.practice import practice

practice("reciprocal", "sensing", count=2, seed=1)
"""


def shown(question):
    return question.form.show(question.answer)


def test_practice_works_from_the_keyboard(run_notebook, notebook):
    first, second = PracticeSet(("reciprocal", "sensing"), count=2, seed=1)
    page = run_notebook(notebook(START))
    box = page.get_by_label("Your answer")
    box.wait_for(timeout=30_000)
    assert page.get_by_text(first.prompt).is_visible()
    said = page.get_by_role("status")

    box.focus()
    page.keyboard.type("over there")
    page.keyboard.press("Enter")
    page.get_by_role("alert").filter(has_text="I need ").wait_for(timeout=5_000)

    mistake = first.misconceptions[0]
    page.keyboard.press("Control+A")
    page.keyboard.type(first.form.show(mistake.would_answer))
    page.keyboard.press("Enter")
    said.filter(has_text=mistake.look_again).wait_for(timeout=5_000)

    page.keyboard.press("Control+A")
    page.keyboard.type(shown(first))
    page.keyboard.press("Enter")
    said.filter(has_text="Right: ").wait_for(timeout=5_000)
    said.filter(has_text="1 of 2 right.").wait_for(timeout=5_000)

    for _ in range(2):  # past Check, to Hint
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    said.filter(has_text="Hint 1: ").wait_for(timeout=5_000)

    page.keyboard.press("Tab")  # to Next, which brings the box back under the fingers
    page.keyboard.press("Enter")
    page.get_by_text(second.prompt).wait_for(timeout=5_000)
    page.wait_for_function("document.activeElement.tagName === 'INPUT'", timeout=5_000)
    assert box.input_value() == ""
    page.keyboard.type(shown(second))  # at once, faster than values are synced
    page.keyboard.press("Enter")
    said.filter(has_text="2 of 2 right.").wait_for(timeout=5_000)
