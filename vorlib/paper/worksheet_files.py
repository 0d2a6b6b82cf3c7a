"""The files of a worksheet: problem sheet, answer key and card, all of them written or none."""

from __future__ import annotations

from os import PathLike
from pathlib import Path

from vorlib.io.atomic import AnyPath, check_folder, write_all
from vorlib.paper.air_card import card_pages
from vorlib.paper.answer_key import key_pages
from vorlib.paper.page import A4, PageSize, pdf_bytes
from vorlib.paper.problem_sheet import problem_pages
from vorlib.paper.worksheet import Worksheet
from vorlib.practice.learning.topic import Topic

__all__ = ["save_card", "save_key", "save_worksheet"]


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
    paths = [path for path in (sheet, key, card) if path is not None]
    if len({Path(path).resolve() for path in paths}) < len(paths):
        raise ValueError("sheet, key and card must be different files")
    for path in paths:
        check_folder(path)  # before the pages are drawn, which takes seconds
    problems = problem_pages(worksheet, size)
    files: dict[AnyPath, bytes] = {
        sheet: pdf_bytes(problems, f"Problem sheet {worksheet.code}"),
        key: _key_bytes(worksheet, size),
    }
    if card is not None:
        files[card] = _card_bytes(Topic.read(worksheet.topic), size)
    return write_all(files)


def save_key(worksheet: Worksheet, path: str | PathLike[str], size: PageSize = A4) -> Path:
    """Write the answer key alone; the same bytes as beside its sheet."""
    return write_all({path: _key_bytes(worksheet, size)})[0]


def save_card(topic: Topic, path: str | PathLike[str], size: PageSize = A4) -> Path:
    """Write the card for the air alone."""
    return write_all({path: _card_bytes(topic, size)})[0]


def _key_bytes(worksheet: Worksheet, size: PageSize) -> bytes:
    return pdf_bytes(key_pages(worksheet, size), f"Answer key {worksheet.code}")


def _card_bytes(topic: Topic, size: PageSize) -> bytes:
    return pdf_bytes(card_pages(topic, size), f"In-flight card {topic.name}")
