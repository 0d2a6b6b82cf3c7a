"""Build the wheel and the source archive, check them strictly, and try the wheel on a bare machine.

    sudo python tests/tools/check_wheel.py          # some 40 s, most of them to install it

Builds and checks with `build`, `twine` and `check-wheel-contents`. What is in the archive is what
git knows, to the letter, and what is in the wheel is all of the library, the lessons and the hub's
files, and nothing else. On the bare machine an ordinary user installs the wheel and runs commands,
the README's example, a lesson and the course.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import tarfile
import tempfile
import time
import zipfile
from pathlib import Path

sys.path.append(str(Path(__file__).parents[1]))
from tools.bare_root import BareRoot

ROOT = Path(__file__).parents[2]
LESSON = "02_indicator.ipynb"
SAME_TEXT = "W002"  # rooms that say the same of themselves in an empty __init__.py
PLACES = {"vorlib/": "vorlib/", "notebooks/": "vorlib/notebooks/", "binder/hub/": "vorlib/hub/"}

EXECUTED = f"""
import json, sys, tempfile
from pathlib import Path
import nbformat
from nbclient import NotebookClient
from vorlib.io.notebooks import own_notebooks
book = nbformat.read(own_notebooks() / {LESSON!r}, as_version=4)
NotebookClient(book, timeout=300, kernel_name="python3").execute()
print(sum(cell.cell_type == "code" for cell in book.cells), "cells ran")
"""


def build(into: Path) -> tuple[Path, Path]:
    """Return the wheel and the archive that are built, and checked by others' tools."""
    subprocess.run(
        [sys.executable, "-m", "build", "-o", into, ROOT], check=True, stdout=subprocess.DEVNULL
    )
    (wheel,), (archive,) = into.glob("*.whl"), into.glob("*.tar.gz")
    subprocess.run([sys.executable, "-m", "twine", "check", "--strict", wheel, archive], check=True)
    tool = Path(sys.executable).parent / "check-wheel-contents"
    subprocess.run([tool, "--ignore", SAME_TEXT, wheel], check=True)
    return wheel, archive


def known_to_git() -> dict[str, bytes]:
    """Return the files of the project that are or would be in git, by their paths."""
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT, check=True, capture_output=True, text=True,
    )  # fmt: skip
    names = sorted(name for name in listed.stdout.split("\0") if name and (ROOT / name).is_file())
    return {name: (ROOT / name).read_bytes() for name in names}


def check_contents(wheel: Path, archive: Path) -> None:
    """Hold what is in both against what git knows."""
    there = known_to_git()
    with tarfile.open(archive) as tar:
        members = [member for member in tar.getmembers() if member.isfile()]
        packed = {m.name.partition("/")[2]: tar.extractfile(m).read() for m in members}
    assert packed.pop("PKG-INFO").startswith(b"Metadata-Version")
    _same(there, packed, "the source archive")
    with zipfile.ZipFile(wheel) as zipped:
        names = [name for name in zipped.namelist() if ".dist-info/" not in name]
        inside = {name: zipped.read(name) for name in names}
        (licensed,) = (name for name in zipped.namelist() if name.endswith("licenses/LICENSE"))
        assert zipped.read(licensed) == there["LICENSE"]
    wanted = {
        place + name.removeprefix(start): content
        for name, content in there.items()
        for start, place in PLACES.items()
        if name.startswith(start)
    }
    _same(wanted, inside, "the wheel")
    print(f"contents: {len(packed)} files in the archive, {len(inside)} in the wheel, as in git")


def _same(wanted: dict[str, bytes], packed: dict[str, bytes], what: str) -> None:
    lacks, has = sorted(wanted.keys() - packed.keys()), sorted(packed.keys() - wanted.keys())
    assert (lacks, has) == ([], []), f"{what} lacks {lacks[:5]} and has {has[:5]}"
    differ = [name for name, content in wanted.items() if packed[name] != content]
    assert not differ, f"{what} differs in {differ[:5]}"


def try_on_a_bare_machine(wheel: Path, folder: Path) -> None:
    """Install the wheel as an ordinary user who has nothing else, and use all that it promises."""
    bare = BareRoot(folder, or_home=True)
    if not bare.is_bare:
        print("no root folder can be made here: a home of its own stands in for the bare machine")
    (bare.home / wheel.name).write_bytes(wheel.read_bytes())
    (bare.home / "lesson.py").write_text(EXECUTED)
    (example,) = re.findall(r"```python\n(.*?)```", (ROOT / "README.md").read_text("utf-8"), re.S)
    (bare.home / "example.txt").write_text(example)
    begun = time.monotonic()
    bare.run(f"python3 -m venv env && env/bin/pip install --quiet ./{wheel.name}")
    print(f"installed in {time.monotonic() - begun:.0f} s")
    print(bare.run("env/bin/vorlib --version").strip())
    bare.run("env/bin/python -m doctest example.txt")
    print("the README's example holds")
    print(f"{LESSON}:", bare.run("env/bin/python lesson.py").splitlines()[-1])
    bare.run("env/bin/vorlib hub-config --to hub && test -s hub/jupyterhub_config.py")
    bare.run("env/bin/vorlib worksheets --topic 05 --count 1 --seed 7 --out sheet.pdf")
    with bare.serving("exec env/bin/vorlib course --no-browser --to mine") as course:
        assert "Start here" in course.page()
    installed = next(bare.home.glob("env/lib/*/site-packages/vorlib/notebooks"))
    for original in installed.rglob("*.ipynb"):
        copy = bare.home / "mine" / original.relative_to(installed)
        assert copy.read_bytes() == original.read_bytes(), f"{copy} is no copy"
    print(f"the course is served, and copied: {len([*installed.rglob('*.ipynb')])} notebooks")
    bare.run("env/bin/pip check")


def main() -> None:
    """Build, check and try."""
    with tempfile.TemporaryDirectory(prefix="wheel-") as name:
        folder = Path(name)
        folder.chmod(0o755)
        wheel, archive = build(folder / "dist")
        if (ROOT / ".git").exists() and shutil.which("git"):
            check_contents(wheel, archive)
        else:
            print("no git here: what is packed is not compared with it")
        (folder / "root").mkdir()
        try_on_a_bare_machine(wheel, folder / "root")
    print("The wheel and the source archive are whole.")


if __name__ == "__main__":
    main()
