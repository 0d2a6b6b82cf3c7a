"""``vorlib prepare``: print a lesson card for a practice area."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Any

from vorlib.commands.options import (
    AIRSPEED,
    FIELDS,
    FORCE,
    PAPER,
    PLANNED_ALTITUDE,
    RADIUS,
    STATIONS,
    WIND,
    add_command,
)
from vorlib.core.caution import CAUTION

if TYPE_CHECKING:
    from vorlib.briefing.elevation import ElevationGrid
    from vorlib.briefing.lesson import Lesson
    from vorlib.stations import StationList

__all__ = ["CENTER", "add_parser", "run"]

CENTER = ("--center", "--centre")
"""The option for the middle of the area: as the help shows it, and as others spell it."""


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add ``vorlib prepare`` to the commands."""
    prepare = add_command(
        commands,
        "prepare",
        summary="print a lesson card for your practice area",
        description="Print a lesson card for a practice area and, if you ask for them, a handout "
        "without answers and a briefing. Without --stations it is for the invented islands.",
        examples="--out card.pdf\n--idents QLN,TSX --wind 250/20 --out card.pdf\n"
        "--stations stations.csv --center 46.0,-30.0 --out card.pdf",
    )
    add = prepare.add_argument
    add("--stations", **STATIONS)
    add("--fields", **FIELDS)
    add(
        "--elevation", type=Path, metavar="FILE", help="heights of the ground: an ASCII grid (.asc)"
    )
    add(
        "--elevation-in",
        metavar="UNIT",
        help="unit of its heights: meters or feet (default: meters)",
    )
    add(
        CENTER[0], metavar="LAT,LON", help="the middle of the area (default: the first of --idents)"
    )
    add(CENTER[1], dest="center", help=argparse.SUPPRESS)
    add(
        "--idents",
        metavar="ID,ID",
        help="the stations to use, by their idents (default: the nearest)",
    )
    add("--radius", **RADIUS, help="radius of the practice area, NM (default: 45)")
    add(
        "--altitude",
        **PLANNED_ALTITUDE,
        help="planned altitude, feet above the sea (default: 4500)",
    )
    add("--airspeed", **AIRSPEED, help="planned true airspeed, knots (default: 100)")
    add("--wind", **WIND, help="forecast wind, degrees true/knots, as 250/20 (default: calm)")
    add("--date", metavar="YYYY-MM-DD", help="the day of the lesson (default: today)")
    add("--paper", **PAPER)
    add(
        "--out",
        type=Path,
        metavar="FILE",
        required=True,
        help="the lesson card (.pdf); the plan for debrief is saved beside it (.plan.json)",
    )
    add("--handout", type=Path, metavar="FILE", help="the learner's sheet without answers (.pdf)")
    add("--briefing", type=Path, metavar="FILE", help="the briefing before the flight (.pdf)")
    for who in ("student", "instructor", "aircraft"):
        add(f"--{who}", default="", metavar="NAME", help="for the briefing (default: a blank)")
    add("--force", **FORCE)
    prepare.set_defaults(run=run)


def run(options: argparse.Namespace) -> None:
    """Write the card and what else is asked for, and print what they were made from.

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
    """Return the lesson that the options ask for; `plan_lesson` chooses the rest."""
    from vorlib.briefing.files import (
        day_from_words,
        place_from_words,
        plan_lesson,
        wind_from_words,
    )
    from vorlib.stations.fields_csv import read_fields

    if options.elevation_in and not options.elevation:
        raise ValueError("--elevation-in is the unit of the heights of --elevation: give both")
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
    """Return the heights of the ground, read in the unit given."""
    from vorlib.briefing.elevation_file import read_elevation

    return read_elevation(options.elevation).taken_as(options.elevation_in or "meters")


def _idents(words: str | None) -> list[str]:
    return [ident.strip() for ident in (words or "").split(",") if ident.strip()]
