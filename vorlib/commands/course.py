"""Open the course in the browser, served from this machine to this machine only."""

from __future__ import annotations

import argparse
from pathlib import Path

from vorlib.core.caution import CAUTION
from vorlib.io.notebooks import START, own_notebooks

__all__ = ["add_parser", "find_notebooks", "run"]


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib course`` to the commands."""
    course = commands.add_parser(
        "course",
        help="open the course in your browser",
        description="Open the course in your browser. It is served from this machine, to this "
        "machine only.",
        epilog=CAUTION,
    )
    course.add_argument(
        "--notebooks", type=Path, metavar="FOLDER", help="the folder that holds the notebooks"
    )
    course.add_argument(
        "--to",
        type=Path,
        metavar="FOLDER",
        default=Path("~/vorlib-course"),
        help="the folder for your own copies, which JupyterLab opens (default: %(default)s)",
    )
    course.add_argument("--port", type=_port, help="the port to serve on (default: a free one)")
    course.add_argument(
        "--no-browser",
        dest="browser",
        action="store_false",
        help="open no browser; print the address only",
    )
    course.add_argument(
        "--lab",
        action="store_true",
        help="open your copies of the notebooks in JupyterLab, not the lesson pages",
    )
    course.add_argument(
        "--html",
        type=Path,
        metavar="FOLDER",
        help="write the course there as pages to read or print, and serve nothing",
    )
    course.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Serve the course until it is stopped, or write it as pages to read.

    Raises
    ------
    FileNotFoundError
        If the notebooks are not found.
    OSError
        If your own copies of them cannot be written.
    ValueError
        If these would be where the course's own notebooks are.
    """
    notebooks = find_notebooks(options.notebooks)
    if options.html is not None:
        from vorlib.pages.course_folder import CourseFolder
        from vorlib.pages.still import write_still_course

        first = write_still_course(CourseFolder(notebooks), options.html)[0]
        print(f"written: open {first} in a browser")
        return
    from vorlib.server import serve  # here, so that the help appears at once

    own = options.to.expanduser().resolve()
    serve(notebooks, own, port=options.port, browser=options.browser, lab=options.lab)


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
    places = [folder] if folder else [own_notebooks(), Path.cwd() / "notebooks"]
    for place in places:
        if (place / START).is_file():
            return place.resolve()
    looked = "\n".join(f"  {place.resolve()}" for place in dict.fromkeys(places))
    raise FileNotFoundError(
        f"the course's notebooks are not here. Looked for {START} in:\n{looked}\n"
        "Go to the folder that you downloaded the course to and run the command again there,\n"
        "or name the folder that holds the notebooks: vorlib course --notebooks FOLDER"
    )


def _port(text: str) -> int:
    if not (text.isdecimal() and 1 <= int(text) <= 65535):
        raise argparse.ArgumentTypeError(f"port {text!r} is not a whole number from 1 to 65535")
    return int(text)
