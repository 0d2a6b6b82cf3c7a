"""The page of a notebook, as HTML: all that can be read at once, and what makes it alive."""

from __future__ import annotations

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

__all__ = ["NOT_ON_PAGES", "TEMPLATES", "html", "page_end", "page_start"]

TEMPLATES = Environment(
    loader=FileSystemLoader(Path(__file__).parent / "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)
NOT_ON_PAGES = "notebook-only"  # the tag of a cell about JupyterLab itself


@dataclass(frozen=True)
class PageBlock:
    """What stands on a page in place of a cell: its text, or a place for what it gives."""

    html: str
    run_index: int | None = None


def page_start(
    notebook: Any,
    part: Part,
    parts: Sequence[Part],
    *,
    base_url: str,
    lab_url: str,
    front_end_url: str,
) -> str:
    """Return a page but for what needs its kernel."""
    lessons = [other for other in parts if other.number is not None]
    instructor = [other for other in parts if other.number is None]
    row = instructor if part.number is None else lessons
    here = row.index(part)
    return TEMPLATES.get_template("page_start.html").render(
        part=part,
        place=_place(part, lessons),
        lessons=lessons,
        instructor=instructor,
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
    """Return the rest of a page, which runs its cells."""
    return TEMPLATES.get_template("page_end.html").render(config=config)


def _place(part: Part, lessons: Sequence[Part]) -> str:
    """Say where in the course a page is."""
    if part.number is None:
        return "For the instructor"
    last = lessons[-1].number
    return f"Lesson {part.number} of {last}" if part.number else f"{last} lessons"


def _blocks(notebook: Any) -> list[PageBlock]:
    blocks, code_cells = [], 0
    for cell in notebook.cells:
        shown = NOT_ON_PAGES not in cell.metadata.get("tags", [])
        shown &= not SAYS_AGAIN.fullmatch(cell.source.strip())
        if cell.cell_type == "code":
            code_cells += 1
            if shown:
                # the first that is run is no cell of the notebook, and the count begins with 1
                blocks.append(PageBlock("", code_cells + 1))
        elif cell.cell_type == "markdown" and shown:
            blocks.append(PageBlock(html(cell.source)))
    return blocks


def html(markdown: str) -> Markup:
    """Return the text of a notebook as HTML."""
    renderer = IPythonRenderer(escape=False, exclude_anchor_links=True)
    return Markup(MarkdownWithMath(renderer=renderer).render(markdown))
