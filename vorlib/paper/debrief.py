"""The debrief of a recorded flight on paper: a summary first, then every finding."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from os import PathLike
from pathlib import Path

from vorlib.core.words import spoken_time
from vorlib.debrief.phases import FlightPhase
from vorlib.debrief.recorded import RecordedDebrief
from vorlib.debrief.report.planned import Plan, planned_against_flown
from vorlib.io.atomic import write_whole
from vorlib.paper.debrief_tables import (
    Notes,
    at_clock,
    findings_table,
    planned_table,
    rests_on,
    selection_table,
    tracking_table,
    who_table,
)
from vorlib.paper.page import A4, LEADING, PRINT, SMALL, PageSize, Sheet
from vorlib.paper.track_plan import track_plan
from vorlib.views.drawing.document import pdf_bytes
from vorlib.views.drawing.layout import wrapped
from vorlib.views.drawing.picture import Line, Picture, Text
from vorlib.views.drawing.scaling import framed
from vorlib.views.instrument.deviation_strip import LOOKS, block, deviation_strip
from vorlib.views.plan.projection import SIZE as PLAN_SIZE
from vorlib.views.plan.scene import Coast

__all__ = ["Notes", "debrief_pdf", "debrief_sheets", "save_debrief"]

PRINT_STRIP = replace(PRINT, small_size=SMALL)
TITLE = "Debrief of a flight"
PLAN_SHARE = 0.5  # of the page's width
STRIP_HEIGHT = 116.0
KEY_ROW, KEY_HEAD = 11.5, 12.0
LONGEST_FILE_NAME = 40  # the most letters of a file's name in the header
SHOWN = (
    FlightPhase.INTERCEPTING,
    FlightPhase.TRACKING,
    FlightPhase.PASSAGE,
    FlightPhase.TURN,
    FlightPhase.CIRCUIT,
    FlightPhase.GROUND,
    FlightPhase.OTHER,
)


def save_debrief(
    path: str | PathLike[str],
    debrief: RecordedDebrief,
    size: PageSize = A4,
    *,
    name: str = "",
    coasts: tuple[Coast, ...] = (),
    notes: Notes | None = None,
    plan: Plan | None = None,
) -> Path:
    """Write the pages as PDF, completely or not at all; the parameters of `debrief_sheets`.

    Raises
    ------
    ValueError
        If there is no finding of a number that is struck.
    OSError
        If the file cannot be written.
    """
    pdf = debrief_pdf(debrief, size, name=name, coasts=coasts, notes=notes, plan=plan)
    return write_whole(path, pdf)


def debrief_pdf(
    debrief: RecordedDebrief,
    size: PageSize = A4,
    *,
    name: str = "",
    coasts: tuple[Coast, ...] = (),
    notes: Notes | None = None,
    plan: Plan | None = None,
) -> bytes:
    """Return the pages as PDF: the same flight gives the same bytes."""
    pages = debrief_sheets(debrief, size, name=name, coasts=coasts, notes=notes, plan=plan)
    return pdf_bytes(pages, TITLE)


def debrief_sheets(
    debrief: RecordedDebrief,
    size: PageSize = A4,
    *,
    name: str = "",
    coasts: tuple[Coast, ...] = (),
    notes: Notes | None = None,
    plan: Plan | None = None,
) -> tuple[Picture, ...]:
    """Return the pages: a summary with plan and strip chart, then every table in full.

    Parameters
    ----------
    debrief
        The flight.
    size
        The paper.
    name
        Name of the flight for the header of each page, such as the name of its file.
    coasts
        Islands to draw on the plan.
    notes
        Who flew, and which findings are struck.
    plan
        The lesson's plan, to compare with what was flown.

    Raises
    ------
    ValueError
        If there is no finding of a number that is struck.
    """
    notes = notes or Notes()
    kept = notes.kept(debrief)
    sheet = Sheet(TITLE, size, _shortened(name))
    who_table(sheet, notes)
    sheet.paragraph(_facts(debrief), SMALL)
    _summary(sheet, debrief, coasts)
    sheet.picture(deviation_strip(debrief, PRINT_STRIP, sheet.width, STRIP_HEIGHT))
    sheet.gap(2.0)
    tracking_table(sheet, debrief)
    findings_table(sheet, debrief, kept)
    if plan is not None and plan != Plan():
        planned_table(sheet, planned_against_flown(debrief, plan), plan.name)
    selection_table(sheet, debrief)
    rests_on(sheet, debrief)
    return sheet.pages()


def _shortened(name: str) -> str:
    """Return a name short enough for the header, without characters that cannot be printed."""
    shown = "".join(letter if letter.isprintable() else "?" for letter in name)
    half = LONGEST_FILE_NAME // 2
    return shown if len(shown) <= LONGEST_FILE_NAME else f"{shown[:half]}...{shown[-half:]}"


def _facts(debrief: RecordedDebrief) -> str:
    seen = debrief.seen
    lasted = spoken_time(float(seen.time_s[-1] - seen.time_s[0]))
    begin, end = debrief.utc(seen.time_s[0]), debrief.utc(seen.time_s[-1])
    when = f"{begin:%Y-%m-%d, %H:%M:%S} to {end:%H:%M:%S} UTC: " if begin and end else ""
    words = f"{when}{lasted}, {seen.time_s.size:,} moments recorded. "
    return words + " ".join(debrief.overall)


def _summary(sheet: Sheet, debrief: RecordedDebrief, coasts: tuple[Coast, ...]) -> None:
    """Draw the plan, with the key and what was selected beside it."""
    top, width = sheet.y, PLAN_SHARE * sheet.width
    sheet.draw(framed(track_plan(debrief, width, coasts), width, sheet.left, top))
    left = sheet.left + width + 12.0
    y = _key(sheet, debrief, left, top, width / PLAN_SIZE)
    for words in _lines(sheet, _selected(debrief), sheet.right - left, top + width - y):
        sheet.draw(_text(left, y + 0.5 * LEADING * SMALL, words))
        y += LEADING * SMALL
    sheet.y = top + width + 8.0


def _key(sheet: Sheet, debrief: RecordedDebrief, left: float, top: float, factor: float) -> float:
    """Draw the key: patterns, and how long each phase lasted. Return its lower edge."""
    y = top + 0.5 * LEADING * SMALL
    sheet.draw(_text(left, y, "Phases, on the plan and under the needle", bold=True))
    y += KEY_HEAD
    for phase in SHOWN:
        seconds = sum(_seconds(debrief, s.begin, s.end) for s in debrief.spans if s.phase is phase)
        if not seconds:
            continue
        look, ink = LOOKS[phase], PRINT.track if LOOKS[phase].strong else PRINT.ring
        dash = tuple(part * factor for part in look.dash)
        sheet.draw(Line(left, y, left + 34.0, y, ink, look.width * factor, dash))
        sheet.draw(*block(left + 42.0, y - 4.0, 26.0, 8.0, phase, PRINT_STRIP))
        sheet.draw(_text(left + 76.0, y, f"{phase}, {spoken_time(seconds)}"))
        y += KEY_ROW
    return y + 3.0


def _selected(debrief: RecordedDebrief) -> list[str]:
    return [f"{at_clock(debrief, one.time_s)}  {one.words}" for one in debrief.selections]


def _lines(sheet: Sheet, selected: Sequence[str], width: float, room: float) -> list[str]:
    """Return the lines of selections that fit; a later table has all of them."""
    lines = [line for words in selected for line in wrapped(words, width, SMALL)]
    most = int(room / (LEADING * SMALL))
    if len(lines) <= most:
        return lines
    return [*lines[: max(most - 1, 0)], "and more: see Selected"]


def _seconds(debrief: RecordedDebrief, begin: int, end: int) -> float:
    return float(debrief.seen.lasting_s[begin:end].sum())


def _text(x: float, y: float, words: str, bold: bool = False) -> Text:
    return Text(x, y, words, SMALL, PRINT.text, "start", bold)
