"""The words of a debriefed flight: the sentence of a moment, and the findings as HTML."""

from __future__ import annotations

from html import escape

from vorlib.core.angles import format_direction, spoken_side
from vorlib.core.caution import CAUTION
from vorlib.core.units import NO_BREAK
from vorlib.core.words import spoken_dots, spoken_knots, spoken_time, spoken_times, stopwatch
from vorlib.debrief.findings import LIMIT_SOURCE, Phase
from vorlib.debrief.phases import FlightPhase
from vorlib.debrief.recorded import RecordedDebrief, WindCorrection
from vorlib.exhibits.base.html import html_table
from vorlib.exhibits.base.inputs import paragraphs
from vorlib.exhibits.debrief.state import DebriefState
from vorlib.views.sentence import reading_sentence, volume_words, where_sentence
from vorlib.vor.receiver import DEG_PER_DOT, Flag

__all__ = ["findings", "sentence", "stations_note", "track_note"]

TRACKED = "Each time a course was tracked, in minutes and seconds of the flight"
COLUMNS = (
    "From",
    "To",
    "Tracked",
    "Held",
    "Off on average",
    "Off at most",
    "Crossed",
    "Within ¾",
    "Wind correction",
)


def sentence(state: DebriefState) -> str:
    """Say when it is, what was being done, where that was, what was shown, and what was found."""
    if state.case.debrief is None:
        return state.case.problem.replace("\n", "; ")
    when, now = _when(state), state.moment
    if not now.recorded:
        return f"{when}. Nothing was recorded here: where the aircraft was is not known."
    if now.phase != FlightPhase.OTHER:
        when += f", {now.phase}"
    found = f"Finding {state.finding.number}: {state.finding.words}" if state.finding else ""
    place = where_sentence(now.station, now.position)
    volume = volume_words(now.station, now.position)
    reading = "Nothing is selected."
    if now.selected:
        reading = reading_sentence(now.course_deg, now.reading, volume)
    track = format_direction(now.track_deg)
    flown = f"Your track is {track}, {spoken_knots(now.groundspeed_kt)} over the ground."
    return " ".join(filter(None, (f"{when}.", place, reading, flown, found)))


def _when(state: DebriefState) -> str:
    clock = state.debrief.utc(state.shown_s)
    utc = f" ({clock:%H:%M:%S} UTC)" if clock else ""
    return f"After {spoken_time(state.shown_s)}{utc}"


def track_note(state: DebriefState) -> str:
    """Return what was read of the file, as HTML."""
    recording = state.case.recording
    if recording is None:
        return ""
    flight = recording.flight
    seconds, points = float(flight.time_s[-1]), flight.time_s.size
    begin = f"From {recording.start:%Y-%m-%d %H:%M:%S} UTC, " if recording.start else ""
    name = "" if state.track else "The example flight of the invented islands. "
    notes = " ".join(recording.notes)
    return paragraphs(f"{name}{begin}{spoken_time(seconds)}, {points:,} points. {notes}")


def stations_note(state: DebriefState) -> str:
    """Return where the stations are from, with the caution, as HTML."""
    if state.stations is None:
        source = "The stations of the invented islands."
    else:
        found = state.stations.content
        source = f"{found.counted} from {found.source}."
        if state.case.recording is not None and state.case.recording.start is not None:
            source += f" {found.age_words(state.case.recording.start.date())}"
    return paragraphs(source, strong=[CAUTION])


def findings(state: DebriefState) -> str:
    """Return what was found, as HTML; empty without a flight."""
    debrief = state.case.debrief
    if debrief is None:
        return ""
    overall, *others = debrief.overall
    parts = ["<h4>Findings</h4>", f"<p>{escape(' '.join((overall, *others)))}</p>"]
    if state.case.findings:
        rows = "".join(f"<li>{escape(finding.words)}</li>" for finding in state.case.findings)
        parts.append(f"<ol>{rows}</ol>")
    if debrief.found.phases:
        cells = map(_cells, debrief.found.phases, debrief.corrections)
        parts.append(html_table(TRACKED, cells, COLUMNS))
        parts.append(
            "<p>Within ¾ is the share of the time within three quarters of full scale. It is "
            f"for information, not a verdict: {escape(LIMIT_SOURCE)}.</p>"
        )
    parts.append(f"<h4>What this rests on</h4>{_rests(debrief)}<p><b>{CAUTION}</b></p>")
    return "".join(parts)


def _rests(debrief: RecordedDebrief) -> str:
    rows = "".join(f"<li>{escape(words)}</li>" for words in (debrief.wind.words, *debrief.notes))
    return f"<ul>{rows}</ul>"


def _cells(phase: Phase, correction: WindCorrection) -> tuple[str, ...]:
    way = "inbound" if phase.flag == Flag.TO else "outbound"
    radial = format_direction(phase.course_deg + 180.0 * (phase.flag == Flag.TO))
    return (
        stopwatch(phase.begin_s),
        stopwatch(phase.end_s),
        f"{phase.station_name} {radial} {way}",
        format_direction(phase.mean_radial_deg),
        _off(phase.mean_away_deg, phase.mean_away_nm),
        _off(phase.largest_off_deg, phase.largest_off_nm),
        spoken_times(phase.crossings),
        f"{100.0 * phase.within_limit:.0f} %",
        _correction(correction),
    )


def _off(degrees: float, nm: float) -> str:
    dots = spoken_dots(degrees / DEG_PER_DOT).replace(" ", NO_BREAK)
    return f"{dots}, {degrees:.1f}°, {nm:.2f}{NO_BREAK}NM"


def _correction(one: WindCorrection) -> str:
    """Return the correction held, and in brackets what the wind estimated asks for."""
    if one.used_deg is None:
        return "unknown"
    needed = "" if one.needed_deg is None else f" (wind: {_side(one.needed_deg)})"
    return f"{_side(one.used_deg)}{needed}"


def _side(degrees: float) -> str:
    size = round(abs(degrees))
    return f"{size}° {spoken_side(degrees)}" if size else "none"
