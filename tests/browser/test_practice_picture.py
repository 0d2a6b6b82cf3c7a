"""The picture of a question in a real notebook: seen, named, within its cell, and large at will."""

from vorlib.practice import PracticeSet
from vorlib.views.classroom.question_figure import figure_words

KINDS = ("indicator_for_place", "reciprocal")
START = f"""
from vorlib.exhibits.learner.practice import practice

practice(*{KINDS!r}, count=2, seed={{seed}})
"""


def with_picture_first():
    """Return a seed and its two questions: the first with a picture, the second without."""
    for seed in range(50):
        questions = PracticeSet(KINDS, count=2, seed=seed).questions
        if questions[0].figure and not questions[1].figure:
            return seed, questions
    raise AssertionError("no such set")


def test_a_question_is_seen_named_answered_from_the_keyboard_and_gone(run_notebook, notebook):
    seed, (first, second) = with_picture_first()
    page = run_notebook(notebook(START.format(seed=seed)))
    picture = page.get_by_role("img", name=figure_words(first.figure))
    picture.locator("svg").wait_for()
    svg = picture.locator("svg")
    room = page.locator(".vorlib-practice").bounding_box()["width"]
    assert 0.9 * room < svg.bounding_box()["width"] <= room

    height = page.locator(".vorlib-prompt").bounding_box()["height"]
    page.get_by_label("Projector: large type and lines").focus()
    page.keyboard.press("Space")
    page.wait_for_selector(".vorlib-practice.vorlib-projector")
    assert page.locator(".vorlib-prompt").bounding_box()["height"] > 1.3 * height
    page.wait_for_function(
        """() => document.querySelector('.vorlib-figure svg')?.getBoundingClientRect().width
            <= document.querySelector('.vorlib-practice').getBoundingClientRect().width"""
    )

    page.set_viewport_size({"width": 800, "height": 900})
    page.wait_for_function(
        "document.querySelector('.vorlib-figure svg').getBoundingClientRect().right < 800"
    )

    page.get_by_label("Your answer").focus()
    page.keyboard.type(first.answer)
    page.keyboard.press("Enter")
    page.get_by_role("status").filter(has_text="Right: ").wait_for()
    page.get_by_role("button", name="Next", exact=True).press("Enter")
    page.get_by_text(second.prompt).wait_for()
    page.locator(".vorlib-figure").wait_for(state="hidden")
