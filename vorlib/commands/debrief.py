"""``vorlib debrief``: a recorded flight held against what the needle must have shown."""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from vorlib.commands.options import (
    AIRSPEED,
    ALTITUDE,
    FORCE,
    NUMBER,
    PAPER,
    PLANNED_ALTITUDE,
    VARIATION,
)
from vorlib.core.arguments import ArgumentError
from vorlib.core.caution import CAUTION

if TYPE_CHECKING:
    from vorlib.debrief.files import DebriefedFile
    from vorlib.debrief.recorded import RecordedDebrief
    from vorlib.debrief.report.planned import Plan
    from vorlib.paper.debrief import Notes
    from vorlib.stations import StationList
    from vorlib.tracks import Columns

__all__ = ["add_parser", "run"]

OF_A_TRACK = ("stations", "selections", "columns", "flight", "altitude", "airspeed", "variation")
INPUTS = (
    *("track", "stations", "selections", "plan"),
    *("planned_fields", "beside", "beside_selections"),
)
AT_THE_HEAD = ("student", "instructor", "aircraft", "lesson")
# The option for an argument of the reader, as it may be given; all but the number of the flight
# hold for both flights.
OPTIONS = {
    "altitude_ft": "--altitude 5500",
    "number": "--flight 1",
    "columns": "--columns time=UTC,lat_deg=Latitude,lon_deg=Longitude,altitude=Height",
    "date": "--columns date=Date",
    "date_order": "--columns date_order=mdy",
    "magnetic_heading_deg": "--columns magnetic_heading_deg=-",
}
OPTIONS_BESIDE = OPTIONS | {"number": "--beside-flight 1"}


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
    add("--flight", **NUMBER, help="which flight, if the file holds several")
    add("--altitude", **ALTITUDE, help="where no altitude was recorded")
    add("--airspeed", **AIRSPEED, help="true airspeed, if it is known")
    add(
        "--columns",
        metavar="NAME=COLUMN,...",
        help="of a table, where they are not found by their names: lat_deg=Lat,altitude_unit=m,...",
    )
    add("--variation", **VARIATION, help="of the compass, east positive")
    add("--paper", **PAPER)
    for who in AT_THE_HEAD:
        add(f"--{who}", default="", metavar="WORDS", help="at the head of the page")
    add("--to-record", action="store_true", help="enter the flight in the student's record")
    add("--strike", metavar="N,N", help="findings, by their numbers, that are not to be printed")
    add(
        "--plan",
        type=Path,
        metavar="FILE",
        help="the plan beside a lesson card (.plan.json), to be held against what was flown",
    )
    add("--planned-wind", metavar="DEG/KT", help="forecast wind, true, such as 250/20")
    add("--planned-altitude", **PLANNED_ALTITUDE, help="above the sea")
    add("--planned-airspeed", **AIRSPEED, help="planned true airspeed")
    add("--planned-fields", type=Path, metavar="FILE", help="as for prepare: fields to fly over")
    add("--beside", type=Path, metavar="TRACK", help="another flight, to be held side by side")
    add("--beside-flight", **NUMBER, help="which flight of that file, if it holds several")
    add("--beside-selections", type=Path, metavar="FILE", help="what was selected on that flight")
    add("--beside-out", type=Path, metavar="FILE", help="both flights side by side, a PDF")
    add("--force", **FORCE)
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
    if options.to_record and not options.student:
        raise ValueError("--to-record needs --student: whose record is it?")
    _check_files(options)
    plan = _plan(options)
    stations = options.stations or (plan.stations if options.track else None)
    with _mended_by(OPTIONS):
        found = _debriefed(options, stations)
    with _mended_by(OPTIONS_BESIDE):
        other = _beside(options, stations)
    made, coasts = found.debrief, ISLANDS if found.stations is None else ()
    name, notes = _name(options.track, options.flight), _notes(options)
    pdf = debrief_pdf(made, size, name=name, coasts=coasts, notes=notes, plan=plan)
    files = {options.out: pdf}
    if options.csv is not None:
        files[options.csv] = seconds_csv(made).encode()
    if other is not None:
        two = (name, made), (_name(options.beside, options.beside_flight), other.debrief)
        files[options.beside_out] = two_flights_pdf(*two, size, notes=notes)
    on = made.start.date() if made.start else None
    print(found.stations.summary(on) if found.stations and on else CAUTION)
    print("\n".join(made.sentences))
    for path in write_all(files):
        print(f"written: {path}")
    if options.to_record:
        _enter(options.student, name, made)


