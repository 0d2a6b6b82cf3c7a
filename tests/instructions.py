"""The instructions of the lessons: as the notebooks give them, and as a hand carries them out.

`tests/browser/instructions` has a table for each lesson. Its headings are the rounds, its keys the
instructions, word for word, and each value says what a hand does and what it then reads:

    "Type 068 as the radial." = [["type 068 into Aircraft on radial", "the reciprocal, 248"]]

A row is a step and any number of findings. A finding is a regular expression that the exhibit's
sentence must hold. `{alert = "..."}` is looked for in the messages beside the controls,
`{chart = "..."}` in the words of the strip chart, `{shown = "..."}` anywhere in the exhibit, its
picture included. An empty value is for the learner alone: to say aloud, to look, to think.

A round that goes back to an earlier one's exhibit says so: `exhibit = "Round 2"`.
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

ROUND = re.compile(r"^## (Round \d+)", re.MULTILINE)
TRY = re.compile(r"^### Try.*?$(.*?)(?=^##|\Z)", re.MULTILINE | re.DOTALL)
NUMBERED = re.compile(r"\A\d+\. ")


def table(lesson: str) -> Table:
    """Return the table of a lesson: by round and instruction, the steps with their findings."""
    return tomllib.loads((TABLES / f"{lesson}.toml").read_text(encoding="utf-8"))


def asked(lesson: str) -> dict[str, dict[str, bool]]:
    """Return what a notebook asks a learner to try: by round, each paragraph of it.

    Each paragraph or numbered instruction, on one line and without its number, says whether it has
    one.
    """
    found: dict[str, dict[str, bool]] = {}
    here = ""
    for cell in nbformat.read(NOTEBOOKS / f"{lesson}.ipynb", as_version=4).cells:
        if cell.cell_type == "markdown":
            here = (ROUND.findall(cell.source) or [here])[-1]
            for tried in TRY.findall(cell.source):
                found.setdefault(here, {}).update(_paragraphs(tried))
    return found


def _paragraphs(text: str) -> dict[str, bool]:
    parts = re.split(r"\n\s*\n|\n(?=\d+\. )", text.strip())
    return {" ".join(NUMBERED.sub("", p).split()): bool(NUMBERED.match(p)) for p in parts if p}
