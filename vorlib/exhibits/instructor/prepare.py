"""A lesson prepared near home: files and choices in, the card live, its sheets out as PDF.

The pages are those of `vorlib.paper.lesson`. For training on the ground, not for navigation.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

from vorlib.briefing.card import LessonCard
from vorlib.briefing.elevation import UNITS_M
from vorlib.briefing.elevation_file import read_elevation
from vorlib.briefing.facts import lesson_code
from vorlib.briefing.files import day_from_words, place_from_words
from vorlib.briefing.ground import altitude_warnings
from vorlib.briefing.saved import lesson_json, plan_path
from vorlib.briefing.scene import start_of
from vorlib.core.angles import format_direction
from vorlib.core.words import spoken_count, spoken_degrees
from vorlib.earth.geodesic import Position
from vorlib.earth.variation import FIRST_DAY, LAST_DAY
from vorlib.exhibits.base.controls import Button, ChoiceControl, Number
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.base.inputs import FileEntry, Words
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.instructor.prepare_state import (
    PrepareState,
    elevation_note,
    fields_note,
    near_note,
    other_idents,
    other_stations,
    stations_note,
)
from vorlib.exhibits.scene.at_station import HIGHEST_FT
from vorlib.exhibits.scene.wind_controls import STRONGEST_KT, airspeed_number
from vorlib.exhibits.sheets.page_preview import PROJECTOR_PAGE, as_picture
from vorlib.exhibits.sheets.save_sheets import SaveSheets
from vorlib.io.atomic import AnyPath, write_all, write_whole
from vorlib.paper.lesson import lesson_pdf, lesson_sheets
from vorlib.paper.page import PAGE_SIZES
from vorlib.paper.teaching.briefing_sheet import briefing_pages, briefing_pdf
from vorlib.stations import load_stations
from vorlib.stations.archipelago import NAME
from vorlib.stations.fields_csv import read_fields
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import PROJECTOR, SCREEN, Theme

__all__ = ["Preparation", "draw", "prepare", "sentence"]

WIDEST_NM = 150.0


def draw(state: PrepareState, theme: Theme) -> Picture:
    """Return the page that is shown, as it will be printed; for the projector a narrower one."""
    sheets = _sheets(state, theme)
    return as_picture(sheets[(state.page - 1) % len(sheets)], theme)


def _sheets(state: PrepareState, theme: Theme) -> tuple[Picture, ...]:
    size = PROJECTOR_PAGE if theme is PROJECTOR else PAGE_SIZES[state.paper]
    return lesson_sheets(state.card, size, answers=state.answers, coasts=state.coasts)


def sentence(state: PrepareState) -> str:
    """Say what the lesson is planned with, what is received and where its tasks start."""
    card = state.card
    what = "Lesson card" if state.answers else "Learner's handout"
    data = card.lesson.sources[0] if state.stations else f"In the {NAME}, all invented."
    stations, fields = len(card.stations), len(card.fields)
    counts = f"{spoken_count(stations, 'station')} and {spoken_count(fields, 'field')}"
    said = [f"{what} for {card.lesson.on}: {counts}.", data, *altitude_warnings(card.lesson)]
    return " ".join([*said, _reception(card), _start(card)])


def _reception(card: LessonCard) -> str:
    """Say what is received in the middle of the area, and the best pair for a fix there."""
    names = [one.station.name for one in card.center.received]
    there = f"At {card.lesson.altitude_ft:,.0f} ft in the middle of the area"
    if not names:
        return f"{there} no station is received."
    *others, last = names
    listed = f"{', '.join(others)} and {last} are" if others else f"only {last} is"
    words = f"{there} {listed} received"
    if (pair := card.center.pair) is None:
        why = "" if len(names) < 2 else f": {card.center.why_no_pair}"
        return f"{words}, which gives no fix by two radials{why}."
    one, other = (station.name for station in pair.stations)
    return (
        f"{words}; the best fix is by {one} and {other}, cutting at {spoken_degrees(pair.cut_deg)}."
    )


def _start(card: LessonCard) -> str:
    try:
        begin = start_of(card).received[0]
    except ValueError as refusal:
        return f"There are no tasks: {refusal}."
    radial = format_direction(begin.radial_deg)
    return (
        f"The tasks start on the {radial} radial of {begin.station.name}, "
        f"{begin.distance_nm:.1f} NM from it."
    )


class Preparation(Exhibit[PrepareState]):
    """The exhibit with the lesson in numbers, and all its pages as pictures."""

    @property
    def card(self) -> LessonCard:
        """The numbers of the lesson as it stands."""
        return self.state.card

    @property
    def pages(self) -> tuple[Picture, ...]:
        """The pages of the lesson as it stands."""
        return tuple(as_picture(sheet, SCREEN) for sheet in _sheets(self.state, SCREEN))

    @property
    def briefing(self) -> Picture:
        """The briefing before the flight."""
        return as_picture(briefing_pages(self.card, PAGE_SIZES[self.state.paper])[0], SCREEN)


@exhibit(lesson="prepare", state=PrepareState)
def prepare() -> Preparation:
    """Return the exhibit that prepares a lesson, at first in the invented islands."""
    controls = [
        FileEntry("stations", "Stations file", load_stations, stations_note, other_stations),
        Words(
            "idents",
            "Stations to use",
            _idents,
            ", ".join,
            example="such as QLN, TSX",
            note=near_note,
            consequences=other_idents,
        ),
        Words("center", "Middle of area", place_from_words, _place_words),
        Number("altitude_ft", "Planned altitude", "feet", 500.0, HIGHEST_FT, 100.0),
        Number("wind_from_deg", "Wind from, true", direction=True),
        Number("wind_kt", "Wind speed", "knots", 0.0, STRONGEST_KT),
        FileEntry("fields", "Fields file", read_fields, fields_note).put_away(),
        Number("radius_nm", "Radius of area", "NM", 5.0, WIDEST_NM, 5.0).put_away(),
        airspeed_number().put_away(),
        _elevation_file().put_away(),
        ChoiceControl(
            "elevation_in", "Its heights in", {unit: unit for unit in UNITS_M}
        ).put_away(),
        Words("on", "Date", _day, _day_words, example="today, or 2026-06-01").put_away(),
        ChoiceControl("paper", "Paper", {name: name for name in PAGE_SIZES}).put_away(),
        SaveSheets(
            "folder",
            {
                "Write the lesson card (PDF)": lambda state, folder: _save(state, folder, True),
                "Write the handout (PDF)": lambda state, folder: _save(state, folder, False),
                "Write the briefing (PDF)": _save_briefing,
            },
        ),
        ChoiceControl("answers", "Show", {"Lesson card": True, "Learner's handout": False}).put(
            "transport"
        ),
        Button("page", "Previous page", lambda state: {"page": state.page - 1}).put("transport"),
        Button("page", "Next page", lambda state: {"page": state.page + 1}).put("transport"),
    ]
    exhibit = Preparation(PrepareState(), draw, sentence, controls)
    exhibit.widget.add_class("vorlib-prepare")
    return exhibit


def _elevation_file() -> FileEntry:
    entry = FileEntry("elevation", "Elevation file", read_elevation, elevation_note)
    entry.button.accept = ".asc,.txt"
    return entry


def _idents(words: str) -> tuple[str, ...]:
    return tuple(words.upper().replace(",", " ").split())


def _place_words(place: Position) -> str:
    return f"{float(place.lat_deg):.4f}, {float(place.lon_deg):.4f}"


def _day(words: str) -> date | None:
    if not words:
        return None
    day = day_from_words(words)
    if not FIRST_DAY <= day <= LAST_DAY:
        raise ValueError(
            f"{day} is not in the years of the magnetic model. Enter a day from {FIRST_DAY} to "
            f"{LAST_DAY}"
        )
    return day


def _day_words(on: date | None) -> str:
    return "" if on is None else str(on)


def _save(state: PrepareState, folder: Path, answers: bool) -> tuple[Path, ...]:
    """Write a sheet, named for the day and the lesson: another lesson does not overwrite it.

    With the card goes its plan, for the debrief.
    """
    kind = "lesson-card" if answers else "handout"
    name = f"{kind}-{state.card.lesson.on}-{lesson_code(state.card.lesson)}.pdf"
    size, path = PAGE_SIZES[state.paper], folder / name
    files: dict[AnyPath, bytes] = {
        path: lesson_pdf(state.card, size, answers=answers, coasts=state.coasts)
    }
    if answers:
        files[plan_path(path)] = lesson_json(state.card.lesson).encode()
    return write_all(files)


def _save_briefing(state: PrepareState, folder: Path) -> Path:
    """Write the briefing, named as the card is; who flies is written in by hand."""
    name = f"briefing-{state.card.lesson.on}-{lesson_code(state.card.lesson)}.pdf"
    return write_whole(folder / name, briefing_pdf(state.card, PAGE_SIZES[state.paper]))
