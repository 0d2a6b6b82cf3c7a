"""What the lessons and their notebooks are called, by the numbers that kinds of question name."""

from functools import lru_cache
from pathlib import Path

from vorlib.io.notebooks import first_heading, lesson_notebooks, own_notebooks

NOTEBOOKS = lesson_notebooks(own_notebooks())
"""Names of the notebooks, without the ending, by the numbers of their lessons."""


@lru_cache
def lesson_title(number: str, folder: Path | None = None) -> str:
    """Return what a lesson is called: "05" is "Intercepting", without its notebook "Lesson 5".

    It is the notebook's first heading, without the number and without a question mark, so that it
    can stand within a sentence.
    """
    folder = folder or own_notebooks()
    name = lesson_notebooks(folder).get(number)
    if name is None:
        return f"Lesson {int(number)}"
    heading = first_heading(folder / f"{name}.ipynb")
    return (heading.partition(". ")[2] or heading).rstrip("?")
