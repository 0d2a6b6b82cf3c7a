"""A check flight as an assignment for nbgrader, and what its cells call; nbgrader is not needed.

Each question is three cells with nbgrader's documented metadata, schema version 3: the question,
locked; a cell to answer in, which is the learner's own; and an autograder test, locked, worth one
point. Its last value is the points, which nbgrader takes as partial credit. The mark stands between
the marks of hidden tests, so nbgrader leaves it out of what learners receive and puts it back to
grade: until then they are told whether an answer is understood, and no more.

No cell holds an answer, so there is no solution to clear: the library works it out from kind and
seed. A learner who reads Python can do the same. Where that matters, print a worksheet.
"""

from __future__ import annotations

import base64
import json
from os import PathLike
from pathlib import Path
from typing import Any

from vorlib.core.caution import CAUTION
from vorlib.io.atomic import write_whole
from vorlib.practice.check_flight.plan import ALLOWED_MIN, Planned, check_flight_plan, fingerprint
from vorlib.practice.check_flight.report import POINTS
from vorlib.practice.questions.question import Marking, mark
from vorlib.practice.questions.registry import draw
from vorlib.views.classroom.question_figure import figure_picture, figure_words
from vorlib.views.drawing.svg import to_svg

__all__ = ["assignment", "points", "understood", "write_assignment"]

SCHEMA_VERSION = 3  # of nbgrader's metadata, since its version 0.6
KERNEL = {"display_name": "Python 3", "language": "python", "name": "python3"}
INTRODUCTION = f"""# Check flight

{{count}} questions on lessons 1 to 12, for about {ALLOWED_MIN} minutes.

Run the next cell first. Write each answer between the quotes as you would on paper, such as
`"040"`, `"12 left"` or `"3.5 NM"`, and run it and the cell below it, which says whether your answer
is understood, not whether it is right.

{CAUTION}"""


def understood(answer: object, kind: str, seed: int, made: str) -> None:
    """Print how an answer is understood, or what is wanted instead; not whether it is right.

    Parameters
    ----------
    answer
        What the learner wrote.
    kind, seed, made
        The question, and its fingerprint when the assignment was made.

    Raises
    ------
    ValueError
        If this vorlib draws another question from kind and seed than the one in the assignment.
    """
    marking = _marked(answer, kind, seed, made)
    if marking.verdict == "not understood":
        print(marking.message)
    else:
        form = draw(kind, seed).form
        print(f"Understood: {form.show(form.parse(str(answer)))}.")


def points(answer: object, kind: str, seed: int, made: str) -> float:
    """Return the points for an answer: 1 if it is right, a half if it is close; see `understood`.

    >>> from vorlib.practice.questions.registry import draw
    >>> points(40, "reciprocal", 7, fingerprint(draw("reciprocal", 7)))
    0.0
    """
    marking = _marked(answer, kind, seed, made)
    return 0.0 if marking.verdict == "not understood" else POINTS[marking.verdict]


def _marked(answer: object, kind: str, seed: int, made: str) -> Marking:
    question = draw(kind, seed)
    if fingerprint(question) != made:
        raise ValueError(
            f"the question {kind} {seed} was made by another version of vorlib: "
            "grade with that version, or write the assignment again"
        )
    return mark(question, "" if answer is None or answer is ... else str(answer))


def write_assignment(path: str | PathLike[str], seed: int) -> Path:
    """Write a check flight as an assignment, whole or not at all: for the same seed the same bytes.

    Parameters
    ----------
    path
        A notebook, such as ``source/check_flight/check_flight.ipynb`` in a course of nbgrader.
    seed
        What its questions are drawn from.

    Raises
    ------
    ValueError
        If the name does not end in .ipynb, or the seed is below 0.
    OSError
        If the file cannot be written.
    """
    if Path(path).suffix != ".ipynb":
        raise ValueError(f"the assignment's name must end in .ipynb, got {Path(path).name!r}")
    text = json.dumps(assignment(seed), indent=1, ensure_ascii=False) + "\n"
    return write_whole(path, text.encode())


def assignment(seed: int) -> dict[str, Any]:
    """Return the notebook of an assignment, in format 4.5, not run."""
    plan = check_flight_plan(seed)
    cells = [
        _markdown("introduction", INTRODUCTION.format(count=len(plan))),
        _code("start", "from vorlib.assignment import points, understood", _locked("start")),
    ]
    for number, planned in enumerate(plan, start=1):
        cells += _question(number, planned)
    metadata = {"kernelspec": KERNEL, "language_info": {"name": "python"}}
    return {"cells": cells, "metadata": metadata, "nbformat": 4, "nbformat_minor": 5}


def _question(number: int, planned: Planned) -> tuple[dict[str, Any], ...]:
    name, call = f"answer_{number:02}", f'"{planned.kind}", {planned.seed}'
    asked = f"answer_{number:02}, {call}, {planned.fingerprint!r}".replace("'", '"')
    grade = "\n".join(
        (
            f"understood({asked})",
            "### BEGIN HIDDEN TESTS",
            f"points({asked})",
            "### END HIDDEN TESTS",
        )
    )
    test = _nbgrader(f"points-{number:02}", "code", grade=True, locked=True) | {"points": 1}
    return (
        _markdown(f"question-{number:02}", _asked(number, planned)),
        _code(f"answer-{number:02}", f'{name} = ""', {}),
        _code(f"points-{number:02}", grade, {"nbgrader": test}),
    )


def _asked(number: int, planned: Planned) -> str:
    """Return a question in Markdown, with its picture in it and the picture's words."""
    figure, picture = planned.question.figure, ""
    if figure is not None:
        svg = to_svg(figure_picture(figure)).encode()
        data = f"data:image/svg+xml;base64,{base64.b64encode(svg).decode()}"
        words = figure_words(figure)
        picture = f'\n\n<img src="{data}" alt="{words}" width="260">\n\n{words}'
    return f"**{number}. {planned.stage}**\n\n{planned.question.prompt}{picture}"


def _markdown(name: str, source: str) -> dict[str, Any]:
    metadata = {"nbgrader": _nbgrader(name, "markdown", locked=True)}
    return {"cell_type": "markdown", "id": name, "metadata": metadata, "source": source}


def _code(name: str, source: str, metadata: dict[str, Any]) -> dict[str, Any]:
    return {
        "cell_type": "code",
        "execution_count": None,
        "id": name,
        "metadata": metadata,
        "outputs": [],
        "source": source,
    }


def _locked(name: str) -> dict[str, Any]:
    return {"nbgrader": _nbgrader(name, "code", locked=True)}


def _nbgrader(
    name: str, cell_type: str, *, grade: bool = False, locked: bool = False
) -> dict[str, Any]:
    return {
        "cell_type": cell_type,
        "grade": grade,
        "grade_id": name,
        "locked": locked,
        "schema_version": SCHEMA_VERSION,
        "solution": False,
        "task": False,
    }
