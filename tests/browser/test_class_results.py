"""The class results in a real notebook, from the keyboard alone."""

from vorlib.practice.classroom.demo_class import write_demo_class

START = """
from vorlib.exhibits.instructor.class_results import class_results

class_results()
"""


def test_a_class_folder_is_typed_and_a_wrong_one_is_answered_beside_the_box(
    run_notebook, notebook, tmp_path
):
    (tmp_path / "class").mkdir()
    write_demo_class(tmp_path / "class")
    for path in (tmp_path / "class").glob("[b-z]*"):
        path.unlink()
    page = run_notebook(notebook(START))
    box, sentence = page.get_by_label("Class folder"), page.locator(".vorlib-sentence")
    box.wait_for()
    assert sentence.inner_text().startswith("30 learners gave ")

    box.focus()
    page.keyboard.type(str(tmp_path / "clas"))
    page.keyboard.press("Enter")
    page.get_by_role("alert").filter(has_text="there is no folder").wait_for()
    assert sentence.inner_text().startswith("30 learners gave ")

    box.focus()
    page.keyboard.type(str(tmp_path / "class"))
    page.keyboard.press("Enter")
    sentence.filter(has_text="2 learners gave ").wait_for()
    page.get_by_text("2 learners read.").wait_for()
    report = page.locator(".vorlib-class")
    report.filter(has_text="Aldren Sloane-Mere: ").wait_for()

    names = page.get_by_label("Numbers for names")
    for _ in range(12):
        page.keyboard.press("Tab")
        if names.evaluate("element => element === document.activeElement"):
            break
    page.keyboard.press("Space")
    report.filter(has_text="Learner 1: ").wait_for()
    assert "Aldren" not in page.locator(".vorlib-exhibit").inner_text()
