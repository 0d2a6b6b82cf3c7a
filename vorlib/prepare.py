"""What ``vorlib prepare`` does: a lesson card from the words of the command line."""

from __future__ import annotations

import argparse
from typing import Any

from vorlib.archipelago import ISLANDS
from vorlib.caution import CAUTION
from vorlib.fieldfile import read_fields
from vorlib.lesson_card import lesson_card
from vorlib.lesson_files import day_from_words, place_from_words, plan_lesson, wind_from_words
from vorlib.paper.lesson import save_lesson
from vorlib.paper.page import page_size
from vorlib.stationdata import load_stations

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
    size = page_size(options.paper)
    stations = load_stations(options.stations) if options.stations else None
    choices = {
        "radius_nm": options.radius,
        "altitude_ft": options.altitude,
        "true_airspeed_kt": options.airspeed,
        "wind": wind_from_words(options.wind) if options.wind else None,
    }
    given: dict[str, Any] = {name: value for name, value in choices.items() if value is not None}
    lesson = plan_lesson(
        stations,
        read_fields(options.fields) if options.fields else None,
        place_from_words(options.centre) if options.centre else None,
        idents=_idents(options.idents),
        on=day_from_words(options.date) if options.date else None,
        **given,
    )
    card = lesson_card(lesson)
    coasts = ISLANDS if stations is None else ()
    for words in (*lesson.sources[1:], *lesson.remarks):
        print(words)
    print(stations.summary(lesson.on) if stations else CAUTION)
    for path, answers in ((options.out, True), (options.handout, False)):
        if path is not None:
            print(f"written: {save_lesson(path, card, size, answers=answers, coasts=coasts)}")


def _idents(words: str | None) -> list[str]:
    return [ident.strip() for ident in (words or "").split(",") if ident.strip()]
