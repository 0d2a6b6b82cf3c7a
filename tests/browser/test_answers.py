"""A page whose kernel has gone says so, and takes nothing in vain."""

import json
import urllib.request

from lab import wait_for_value

LESSON = """
from IPython.display import display
from vorlib import exhibits as x

display(x.indicator())
x.practice("reciprocal", count=2, seed=1)
"""


def test_what_nobody_answers_for_is_covered_and_a_typed_answer_stays(run_notebook, notebook, lab):
    page = run_notebook(notebook(LESSON))
    ring = page.locator('[data-grab="ring"]')
    ring.press("ArrowRight")
    page.locator(".vorlib-picture svg").get_by_text("041", exact=True).wait_for()
    stopped = page.locator(".vorlib-stopped").filter(has_text="nothing you do here is answered")
    assert stopped.count() == 0

    asked = f"{lab.url}/api/kernels?token={lab.token}"
    (kernel,) = json.load(urllib.request.urlopen(asked))
    again = f"{lab.url}/api/kernels/{kernel['id']}/restart?token={lab.token}"
    urllib.request.urlopen(urllib.request.Request(again, method="POST")).close()
    ring.press("ArrowRight")
    box = page.locator(".vorlib-practice").get_by_role("textbox", name="Your answer")
    box.fill("123")
    page.get_by_role("button", name="Check", exact=True).click()
    stopped.nth(1).wait_for()
    assert stopped.filter(has_text="Choose Run, Run All Cells.").count() == 2
    wait_for_value(box, "123")
