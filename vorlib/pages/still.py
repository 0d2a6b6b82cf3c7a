"""Write the course to read without a kernel: a folder of static pages that need no network."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path
from typing import Any, NamedTuple

from markupsafe import Markup

from vorlib.core.caution import CAUTION
from vorlib.io.atomic import AnyPath, write_all
from vorlib.io.notebooks import START
from vorlib.pages.course_folder import CourseFolder, Part
from vorlib.pages.page import NOT_ON_PAGES, TEMPLATES, html

__all__ = ["write_still_course"]

STYLE = "course.css"  # its presence marks a folder of such pages
LINK = re.compile(r'(href=")(?!\w+:)([^"#]+\.ipynb)')
SVG = "image/svg+xml"
UNTIL = re.compile(r"\s*Covered until you \w+,? [^.]*skip\.\s*$")  # static pages cover nothing


class StillBlock(NamedTuple):
    """What a page shows for a cell: its text, or what it printed or drew."""

    text: Markup = Markup()
    said: str = ""
    svg: Markup = Markup()
    png: str = ""


def write_still_course(course: CourseFolder, folder: Path) -> list[Path]:
    """Write every notebook of the course as a page with its saved pictures, linked to each other.

    Parameters
    ----------
    course
        The notebooks, with their outputs.
    folder
        Where the pages go; created if it does not exist. Earlier pages are replaced.

    Returns
    -------
    list of Path
        The pages, the first one to open first.

    Raises
    ------
    FileExistsError
        If the folder holds anything else.
    OSError
        If a page cannot be written.
    """
    if folder.exists() and not (folder / STYLE).is_file() and any(folder.iterdir()):
        raise FileExistsError(f"there is something else in {folder}: name a new folder")
    parts = course.parts()
    files: dict[AnyPath, bytes] = {
        folder / _page_name(part.name): _page(course, part, parts).encode() for part in parts
    }
    style = Path(__file__).parent / "static" / "still.css"
    for path in files:
        Path(path).parent.mkdir(parents=True, exist_ok=True)
    return list(write_all(files | {folder / STYLE: style.read_bytes()}))[:-1]


def _page_name(notebook: str) -> str:
    return "index.html" if notebook == START else f"{notebook.removesuffix('.ipynb')}.html"


def _page(course: CourseFolder, part: Part, parts: Sequence[Part]) -> str:
    row = [other for other in parts if (other.number is None) == (part.number is None)]
    here = row.index(part)
    return TEMPLATES.get_template("still.html").render(
        part=part,
        parts=parts,
        page_name=_page_name,
        up="../" * part.name.count("/"),
        before=row[here - 1] if here else None,
        after=row[here + 1] if here + 1 < len(row) else None,
        blocks=[block for cell in course.read(part.name).cells for block in _blocks(cell)],
        style=STYLE,
        caution=CAUTION,
    )


def _blocks(cell: Any) -> list[StillBlock]:
    if NOT_ON_PAGES in cell.metadata.get("tags", []):
        return []
    if cell.cell_type == "markdown":
        return [StillBlock(text=Markup(LINK.sub(_to_page, html(cell.source))))]
    return [_given(output) for output in cell.get("outputs", [])]


def _to_page(link: re.Match[str]) -> str:
    folder, _, name = link[2].rpartition("/")
    return f"{link[1]}{folder}{'/' if folder else ''}{_page_name(name)}"


def _given(output: Any) -> StillBlock:
    data = output.get("data", {})
    said = output.get("text") or data.get("text/plain", "")
    said = UNTIL.sub("", said)
    return StillBlock(
        said=said, svg=Markup(data.get(SVG, "")), png=data.get("image/png", "").strip()
    )
