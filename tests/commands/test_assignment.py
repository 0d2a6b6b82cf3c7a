"""A check flight handed out, collected and graded with nbgrader's own command line."""

import csv
import json
import os
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

import nbformat
import pytest

from vorlib.assignment import assignment, points, understood, write_assignment
from vorlib.cli import main
from vorlib.core.caution import CAUTION
from vorlib.practice.check_flight.plan import check_flight_plan

SEED, NAME = 8, "check_flight"
PLAN = check_flight_plan(SEED)
BEGIN = """
from vorlib.io.unused import leave_out_unused
leave_out_unused()  # or each command takes a second longer
from nbgrader.apps.nbgraderapp import main
main()
"""
CONFIG = """
c = get_config()
c.CourseDirectory.course_id = "islands"
c.ExecutePreprocessor.timeout = 120
"""


def right(planned):
    return planned.question.form.show(planned.question.answer)


def mistaken(planned):
    question = planned.question
    foreseen = [mistake.would_answer for mistake in question.misconceptions]
    if not foreseen:  # here no belief leads astray, so any other choice
        foreseen = [choice for choice in question.form.options if choice != question.answer]
    return question.form.show(foreseen[0])


def asked(planned):
    return planned.kind, planned.seed, planned.fingerprint


def cells_of(notebook):
    return {cell["id"]: cell for cell in notebook["cells"]}


# ---- the notebook itself, with nbgrader or without


def test_each_question_has_its_words_a_cell_to_answer_in_and_a_test_worth_a_point():
    notebook = assignment(SEED)
    nbformat.validate(nbformat.from_dict(notebook))
    cells = cells_of(notebook)
    for number, planned in enumerate(PLAN, start=1):
        question, answer, test = (
            cells[f"{part}-{number:02}"] for part in ("question", "answer", "points")
        )
        assert planned.question.prompt in question["source"]
        assert ("<img" in question["source"]) == (planned.question.figure is not None)
        assert answer["source"] == f'answer_{number:02} = ""'
        assert "nbgrader" not in answer["metadata"]
        assert test["metadata"]["nbgrader"] == {
            "cell_type": "code",
            "grade": True,
            "grade_id": f"points-{number:02}",
            "locked": True,
            "points": 1,
            "schema_version": 3,
            "solution": False,
            "task": False,
        }
    assert CAUTION in cells["introduction"]["source"]


def test_the_same_seed_gives_the_same_bytes(tmp_path):
    one = write_assignment(tmp_path / "one.ipynb", SEED).read_bytes()
    assert main(["assignment", "--seed", str(SEED), "--out", str(tmp_path / "two.ipynb")]) == 0
    assert (tmp_path / "two.ipynb").read_bytes() == one
    assert main(["assignment", "--seed", "8", "--out", str(tmp_path / "two.pdf")]) == 1


@pytest.mark.parametrize("planned", PLAN, ids=lambda planned: planned.kind)
def test_a_point_for_the_right_answer_and_none_for_a_slip_or_nonsense(planned, capsys):
    assert points(right(planned), *asked(planned)) == 1.0
    assert points(mistaken(planned), *asked(planned)) == 0.0
    for nothing in ("", "over there, I think", None, ...):
        assert points(nothing, *asked(planned)) == 0.0
    understood(mistaken(planned), *asked(planned))
    understood(right(planned), *asked(planned))
    said = capsys.readouterr().out.splitlines()
    assert all(line.startswith("Understood: ") for line in said)


def test_a_close_answer_brings_half_a_point():
    planned = next(p for p in PLAN if p.kind == "intercept_inbound")
    question = planned.question
    close = question.form.show(question.answer + 2.0 * question.tolerance)
    assert points(close, *asked(planned)) == 0.5


def test_nonsense_gets_help_and_a_number_without_quotes_is_understood(capsys):
    planned = PLAN[0]
    understood("over there", *asked(planned))
    understood(80, *asked(planned))
    said = capsys.readouterr().out.splitlines()
    assert said[0].startswith("I need a direction")
    assert said[1] == "Understood: 080."


def test_another_question_than_the_one_handed_out_is_not_graded():
    with pytest.raises(ValueError, match="another version of vorlib"):
        points("080", PLAN[0].kind, PLAN[0].seed, "00000000")


# ---- with nbgrader's command line


