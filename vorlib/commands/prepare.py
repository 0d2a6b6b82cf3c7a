"""``vorlib prepare``: a lesson card from the words of the command line."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Any

from vorlib.commands.options import AIRSPEED, FORCE, PAPER, PLANNED_ALTITUDE, RADIUS
from vorlib.core.caution import CAUTION

if TYPE_CHECKING:
    from vorlib.briefing.elevation import ElevationGrid
    from vorlib.briefing.lesson import Lesson
    from vorlib.stations import StationList

__all__ = ["CENTER", "add_parser", "run"]

CENTER = ("--center", "--centre")
"""The option for the middle of the area, as it is shown and as it may be spelled as well."""


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib prepare`` to the commands."""
    prepare = commands.add_parser(
        "prepare",
        help="print a lesson card for a practice area",
        description="Print a lesson card for a practice area, and a handout without answers. With "
        "no stations it is made for the invented islands of the course.",
        epilog=CAUTION,
    )
    add = prepare.add_argument
    add("--stations", type=Path, metavar="FILE", help="NAV_BASE.csv, a navaids.csv, or your own")
    add("--fields", type=Path, metavar="FILE", help="ident,name,lat_deg,lon_deg,elevation_ft")
    add("--elevation", type=Path, metavar="FILE", help="ground heights: an ASCII grid (.asc)")
    add("--elevation-in", metavar="UNIT", help="what its heights are in: meters (default) or feet")
    add(CENTER[0], metavar="LAT,LON", help="middle of the area (default: the first of --idents)")
    add(CENTER[1], dest="center", help=argparse.SUPPRESS)
    add("--idents", metavar="ID,ID", help="the stations to use (default: the nearest)")
    add("--radius", **RADIUS, help="of the practice area (default: 45)")
    add("--altitude", **PLANNED_ALTITUDE, help="planned altitude above the sea (default: 4500)")
    add("--airspeed", **AIRSPEED, help="planned true airspeed (default: 100)")
    add("--wind", metavar="DEG/KT", help="forecast wind, true, such as 250/20 (default: calm)")
    add("--date", metavar="YYYY-MM-DD", help="the day of the lesson (default: today)")
    add("--paper", **PAPER)
    add(
        "--out",
        type=Path,
        metavar="FILE",
        required=True,
        help="the lesson card, a PDF; its plan for the debrief is saved beside it (.plan.json)",
    )
    add("--handout", type=Path, metavar="FILE", help="the learner's sheet without answers, a PDF")
    add("--briefing", type=Path, metavar="FILE", help="the briefing before the flight, a PDF")
    for who in ("student", "instructor", "aircraft"):
        add(f"--{who}", default="", help="to stand on the briefing; else room to write")
    add("--force", **FORCE)
    prepare.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Write the card, and the handout if one is wanted, and say what they were made from.

    Raises
    ------
    ValueError
        If an option cannot be used.
    OSError
        If a file cannot be opened or written.
    """
    from vorlib.briefing.card import lesson_card
    from vorlib.briefing.ground import altitude_warnings
    from vorlib.briefing.saved import lesson_json, plan_path
    from vorlib.io.atomic import AnyPath, write_all
    from vorlib.io.outputs import check_outputs
    from vorlib.paper.lesson import lesson_pdf
    from vorlib.paper.page import page_size
    from vorlib.paper.teaching.briefing_sheet import Crew, briefing_pdf
    from vorlib.stations import load_stations
    from vorlib.stations.archipelago import ISLANDS

    size = page_size(options.paper)
    names = ("out", "handout", "briefing")
    outputs = {f"--{name}": getattr(options, name) for name in names}
    inputs = (options.stations, options.fields, options.elevation)
    outputs["the plan"] = plan_path(options.out)
    check_outputs(outputs, inputs, kinds={"the plan": ".json"}, force=options.force)
    stations = load_stations(options.stations) if options.stations else None
    card = lesson_card(_lesson(options, stations))
    coasts = ISLANDS if stations is None else ()
    lesson = card.lesson
    files: dict[AnyPath, bytes] = {
        path: lesson_pdf(card, size, answers=answers, coasts=coasts)
        for path, answers in ((options.out, True), (options.handout, False))
        if path is not None
    }
    files[plan_path(options.out)] = lesson_json(lesson).encode()
    if options.briefing is not None:
        crew = Crew(options.student, options.instructor, options.aircraft)
        files[options.briefing] = briefing_pdf(card, size, crew=crew)
    written = write_all(files)
    for words in (*altitude_warnings(lesson), *lesson.sources[1:], *lesson.remarks):
        print(words)
    print(stations.summary(card.lesson.on) if stations else CAUTION)
    for path in written:
        print(f"written: {path}")


def _lesson(options: argparse.Namespace, stations: StationList | None) -> Lesson:
    """Return the lesson that the options ask for; what they leave open is left to `plan_lesson`."""
    from vorlib.briefing.files import (
        day_from_words,
        place_from_words,
        plan_lesson,
        wind_from_words,
    )
    from vorlib.stations.fields_csv import read_fields

    if options.elevation_in and not options.elevation:
        raise ValueError("--elevation-in says what the heights of --elevation are in: give both")
    choices = {
        "radius_nm": options.radius,
        "altitude_ft": options.altitude,
        "true_airspeed_kt": options.airspeed,
        "wind": wind_from_words(options.wind) if options.wind else None,
        "elevation": _elevation(options) if options.elevation else None,
    }
    given: dict[str, Any] = {name: value for name, value in choices.items() if value is not None}
    return plan_lesson(
        stations,
        read_fields(options.fields) if options.fields else None,
        place_from_words(options.center) if options.center else None,
        idents=_idents(options.idents),
        on=day_from_words(options.date) if options.date else None,
        **given,
    )


def _elevation(options: argparse.Namespace) -> ElevationGrid:
    """Return the heights of the ground, in the unit that is said."""
    from vorlib.briefing.elevation_file import read_elevation

    return read_elevation(options.elevation).taken_as(options.elevation_in or "meters")


def _idents(words: str | None) -> list[str]:
    return [ident.strip() for ident in (words or "").split(",") if ident.strip()]
