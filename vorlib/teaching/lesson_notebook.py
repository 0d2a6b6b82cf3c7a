"""What a lesson's notebook says of itself: aims, rounds, exhibits and their settings, summary.

Nothing of a lesson is written down twice. Its prose says the aims and what it needs first, its
headings the rounds, its code the predictions, exhibits and practice. What the instructor alone has
to know stands in the notebook's metadata, under "vorlib".
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from typing import Any

from vorlib.core.arguments import quoted
from vorlib.io.notebooks import lesson_notebooks, own_notebooks
from vorlib.teaching.notebook_code import NotebookCode, ShownExhibit

__all__ = ["ForTeaching", "LessonNotebook", "Round", "lesson_notebook", "lesson_numbers"]

AIMS, EXAMPLE, SHORT = "What you will be able to do", "A worked example", "In short"
PRACTICE = "Practice"
ROUND = re.compile(r"Round \d+: (.+)")
_HEADING = re.compile(r"^#{1,3} (.+)$")
_ITEM = re.compile(r"^(?:-|\d+\.) ", re.M)
_TAKES = re.compile(r"\s*This lesson takes about (\d+) minutes(?:; before it, do ([^.]*))?.*")


@dataclass(frozen=True)
class ForTeaching:
    """What the instructor alone has to know of a lesson.

    Attributes
    ----------
    flight
        The first flight that flies it, by its number; 0 for none.
    risks
        Codes of the elements of risk that it touches.
    masters
        Names of the masters for board and table to have at hand.
    """

    flight: int = 0
    risks: tuple[str, ...] = ()
    masters: tuple[str, ...] = ()

    @classmethod
    def of_metadata(cls, said: Mapping[str, Any]) -> ForTeaching:
        """Return what a notebook's metadata says under "vorlib"."""
        return cls(
            said.get("flight", 0), tuple(said.get("risks", ())), tuple(said.get("masters", ()))
        )


@dataclass(frozen=True)
class Round:
    """One idea: what is predicted, tried and explained.

    Attributes
    ----------
    title
        Of the round, which gives nothing away.
    predictions
        Ids of what is predicted.
    exhibits
        What is shown, with its settings.
    steps
        What learners do with it, in their order.
    point
        What the explanation puts in bold first; empty if it puts nothing.
    """

    title: str
    predictions: tuple[str, ...] = ()
    exhibits: tuple[ShownExhibit, ...] = ()
    steps: tuple[str, ...] = ()
    point: str = ""


@dataclass(frozen=True)
class LessonNotebook:
    """A lesson as its notebook tells it.

    Attributes
    ----------
    number, title
        "05" and "Intercepting".
    subject
        What it is about, from below the title.
    aims
        What a learner can do afterwards.
    minutes
        How long it takes; None where it does not say.
    needs
        Numbers of the lessons that come first.
    rounds
        One for each idea.
    example
        What the worked example is about, before its first step; empty where there is none.
    practice, count
        What is practiced: lessons and kinds of question; and how many questions.
    summary
        The lesson in short.
    calls
        Names of everything that the notebook calls.
    teaching
        What the instructor alone has to know.
    """

    number: str
    title: str
    subject: str
    aims: tuple[str, ...]
    minutes: int | None
    needs: tuple[str, ...]
    rounds: tuple[Round, ...]
    example: str
    practice: tuple[str, ...]
    count: int
    summary: tuple[str, ...]
    calls: frozenset[str]
    teaching: ForTeaching = field(default_factory=ForTeaching)


def lesson_numbers(folder: Path | None = None) -> tuple[str, ...]:
    """Return the numbers of the lessons in a folder of notebooks, by default the course's own."""
    return tuple(lesson_notebooks(folder or own_notebooks()))


def lesson_notebook(number: str, folder: Path | None = None) -> LessonNotebook:
    """Return what the notebook of a lesson says.

    Parameters
    ----------
    number
        Such as "05" or "5".
    folder
        Where the notebooks are; by default the course's own.

    Raises
    ------
    ValueError
        If there is no such lesson; the message says which there are.
    """
    names = lesson_notebooks(folder or own_notebooks())
    plain = number.strip().zfill(2)
    if plain not in names:
        raise ValueError(f"the lesson must be one of {', '.join(names)}, got {quoted(number)}")
    path = (folder or own_notebooks()) / f"{names[plain]}.ipynb"
    return _read(path, path.stat().st_mtime_ns)


