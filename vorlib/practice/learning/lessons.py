"""What the lessons and their notebooks are called, by the numbers that kinds of question name."""

import re

from vorlib.io.notebooks import lesson_notebooks, own_notebooks

NOTEBOOKS = lesson_notebooks(own_notebooks())
"""Names of the notebooks, without the ending, by the numbers of their lessons."""


def lesson_title(number: str) -> str:
    """Return what a lesson is called: "05" is "Intercepting", without its notebook "Lesson 5"."""
    if number not in NOTEBOOKS:
        return f"Lesson {int(number)}"
    words = NOTEBOOKS[number][3:].replace("_", " ").capitalize()
    return re.sub(r"\bi\b", "I", words)
