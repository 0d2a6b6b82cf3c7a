"""``vorlib debrief``: a recorded flight held against what the needle must have shown."""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from vorlib.core.arguments import ArgumentError
from vorlib.core.caution import CAUTION

if TYPE_CHECKING:
    from vorlib.debrief.files import DebriefedFile
    from vorlib.debrief.report.planned import Plan
    from vorlib.paper.debrief import Notes

__all__ = ["add_parser", "run"]

OF_A_TRACK = ("stations", "selections", "columns", "flight", "altitude", "airspeed", "variation")
AT_THE_HEAD = ("student", "instructor", "aircraft", "lesson")
# The option for an argument of the reader, as it may be given; the first holds for both flights.
ALTITUDE = {"altitude_ft": "--altitude 5500"}
OPTIONS = ALTITUDE | {
    "number": "--flight 1",
    "columns": "--columns time=UTC,lat_deg=Latitude,lon_deg=Longitude,altitude=Height",
    "date_order": "--columns date_order=mdy",
    "magnetic_heading_deg": "--columns magnetic_heading_deg=-",
}


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib debrief`` to the commands."""
    debrief = commands.add_parser(
        "debrief",
        help="hold a recorded flight against what the needle must have shown",
        description="Say what was found in a recorded flight and print it. Without a "
        "track it is the example flight of the course; without stations they are those of the "
        "invented islands; without selections they are estimated from the track.",
        epilog=CAUTION,
    )
    add = debrief.add_argument
    add("track", type=Path, nargs="?", metavar="TRACK", help="a GPX file or a table (CSV)")
    add("--stations", type=Path, metavar="FILE", help="NAV_BASE.csv, a navaids.csv, or your own")
    add(
        "--selections",
        type=Path,
        metavar="FILE",
        help="time,station,course; times UTC or seconds; off for a station ends a selection",
    )
    add("--out", type=Path, metavar="FILE", required=True, help="the debrief, a PDF")
    add("--csv", type=Path, metavar="FILE", help="the flight second by second, a table (CSV)")
    add("--flight", type=int, metavar="N", help="which flight, if the file holds several")
    add("--altitude", type=float, metavar="FT", help="where no altitude was recorded")
    add("--airspeed", type=float, metavar="KT", help="true airspeed, if it is known")
    add(
        "--columns",
        metavar="NAME=COLUMN,...",
        help="of a table, where they are not found by their names: lat_deg=Lat,altitude_unit=m,...",
    )
    add("--variation", type=float, metavar="DEG", help="of the compass, east positive")
    add("--paper", default="A4", help="A4 or Letter (default: A4)")
    for who in AT_THE_HEAD:
        add(f"--{who}", default="", metavar="WORDS", help="at the head of the page")
    add("--strike", metavar="N,N", help="findings, by their numbers, that are not to be printed")
    add("--planned-wind", metavar="DEG/KT", help="forecast wind, true, such as 250/20")
    add("--planned-altitude", type=float, metavar="FT", help="above the sea")
    add("--planned-airspeed", type=float, metavar="KT", help="planned true airspeed")
    add("--planned-fields", type=Path, metavar="FILE", help="as for prepare: fields to fly over")
    add("--beside", type=Path, metavar="TRACK", help="another flight, to be held side by side")
    add("--beside-selections", type=Path, metavar="FILE", help="what was selected on that flight")
    add("--beside-out", type=Path, metavar="FILE", help="both flights side by side, a PDF")
    add("--force", action="store_true", help="replace files of another kind that are there")
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
    from vorlib.debrief.report.seconds_table import seconds_csv
    from vorlib.io.atomic import write_all
    from vorlib.paper.debrief import debrief_pdf
    from vorlib.paper.page import page_size
    from vorlib.paper.two_flights import two_flights_pdf
    from vorlib.stations.archipelago import ISLANDS

    size = page_size(options.paper)
    _check_files(options)
    with _mended_by(OPTIONS):
        found = _debriefed(options)
    with _mended_by(ALTITUDE):
        other = _beside(options)
    made, coasts = found.debrief, ISLANDS if found.stations is None else ()
    name = options.track.name if options.track else "the example flight"
    notes, plan = _notes(options), _plan(options)
    pdf = debrief_pdf(made, size, name=name, coasts=coasts, notes=notes, plan=plan)
    files = {options.out: pdf}
    if options.csv is not None:
        files[options.csv] = seconds_csv(made).encode()
    if other is not None:
        two = (name, made), (options.beside.name, other.debrief)
        files[options.beside_out] = two_flights_pdf(*two, size, notes=notes)
    on = made.start.date() if made.start else None
    print(found.stations.summary(on) if found.stations and on else CAUTION)
    print("\n".join(made.sentences))
    for path in write_all(files):
        print(f"written: {path}")


def _check_files(options: argparse.Namespace) -> None:
    """Refuse what cannot be written without harm, before anything is worked out."""
    from vorlib.io.outputs import check_outputs

    outputs = {"--out": options.out, "--csv": options.csv, "--beside-out": options.beside_out}
    inputs = [options.track, options.stations, options.selections, options.beside]
    inputs += [options.beside_selections, options.planned_fields]
    check_outputs(outputs, inputs, kinds={"--csv": ".csv"}, force=options.force)


def _notes(options: argparse.Namespace) -> Notes:
    from vorlib.paper.debrief import Notes

    words = [part.strip() for part in (options.strike or "").split(",") if part.strip()]
    if not all(word.isdecimal() for word in words):
        raise ValueError(f"--strike must be numbers such as 2,5, got {options.strike!r}")
    who = {name: getattr(options, name) for name in AT_THE_HEAD}
    return Notes(**who, struck=frozenset(map(int, words)))


def _plan(options: argparse.Namespace) -> Plan:
    from vorlib.briefing.files import wind_from_words
    from vorlib.debrief.report.planned import Plan
    from vorlib.stations.fields_csv import read_fields

    fields = tuple(read_fields(options.planned_fields)) if options.planned_fields else ()
    return Plan(
        wind=wind_from_words(options.planned_wind) if options.planned_wind else None,
        altitude_ft=options.planned_altitude,
        true_airspeed_kt=options.planned_airspeed,
        fields=fields,
    )


def _beside(options: argparse.Namespace) -> DebriefedFile | None:
    from vorlib.debrief.files import debrief_from_files

    if (options.beside is None) != (options.beside_out is None):
        raise ValueError("--beside and --beside-out belong together: name the file of each")
    if options.beside is None:
        return None
    return debrief_from_files(
        options.beside, options.stations, options.beside_selections, altitude_ft=options.altitude
    )


@contextmanager
def _mended_by(options: Mapping[str, str]) -> Iterator[None]:
    """Name in a refusal the option that can mend it, if one of these can."""
    try:
        yield
    except ArgumentError as error:
        option = options.get(error.argument)
        words = str(error) if option is None else f"{error}\nsuch as: {option}"
        raise ArgumentError(words, argument=error.argument) from error


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
