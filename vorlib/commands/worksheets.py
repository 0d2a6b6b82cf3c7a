"""What ``vorlib worksheets`` does: printed practice from the words of the command line."""

from __future__ import annotations

import argparse
import secrets
from pathlib import Path

from vorlib.core.caution import CAUTION
from vorlib.paper.page import page_size
from vorlib.paper.worksheet import Worksheet, whole_number
from vorlib.paper.worksheet_files import save_key, save_worksheet

__all__ = ["worksheets"]

COUNT = 20
NEW_SEEDS = 9_999  # few figures to type


def worksheets(options: argparse.Namespace) -> None:
    """Write a problem sheet and its key, or the key of a sheet made before, and say where.

    Raises
    ------
    ValueError
        If an option cannot be used.
    OSError
        If a file cannot be written.
    """
    size = page_size(options.paper)
    if options.key_for is not None:
        _refuse_with_code(options)
        worksheet = Worksheet.of_code(options.key_for)
        written: tuple[Path, ...] = (save_key(worksheet, options.out, size),)
    else:
        if options.topic is None:
            raise ValueError("give --topic, or the code of a sheet with --key-for")
        worksheet = Worksheet(options.topic, _count(options.count), _seed(options.seed))
        key = options.key or options.out.with_name(f"{options.out.stem}_key{options.out.suffix}")
        written = save_worksheet(worksheet, options.out, key, options.card, size)
    print(CAUTION)
    print(f"topic {worksheet.topic}, {worksheet.count} questions, seed {worksheet.seed}")
    print(f"code {worksheet.code}")
    for path in written:
        print(f"written: {path}")


def _refuse_with_code(options: argparse.Namespace) -> None:
    """Refuse what the code decides already."""
    for name in ("topic", "count", "seed", "key", "card"):
        if getattr(options, name) is not None:
            raise ValueError(f"--key-for writes the key alone: leave out --{name}")


def _count(words: str | None) -> int:
    return COUNT if words is None else whole_number("count", words)


def _seed(words: str | None) -> int:
    return 1 + secrets.randbelow(NEW_SEEDS) if words is None else whole_number("seed", words)
