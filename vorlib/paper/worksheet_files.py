"""Write the files of a worksheet: problem sheet, answer key and card, all of them or none."""

from __future__ import annotations

from collections.abc import Sequence
from os import PathLike
from pathlib import Path

from vorlib.io.atomic import AnyPath, check_folder, write_all
from vorlib.paper.air_card import card_pages
from vorlib.paper.answer_key import key_pages
from vorlib.paper.page import A4, PageSize
from vorlib.paper.problem_sheet import SOME, problem_pages
from vorlib.paper.worksheet import Worksheet
from vorlib.practice.learning.topic import Topic
from vorlib.views.drawing.document import pdf_bytes

__all__ = ["key_beside", "save_card", "save_key", "save_worksheet"]


def key_beside(sheet: Path) -> Path:
    """Return the name of the key beside a sheet: sheet_key.pdf for sheet.pdf."""
    return sheet.parent / f"{sheet.stem}_key{sheet.suffix}"


def save_worksheet(
    worksheet: Worksheet,
    sheet: str | PathLike[str],
    key: str | PathLike[str],
    card: str | PathLike[str] | None = None,
    size: PageSize = A4,
    *,
    room: str = SOME,
    variants: int = 1,
) -> tuple[Path, ...]:
    """Write a problem sheet, its key and, if wanted, the in-flight card as PDF.

    Parameters
    ----------
    worksheet
        The sheet, or the first of its variants.
    sheet, key, card, size
        The files and the paper.
    room
        Room to work, as for `problem_pages`.
    variants
        How many variants for neighbors to put in the two files, one after the other.

    Raises
    ------
    ValueError
        If two of the files have the same name, or there are not that many variants.
    OSError
        If a file cannot be written; then none is.
    """
    paths = [path for path in (sheet, key, card) if path is not None]
    if len({Path(path).resolve() for path in paths}) < len(paths):
        raise ValueError("sheet, key and card must be different files")
    for path in paths:
        check_folder(path)  # before the pages are drawn, which takes seconds
    sheets = (worksheet,) if variants == 1 else worksheet.variants(variants)
    problems = [page for one in sheets for page in problem_pages(one, size, room)]
    files: dict[AnyPath, bytes] = {
        sheet: pdf_bytes(problems, f"Problem sheet {worksheet.code}"),
        key: _key_bytes(sheets, size),
    }
    if card is not None:
        files[card] = _card_bytes(Topic.read(worksheet.topic), size)
    return write_all(files)


def save_key(worksheet: Worksheet, path: str | PathLike[str], size: PageSize = A4) -> Path:
    """Write the answer key alone, with the same bytes as beside its sheet."""
    return write_all({path: _key_bytes((worksheet,), size)})[0]


def save_card(topic: Topic, path: str | PathLike[str], size: PageSize = A4) -> Path:
    """Write the in-flight card alone."""
    return write_all({path: _card_bytes(topic, size)})[0]


def _key_bytes(sheets: Sequence[Worksheet], size: PageSize) -> bytes:
    pages = [page for one in sheets for page in key_pages(one, size)]
    return pdf_bytes(pages, f"Answer key {sheets[0].code}")


def _card_bytes(topic: Topic, size: PageSize) -> bytes:
    return pdf_bytes(card_pages(topic, size), f"In-flight card {topic.name}")