def _enter(student: str, name: str, made: RecordedDebrief) -> None:
    """Enter a flight in its student's record of training, with the first thing found."""
    from vorlib.practice.record.record import Record
    from vorlib.practice.training.entries import add_entries, flight_debriefed

    record = Record(student)
    add_entries(record, flight_debriefed(name, made.start, made.sentences))
    print(f"entered: the flight, in {record.path}")


def _check_files(options: argparse.Namespace) -> None:
    """Refuse what cannot be written without harm, before anything is worked out."""
    from vorlib.io.outputs import check_outputs

    outputs = {"--out": options.out, "--csv": options.csv, "--beside-out": options.beside_out}
    inputs = [getattr(options, name) for name in INPUTS]
    check_outputs(outputs, inputs, kinds={"--csv": ".csv"}, force=options.force)


def _name(track: Path | None, number: int | None) -> str:
    """Return what a flight is called: its file, and which of the flights in it."""
    if track is None:
        return "the example flight"
    return f"flight {number} of {track.name}" if number else track.name


def _notes(options: argparse.Namespace) -> Notes:
    from vorlib.paper.debrief import Notes

    words = [part.strip() for part in (options.strike or "").split(",") if part.strip()]
    if not all(word.isdecimal() for word in words):
        raise ValueError(f"--strike must be numbers such as 2,5, got {options.strike!r}")
    who = {name: getattr(options, name) for name in AT_THE_HEAD}
    return Notes(**who, struck=frozenset(map(int, words)))


def _plan(options: argparse.Namespace) -> Plan:
    """Return what was planned: the card's lesson, if any, with what the options say instead."""
    from vorlib.briefing.files import wind_from_words
    from vorlib.briefing.saved import read_lesson
    from vorlib.debrief.report.planned import Plan
    from vorlib.stations.fields_csv import read_fields

    wind, fields = options.planned_wind, options.planned_fields
    plan = Plan(
        wind=wind_from_words(wind) if wind else None,
        altitude_ft=options.planned_altitude,
        true_airspeed_kt=options.planned_airspeed,
        fields=tuple(read_fields(fields)) if fields else (),
    )
    return plan if options.plan is None else plan.on_card(read_lesson(options.plan))


def _beside(
    options: argparse.Namespace, stations: Path | StationList | None
) -> DebriefedFile | None:
    from vorlib.debrief.files import debrief_from_files

    if (options.beside is None) != (options.beside_out is None):
        raise ValueError("--beside and --beside-out belong together: name the file of each")
    if options.beside is None:
        for name in ("beside_flight", "beside_selections"):
            if getattr(options, name) is not None:
                option = f"--{name.replace('_', '-')}"
                raise ValueError(f"{option} belongs to --beside: name the file of a flight")
        return None
    return debrief_from_files(
        options.beside,
        stations,
        options.beside_selections,
        columns=_columns(options),
        number=options.beside_flight,
        altitude_ft=options.altitude,
        variation_deg=options.variation,
    )


def _columns(options: argparse.Namespace) -> Columns | None:
    from vorlib.tracks import Columns

    return Columns.from_words(options.columns) if options.columns else None


@contextmanager
def _mended_by(options: Mapping[str, str]) -> Iterator[None]:
    """Name in a refusal the option that can mend it, if one of these can."""
    try:
        yield
    except ArgumentError as error:
        option = options.get(error.argument)
        words = str(error) if option is None else f"{error}\nsuch as: {option}"
        raise ArgumentError(words, argument=error.argument) from error


def _debriefed(options: argparse.Namespace, stations: Path | StationList | None) -> DebriefedFile:
    from vorlib.debrief.files import debrief_example, debrief_from_files

    if options.track is not None:
        return debrief_from_files(
            options.track,
            stations,
            options.selections,
            columns=_columns(options),
            number=options.flight,
            altitude_ft=options.altitude,
            true_airspeed_kt=options.airspeed,
            variation_deg=options.variation,
        )
    alone = [name for name in OF_A_TRACK if getattr(options, name) is not None]
    if alone:
        raise ValueError(f"--{alone[0]} belongs to a track: name the file of one")
    return debrief_example()
