"""Write the page of a notebook as HTML: first the text, then the scripts that run its cells."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup
from nbconvert.filters.markdown_mistune import IPythonRenderer, MarkdownWithMath

from vorlib.core.caution import CAUTION
from vorlib.io.notebooks import SAYS_AGAIN, START
from vorlib.pages.course_folder import Part
from vorlib.pages.progress import learners_progress

__all__ = ["EXPLAINS", "NOT_ON_PAGES", "TEMPLATES", "html", "page_end", "page_start"]

TEMPLATES = Environment(
    loader=FileSystemLoader(Path(__file__).parent / "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)
NOT_ON_PAGES = "notebook-only"  # the tag of a cell about JupyterLab itself
PREDICTS, EXPLAINS = "x.predict(", "### Explain"  # begin a cell that asks, a text that answers
HEADING = re.compile(r"^(?=#{1,3} )", re.MULTILINE)  # splits a text before each heading


@dataclass(frozen=True)
class PageBlock:
    """What a page shows for a cell: its text, or a placeholder for its output.

    Attributes
    ----------
    html
        The text; empty for a placeholder.
    run_index
        Number of the cell, among those run, whose output goes here; None for a text.
    asked
        The `run_index` of the prediction above it in the same round, if any.
    explains
        Whether it explains the answer to that prediction.
    gives
        Whether the cell had an output when the notebook was saved.
    """

    html: str
    run_index: int | None = None
    asked: int | None = None
    explains: bool = False
    gives: bool = False


def page_start(
    notebook: Any,
    part: Part,
    parts: Sequence[Part],
    *,
    base_url: str,
    lab_url: str,
    front_end_url: str,
) -> str:
    """Return the part of a page that needs no kernel."""
    contents: dict[str, list[Part]] = {}
    for other in parts:
        contents.setdefault(other.heading, []).append(other)
    row = contents[part.heading]
    here = row.index(part)
    return TEMPLATES.get_template("page_start.html").render(
        part=part,
        place=_place(part, row),
        contents=contents,
        before=row[here - 1] if here else None,
        after=row[here + 1] if here + 1 < len(row) else None,
        blocks=_blocks(notebook),
        learners=learners_progress() if part.name == START else [],
        base_url=base_url,
        pages_url=f"{base_url}voila/render/",
        lab_url=lab_url,
        front_end_url=front_end_url,
        caution=CAUTION,
    )


def page_end(config: dict[str, Any]) -> str:
    """Return the rest of a page: the scripts that run its cells."""
    return TEMPLATES.get_template("page_end.html").render(config=config)


def _place(part: Part, row: Sequence[Part]) -> str:
    """Return where a page stands in the course, such as "Lesson 3 of 14"."""
    if part.number is None:
        return part.heading
    last = row[-1].number
    return f"Lesson {part.number} of {last}" if part.number else f"{last} lessons"


def _blocks(notebook: Any) -> list[PageBlock]:
    blocks, code_cells = [], 0
    asked, explains = None, False
    for cell in notebook.cells:
        shown = NOT_ON_PAGES not in cell.metadata.get("tags", [])
        shown &= not SAYS_AGAIN.fullmatch(cell.source.strip())
        if cell.cell_type == "code":
            code_cells += 1
            index = code_cells + 1  # the first cell run is not in the notebook
            if shown:
                blocks.append(PageBlock("", index, asked, explains, bool(cell.outputs)))
            if PREDICTS in cell.source:
                asked = index
        elif cell.cell_type == "markdown" and shown:
            for text in filter(None, HEADING.split(cell.source)):
                if text.startswith(("# ", "## ")):
                    asked = None
                if text.startswith("#"):
                    explains = asked is not None and text.startswith(EXPLAINS)
                blocks.append(PageBlock(html(text), None, asked, explains))
    return blocks


def html(markdown: str) -> Markup:
    """Return a Markdown text of a notebook as HTML."""
    renderer = IPythonRenderer(escape=False, exclude_anchor_links=True)
    return Markup(MarkdownWithMath(renderer=renderer).render(markdown))
