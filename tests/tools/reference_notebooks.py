"""Write the notebooks that are looked things up in: the glossary and the sources.

    python tests/tools/reference_notebooks.py

The glossary is made from `vorlib/data/terms.toml`, the sources from `vorlib/data/sources.toml`.
"""

from __future__ import annotations

import json
import sys
import tomllib
from collections.abc import Iterable, Iterator
from itertools import groupby
from pathlib import Path

import nbformat

sys.path.append(str(Path(__file__).parents[1]))

from tools.save_notebooks import DIGESTS, KERNEL, NOTEBOOKS, digests, protect

from vorlib.core.caution import CAUTION
from vorlib.core.words import spoken_list

DATA = Path(__file__).parents[2] / "vorlib" / "data"
LONGEST = 110  # words of a cell

GLOSSARY = """# Glossary

One word for one thing: what each word of the course means, and the lesson that teaches it."""

SOURCES = """# Sources

Where the facts of the course come from, how each was read, and the lessons that use it."""
NOTICE = f"> {CAUTION}"

MARKS = """## How they were read

- **Read**: the publisher's own file.
- **Read in a copy**: in somebody's copy of the document, of the edition named unless it says
  another.
- **Read in a quotation**: only the passage.
- **At third hand**: only as others tell it.
- **From memory**: not looked up.
- **Common practice**: of no one document."""


def read(name: str) -> dict[str, list[dict[str, object]]]:
    """Return a table of the library's data."""
    return tomllib.loads((DATA / name).read_text(encoding="utf-8"))


def links() -> dict[int, str]:
    """Return the notebooks of the lessons by their numbers."""
    return {int(path.name[:2]): path.name for path in sorted(NOTEBOOKS.glob("[0-9]*.ipynb"))}


def glossary() -> Iterator[str]:
    """Yield the cells of the glossary."""
    yield from (GLOSSARY, NOTICE)
    lessons = links()
    for subject, terms in groupby(read("terms.toml")["term"], key=lambda term: term["subject"]):
        yield from in_cells(f"## {subject}", (_term(term, lessons) for term in terms))


def _term(term: dict[str, object], lessons: dict[int, str]) -> str:
    but_not = f" Not {term['but_not']}." if "but_not" in term else ""
    number = term["lesson"]
    return f"- **{term['term']}**: {term['meaning']}{but_not} [{number}]({lessons[number]})"


def sources() -> Iterator[str]:
    """Yield the cells of the sources."""
    yield from (SOURCES, NOTICE, MARKS)
    yield "## Editions\n\n" + "\n".join(f"- {one}." for one in read("sources.toml")["editions"])
    documents = read("sources.toml")["document"]
    for section, those in groupby(documents, key=lambda document: document["section"]):
        entries = (_fact(document, fact) for document in those for fact in document["fact"])
        yield from in_cells(f"## {section}", entries)


def _fact(document: dict[str, object], fact: dict[str, object]) -> str:
    where = ", ".join(filter(None, (document["document"], fact["place"])))
    told = [f"{where[0].upper()}{where[1:]}: {fact['says']}.", f"*{fact['mark'].capitalize()}.*"]
    if fact["lessons"]:
        told.append(_lessons(fact["lessons"]))
    return f"- {' '.join(told)}"


def _lessons(numbers: list[int]) -> str:
    if len(numbers) == len(links()) - 1:
        return "All lessons."
    return f"{'Lessons' if len(numbers) > 1 else 'Lesson'} {spoken_list([*map(str, numbers)])}."


def in_cells(heading: str, lines: Iterable[str]) -> list[str]:
    """Return lines under a heading, in as few cells as can be read, each about as long."""
    told = [*lines]
    fewest = len(_cut(heading, told, LONGEST))
    limits = (_cut(heading, told, limit) for limit in range(1, LONGEST + 1))
    return next(cells for cells in limits if len(cells) == fewest)


def _cut(heading: str, lines: list[str], longest: int) -> list[str]:
    """Return the cells that lines make when none is longer than so many words, if it can be."""
    cells = [f"{heading}\n\n{lines[0]}"]
    for line in lines[1:]:
        if len(f"{cells[-1]} {line}".split()) > longest:
            cells.append(line)
        else:
            cells[-1] += f"\n{line}"
    return cells


def made() -> dict[str, list[str]]:
    """Return the cells of both notebooks by their names."""
    return {"glossary.ipynb": [*glossary()], "sources.ipynb": [*sources()]}


def main() -> None:
    """Write both, with the digests by which the course knows its notebooks."""
    for name, cells in made().items():
        notebook = nbformat.v4.new_notebook(metadata={"kernelspec": KERNEL})
        notebook.metadata.language_info = {"name": "python"}
        notebook.cells = [
            nbformat.v4.new_markdown_cell(cell, id=f"{name.partition('.')[0]}-{number:02}")
            for number, cell in enumerate(cells, 1)
        ]
        protect(notebook)
        text = nbformat.writes(notebook) + "\n"
        (NOTEBOOKS / name).write_text(text, encoding="utf-8", newline="\n")
    text = json.dumps(digests(), indent=2)
    DIGESTS.write_text(text + "\n", encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
