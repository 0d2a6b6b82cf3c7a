"""``vorlib debrief``: compare a recorded flight with what the needle must have shown."""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from vorlib.commands.options import (
    AIRSPEED,
    ALTITUDE,
    FIELDS,
    FORCE,
    NUMBER,
    PAPER,
    PLANNED_ALTITUDE,
    STATIONS,
    VARIATION,
    WIND,
    add_command,
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
# An example of the option for each argument of the reader. All but the number of the flight
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
    debrief = add_command(
        commands,
        "debrief",
        summary="compare a recorded flight with what the needle must have shown",
        description="Work out what the needle must have shown on a recorded flight, and print what "
        "is found. Without TRACK it is the course's example flight. Without --selections the "
        "stations and courses are estimated from the track.",
        examples="--out debrief.pdf\ntrack.gpx --stations NAV_BASE.csv --out debrief.pdf\n"
        "track.csv --altitude 5500 --columns time=UTC --out debrief.pdf\n"
        "track.gpx --out a.pdf --beside b.gpx --beside-out two.pdf",
    )
    add = debrief.add_argument
    add(
        "track",
        type=Path,
        nargs="?",
        metavar="TRACK",
        help="the recorded flight, GPX or a table (.csv)",
    )
    add("--stations", **STATIONS)
    add(
        "--selections",
        type=Path,
        metavar="FILE",
        help="what was selected, a table time,station,course: times in UTC or in seconds of the "
        "flight, and station off to end a selection",
    )
    add("--out", type=Path, metavar="FILE", required=True, help="the debrief (.pdf)")
    add("--csv", type=Path, metavar="FILE", help="the flight second by second (.csv)")
    add("--flight", **NUMBER, help="which flight of the file, if it holds several")
    add("--altitude", **ALTITUDE, help="altitude where none was recorded, feet above the sea")
    add("--airspeed", **AIRSPEED, help="true airspeed, knots, if you know it")
    add(
        "--columns",
        metavar="NAME=COLUMN,...",
        help="columns of a table that are not found by their names, such as "
        "lat_deg=Lat,altitude_unit=m",
    )
    add(
        "--variation",
        **VARIATION,
        help="magnetic variation, degrees, east positive (default: by the stations)",
    )
    add("--paper", **PAPER)
    for who in AT_THE_HEAD:
        add(f"--{who}", default="", metavar="NAME", help="for the head of the page")
    add("--to-record", action="store_true", help="enter the flight in the student's record")
    add("--strike", metavar="N,N", help="numbers of the findings to leave out, such as 2,5")
    add(
        "--plan",
        type=Path,
        metavar="FILE",
        help="the plan saved beside a lesson card (.plan.json), to compare with the flight",
    )
    add("--planned-wind", **WIND, help="forecast wind, degrees true/knots, as 250/20")
    add("--planned-altitude", **PLANNED_ALTITUDE, help="planned altitude, feet above the sea")
    add("--planned-airspeed", **AIRSPEED, help="planned true airspeed, knots")
    add("--planned-fields", **FIELDS)
    add(
        "--beside",
        type=Path,
        metavar="TRACK",
        help="another recorded flight, to compare side by side",
    )
    add(
        "--beside-flight",
        **NUMBER,
        help="which flight of the file of --beside, if it holds several",
    )
    add(
        "--beside-selections",
        type=Path,
        metavar="FILE",
        help="what was selected on the flight of --beside",
    )
    add("--beside-out", type=Path, metavar="FILE", help="both flights side by side (.pdf)")
    add("--force", **FORCE)
    debrief.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Print what was found in a flight, and write the files asked for.

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
        raise ValueError("--to-record needs --student: give the student's name")
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
    """Enter a flight, with its first finding, in the student's record of training."""
    from vorlib.practice.record.record import Record
    from vorlib.practice.training.entries import add_entries, flight_debriefed

    record = Record(student)
    add_entries(record, flight_debriefed(name, made.start, made.sentences))
    print(f"entered: the flight, in {record.path}")


def _check_files(options: argparse.Namespace) -> None:
    """Refuse outputs that would do harm, before any work begins."""
    from vorlib.io.outputs import check_outputs

    outputs = {"--out": options.out, "--csv": options.csv, "--beside-out": options.beside_out}
    inputs = [getattr(options, name) for name in INPUTS]
    check_outputs(outputs, inputs, kinds={"--csv": ".csv"}, force=options.force)


def _name(track: Path | None, number: int | None) -> str:
    """Return what a flight is called: its file, and its number in that."""
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
    """Return the plan: that of the lesson card, if any, where the options say nothing else."""
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
        raise ValueError("--beside and --beside-out belong together: give both")
    if options.beside is None:
        for name in ("beside_flight", "beside_selections"):
            if getattr(options, name) is not None:
                option = f"--{name.replace('_', '-')}"
                raise ValueError(f"{option} belongs to --beside: give both")
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
    """Add to a refusal the option that mends it, if one of these does."""
    try:
        yield
    except ArgumentError as error:
        option = options.get(error.argument)
        words = str(error) if option is None else f"{error}\nfor example: {option}"
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
        raise ValueError(f"--{alone[0]} belongs to a recorded flight: name its file first")
    return debrief_example()