@lru_cache(maxsize=64)
def _read(path: Path, _changed_ns: int) -> LessonNotebook:
    notebook = json.loads(path.read_text(encoding="utf-8"))
    sections = _sections(notebook["cells"])
    code = NotebookCode([source for part in sections for source in part.code])
    prose = {part.heading: part.prose for part in sections}
    first = sections[0]
    about = _plain(first.prose)
    takes = _TAKES.search(about)
    practice, count = code.practice([s for p in sections if p.heading == PRACTICE for s in p.code])
    return LessonNotebook(
        number=path.name[:2],
        title=first.heading.partition(". ")[2] or first.heading,
        subject=_TAKES.sub("", about),
        aims=_items(prose.get(AIMS, "")),
        minutes=int(takes[1]) if takes else None,
        needs=_lessons(takes[2] or "") if takes else (),
        rounds=tuple(_rounds(sections, code)),
        example=_before_steps(prose.get(EXAMPLE, "")),
        practice=practice,
        count=count,
        summary=_items(prose.get(SHORT, "")),
        calls=code.calls,
        teaching=ForTeaching.of_metadata(notebook["metadata"].get("vorlib", {})),
    )


@dataclass(frozen=True)
class _Section:
    """What stands under a heading of any level, up to the next."""

    heading: str
    prose: str
    code: tuple[str, ...]


def _sections(cells: list[dict[str, Any]]) -> list[_Section]:
    found: list[tuple[str, list[str], list[str]]] = []
    for cell in cells:
        source = "".join(cell["source"])
        if cell["cell_type"] == "code":
            if found:
                found[-1][2].append(source)
            continue
        for line in source.splitlines():
            if heading := _HEADING.match(line):
                found.append((heading[1], [], []))
            elif found:
                found[-1][1].append(line)
    return [_Section(heading, "\n".join(prose), tuple(code)) for heading, prose, code in found]


def _rounds(sections: list[_Section], code: NotebookCode) -> Iterator[Round]:
    """Yield the rounds: each goes on to the next heading that is neither of its three parts."""
    titled: list[tuple[str, list[_Section]]] = []
    for section in sections:
        if match := ROUND.fullmatch(section.heading):
            titled.append((match[1], [section]))
        elif titled and section.heading in (EXAMPLE, PRACTICE, SHORT):
            break
        elif titled:
            titled[-1][1].append(section)
    for title, parts in titled:
        tries = [part for part in parts if part.heading.startswith("Try")]
        sources = [source for part in parts for source in part.code]
        yield Round(
            title,
            code.predictions(sources),
            code.exhibits(sources),
            tuple(step for part in tries for step in _items(part.prose, numbered=True)),
            next(filter(None, (_bold(p.prose) for p in parts if p.heading == "Explain")), ""),
        )


def _lessons(words: str) -> tuple[str, ...]:
    """Return the lessons that are named as needed; "lessons 1 to 9" is nine of them."""
    found: set[int] = set()
    for low, high in re.findall(r"(\d+)(?: to (\d+))?", words):
        found.update(range(int(low), int(high or low) + 1))
    return tuple(f"{number:02d}" for number in sorted(found))


def _items(text: str, numbered: bool = False) -> tuple[str, ...]:
    """Return the items of the first list in a text, or of all numbered ones, without marks."""
    mark = re.compile(r"^\d+\. ", re.M) if numbered else _ITEM
    items = [part.split("\n\n")[0] for part in mark.split(text)[1:]]
    return tuple(_plain(item) for item in items)


def _before_steps(text: str) -> str:
    """Return the first paragraph of a text, up to a list, without what only leads to the list."""
    first = _plain(re.split(r"\n\s*\n|^\d+\. ", text.strip(), maxsplit=1, flags=re.M)[0])
    return re.sub(r"(?<=[.?!\"]) [^.?!]*:$", "", first)


def _bold(text: str) -> str:
    match = re.search(r"\*\*(.+?)\*\*", text, re.S)
    return _plain(match[1]).rstrip(":,") if match else ""


def _plain(text: str) -> str:
    """Return Markdown as words on one line, without links and marks of type."""
    unlinked = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", text)
    return " ".join(re.sub(r"[*`]|</?\w+>", "", unlinked).split())
