"""The recipes of DEVELOPERS.md, each followed to the letter in a copy of the project."""

import json
import os
import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path
from textwrap import dedent

import nbformat
import pytest

ROOT = Path(__file__).parents[2]
COPIED = ("vorlib", "tests", "notebooks", "README.md", "DEVELOPERS.md", "pyproject.toml")
LEFT = shutil.ignore_patterns(".*")  # what Python has compiled goes with its source

KIND = '''
    """The radials to go to the one you want."""

    from random import Random

    from vorlib.practice.questions.answers import DEGREES
    from vorlib.practice.questions.question import Misconception, Question
    from vorlib.practice.questions.registry import question_kind
    from vorlib.practice.questions.standards import TRACKING


    @question_kind("radials_to_go", lessons=("05",))
    def make(chance: Random) -> Question:
        """Ask how many radials lie between two."""
        on, to_go = chance.randint(100, 200), chance.randint(20, 80)
        wanted = on + to_go
        return Question(
            kind="radials_to_go",
            prompt=f"You are on radial {on} and want radial {wanted}. How many radials to go?",
            form=DEGREES,
            answer=float(to_go),
            tolerance=0.5,
            tolerance_why="Whole degrees go in and whole degrees come out.",
            hints=("Count along the circle.", "Take the lesser from the greater.", "Subtract."),
            worked=f"{wanted} - {on} = {to_go}.",
            element=TRACKING,
            level="recall",
            misconceptions=(
                Misconception(
                    "the wanted radial itself given",
                    float(wanted),
                    "It is the number you will select.",
                    "How far is it from the radial you are on?",
                ),
            ),
        )
'''
EXHIBIT = '''
    """Dots, and the degrees that they are."""

    from dataclasses import dataclass
    from typing import Any

    from vorlib.core.arguments import within
    from vorlib.exhibits.base.controls import Number
    from vorlib.exhibits.base.exhibit import Exhibit
    from vorlib.exhibits.base.registry import exhibit
    from vorlib.views.drawing.picture import Picture
    from vorlib.views.drawing.theme import Theme
    from vorlib.views.instrument.indicator import IndicatorScene, indicator
    from vorlib.vor.receiver import Flag


    @dataclass(frozen=True)
    class NeedleDotsState:
        """A needle so many dots to the right."""

        dots: float = 3.0

        def __post_init__(self) -> None:
            within("dots", self.dots, -5.0, 5.0, "dots")


    def draw(state: NeedleDotsState, theme: Theme) -> Picture:
        """Return the indicator."""
        return indicator(IndicatorScene(40.0, state.dots, Flag.FROM, by_hand=False), theme)


    def sentence(state: NeedleDotsState) -> str:
        """Say how many degrees the needle shows."""
        return f"{state.dots:g} dots are {2.0 * state.dots:g} degrees."


    @exhibit(lesson="02", state=NeedleDotsState)
    def needle_dots(**start: Any) -> Exhibit[NeedleDotsState]:
        """Return the exhibit."""
        needle = Number("dots", "Needle", "dots", -5.0, 5.0, 0.5, decimals=1)
        return Exhibit(NeedleDotsState(**start), draw, sentence, [needle], {})
'''
EXHIBIT_TEST = '''
    """A dot is two degrees."""

    from vorlib.exhibits import needle_dots


    def test_three_dots_are_six_degrees():
        assert needle_dots(dots=3).sentence == "3 dots are 6 degrees."
'''
PREDICTIONS = """
    [[prediction]]
    id = "15-1"
    question = "Which course leads back?"
    choices = ["220", "040"]
    answer = "220"
    reasons = ["The radial is the way", "The way back is the other way"]
    reason = "The way back is the other way"
    because = "It is the reciprocal."
"""
PUBLISHED = """
    # Source: NIST Special Publication 811, 2008 edition, appendix B.8; from memory
    feet,meters
    1,0.3048
"""
PUBLISHED_TEST = '''
    """A foot is what the standard says."""

    from pathlib import Path

    import numpy as np

    from vorlib.core.units import METERS_PER_FOOT

    PUBLISHED = Path(__file__).parents[1] / "data" / "nist_foot.csv"


    def test_a_foot_is_as_long_as_published():
        feet, meters = np.loadtxt(PUBLISHED, delimiter=",", skiprows=2)
        assert feet * METERS_PER_FOOT == meters  # exact by definition
'''


