"""Find the course's notebooks, and the names of its lessons."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

WIDGET_VIEW = "application/vnd.jupyter.widget-view+json"  # the kind of output that needs a kernel
START = "00_start_here.ipynb"

# A cell that prints an exhibit's sentence, for readers without a kernel: the live one shows it.
SAYS_AGAIN = re.compile(r"\w+\.say\(\)")

_LESSON = re.compile(r"(?!00)\d\d_[a-z0-9_]+")  # the start is no lesson, nor is a copy of one


def own_notebooks() -> Path:
    """Return the folder of notebooks that came with vorlib: in the package, or beside a checkout's.

    It need not be there: the library works without notebooks.
    """
    package = Path(__file__).resolve().parents[1]
    inside = package / "notebooks"
    return inside if inside.is_dir() else package.parent / "notebooks"


def lesson_notebooks(folder: Path) -> Mapping[str, str]:
    """Return the names of a folder's lessons, without the ending, by their numbers.

    Parameters
    ----------
    folder
        One that holds notebooks such as ``05_intercepting.ipynb``. Without it there are no lessons.
    """
    lessons: dict[str, str] = {}
    for name in sorted(path.stem for path in folder.glob("*.ipynb")):
        if _LESSON.fullmatch(name):
            lessons.setdefault(name[:2], name)
    return MappingProxyType(lessons)


def first_heading(path: Path) -> str:
    """Return the first line of a notebook, which is its title, without the sign of a heading."""
    cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
    first = next(iter("".join(cells[0]["source"]).splitlines()), "") if cells else ""
    return first.lstrip("# ").strip()
