"""``vorlib debrief``: a recorded flight held against what the needle must have shown."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from vorlib.core.arguments import ArgumentError
from vorlib.core.caution import CAUTION

if TYPE_CHECKING:
    from vorlib.debrief.files import DebriefedFile

__all__ = ["add_parser", "run"]

OF_A_TRACK = ("stations", "selections", "columns", "flight", "altitude", "airspeed", "variation")
# The option for an argument of the reader, as it may be given.
OPTIONS = {
    "altitude_ft": "--altitude 5500",
    "number": "--flight 1",
    "columns": "--columns time=UTC,lat_deg=Latitude,lon_deg=Longitude,altitude=Height",
}


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib debrief`` to the commands."""
    debrief = commands.add_parser(
        "debrief",
        help="hold a recorded flight against what the needle must have shown",
        description="Say what was found in a recorded flight and print it on one page. Without a "
        "track it is the example flight of the course; without stations they are those of the "
        "invented islands; without selections they are estimated from the track.",
        epilog=CAUTION,
    )
    add = debrief.add_argument
    add("track", type=Path, nargs="?", metavar="TRACK", help="a GPX file or a table (CSV)")
    add("--stations", type=Path, metavar="FILE", help="NAV_BASE.csv, a navaids.csv, or your own")
    add("--selections", type=Path, metavar="FILE", help="time,station,course; times UTC or seconds")
    add("--out", type=Path, metavar="FILE", required=True, help="the debrief, a PDF")
    add("--csv", type=Path, metavar="FILE", help="the flight second by second, a table (CSV)")
    add("--flight", type=int, metavar="N", help="which flight, if the file holds several")
    add("--altitude", type=float, metavar="FT", help="where no altitude was recorded")
    add("--airspeed", type=float, metavar="KT", help="true airspeed, if it is known")
    add("--columns", metavar="NAME=COLUMN,...", help="of a table: lat_deg=Lat,altitude=Height,...")
    add("--variation", type=float, metavar="DEG", help="of the compass, east positive")
    add("--paper", default="A4", help="A4 or Letter (default: A4)")
    debrief.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Say what was found in a flight, and write the page and the table that are wanted.

    Raises
    ------
    ValueError
        If an option or a file cannot be used.
    OSError
        If a file cannot be opened or written.
    """
    from vorlib.debrief.seconds_table import seconds_csv
    from vorlib.io.atomic import check_folder, write_all
    from vorlib.paper.debrief import debrief_pdf
    from vorlib.paper.page import page_size
    from vorlib.stations.archipelago import ISLANDS

    size = page_size(options.paper)
    wanted = [path for path in (options.out, options.csv) if path is not None]
    for path in wanted:
        check_folder(path)
    if len({path.resolve() for path in wanted}) < len(wanted):
        raise ValueError(f"--out and --csv must be two files, got {options.out} for both")
    try:
        found = _debriefed(options)
    except ArgumentError as error:
        raise ArgumentError(_with_option(error), argument=error.argument) from error
    made, coasts = found.debrief, ISLANDS if found.stations is None else ()
    name = options.track.name if options.track else "the example flight"
    files = {options.out: debrief_pdf(made, size, name=name, coasts=coasts)}
    if options.csv is not None:
        files[options.csv] = seconds_csv(made).encode()
    on = made.start.date() if made.start else None
    print(found.stations.summary(on) if found.stations and on else CAUTION)
    print("\n".join(made.sentences))
    for path in write_all(files):
        print(f"written: {path}")


def _with_option(error: ArgumentError) -> str:
    """A refusal, with the option that can mend it if there is one."""
    option = OPTIONS.get(error.argument)
    return str(error) if option is None else f"{error}\nsuch as: {option}"


def _debriefed(options: argparse.Namespace) -> DebriefedFile:
    from vorlib.debrief.files import debrief_example, debrief_from_files
    from vorlib.tracks import Columns

    if options.track is not None:
        return debrief_from_files(
            options.track,
            options.stations,
            options.selections,
            columns=Columns.from_words(options.columns) if options.columns else None,
            number=options.flight,
            altitude_ft=options.altitude,
            true_airspeed_kt=options.airspeed,
            variation_deg=options.variation,
        )
    alone = [name for name in OF_A_TRACK if getattr(options, name) is not None]
    if alone:
        raise ValueError(f"--{alone[0]} belongs to a track: name the file of one")
    return debrief_example()
