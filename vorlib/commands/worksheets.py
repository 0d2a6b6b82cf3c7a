"""``vorlib worksheets``: print a problem sheet with its answer key."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from vorlib.commands.options import FORCE, PAPER, add_command
from vorlib.core.caution import CAUTION

if TYPE_CHECKING:
    from vorlib.paper.page import PageSize
    from vorlib.paper.worksheet import Worksheet

__all__ = ["add_parser", "run"]

COUNT = 20
DECIDED = ("topic", "count", "seed", "key", "card", "variants", "swap", "room", "open")


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib worksheets`` to the commands."""
    worksheets = add_command(
        commands,
        "worksheets",
        summary="print a problem sheet with its answer key",
        description="Print a problem sheet and its answer key, each a PDF with the same code at "
        "the top. The key also shows a secret: only code and secret together make the key again, "
        "with --key-for.",
        examples="--topic 05 --out sheet.pdf\n--topic 05,06 --count 10 --card card.pdf --out "
        "sheet.pdf\n--key-for CODE --secret WORD --out key.pdf",
    )
    add = worksheets.add_argument
    add(
        "--topic",
        metavar="TOPIC",
        help="a lesson such as 05, several such as 05,06, a kind of question, or all",
    )
    add("--count", metavar="N", help="how many questions, 1 to 100 (default: 20)")
    add(
        "--seed",
        metavar="N",
        help="a whole number; the same gives the same questions (default: new)",
    )
    add(
        "--variants",
        metavar="N",
        help="how many sheets, different for neighbors, 1 to 4 (default: 1)",
    )
    add("--swap", metavar="N,N", help="numbers of the questions to replace by others, such as 3,12")
    add("--room", metavar="ROOM", help="room to work: little, some or plenty (default: some)")
    add("--secret", metavar="WORD", help="the secret of the key (default: a new one)")
    add("--open", action="store_true", help="use no secret: whoever has the code can make the key")
    add("--paper", **PAPER)
    add("--out", type=Path, metavar="FILE", required=True, help="the problem sheet (.pdf)")
    add(
        "--key",
        type=Path,
        metavar="FILE",
        help="the answer key (.pdf; default: sheet_key.pdf for sheet.pdf)",
    )
    add(
        "--card",
        type=Path,
        metavar="FILE",
        help="a card to fill in while flying, without answers (.pdf)",
    )
    add(
        "--key-for",
        metavar="CODE",
        help="write only a key, to --out: that of the sheet with this code",
    )
    add("--force", **FORCE)
    worksheets.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Write a problem sheet and its key, or the key of an earlier sheet, and print their names.

    Raises
    ------
    ValueError
        If an option cannot be used.
    OSError
        If a file cannot be written.
    """
    from vorlib.paper.page import page_size

    size = page_size(options.paper)
    make = _key_again if options.key_for is not None else _sheet_and_key
    worksheet, written = make(options, size)
    print(CAUTION)
    print(f"topic {worksheet.topic}, {worksheet.count} questions, seed {worksheet.seed}")
    print(f"code {worksheet.code}")
    if worksheet.secret:
        print(f"secret {worksheet.secret}: on the key only; code and secret make the key again")
    for path in written:
        print(f"written: {path}")


def _key_again(options: argparse.Namespace, size: PageSize) -> tuple[Worksheet, tuple[Path, ...]]:
    """Write the key of an earlier sheet."""
    from vorlib.io.outputs import check_outputs
    from vorlib.paper.worksheet import Worksheet, read_secret
    from vorlib.paper.worksheet_files import save_key

    check_outputs({"--out": options.out}, force=options.force)
    for name in DECIDED:  # by the code already
        if getattr(options, name):
            raise ValueError(f"--key-for writes only a key: leave out --{name}")
    worksheet = Worksheet.of_code(options.key_for, read_secret(options.secret or ""))
    return worksheet, (save_key(worksheet, options.out, size),)


def _sheet_and_key(
    options: argparse.Namespace, size: PageSize
) -> tuple[Worksheet, tuple[Path, ...]]:
    """Write the sheet that the options ask for, its key and any card."""
    from vorlib.io.outputs import check_outputs
    from vorlib.paper.problem_sheet import SOME
    from vorlib.paper.worksheet_files import key_beside, save_worksheet

    key = options.key or key_beside(options.out)
    outputs = {"--out": options.out, "--key": key, "--card": options.card}
    check_outputs(outputs, force=options.force)
    worksheet = _worksheet(options)
    variants = _numbers("variants", options.variants or "1")
    written = save_worksheet(
        worksheet, options.out, key, options.card, size,
        room=options.room or SOME, variants=variants[0],
    )  # fmt: skip
    return worksheet, written


def _worksheet(options: argparse.Namespace) -> Worksheet:
    """Return the sheet that the options ask for, from a new seed and secret if none is given."""
    from vorlib.paper.worksheet import Worksheet, new_secret, new_seed, whole_number

    if options.topic is None:
        raise ValueError("give --topic, or --key-for with the code of a sheet")
    if options.open and options.secret:
        raise ValueError("--open uses no secret: leave out --open or --secret")
    count = COUNT if options.count is None else whole_number("count", options.count)
    seed = new_seed() if options.seed is None else whole_number("seed", options.seed)
    swaps = _numbers("swap", options.swap) if options.swap else ()
    secret = "" if options.open else options.secret or new_secret()
    return Worksheet(options.topic, count, seed, swaps=swaps, secret=secret)


def _numbers(option: str, words: str) -> tuple[int, ...]:
    """Return whole numbers separated by commas."""
    parts = [part.strip() for part in words.split(",")]
    if not all(part.isdecimal() for part in parts):
        raise ValueError(f"--{option} must be whole numbers such as 3,12, got {words!r}")
    return tuple(map(int, parts))
