"""``vorlib worksheets``: printed practice from the words of the command line."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from vorlib.core.caution import CAUTION

if TYPE_CHECKING:
    from vorlib.paper.worksheet import Worksheet

__all__ = ["add_parser", "run"]

COUNT = 20


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib worksheets`` to the commands."""
    worksheets = commands.add_parser(
        "worksheets",
        help="print a problem sheet with its answer key",
        description="Print a problem sheet and an answer key, each a PDF with the same code at its "
        "head, and a card without answers for the air. With --key-for the key is made again.",
        epilog=CAUTION,
    )
    add = worksheets.add_argument
    add("--topic", help="a lesson such as 05, several such as 05,06, a kind of question, or all")
    add("--count", metavar="N", help="how many questions, 1 to 100 (default: 20)")
    add("--seed", metavar="N", help="the same seed gives the same questions (default: a new one)")
    add("--paper", default="A4", help="A4 or Letter (default: A4)")
    add("--out", type=Path, metavar="FILE", required=True, help="the problem sheet, a PDF")
    add("--key", type=Path, metavar="FILE", help="the key (default: sheet_key.pdf for sheet.pdf)")
    add("--card", type=Path, metavar="FILE", help="a card with blanks to fill in the air, a PDF")
    add("--key-for", metavar="CODE", help="write to --out the key of the sheet with this code")
    add("--force", action="store_true", help="replace files of another kind that are there")
    worksheets.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Write a problem sheet and its key, or the key of a sheet made before, and say where.

    Raises
    ------
    ValueError
        If an option cannot be used.
    OSError
        If a file cannot be written.
    """
    from vorlib.io.outputs import check_outputs
    from vorlib.paper.page import page_size
    from vorlib.paper.worksheet import Worksheet
    from vorlib.paper.worksheet_files import save_key, save_worksheet

    size = page_size(options.paper)
    if options.key_for is not None:
        _refuse_with_code(options)
        check_outputs({"--out": options.out}, force=options.force)
        worksheet = Worksheet.of_code(options.key_for)
        written: tuple[Path, ...] = (save_key(worksheet, options.out, size),)
    else:
        worksheet = _worksheet(options)
        key = options.key or options.out.with_name(f"{options.out.stem}_key{options.out.suffix}")
        outputs = {"--out": options.out, "--key": key, "--card": options.card}
        check_outputs(outputs, force=options.force)
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


def _worksheet(options: argparse.Namespace) -> Worksheet:
    """The sheet that the options ask for, from a new seed if none is given."""
    from vorlib.paper.worksheet import Worksheet, new_seed, whole_number

    if options.topic is None:
        raise ValueError("give --topic, or the code of a sheet with --key-for")
    count = COUNT if options.count is None else whole_number("count", options.count)
    seed = new_seed() if options.seed is None else whole_number("seed", options.seed)
    return Worksheet(options.topic, count, seed)
