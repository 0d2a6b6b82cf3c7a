"""The folder of the course: which of its notebooks are the course's own, and their titles."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from pathlib import Path
from typing import Any

import nbformat

from vorlib.io.notebooks import START

__all__ = ["CourseFolder", "Part", "digest", "shipped"]


@dataclass(frozen=True)
class Part:
    """A notebook of the course, as the contents list it.

    Attributes
    ----------
    name
        Of the file, within the folder: "05_intercepting.ipynb", "instructor/prepare.ipynb".
    title
        Its first heading, with the lesson's number.
    """

    name: str
    title: str

    @property
    def number(self) -> int | None:
        """The number of the lesson, 0 for the start; None for what is no lesson."""
        return int(self.name[:2]) if self.name[:2].isdigit() else None

    @property
    def heading(self) -> str:
        """Under which heading of the contents it stands."""
        if self.number is not None:
            return "Lessons"
        return "For the instructor" if "/" in self.name else "To look things up"


@dataclass(frozen=True)
class CourseFolder:
    """A folder with the notebooks of the course, and whatever else came to lie in it."""

    path: Path

    @classmethod
    def below(cls, root: Path) -> CourseFolder:
        """Return the folder of the course that a server shows: its root, or `notebooks` in it."""
        inner = root / "notebooks"
        return cls(inner if not (root / START).is_file() and (inner / START).is_file() else root)

    def parts(self) -> list[Part]:
        """Return the course's own notebooks that can be read, in the order of the course."""
        found = []
        for name in shipped():
            try:
                found.append(Part(name, self._title(name)))
            except (OSError, ValueError):
                continue
        return found

    def read(self, name: str) -> Any:
        """Return a notebook, which is not to be changed.

        Raises
        ------
        OSError
            If there is none of that name.
        ValueError
            If what is there is no notebook with something in it.
        """
        path = self.path / name
        stat = path.stat()
        return _read(path, stat.st_mtime_ns, stat.st_size)

    def _title(self, name: str) -> str:
        first = next(iter(self.read(name).cells[0].source.splitlines()), "")
        return first.lstrip("# ").strip() or Path(name).stem

    def left_out(self) -> Iterator[tuple[str, str]]:
        """Yield the notebooks that are not shown, each with the reason."""
        for path in sorted(self.path.rglob("*.ipynb")):
            name = path.relative_to(self.path).as_posix()
            if ".ipynb_checkpoints" in path.parts:
                continue
            if name not in shipped():
                yield name, "it is not part of the course"
                continue
            try:
                self._title(name)
            except (OSError, ValueError) as error:
                yield name, str(error)

    def unchanged(self) -> Iterator[Path]:
        """Yield the notebooks that are, to the letter, those that belong to this vorlib."""
        for name, expected in shipped().items():
            path = self.path / name
            if path.is_file() and digest(path) == expected:
                yield path


def digest(path: Path) -> str:
    """Return what tells a notebook from every other, whatever ends its lines."""
    return hashlib.sha256(path.read_bytes().replace(b"\r\n", b"\n")).hexdigest()


@lru_cache
def shipped() -> Mapping[str, str]:
    """Return the notebooks of this vorlib in the course's order, each with its digest."""
    listed: dict[str, str] = json.loads(
        files("vorlib").joinpath("data/notebooks.json").read_text(encoding="utf-8")
    )
    return listed


@lru_cache(maxsize=64)
def _read(path: Path, _changed_ns: int, _size: int) -> Any:
    try:
        notebook = nbformat.read(path, as_version=4)  # type: ignore[no-untyped-call]
        nbformat.validate(notebook)
        cells = notebook.cells
    except Exception as error:  # of any kind: what is in the file decides which
        raise ValueError("it cannot be read as a notebook") from error
    if not any(cell.source.strip() for cell in cells):
        raise ValueError("it is empty")
    return notebook
