"""The instructions of the lessons: as the notebooks give them, and as a hand carries them out.

`tests/browser/instructions` has a table for each lesson. Its headings are the rounds, its keys the
instructions, word for word, and each value says what a hand does and what it then reads:

    "Type 068 as the radial." = [["type 068 into Aircraft on radial", "to the station is 248"]]

A row is a step and any number of findings. A finding is a regular expression that the exhibit's
sentence must hold. `{alert = "..."}` is looked for in the messages beside the controls,
`{chart = "..."}` in the words of the strip chart, `{shown = "..."}` anywhere in the exhibit, its
picture included. An empty value is for the learner alone: to say aloud, to look, to think.

A round that goes back to an earlier one's exhibit says so: `exhibit = "Round 2"`. In lesson 0,
which has no rounds, the heading stands for one.
"""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any, TypeAlias

import nbformat

__all__ = ["NOTEBOOKS", "TABLES", "asked", "table"]

NOTEBOOKS = Path(__file__).parents[1] / "notebooks"
TABLES = Path(__file__).parent / "browser" / "instructions"

Table: TypeAlias = dict[str, dict[str, list[list[Any]]]]

ROUND = re.compile(r"^## (Round \d+|[^\n:]+)", re.MULTILINE)
TRY = re.compile(r"^### Try.*?$(.*?)(?=^##|\Z)", re.MULTILINE | re.DOTALL)
NUMBER = re.compile(r"\A\d+\. ")


def table(lesson: str) -> Table:
    """Return the table of a lesson: by round and instruction, the steps with their findings."""
    return tomllib.loads((TABLES / f"{lesson}.toml").read_text(encoding="utf-8"))


def asked(lesson: str) -> dict[tuple[str, str], bool]:
    """Return what a notebook asks a learner to try: each paragraph, with its round before it.

    Each is on one line and without its number, and says whether it had one.
    """
    found: dict[tuple[str, str], bool] = {}
    here = ""
    for cell in nbformat.read(NOTEBOOKS / f"{lesson}.ipynb", as_version=4).cells:
        if cell.cell_type == "markdown":
            here = (ROUND.findall(cell.source) or [here])[-1]
            for tried in TRY.findall(cell.source):
                for part in re.split(r"\n\s*\n|\n(?=\d+\. )", tried.strip()):
                    words = " ".join(NUMBER.sub("", part).split())
                    found[here, words] = bool(NUMBER.match(part))
    return found
