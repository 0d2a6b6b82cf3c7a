"""The debrief of a recorded flight on one printed page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from os import PathLike
from pathlib import Path

from vorlib.core.angles import format_direction, format_tenths
from vorlib.debrief.amounts import spoken_time
from vorlib.debrief.findings import LIMIT_SOURCE, Phase
from vorlib.debrief.phases import FlightPhase
from vorlib.debrief.recorded import HeadingSource, RecordedDebrief, WindCorrection
from vorlib.io.atomic import write_whole
from vorlib.paper.page import A4, BODY, LEADING, PRINT, SMALL, Column, PageSize, Sheet, pdf_bytes
from vorlib.paper.track_plan import track_plan
from vorlib.views.drawing.layout import wrapped
from vorlib.views.drawing.picture import Line, Picture, Text
from vorlib.views.drawing.scaling import framed
from vorlib.views.instrument.deviation_strip import LOOKS, block, deviation_strip
from vorlib.views.plan.projection import SIZE as PLAN_SIZE
from vorlib.views.plan.scene import Coast
from vorlib.vor.receiver import DEG_PER_DOT, Flag

__all__ = ["debrief_pdf", "debrief_sheet", "save_debrief"]

PRINT_STRIP = replace(PRINT, small_size=SMALL)
TITLE = "Debrief of a flight"
WITHOUT_PLAN = 580.0  # height that the rest of the page needs
STRIP_HEIGHT = 116.0
MOST_PHASES, MOST_SELECTIONS = 9, 8
NOTE_GAP = 0.8
LONGEST_FILE_NAME = 40  # letters of a file's name at the head of the page
COLUMNS = (
    Column("minutes", 1.9),
    Column("station", 1.4),
    Column("course", 0.9, "middle"),
    Column("flag", 0.8, "middle"),
    Column("radial held", 0.9, "end"),
    Column("mean off, deg", 1.0, "end"),
    Column("dots", 0.7, "end"),
    Column("NM", 0.8, "end"),
    Column("most off, deg", 1.0, "end"),
    Column("dots", 0.7, "end"),
    Column("NM", 0.8, "end"),
    Column("within 3/4", 0.9, "end"),
    Column("correction used", 1.2, "end"),
    Column("needed", 1.0, "end"),
)


def save_debrief(
    path: str | PathLike[str],
    debrief: RecordedDebrief,
    size: PageSize = A4,
    *,
    name: str = "",
    coasts: tuple[Coast, ...] = (),
) -> Path:
    """Write the page as PDF, whole or not at all; the parameters of `debrief_sheet`.

    Raises
    ------
    OSError
        If the file cannot be written.
    """
    return write_whole(path, debrief_pdf(debrief, size, name=name, coasts=coasts))


def debrief_pdf(
    debrief: RecordedDebrief,
    size: PageSize = A4,
    *,
    name: str = "",
    coasts: tuple[Coast, ...] = (),
) -> bytes:
    """Return the page as PDF: the same flight gives the same bytes."""
    return pdf_bytes([debrief_sheet(debrief, size, name=name, coasts=coasts)], TITLE)


def debrief_sheet(
    debrief: RecordedDebrief,
    size: PageSize = A4,
    *,
    name: str = "",
    coasts: tuple[Coast, ...] = (),
) -> Picture:
    """Return the page: plan, strip chart, table of tracking and the findings in sentences.

    Parameters
    ----------
    debrief
        The flight.
    size
        The paper.
    name
        What the flight is called at the head of the page, such as the name of its file.
    coasts
        Islands to draw on the plan.
    """
    sheet = Sheet(TITLE, size, _shortened(name))
    sheet.paragraph(_facts(debrief), SMALL)
    top, width = sheet.y, min(0.5 * sheet.width, size.height - WITHOUT_PLAN)
    sheet.draw(framed(track_plan(debrief, width, coasts), width, sheet.left, top))
    rest = _beside(sheet, debrief, sheet.left + width + 12.0, top, top + width)
    sheet.y = top + width + 8.0
    sheet.picture(deviation_strip(debrief, PRINT_STRIP, sheet.width, STRIP_HEIGHT))
    sheet.gap(4.0)
    _table(sheet, debrief)
    _findings(sheet, debrief, rest)
    return sheet.pages()[0]


def _shortened(name: str) -> str:
    """A name short enough for the head of a page, without what no page can show."""
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


def _beside(
    sheet: Sheet, debrief: RecordedDebrief, left: float, top: float, bottom: float
) -> list[str]:
    """Write the key, what was selected and notes beside the plan; return notes without room."""
    y, width = top + 0.5 * LEADING * SMALL, sheet.right - left
    sheet.draw(_text(left, y, "Phases, on the plan and under the needle", bold=True))
    y += 12.0
    for phase in (
        FlightPhase.INTERCEPTING,
        FlightPhase.TRACKING,
        FlightPhase.PASSAGE,
        FlightPhase.TURN,
        FlightPhase.OTHER,
    ):
        look, ink = LOOKS[phase], PRINT.track if LOOKS[phase].strong else PRINT.ring
        factor = (bottom - top) / PLAN_SIZE
        dash = tuple(part * factor for part in look.dash)
        sheet.draw(Line(left, y, left + 34.0, y, ink, look.width * factor, dash))
        sheet.draw(*block(left + 42.0, y - 4.0, 26.0, 8.0, phase, PRINT_STRIP))
        seconds = sum(_seconds(debrief, s.begin, s.end) for s in debrief.spans if s.phase is phase)
        sheet.draw(_text(left + 76.0, y, f"{phase}, {spoken_time(seconds)}"))
        y += 11.5
    y += 3.0
    sheet.draw(_text(left, y, "Selected", bold=True))
    for one in debrief.selections[:MOST_SELECTIONS]:
        y += LEADING * SMALL
        clock = debrief.utc(one.time_s)
        at = f"{clock:%H:%M:%S}" if clock else f"{one.time_s:.0f} s"
        sheet.draw(_text(left, y, at), _text(left + 44.0, y, one.words))
    if len(debrief.selections) > MOST_SELECTIONS:
        y += LEADING * SMALL
        sheet.draw(_text(left, y, f"and {len(debrief.selections) - MOST_SELECTIONS} more"))
    y += 0.8 * LEADING * SMALL
    without_room = []
    for words in _rest(debrief):
        if y + _height(width, words) <= bottom:
            y += _write(sheet, words, left, y, width)
        else:
            without_room.append(words)
    return without_room


def _seconds(debrief: RecordedDebrief, begin: int, end: int) -> float:
    return float(debrief.seen.lasting_s[begin:end].sum())


def _text(x: float, y: float, words: str, bold: bool = False) -> Text:
    return Text(x, y, words, SMALL, PRINT.text, "start", bold)


def _table(sheet: Sheet, debrief: RecordedDebrief) -> None:
    found = debrief.found.phases
    if not found:
        return
    pairs = list(zip(found, debrief.corrections, strict=True))
    # Of too many the longest are shown, in the order flown.
    longest = sorted(pairs, key=lambda pair: pair[0].begin_s - pair[0].end_s)[:MOST_PHASES]
    rows = [
        _row(phase, correction) for phase, correction in pairs if (phase, correction) in longest
    ]
    more = (
        "" if len(longest) == len(pairs) else f": the {MOST_PHASES} longest of {len(pairs)} times"
    )
    _head(sheet, f"Tracking{more}")
    sheet.table(COLUMNS, rows)


def _head(sheet: Sheet, words: str) -> None:
    """Write a heading in less room than those of sheets that go on."""
    sheet.draw(Text(sheet.left, sheet.y + 0.5 * BODY, words, BODY, PRINT.text, "start", True))
    sheet.y += LEADING * BODY + 1.0


def _row(phase: Phase, correction: WindCorrection) -> Sequence[str]:
    return (
        f"{phase.begin_s / 60.0:.1f} to {phase.end_s / 60.0:.1f}",
        phase.station_name,
        format_direction(phase.course_deg),
        Flag(phase.flag).name,
        format_tenths(phase.mean_radial_deg),
        *_off(phase.mean_away_deg, phase.mean_away_nm),
        *_off(phase.largest_off_deg, phase.largest_off_nm),
        f"{100.0 * phase.within_limit:.0f} %",
        _side(correction.used_deg),
        _side(correction.needed_deg),
    )


def _off(degrees: float, nm: float) -> tuple[str, str, str]:
    return f"{degrees:.1f}", f"{degrees / DEG_PER_DOT:.1f}", f"{nm:.2f}"


def _side(degrees: float | None) -> str:
    if degrees is None:
        return "unknown"
    return f"{abs(degrees):.0f} {'right' if degrees > 0.0 else 'left'}" if round(degrees) else "0"


def _rest(debrief: RecordedDebrief) -> list[str]:
    """What the numbers rest on."""
    said = [debrief.wind.words]
    if debrief.found.phases and debrief.heading is not HeadingSource.TRACK:
        said.append(f"Wind corrections are told {debrief.heading.value}.")
    if debrief.found.phases:
        said.append(f"Within 3/4 is told for information, not as a verdict: {LIMIT_SOURCE}.")
    return [*said, *debrief.notes]


def _findings(sheet: Sheet, debrief: RecordedDebrief, rest: Sequence[str]) -> None:
    """The findings that the table does not hold, as many as there is room for, and the rest."""
    found = debrief.found
    words = [
        *(one.words for one in found.unassured),
        *(met.words for met in found.intercepts),
        *(passed.words for passed in found.passages),
        *(turn.words for turn in found.wrong_turns),
    ]
    _head(sheet, "Findings")
    room = sheet.bottom - sheet.y - sum(_height(sheet.width, one) for one in rest)
    kept: list[str] = []
    for one in words:
        room -= _height(sheet.width, one)
        if room < (LEADING * SMALL + NOTE_GAP) * (one is not words[-1]):
            break
        kept.append(one)
    if len(kept) < len(words):
        kept.append(f"{len(words) - len(kept)} more are left out for want of room.")
    for one in (*kept, *rest):
        if sheet.y + _height(sheet.width, one) <= sheet.bottom:
            sheet.y += _write(sheet, one, sheet.left, sheet.y, sheet.width)


def _write(sheet: Sheet, words: str, left: float, top: float, width: float) -> float:
    """Write words from a corner on, and return the height they take."""
    for number, line in enumerate(wrapped(words, width, SMALL)):
        sheet.draw(_text(left, top + (number + 0.5) * LEADING * SMALL, line))
    return _height(width, words)


def _height(width: float, words: str) -> float:
    return len(wrapped(words, width, SMALL)) * LEADING * SMALL + NOTE_GAP
