"""``vorlib hub-config``: set up a JupyterHub that serves the course to a class."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from vorlib.commands.options import add_command
from vorlib.io.atomic import AnyPath, write_all

__all__ = ["HUB_FILE", "LEARNERS_FILE", "add_parser", "hub_files", "run"]

HUB_FILE = "jupyterhub_config.py"
LEARNERS_FILE = "jupyter_server_config.py"


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib hub-config`` to the commands."""
    config = add_command(
        commands,
        "hub-config",
        summary="set up a JupyterHub for a class",
        description="Print the configuration with which a JupyterHub serves the course. With --to, "
        "copy it and the instructions to a folder; with --here, set up the learners' environment.",
        examples="--to hub\n--here",
    )
    add = config.add_argument
    add(
        "--to",
        type=Path,
        metavar="FOLDER",
        help="copy the configurations and instructions to this folder",
    )
    add(
        "--here",
        action="store_true",
        help="make every Jupyter server of this Python environment show the course",
    )
    add("--force", action="store_true", help="replace existing files that differ")
    config.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Print or copy the configuration.

    Raises
    ------
    FileExistsError
        If a file that differs exists already.
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
            raise FileExistsError(f"{there} exists already and differs: give --force to replace it")
        there.parent.mkdir(parents=True, exist_ok=True)
    for written in write_all(wanted):
        print(f"written: {written}")


def hub_files() -> Path:
    """Return the folder of files shipped for hubs: in the package, or in a checkout's binder."""
    package = Path(__file__).resolve().parents[1]
    inside = package / "hub"
    return inside if inside.is_dir() else package.parent / "binder" / "hub"
