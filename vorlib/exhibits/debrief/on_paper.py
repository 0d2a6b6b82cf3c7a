"""Options of a printed debrief: who flew, the plan, findings left out, a second flight."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

from vorlib.aircraft.wind import Wind
from vorlib.briefing.files import wind_from_words
from vorlib.briefing.lesson import Lesson
from vorlib.briefing.saved import read_lesson
from vorlib.core.angles import format_direction
from vorlib.core.limits import FASTEST_KT, HIGHEST_FT, LOWEST_PLANNED_FT, SLOWEST_KT
from vorlib.debrief.report.planned import Plan
from vorlib.debrief.report.seconds_table import seconds_csv
from vorlib.exhibits.base.control import Control
from vorlib.exhibits.base.controls import Button, Number
from vorlib.exhibits.base.inputs import FileEntry, Opened, Words, paragraphs
from vorlib.exhibits.debrief.state import DebriefState, Kept
from vorlib.exhibits.sheets.save_sheets import SaveSheets
from vorlib.io.atomic import write_whole
from vorlib.paper.debrief import Notes, save_debrief
from vorlib.paper.two_flights import two_flights_pdf
from vorlib.stations.archipelago import AIRFIELDS, ISLANDS

__all__ = ["page_controls"]


def page_controls() -> list[Control]:
    """Return the controls of the printed debrief: its contents, and buttons that write it."""
    altitude = Number(
        "planned_altitude_ft",
        "Planned altitude",
        "feet",
        LOWEST_PLANNED_FT,
        HIGHEST_FT,
        100.0,
        optional=True,
    )
    airspeed = Number(
        "planned_airspeed_kt", "Planned airspeed", "knots", SLOWEST_KT, FASTEST_KT, 5.0,
        optional=True,
    )  # fmt: skip
    sheets = {
        "Write the debrief (PDF)": _write_pdf,
        "Write two flights side by side (PDF)": _write_both,
        "Write second by second (CSV)": _write_csv,
    }
    plan = FileEntry("plan", "Lesson card", read_lesson, _plan_note, _as_planned)
    plan.button.accept = ".json"
    plan.box.placeholder = "its plan (.plan.json): a path, or press the button"
    return [
        *(Words(name, name.capitalize(), str, str) for name in WHO),
        plan,
        Words("planned_wind", "Forecast wind", _wind, _wind_words, example="such as 250/20, true"),
        altitude,
        airspeed,
        Words("struck", "Leave out findings", _numbers, _number_words, example="such as 2, 5"),
        Button("kept", "Keep this flight to compare", _keep),
        SaveSheets("folder", sheets),
    ]


def _plan_note(state: DebriefState) -> str:
    """Return which lesson card is compared with the flight, as HTML."""
    if state.plan is None:
        return paragraphs("No card: forecast wind, altitude and airspeed can be typed below.")
    return paragraphs(f"Compared with the flight: {_planned(state).name}.")


def _as_planned(state: DebriefState, plan: Opened[Lesson] | None) -> dict[str, Any]:
    """Return the changes for a lesson card: its wind, altitude and airspeed become the plan's."""
    if plan is None:
        return {}
    lesson = plan.content
    return {
        "planned_wind": lesson.wind,
        "planned_altitude_ft": lesson.altitude_ft,
        "planned_airspeed_kt": lesson.aircraft.true_airspeed_kt,
    }


def _planned(state: DebriefState) -> Plan:
    """Return the plan: the card with typed values in place of its own, or the typed values alone.

    Among the islands, typed values go with their airfields.
    """
    plan = Plan(state.planned_wind, state.planned_altitude_ft, state.planned_airspeed_kt)
    if state.plan is not None:
        return plan.on_card(state.plan.content)
    if plan != Plan() and state.stations is None:
        return replace(plan, fields=tuple(AIRFIELDS.values()))
    return plan


WHO = ("student", "instructor", "aircraft", "lesson")


def _wind(words: str) -> Wind | None:
    return wind_from_words(words) if words else None


def _wind_words(wind: Wind | None) -> str:
    if wind is None:
        return ""
    return f"{format_direction(float(wind.from_deg))}/{float(wind.speed_kt):g}"


def _numbers(words: str) -> frozenset[int]:
    parts = words.replace(",", " ").split()
    if not all(part.isdecimal() for part in parts):
        raise ValueError(f"enter the numbers of findings, such as 2, 5; got {words!r}")
    return frozenset(map(int, parts))


def _number_words(numbers: frozenset[int]) -> str:
    return ", ".join(map(str, sorted(numbers)))


def _keep(state: DebriefState) -> dict[str, Any]:
    if state.case.debrief is None:
        return {}  # why there is none stands at the control that caused it
    return {"kept": Kept(state.name, state.debrief)}


def _notes(state: DebriefState) -> Notes:
    return Notes(**{name: getattr(state, name) for name in WHO}, struck=state.struck)


def _file_name(state: DebriefState, kind: str) -> str:
    """Return a file's name that tells the flight, so that another flight does not overwrite it."""
    start = state.debrief.start
    when = f"{start:%Y-%m-%d-%H%M%S}" if start else "flight"
    return f"debrief-{when}.{kind}"


def _write_pdf(state: DebriefState, folder: Path) -> Path:
    return save_debrief(
        folder / _file_name(state, "pdf"),
        state.debrief,
        name=state.name,
        coasts=ISLANDS if state.stations is None else (),
        notes=_notes(state),
        plan=_planned(state),
    )


def _write_both(state: DebriefState, folder: Path) -> Path:
    if state.kept is None:
        raise ValueError("press Keep this flight to compare, then open the other flight")
    both = two_flights_pdf(state.kept, (state.name, state.debrief), notes=_notes(state))
    return write_whole(folder / f"two-{_file_name(state, 'pdf')}", both)


def _write_csv(state: DebriefState, folder: Path) -> Path:
    return write_whole(folder / _file_name(state, "csv"), seconds_csv(state.debrief).encode())
