"""The debrief of a flight as HTML: the findings in words, the phases in a table, a strip chart."""

from __future__ import annotations

import base64
import io
from collections.abc import Sequence
from html import escape

from vorlib.angles import format_direction
from vorlib.archipelago import STATIONS
from vorlib.debrief import debrief
from vorlib.exhibits.sortie import Logged, State
from vorlib.findings import Phase, spoken_time
from vorlib.flight import record
from vorlib.receiver import Flag
from vorlib.views.strip_chart import Strip, strip_chart
from vorlib.views.theme import SCREEN, Theme
from vorlib.watched import watch

__all__ = ["debriefing"]

COLUMNS = ("Station", "Course", "Flag", "From", "To", "Radial held", "Mean off", "Most off")


def debriefing(state: State, theme: Theme = SCREEN) -> str:
    """Return the debrief of the moments of a state that are to be debriefed; empty for none."""
    log = state.log[: state.debriefed]
    if not log:
        return ""
    flight = record([moment.now for moment in log], state.aircraft, state.wind)
    tuned = [STATIONS[moment.station] for moment in log]
    courses = [moment.course_deg for moment in log]
    found = debrief(flight, tuned, courses, state.variation_deg)
    first, *others = found.sentences
    parts = [f"<h4>Debrief</h4><p>{escape(first)}</p>"]
    if others:
        parts += ["<ul>", *(f"<li>{escape(sentence)}</li>" for sentence in others), "</ul>"]
    if found.phases:
        parts.append(_table(found.phases))
    if len(log) > 1:
        seen = watch(flight, tuned, courses, state.variation_deg)
        strip = Strip("Your flight", seen.time_s, seen.reading, seen.heading_deg)
        parts.append(_chart(strip, log, theme))
    return "".join(parts)


def _table(phases: Sequence[Phase]) -> str:
    head = "".join(f'<th scope="col">{name}</th>' for name in COLUMNS)
    rows = "".join(f"<tr>{_cells(phase)}</tr>" for phase in phases)
    return f"<table><caption>Tracking</caption><tr>{head}</tr>{rows}</table>"


def _cells(phase: Phase) -> str:
    values = (
        phase.station_name,
        format_direction(phase.course_deg),
        Flag(phase.flag).name,
        spoken_time(phase.begin_s),
        spoken_time(phase.end_s),
        format_direction(phase.mean_radial_deg),
        f"{abs(phase.mean_off_deg):.1f}°",
        f"{phase.largest_off_deg:.1f}°",
    )
    return "".join(f"<td>{escape(value)}</td>" for value in values)


def _chart(strip: Strip, log: Sequence[Logged], theme: Theme) -> str:
    file = io.BytesIO()
    strip_chart([strip], theme).savefig(file, format="svg")
    data = base64.b64encode(file.getvalue()).decode()
    words = f"Strip chart of {spoken_time(log[-1].now.time_s)}: needle, heading, distance."
    return f'<img alt="{words}" src="data:image/svg+xml;base64,{data}">'
