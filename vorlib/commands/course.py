"""``vorlib course``: open the course in the browser, served to this machine only."""

from __future__ import annotations

import argparse
from pathlib import Path

from vorlib.commands.options import add_command
from vorlib.io.notebooks import START, own_notebooks

__all__ = ["add_parser", "find_notebooks", "run"]


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib course`` to the commands."""
    course = add_command(
        commands,
        "course",
        summary="open the course in your browser",
        description="Open the course in your browser. This machine serves it, to itself only, "
        "until you press Ctrl-C.",
        examples="\n--lab\n--html pages",
    )
    course.add_argument(
        "--notebooks",
        type=Path,
        metavar="FOLDER",
        help="the folder that holds the course's notebooks",
    )
    course.add_argument(
        "--to",
        type=Path,
        metavar="FOLDER",
        default=Path("~/vorlib-course"),
        help="the folder for your own copies of the notebooks (default: %(default)s)",
    )
    course.add_argument(
        "--port", type=_port, metavar="N", help="the port to serve on (default: a free one)"
    )
    course.add_argument(
        "--no-browser",
        dest="browser",
        action="store_false",
        help="print the address, and open no browser",
    )
    course.add_argument(
        "--lab",
        action="store_true",
        help="open your own copies of the notebooks in JupyterLab",
    )
    course.add_argument(
        "--html",
        type=Path,
        metavar="FOLDER",
        help="write the course to this folder, as pages to read or print, and serve nothing",
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
        If those would overwrite the course's own notebooks.
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
        The only place to look. By default the checkout that vorlib is installed from and then the
        current directory are searched for a folder ``notebooks``.

    Raises
    ------
    FileNotFoundError
        If the start notebook is in none of these places; the message lists them and says what
        to do.
    """
    places = [folder] if folder else [own_notebooks(), Path.cwd() / "notebooks"]
    for place in places:
        if (place / START).is_file():
            return place.resolve()
    looked = "\n".join(f"  {place.resolve()}" for place in dict.fromkeys(places))
    raise FileNotFoundError(
        f"the course's notebooks were not found. Looked for {START} in:\n{looked}\n"
        "Run the command again in the folder that you downloaded the course to, or name the\n"
        "folder that holds the notebooks: vorlib course --notebooks FOLDER"
    )


def _port(text: str) -> int:
    if not (text.isdecimal() and 1 <= int(text) <= 65535):
        raise argparse.ArgumentTypeError(f"must be a whole number from 1 to 65535, got {text!r}")
    return int(text)
