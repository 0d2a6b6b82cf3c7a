"""``vorlib hub-config``: the course for a class on a JupyterHub."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from vorlib.core.caution import CAUTION
from vorlib.io.atomic import AnyPath, write_all

__all__ = ["HUB_FILE", "LEARNERS_FILE", "add_parser", "hub_files", "run"]

HUB_FILE = "jupyterhub_config.py"
LEARNERS_FILE = "jupyter_server_config.py"


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib hub-config`` to the commands."""
    config = commands.add_parser(
        "hub-config",
        help="set up a JupyterHub for a class",
        description="Print what a JupyterHub is told to serve the course, copy that and the pages "
        "on how to do it into a folder, or set up the learners' environment.",
        epilog=CAUTION,
    )
    add = config.add_argument
    add("--to", type=Path, metavar="FOLDER", help="copy configurations and instructions there")
    add(
        "--here",
        action="store_true",
        help="have every Jupyter server of this Python environment show the course",
    )
    add("--force", action="store_true", help="replace files that are there and differ")
    config.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Print or copy the configuration.

    Raises
    ------
    FileExistsError
        If another file is there already.
    OSError
        If a file cannot be written.
    """
    files = hub_files()
    if options.to is None and not options.here:
        print((files / HUB_FILE).read_text(encoding="utf-8"), end="")
        return
    wanted: dict[AnyPath, bytes] = {}
    if options.to is not None:
        for source in sorted(path for path in files.iterdir() if path.is_file()):
            wanted[options.to / source.name] = source.read_bytes()
    if options.here:
        place = files / LEARNERS_FILE
        wanted[Path(sys.prefix) / "etc" / "jupyter" / place.name] = place.read_bytes()
    for path, text in wanted.items():
        there = Path(path)
        if there.exists() and there.read_bytes() != text and not options.force:
            raise FileExistsError(f"{there} is there and differs: --force replaces it")
        there.parent.mkdir(parents=True, exist_ok=True)
    for written in write_all(wanted):
        print(f"written: {written}")


def hub_files() -> Path:
    """Return the folder of what is shipped for hubs: in the package, or in a checkout's binder."""
    package = Path(__file__).resolve().parents[1]
    inside = package / "hub"
    return inside if inside.is_dir() else package.parent / "binder" / "hub"
