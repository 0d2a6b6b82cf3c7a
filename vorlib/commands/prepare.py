"""What ``vorlib prepare`` does: a lesson card from the words of the command line."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from vorlib.briefing.card import Lesson, lesson_card
from vorlib.briefing.files import day_from_words, place_from_words, plan_lesson, wind_from_words
from vorlib.core.caution import CAUTION
from vorlib.io.atomic import AnyPath, write_all
from vorlib.paper.lesson import lesson_pdf
from vorlib.paper.page import page_size
from vorlib.stations import StationList, load_stations
from vorlib.stations.archipelago import ISLANDS
from vorlib.stations.fields_csv import read_fields

__all__ = ["prepare"]


def prepare(options: argparse.Namespace) -> None:
    """Write the card, and the handout if one is wanted, and say what they were made from.

    Raises
    ------
    ValueError
        If an option cannot be used.
    OSError
        If a file cannot be opened or written.
    """
    size, sheets = page_size(options.paper), _sheets(options)
    stations = load_stations(options.stations) if options.stations else None
    card = lesson_card(_lesson(options, stations))
    coasts = ISLANDS if stations is None else ()
    pdf: dict[AnyPath, bytes] = {
        path: lesson_pdf(card, size, answers=answers, coasts=coasts)
        for path, answers in sheets.items()
    }
    written = write_all(pdf)
    for words in (*card.lesson.sources[1:], *card.lesson.remarks):
        print(words)
    print(stations.summary(card.lesson.on) if stations else CAUTION)
    for path in written:
        print(f"written: {path}")


def _sheets(options: argparse.Namespace) -> dict[Path, bool]:
    """Where each sheet goes, and whether it has the answers."""
    if options.handout is None:
        return {options.out: True}
    if options.handout.resolve() == options.out.resolve():
        raise ValueError(f"the handout must have a file of its own, got {options.handout} for both")
    return {options.out: True, options.handout: False}


def _lesson(options: argparse.Namespace, stations: StationList | None) -> Lesson:
    """The lesson that the options ask for; what they leave open is left to `plan_lesson`."""
    choices = {
        "radius_nm": options.radius,
        "altitude_ft": options.altitude,
        "true_airspeed_kt": options.airspeed,
        "wind": wind_from_words(options.wind) if options.wind else None,
    }
    given: dict[str, Any] = {name: value for name, value in choices.items() if value is not None}
    return plan_lesson(
        stations,
        read_fields(options.fields) if options.fields else None,
        place_from_words(options.centre) if options.centre else None,
        idents=_idents(options.idents),
        on=day_from_words(options.date) if options.date else None,
        **given,
    )


def _idents(words: str | None) -> list[str]:
    return [ident.strip() for ident in (words or "").split(",") if ident.strip()]
