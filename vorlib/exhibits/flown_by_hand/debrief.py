"""The debrief of a flight as HTML: the findings in words, the phases in a table, a strip chart."""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from html import escape

from IPython.display import Image

from vorlib.aircraft.flight import Flight, record
from vorlib.core.angles import format_direction, mean_direction_deg
from vorlib.core.words import spoken_time
from vorlib.debrief.analysis import debrief
from vorlib.debrief.findings import Phase
from vorlib.debrief.indicator_history import indicator_history
from vorlib.debrief.summary import Debrief
from vorlib.exhibits.base.html import html_table
from vorlib.exhibits.flown_by_hand.hand_flight import HandFlightState, Logged
from vorlib.stations.archipelago import STATIONS
from vorlib.views.drawing.chart import inline_chart
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.views.flight.strip_chart import Strip, strip_chart
from vorlib.vor.receiver import Flag
from vorlib.vor.station import Station

__all__ = ["chart", "debriefing", "findings", "held_heading_deg", "told"]

CHART_DPI = 100

COLUMNS = ("Station", "Course", "Flag", "From", "To", "Radial held", "Mean off", "Most off")


def findings(state: HandFlightState) -> Debrief:
    """Return the debrief of all moments logged so far in a flight."""
    return _found(state, state.log)


def _found(state: HandFlightState, log: Sequence[Logged]) -> Debrief:
    return debrief(*_flown(state, log), identified=[moment.identified for moment in log])


def told(state: HandFlightState) -> tuple[str, ...]:
    """Return the findings in words, and how many tasks are done."""
    first, *others = findings(state).sentences
    return (first, *_tasks(state), *others)


def _tasks(state: HandFlightState) -> Iterator[str]:
    if state.begun and state.task is not None:
        done = f"{state.tasks_done} of the {len(state.tasks)} tasks are done"
        yield f"{done}. The next one was: {state.task.words}"


def held_heading_deg(state: HandFlightState, station_name: str, course_deg: float) -> float | None:
    """Return the mean heading over the second half of the last time that a course was tracked."""
    phases = [p for p in findings(state).phases if p.station_name == station_name]
    begin_end = [(p.begin_s, p.end_s) for p in phases if p.course_deg == course_deg]
    if not begin_end:
        return None
    begin_s, end_s = begin_end[-1]
    seen = indicator_history(*_flown(state, state.log))
    late = (seen.time_s >= (begin_s + end_s) / 2.0) & (seen.time_s <= end_s)
    return float(mean_direction_deg(seen.heading_deg[late]))


def chart(state: HandFlightState, theme: Theme = SCREEN) -> Image:
    """Return the strip chart of a flight so far, as a picture for a notebook."""
    file = io.BytesIO()
    strip_chart([_strip(state, state.log)], theme).savefig(file, format="png", dpi=CHART_DPI)
    alt = _chart_words(state.log)
    image: Image = Image(data=file.getvalue(), alt=alt, width=820)  # type: ignore[no-untyped-call]
    return image


def debriefing(state: HandFlightState, theme: Theme = SCREEN) -> str:
    """Return the debrief of the first `state.debriefed` moments, as HTML; empty for none."""
    log = state.log[: state.debriefed]
    if not log:
        return ""
    found = _found(state, log)
    first, *others = found.sentences
    others = [*_tasks(state), *others]
    parts = [f"<h4>Debrief</h4><p>{escape(first)}</p>"]
    if others:
        parts += ["<ul>", *(f"<li>{escape(sentence)}</li>" for sentence in others), "</ul>"]
    if found.phases:
        parts.append(html_table("Tracking", map(_cells, found.phases), COLUMNS))
    if len(log) > 1:
        parts.append(_chart(_strip(state, log), log, theme))
    return "".join(parts)


def _flown(
    state: HandFlightState, log: Sequence[Logged]
) -> tuple[Flight, list[Station], list[float], float]:
    """Return a log as the arguments of the debrief: flight, stations, courses, variation."""
    flight = record([moment.now for moment in log], state.aircraft, state.wind)
    tuned = [STATIONS[moment.station] for moment in log]
    return flight, tuned, [moment.course_deg for moment in log], state.variation_deg


def _strip(state: HandFlightState, log: Sequence[Logged]) -> Strip:
    seen = indicator_history(*_flown(state, log))
    return Strip("Your flight", seen.time_s, seen.reading, seen.heading_deg, seen.course_deg)


def _cells(phase: Phase) -> tuple[str, ...]:
    return (
        phase.station_name,
        format_direction(phase.course_deg),
        Flag(phase.flag).name,
        spoken_time(phase.begin_s),
        spoken_time(phase.end_s),
        format_direction(phase.mean_radial_deg),
        f"{abs(phase.mean_off_deg):.1f}°",
        f"{phase.largest_off_deg:.1f}°",
    )


def _chart(strip: Strip, log: Sequence[Logged], theme: Theme) -> str:
    return inline_chart(strip_chart([strip], theme), _chart_words(log))


def _chart_words(log: Sequence[Logged]) -> str:
    return f"Strip chart of {spoken_time(log[-1].now.time_s)}: needle, heading, course, distance."
