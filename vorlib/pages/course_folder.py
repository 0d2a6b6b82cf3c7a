"""The folder of the course: which of its notebooks belong to the course, and their titles."""

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
        Name of the file within the folder: "05_intercepting.ipynb", "instructor/prepare.ipynb".
    title
        Its first heading, with the lesson's number.
    """

    name: str
    title: str

    @property
    def number(self) -> int | None:
        """The number of the lesson, 0 for the start page; None for other notebooks."""
        return int(self.name[:2]) if self.name[:2].isdigit() else None

    @property
    def heading(self) -> str:
        """The heading of the contents under which it is listed."""
        if self.number is not None:
            return "Lessons"
        return "For the instructor" if "/" in self.name else "To look things up"


@dataclass(frozen=True)
class CourseFolder:
    """A folder with the notebooks of the course, and possibly other files."""

    path: Path

    @classmethod
    def below(cls, root: Path) -> CourseFolder:
        """Return the folder of the course below a server's root: the root, or `notebooks` in it."""
        inner = root / "notebooks"
        return cls(inner if not (root / START).is_file() and (inner / START).is_file() else root)

    def parts(self) -> list[Part]:
        """Return the readable notebooks of the course, in the order of the course."""
        found = []
        for name in shipped():
            try:
                found.append(Part(name, self._title(name)))
            except (OSError, ValueError):
                continue
        return found

    def read(self, name: str) -> Any:
        """Return a notebook; it is cached, so do not change it.

        Raises
        ------
        OSError
            If there is no file of that name.
        ValueError
            If the file is not a notebook, or is empty.
        """
        path = self.path / name
        stat = path.stat()
        return _read(path, stat.st_mtime_ns, stat.st_size)

    def _title(self, name: str) -> str:
        first = next(iter(self.read(name).cells[0].source.splitlines()), "")
        return first.lstrip("# ").strip() or Path(name).stem

    def left_out(self) -> Iterator[tuple[str, str]]:
        """Yield the name of each notebook that is not shown, with the reason."""
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
        """Yield the paths of the notebooks that equal those shipped with this vorlib."""
        for name, expected in shipped().items():
            path = self.path / name
            if path.is_file() and digest(path) == expected:
                yield path


def digest(path: Path) -> str:
    """Return the SHA-256 digest of a notebook, the same for either kind of line ending."""
    return hashlib.sha256(path.read_bytes().replace(b"\r\n", b"\n")).hexdigest()


@lru_cache
def shipped() -> Mapping[str, str]:
    """Return the digests of the notebooks of this vorlib, by name, in the course's order."""
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
    except Exception as error:  # of any kind: it depends on what is in the file
        raise ValueError("it cannot be read as a notebook") from error
    if not any(cell.source.strip() for cell in cells):
        raise ValueError("it is empty")
    return notebook
