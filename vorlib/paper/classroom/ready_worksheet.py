"""Draw a worksheet on one misconception, which as many questions as possible can show."""

from __future__ import annotations

from functools import lru_cache
from itertools import chain
from pathlib import Path

from vorlib.paper.page import A4, PageSize
from vorlib.paper.worksheet import Worksheet, new_secret
from vorlib.paper.worksheet_files import save_worksheet
from vorlib.practice.classroom.teaching import TeachAgain

__all__ = ["ready_worksheet", "save_ready_worksheet"]

COUNTS = (10, 5, 3, 1)  # numbers of questions to try: a kind may have few different ones
SEEDS_TRIED = 8


def ready_worksheet(again: TeachAgain, secret: str = "") -> Worksheet:
    """Return ten questions, or fewer, of the kind that showed a misconception most often.

    Parameters
    ----------
    again
        The misconception to come back to.
    secret
        As for `Worksheet`; the same secret gives the same questions.

    Raises
    ------
    ValueError
        If this vorlib has no such question any longer.
    """
    if again.question is None:
        raise ValueError(f"no question of this version shows {again.misconception!r}")
    return _worksheet(again.question.kind, again.misconception, secret)


def save_ready_worksheet(again: TeachAgain, folder: Path, size: PageSize = A4) -> tuple[Path, ...]:
    """Write worksheet and key, named after the misconception and the end of their code.

    Only the key shows the secret. A new sheet does not overwrite an earlier one.

    Raises
    ------
    ValueError
        If this vorlib has no such question any longer.
    OSError
        If they cannot be written.
    """
    worksheet = ready_worksheet(again, new_secret())
    name = f"worksheet-{again.misconception.replace(' ', '-')}-{worksheet.code.rpartition('-')[2]}"
    return save_worksheet(worksheet, folder / f"{name}.pdf", folder / f"{name}-key.pdf", size=size)


@lru_cache(maxsize=64)
def _worksheet(kind: str, misconception: str, secret: str) -> Worksheet:
    """Return, from a few seeds, the worksheet on which most questions can show it."""
    tried = chain.from_iterable(_drawn(kind, count, secret) for count in COUNTS)
    first = next(tried)
    alike = (sheet for sheet in tried if sheet.count == first.count)
    return max((first, *alike), key=lambda sheet: _showing(sheet, misconception))


def _drawn(kind: str, count: int, secret: str) -> list[Worksheet]:
    sheets = [Worksheet(kind, count, seed, secret=secret) for seed in range(1, SEEDS_TRIED + 1)]
    return [sheet for sheet in sheets if _is_full(sheet)]


def _is_full(sheet: Worksheet) -> bool:
    try:
        return bool(sheet.questions)
    except ValueError:  # the kind has fewer different questions
        return False


def _showing(sheet: Worksheet, misconception: str) -> int:
    return sum(misconception in question.foreseen for question in sheet.questions)