def lesson():
    """Return a lesson, not yet run."""
    v4 = nbformat.v4
    text = "# 15. Holding\n\n## What you will be able to do\n\n- Hold.\n- Leave the hold."
    cells = [
        v4.new_markdown_cell(text, id="title"),
        v4.new_code_cell("import vorlib as v\nfrom vorlib import exhibits as x", id="imports"),
        v4.new_code_cell('x.predict("15-1")', id="predict"),
        v4.new_code_cell("print(v.reciprocal_deg(40))", id="reciprocal"),
    ]
    return nbformat.writes(v4.new_notebook(cells=cells))


FILES = {
    "vorlib/practice/kinds/course/radials_to_go.py": dedent(KIND).lstrip(),
    "vorlib/exhibits/position/needle_dots.py": dedent(EXHIBIT).lstrip(),
    "tests/exhibits/test_needle_dots.py": dedent(EXHIBIT_TEST).lstrip(),
    "notebooks/15_holding.ipynb": lesson(),
    "vorlib/data/predictions/15.toml": dedent(PREDICTIONS).lstrip(),
    "tests/data/nist_foot.csv": dedent(PUBLISHED).lstrip(),
    "tests/core/test_foot.py": dedent(PUBLISHED_TEST).lstrip(),
}


def recipes():
    """Return the recipes by name: the files one writes, and the commands that follow."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    found = {}
    for name, block in re.findall(r"^```recipe (.+)\n([^`]+)```", text, re.M):
        lines = block.splitlines()
        commands = [line.removeprefix("$ ") for line in lines if line.startswith("$ ")]
        found[name] = ([line for line in lines if not line.startswith("$ ")], commands)
    return found


@pytest.fixture
def project(tmp_path):
    """A copy of the project."""
    for name in COPIED:
        copy = shutil.copytree if (ROOT / name).is_dir() else shutil.copy
        copy(ROOT / name, tmp_path / name, **({"ignore": LEFT} if copy is shutil.copytree else {}))
    return tmp_path


def contents(folder):
    """Return what stands in every file, but for what Python and pytest keep."""
    files = [path for path in folder.rglob("*") if path.is_file()]
    kept = {path.relative_to(folder): path for path in files}
    own = re.compile(r"(^|/)(__pycache__|\.[^/]+)/")
    return {str(n): path.read_bytes() for n, path in kept.items() if not own.search(f"{n}")}


# One process for all lines of a recipe, as what they load takes seconds.
ONE_BY_ONE = """
import json, runpy, sys

for program, *arguments in json.loads(sys.argv[1]):
    sys.argv = [program, *arguments]
    start = runpy.run_path if program.endswith(".py") else runpy.run_module
    try:
        start(program, run_name="__main__")
    except SystemExit as end:
        if end.code:
            raise
"""
# Loading nbval takes longer than most recipes, and only notebooks need it.
PLAIN = ["--override-ini=addopts=--import-mode=importlib", "-p", "no:nbval"]


def run(commands, project):
    """Run the lines of a recipe in a copy of the project."""
    lines = []
    for command in commands:
        program, *arguments = shlex.split(command, comments=True)
        if program == "pytest":
            tested = [] if ".ipynb" in command else PLAIN
            arguments += ["-p", "no:cacheprovider", "--numprocesses=0", *tested]
            lines.append([program, *arguments])
        else:
            assert program == "python"
            lines.append(arguments)
    done = subprocess.run(
        [sys.executable, "-c", ONE_BY_ONE, json.dumps(lines)],
        cwd=project,
        env=os.environ | {"PYTHONPATH": str(project)},
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, f"{commands}\n{done.stdout[-3000:]}\n{done.stderr[-3000:]}"


def test_there_is_a_recipe_for_whatever_is_added_most_often():
    assert {"question", "exhibit", "lesson", "published check"} <= set(recipes())


@pytest.mark.parametrize("name", recipes())
def test_a_recipe_touches_the_files_that_it_names_and_no_other(name, project):
    files, commands = recipes()[name]
    before = contents(project)
    for file in files:
        assert not (project / file).exists()
        (project / file).write_text(FILES[file], encoding="utf-8")
    run(commands, project)
    after = contents(project)
    written = {word for c in commands for word in re.findall(r"# writes (\S+)$", c)}
    assert {n for n in after if after[n] != before.get(n)} == {*files} | written
    assert set(before) <= set(after)
