"""A learner's own copies of the notebooks: made once, updated, and never taken from the learner."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from typing import TypeAlias

from vorlib.io.atomic import write_whole
from vorlib.pages.course_folder import CourseFolder, digest

__all__ = ["LIST", "make_copies"]

LIST = ".vorlib-copies.json"  # in the folder of the copies; a list of files leaves it out

Copied: TypeAlias = dict[str, tuple[str, str]]
"""By name: the digest of the file that was copied, and that of what is written in it."""


def make_copies(course: Path, folder: Path) -> list[str]:
    """Copy the course's notebooks to a folder, and bring the copies there up to date.

    A copy in whose cells something else is written than was copied is the learner's, and stays as
    it is. What a run leaves in a notebook is no change.

    Parameters
    ----------
    course
        The folder of the course's own notebooks.
    folder
        Where the copies are; it is made when it is not there.

    Returns
    -------
    list of str
        The notebooks of which there is a newer version than the learner's, which was kept.

    Raises
    ------
    ValueError
        If both are the same folder.
    OSError
        If a copy cannot be written.
    """
    if folder.resolve() == course.resolve():
        raise ValueError(
            f"the folder {folder} holds the course's own notebooks; choose another for your copies"
        )
    copied = _read_list(folder)
    kept = []
    for part in CourseFolder(course).parts():
        source, copy = course / part.name, folder / part.name
        version = digest(source), _digest_of_cells(source)
        before, now = copied.get(part.name), _digest_of_cells(copy)
        is_old = before is not None and before != version and now == before[1]
        if is_old or not copy.exists():
            copy.parent.mkdir(parents=True, exist_ok=True)
            write_whole(copy, source.read_bytes())
        elif before != version and now != version[1]:
            kept.append(part.name)
            continue
        copied[part.name] = version
    folder.mkdir(parents=True, exist_ok=True)
    write_whole(folder / LIST, json.dumps(copied, indent=1).encode())
    return kept


def _read_list(folder: Path) -> Copied:
    """Return what was copied to a folder; nothing when that is not known."""
    try:
        listed = json.loads((folder / LIST).read_bytes())
        return {str(name): (str(file), str(cells)) for name, (file, cells) in listed.items()}
    except (OSError, ValueError, TypeError, AttributeError):
        return {}


def _digest_of_cells(path: Path) -> str:
    """Return what tells apart what is written in notebooks, whatever a run left there.

    A file that is no notebook is like no other: it gives nothing.
    """
    try:
        cells = json.loads(path.read_bytes())["cells"]
        written = [[cell["cell_type"], "".join(cell["source"])] for cell in cells]
    except (OSError, ValueError, TypeError, KeyError):
        return ""
    return hashlib.sha256(json.dumps(written).encode()).hexdigest()