def nbgrader(course, *arguments):
    """Run a command of nbgrader in a course, with no settings but the course's own."""
    home = course.parent / "home"
    home.mkdir(exist_ok=True)
    quiet = {"HOME": str(home), "JUPYTER_CONFIG_DIR": str(home), "IPYTHONDIR": str(home)}
    beside = Path(sys.executable).parent  # where it looks for a program that it needs
    quiet["PATH"] = f"{beside}{os.pathsep}{os.environ['PATH']}"
    command = [sys.executable, "-c", BEGIN, *arguments]
    run = subprocess.run(
        command, cwd=course, env=os.environ | quiet, capture_output=True, text=True, check=False
    )
    assert run.returncode == 0, run.stdout + run.stderr


@pytest.fixture(scope="module")
def course(tmp_path_factory):
    """A course of nbgrader in which the check flight was released."""
    if find_spec("nbgrader") is None:
        if os.environ.get("CI"):
            pytest.fail("nbgrader is not installed: pip install 'vorlib[class]'")
        pytest.skip("nbgrader is not installed: pip install 'vorlib[class]'")
    course = tmp_path_factory.mktemp("nbgrader") / "course"
    (course / "source" / NAME).mkdir(parents=True)
    (course / "nbgrader_config.py").write_text(CONFIG)
    write_assignment(course / "source" / NAME / f"{NAME}.ipynb", SEED)
    nbgrader(course, "generate_assignment", NAME)
    return course


def hand_in(course, student, answer):
    """Fill in a released assignment by a function of number and question, and hand it in."""
    released = course / "release" / NAME / f"{NAME}.ipynb"
    notebook = json.loads(released.read_text(encoding="utf-8"))
    cells = cells_of(notebook)
    for number, planned in enumerate(PLAN, start=1):
        cells[f"answer-{number:02}"]["source"] = f"answer_{number:02} = {answer(number, planned)!r}"
    submitted = course / "submitted" / student / NAME / f"{NAME}.ipynb"
    submitted.parent.mkdir(parents=True)
    submitted.write_text(json.dumps(notebook), encoding="utf-8")


def some_right(number, planned):
    """Answer as one who makes a slip in every third, and leaves every fifth."""
    if number % 5 == 0:
        return ""
    return mistaken(planned) if number % 3 == 0 else right(planned)


def test_what_learners_receive_runs_and_tells_no_mark(course):
    notebook = nbformat.read(course / "release" / NAME / f"{NAME}.ipynb", as_version=4)
    code = "\n".join(cell.source for cell in notebook.cells if cell.cell_type == "code")
    assert "points(" not in code
    assert code.count("understood(") == len(PLAN)
    assert "NotImplementedError" not in code
    exec(code, {})  # with every answer still empty


CLOSE = next(n for n, planned in enumerate(PLAN, start=1) if planned.kind == "intercept_inbound")


def once_close(number, planned):
    """Answer right, but once only close."""
    question = planned.question
    if number != CLOSE:
        return right(planned)
    return question.form.show(question.answer + 2.0 * question.tolerance)


LEARNERS = {"piran": once_close, "tobin": some_right, "jory": lambda *_: ""}


@pytest.fixture(scope="module")
def graded(course):
    """The course after all have handed in and were graded; Jory has only rewritten a test."""
    for student, answer in LEARNERS.items():
        hand_in(course, student, answer)
    path = course / "submitted" / "jory" / NAME / f"{NAME}.ipynb"
    notebook = json.loads(path.read_text(encoding="utf-8"))
    cells_of(notebook)["points-01"]["source"] = "1.0"
    path.write_text(json.dumps(notebook), encoding="utf-8")
    nbgrader(course, "autograde", NAME)
    nbgrader(course, "export")
    return course


def test_it_is_graded_with_partial_credit_in_nbgraders_own_gradebook(graded):
    with (graded / "grades.csv").open(encoding="utf-8", newline="") as table:
        rows = {row["student_id"]: row for row in csv.DictReader(table)}
    assert {float(row["max_score"]) for row in rows.values()} == {len(PLAN)}
    scores = {student: float(row["score"]) for student, row in rows.items()}
    assert scores == {
        student: sum(points(answer(n, p), *asked(p)) for n, p in enumerate(PLAN, start=1))
        for student, answer in LEARNERS.items()
    }
    assert scores["piran"] == len(PLAN) - 0.5  # the rest is right
    assert 0 < scores["tobin"] < len(PLAN)
    assert scores["jory"] == 0


def test_a_learner_who_rewrites_a_test_is_graded_by_the_one_handed_out(graded):
    path = graded / "autograded" / "jory" / NAME / f"{NAME}.ipynb"
    test = cells_of(json.loads(path.read_text(encoding="utf-8")))["points-01"]
    assert "points(answer_01" in "".join(test["source"])
