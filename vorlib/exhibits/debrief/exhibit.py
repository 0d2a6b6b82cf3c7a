"""The debrief of a recorded flight: map, indicator and strip at any moment, and the findings.

For training on the ground, not for navigation.
"""

from __future__ import annotations

from collections.abc import Callable
from textwrap import fill
from typing import Any

import ipywidgets as widgets

from vorlib.briefing.saved import read_lesson
from vorlib.core.limits import FASTEST_KT, HIGHEST_FT, LOWEST_FT, SLOWEST_KT
from vorlib.debrief.recorded import RecordedDebrief
from vorlib.exhibits.base.changes import Remark
from vorlib.exhibits.base.control import Control
from vorlib.exhibits.base.controls import ChoiceControl, Number
from vorlib.exhibits.base.exhibit import Exhibit, Grip
from vorlib.exhibits.base.inputs import FileEntry, Opened, Words, open_file
from vorlib.exhibits.base.picture_widget import Drag, Steps
from vorlib.exhibits.base.plain import plain
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.base.transport import TimeSlider
from vorlib.exhibits.debrief.columns import ColumnLists
from vorlib.exhibits.debrief.controls import (
    FindingButton,
    Phases,
    Rows,
    Which,
)
from vorlib.exhibits.debrief.on_paper import page_controls
from vorlib.exhibits.debrief.picture import draw, scrubbed_s
from vorlib.exhibits.debrief.state import RANGES_NM, WHOLE_NM, DebriefState
from vorlib.exhibits.debrief.words import findings, sentence, stations_note, track_note
from vorlib.io.text import Source, read_text
from vorlib.stations import load_stations
from vorlib.tracks import Columns
from vorlib.tracks.gpx import SAVE_AS
from vorlib.views.drawing.theme import Theme
from vorlib.views.sentence import LINE

__all__ = ["DebriefState", "Debriefing", "debrief_flight", "draw", "sentence"]

LOADING = "Your own flight: file, stations, what was selected"


class Debriefing(Exhibit[DebriefState]):
    """The exhibit, with the debrief in numbers and the findings under the picture."""

    def __init__(
        self, state: DebriefState, look: list[Control], load: list[Control], page: list[Control]
    ) -> None:
        self._problem = Remark()  # why there is no debrief
        self._findings = plain(widgets.HTML, classes="vorlib-debrief")
        grips = {"time": Grip(_scrub, _step)}
        super().__init__(state, draw, sentence, [*look, *load, *page], grips)
        self._say_problem()
        back, on, phases, clock, range_ = (control.widget for control in look)
        transport = plain(widgets.Box, [back, on, clock], classes="vorlib-transport")
        beside = plain(widgets.Box, [phases, range_], classes="vorlib-controls")
        fields = plain(widgets.Box, [control.widget for control in load], classes="vorlib-controls")
        self.loading = plain(widgets.Accordion, [fields], titles=(LOADING,), selected_index=None)
        out = plain(widgets.Box, [control.widget for control in page], classes="vorlib-controls")
        self.page.fill(
            transport=[transport],
            controls=[beside],
            switches=[],
            below=[self.loading, self._findings, out],
        )
        self.widget.add_class("vorlib-recorded")

    @property
    def debrief(self) -> RecordedDebrief:
        """The debrief of the flight; ValueError says why there is none."""
        return self.state.debrief

    def tell(self) -> None:
        """Print the findings, numbered as in the pictures, in lines short enough to read."""
        for finding in self.state.case.findings:
            print(fill(f"{finding.number} {finding.words}", LINE, subsequent_indent="  "))

    def set(self, **changes: Any) -> None:
        """Change the state; why there is no debrief is said beside the control that can mend it."""
        super().set(**changes)
        self._say_problem()

    def _say_problem(self) -> None:
        case = self.state.case
        mending = next((c for c in self.controls if c.field == case.field), None)
        self._problem.say(mending, case.problem)

    def _become(self, state: DebriefState, theme: Theme) -> None:
        super()._become(state, theme)
        self._findings.value = findings(self.state)


def _scrub(state: DebriefState, drag: Drag, theme: Theme) -> dict[str, Any]:
    return {"time_s": scrubbed_s(state, drag.x, theme)} if state.case.debrief else {}


def _step(state: DebriefState, steps: Steps) -> dict[str, Any]:
    if state.case.debrief is None:
        return {}
    return {"time_s": min(max(state.shown_s + steps.right + steps.up, 0.0), state.duration_s)}


def _another(state: DebriefState, value: Any) -> dict[str, Any]:
    """Return what changes with flight or stations: what was selected is to be found out again."""
    return {"selections": None, "time_s": 0.0}


def _other_track(state: DebriefState, track: Opened[str] | None) -> dict[str, Any]:
    if track is None:
        start = DebriefState()
        return {"selections": start.selections, "number": None, "stations": None, "time_s": 0.0}
    return _another(state, track) | {"number": None}


def _other_stations(state: DebriefState, stations: Any) -> dict[str, Any]:
    return {"selections": None}


def _track_text(source: Source) -> str:
    return read_text(source, SAVE_AS)


FILES: dict[str, tuple[str, Callable[[Source], Any]]] = {
    "track": ("Flight file", _track_text),
    "stations": ("Stations file", load_stations),
    "plan": ("Lesson card", read_lesson),
}


def _state(**start: Any) -> DebriefState:
    """Return the state to start from; files may be paths."""
    for name, (label, read) in FILES.items():
        if name in start:
            start[name] = open_file(label, read, start[name])
    if start.get("track") is not None:
        start = {"selections": None} | start
    return DebriefState(**start)


@exhibit(lesson="debrief", state=_state)
def debrief_flight(**start: Any) -> Debriefing:
    """Return the exhibit that debriefs a recorded flight, at first the example flight.

    Parameters
    ----------
    **start
        Fields of `DebriefState` to start from, such as ``time_s=264`` or ``track="flight.gpx"``;
        files may be paths. Without rows of ``selections`` those of another flight are estimated.

    Raises
    ------
    ValueError
        If a file or a value cannot be used.
    """
    track = FileEntry("track", *FILES["track"], track_note, _other_track)
    track.button.accept = ".gpx,.csv,.txt"
    track.box.placeholder = "GPX or CSV: a path, or press the button; empty for the example flight"
    stations = FileEntry("stations", *FILES["stations"], stations_note, _other_stations)
    stations.box.placeholder = "a path, or press the button; empty for the islands"
    number = Which()
    number.consequences = _another
    airspeed = Number(
        "true_airspeed_kt", "True airspeed", "knots", SLOWEST_KT, FASTEST_KT, 5.0, optional=True
    )
    columns = Words(
        "columns",
        "Columns of a CSV",
        Columns.from_words,
        lambda columns: columns.words,
        example="such as lat_deg=Lat, altitude=Height, altitude_unit=m, zone=Atlantic/Azores",
    )
    columns.widget.add_class("vorlib-across")
    load: list[Control] = [
        track,
        number,
        Number(
            "altitude_ft", "Missing altitude", "feet", LOWEST_FT, HIGHEST_FT, 100.0, optional=True
        ),
        airspeed,
        columns,
        ColumnLists(),
        stations,
        Rows("selections", "What was selected"),
    ]
    ranges = {"whole flight": WHOLE_NM} | {f"{r:g} NM": r for r in RANGES_NM}
    look: list[Control] = [
        FindingButton("Previous finding", -1),
        FindingButton("Next finding", 1),
        Phases(),
        TimeSlider(),
        ChoiceControl("range_nm", "Map", ranges),
    ]
    return Debriefing(_state(**start), look, load, page_controls())
