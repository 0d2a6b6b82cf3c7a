"""The command line: ``vorlib course`` opens the course in a browser."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from importlib.metadata import version
from pathlib import Path

from vorlib.caution import CAUTION

__all__ = ["main"]

START = "00_start_here.ipynb"


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line and return its exit status: 0 for success, 1 for a failure it names."""
    parser = _parser()
    options = parser.parse_args(arguments)
    if options.run is None:
        parser.print_help()
        return 0
    try:
        options.run(options)
    except (FileNotFoundError, ValueError) as error:
        print(f"vorlib: {error}", file=sys.stderr)
        return 1
    return 0


def find_notebooks(folder: Path | None = None) -> Path:
    """Return the folder that holds the course's notebooks.

    Parameters
    ----------
    folder
        Where to look, and nowhere else. By default the checkout that vorlib is installed from, then
        the current directory, is searched for a folder ``notebooks``.

    Raises
    ------
    FileNotFoundError
        When the start notebook is in none of these places; the message says where it was looked
        for and what to do.
    """
    places = [folder] if folder else [_own_notebooks(), Path.cwd() / "notebooks"]
    for place in places:
        if (place / START).is_file():
            return place.resolve()
    looked = "\n".join(f"  {place.resolve()}" for place in dict.fromkeys(places))
    raise FileNotFoundError(
        f"the course's notebooks are not here. Looked for {START} in:\n{looked}\n"
        "Go to the folder that you downloaded the course to and run the command again there,\n"
        "or name the folder that holds the notebooks: vorlib course --notebooks FOLDER"
    )


def _own_notebooks() -> Path:
    """Return the folder of notebooks beside the package, which a checkout has."""
    return Path(__file__).resolve().parent.parent / "notebooks"


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="vorlib",
        description="A course in VOR navigation, in notebooks.",
        epilog=CAUTION,
    )
    parser.add_argument("--version", action="version", version=f"vorlib {version('vorlib')}")
    parser.set_defaults(run=None)
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    _add_course(commands)
    return parser


def _add_course(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    course = commands.add_parser(
        "course",
        help="open the course in JupyterLab",
        description="Open the course in JupyterLab, served from this machine to this machine only.",
        epilog=CAUTION,
    )
    course.add_argument(
        "--notebooks", type=Path, metavar="FOLDER", help="the folder that holds the notebooks"
    )
    course.add_argument("--port", type=_port, help="the port to serve on (default: a free one)")
    course.add_argument(
        "--no-browser",
        dest="browser",
        action="store_false",
        help="open no browser; print the address only",
    )
    course.set_defaults(run=_course)


def _course(options: argparse.Namespace) -> None:
    notebooks = find_notebooks(options.notebooks)
    from vorlib.server import serve  # here, so that the help appears at once

    own = notebooks == _own_notebooks()  # as trustworthy as this program, unlike any other folder
    serve(notebooks / START, port=options.port, browser=options.browser, trust=own)


def _port(text: str) -> int:
    if not (text.isdecimal() and 1 <= int(text) <= 65535):
        raise argparse.ArgumentTypeError(f"port {text!r} is not a whole number from 1 to 65535")
    return int(text)


if __name__ == "__main__":
    sys.exit(main())
