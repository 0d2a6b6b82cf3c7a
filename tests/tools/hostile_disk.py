"""Disks that are full, read-only or damage a file: nothing is lost, and what to do is said.

    sudo python tests/tools/hostile_disk.py

Small file systems in memory, seen by nobody else, are filled and made read-only. On them an
ordinary user keeps a record, prints a sheet over an older one and opens the course over changed
copies. Then a record is damaged in 300 ways: it gives all its answers, or is refused.
`kill_record.py` kills.
"""

from __future__ import annotations

import contextlib
import io
import os
import random
import shutil
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path

from vorlib import cli
from vorlib.io.notebooks import own_notebooks
from vorlib.lab.copies import make_copies
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.record.record import Record

LEARNER, NOBODY = "Wenna", 65534
SMALL, LARGE = "900k", "20m"  # disks with room for a third of the notebooks, and for all
CHANGED, MINE = "00_start_here.ipynb", b'{"cells": [{"cell_type": "code", "source": "mine"}]}'
SHEET = ("worksheets", "--topic", "05", "--count", "1", "--seed", "7", "--out")
DAMAGES, ANSWERS = 300, 400


def command(*words: str) -> str:
    """Run a command that must be refused, and return in which words."""
    said = io.StringIO()
    with contextlib.redirect_stderr(said), contextlib.redirect_stdout(io.StringIO()):
        assert cli.main(words) == 1, words
    assert len(said.getvalue()) < 300, said.getvalue()
    return said.getvalue().strip()


def contents(folder: Path) -> dict[Path, bytes]:
    """Return all files of a folder, hidden ones too."""
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def keep_until_refused(folder: Path) -> str:
    """Add answers to a record until the disk refuses one; all others must be there."""
    record = Record(LEARNER, folder / "records")
    given = len(record.attempts())
    for seed in range(10**6):
        try:
            record.add(Attempt("reciprocal", seed, "right"))
        except OSError as error:
            assert len(record.attempts()) == given
            return f"{given} answers, all there: {error}"
        given += 1
    raise AssertionError("no disk was full")


def fill(folder: Path) -> None:
    """Fill the disk to the last byte."""
    with contextlib.suppress(OSError), (folder / "filler").open("wb", buffering=0) as filler:
        while True:
            filler.write(bytes(512))


def lay(folder: Path) -> None:
    """Lay a record, an older sheet and a changed copy in a folder."""
    Record(LEARNER, folder / "records").add(Attempt("reciprocal", 1, "right"))
    (folder / "sheet.pdf").write_bytes(b"%PDF- an older sheet")
    (folder / "own").mkdir()
    (folder / "own" / CHANGED).write_bytes(MINE)


def refused(folder: Path, what: str) -> None:
    """Keep, print and copy on a disk that takes nothing: nothing changes, and each says why."""
    before = contents(folder)
    print(f"{what}:\n  the record: {keep_until_refused(folder)}")
    print(f"  a sheet: {command(*SHEET, str(folder / 'sheet.pdf'))}")
    print(f"  the copies: {copies_refused(folder / 'own')}")
    assert contents(folder) == before


def copies_refused(own: Path) -> str:
    """Open the course where its copies have no room: each is whole or not there, and one stays."""
    try:
        make_copies(own_notebooks(), own)
    except OSError as error:
        for path, content in contents(own).items():
            original = own_notebooks() / path.relative_to(own)
            assert content == (MINE if path.name == CHANGED else original.read_bytes()), path
        return f"{len(contents(own))} there, all whole; {cli.refusal(error)}"
    raise AssertionError("there was room")


def damage(folder: Path) -> None:
    """Damage a record: cut it short, blank a page of it, write noise into it."""
    record = Record(LEARNER, folder / "damaged")
    record.add(*(Attempt("reciprocal", seed, "right") for seed in range(ANSWERS)))
    whole = record.path.read_bytes()
    ends: Counter[str] = Counter()
    for run in range(DAMAGES):
        chance = random.Random(run)
        at = chance.randrange(1, len(whole))
        hurt = (b"", bytes(4096), chance.randbytes(512))[run % 3]
        damaged = whole[:at] + hurt + (whole[at + len(hurt) :] if hurt else b"")
        record.path.write_bytes(damaged)
        try:
            assert len(record.attempts()) == ANSWERS, f"damage {run}: answers are missing"
            ends["read whole"] += 1
        except OSError as error:
            assert record.path.read_bytes() == damaged
            ends[f"refused: {str(error).rpartition('untouched. ')[2]}"] += 1
    print("a damaged record:", *(f"\n  {count} times {end}" for end, count in ends.items()))


def stories(folder: Path) -> None:
    """Lay out the disks as root, and then go through all as an ordinary user."""
    full, locked, plain = (folder / name for name in ("full", "locked", "plain"))
    for disk, size in ((full, SMALL), (locked, SMALL), (plain, LARGE)):
        disk.mkdir()
        subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={size}", "tmpfs", disk], check=True)
        lay(disk)
        for path in (disk, *disk.rglob("*")):
            os.chown(path, NOBODY, NOBODY)
    subprocess.run(["mount", "-o", "remount,ro", locked], check=True)
    damage(plain)  # and all that it imports is there when root's files cannot be read any more
    with contextlib.redirect_stdout(io.StringIO()):
        cli.main([*SHEET, str(plain / "sheet.pdf")])
        make_copies(own_notebooks(), plain / "own")
    shutil.rmtree(plain / "damaged")
    os.setgroups([])
    os.setgid(NOBODY)
    os.setuid(NOBODY)
    fill(full)
    refused(full, "a full disk")
    (full / "filler").unlink()
    Record(LEARNER, full / "records").add(Attempt("reciprocal", 2, "right"))
    print("  with room again it goes on")
    print(f"a disk that fills up: {copies_refused(full / 'own')}")
    refused(locked, "a read-only disk")
    damage(plain)


def main() -> int:
    """Go through all in a view of the file systems that nobody else has."""
    if os.geteuid() != 0:
        raise SystemExit("run this as root: it makes small disks, on which an ordinary user works")
    if len(sys.argv) == 2:
        stories(Path(sys.argv[1]))
        print("Nothing was lost.")
        return 0
    with tempfile.TemporaryDirectory(prefix="disks-") as name:
        Path(name).chmod(0o755)
        words = ["unshare", "--mount", sys.executable, __file__, name]
        return subprocess.run(words).returncode


if __name__ == "__main__":
    sys.exit(main())
