"""Copy the course's notebooks for a learner, and update the copies the learner has not edited."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from typing import TypeAlias

from vorlib.io.atomic import write_whole
from vorlib.pages.course_folder import CourseFolder, digest

__all__ = ["LIST", "make_copies"]

LIST = ".vorlib-copies.json"  # in the folder of the copies; the leading dot hides it in file lists

Copied: TypeAlias = dict[str, tuple[str, str]]
"""By the notebook's name: the digest of the copied file, and the digest of its cells."""


def make_copies(course: Path, folder: Path) -> list[str]:
    """Copy the course's notebooks to a folder, and bring the copies there up to date.

    A copy whose cells the learner has edited is kept as it is. Outputs left by a run do not count
    as an edit.

    Parameters
    ----------
    course
        The folder of the course's own notebooks.
    folder
        Where the copies are; created if it does not exist.

    Returns
    -------
    list of str
        The notebooks that the learner edited and that the course has in a newer version.

    Raises
    ------
    ValueError
        If the two folders are the same.
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
    """Return the list of what was copied to a folder; empty if it is missing or damaged."""
    try:
        listed = json.loads((folder / LIST).read_bytes())
        return {str(name): (str(file), str(cells)) for name, (file, cells) in listed.items()}
    except (OSError, ValueError, TypeError, AttributeError):
        return {}


def _digest_of_cells(path: Path) -> str:
    """Return a digest of the cells of a notebook, without their outputs.

    A file that cannot be read as a notebook gives an empty string.
    """
    try:
        cells = json.loads(path.read_bytes())["cells"]
        written = [[cell["cell_type"], "".join(cell["source"])] for cell in cells]
    except (OSError, ValueError, TypeError, KeyError):
        return ""
    return hashlib.sha256(json.dumps(written).encode()).hexdigest()
