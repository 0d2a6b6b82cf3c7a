"""The files of a worksheet: problem sheet, answer key and card, all of them written or none."""

from __future__ import annotations

from os import PathLike
from pathlib import Path

from vorlib.paper.air_card import card_pages
from vorlib.paper.answer_key import key_pages
from vorlib.paper.page import A4, PageSize, pdf_bytes
from vorlib.paper.problem_sheet import problem_pages
from vorlib.paper.worksheet import Topic, Worksheet
from vorlib.wholefile import AnyPath, write_all

__all__ = ["save_key", "save_worksheet"]


def save_worksheet(
    worksheet: Worksheet,
    sheet: str | PathLike[str],
    key: str | PathLike[str],
    card: str | PathLike[str] | None = None,
    size: PageSize = A4,
) -> tuple[Path, ...]:
    """Write a problem sheet, its key and, if it is wanted, the card as PDF.

    Raises
    ------
    ValueError
        If two of the files have one name.
    OSError
        If a file cannot be written; then none is.
    """
    files: dict[AnyPath, bytes] = {}
    wanted = [(sheet, problem_pages(worksheet, size)), (key, key_pages(worksheet, size))]
    if card is not None:
        wanted.append((card, card_pages(Topic.read(worksheet.topic), size)))
    if len({Path(path).resolve() for path, _ in wanted}) < len(wanted):
        raise ValueError("sheet, key and card must be different files")
    for path, pages in wanted:
        files[path] = pdf_bytes(pages, f"{pages[0].title.partition(',')[0]} {worksheet.code}")
    return write_all(files)


def save_key(worksheet: Worksheet, path: str | PathLike[str], size: PageSize = A4) -> Path:
    """Write the answer key alone; the same bytes as beside its sheet."""
    pages = key_pages(worksheet, size)
    return write_all({path: pdf_bytes(pages, f"Answer key {worksheet.code}")})[0]
