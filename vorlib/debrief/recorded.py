"""The debrief of a recorded flight: what the needle must have shown, and how it was flown.

A recorder knows where the aircraft was and mostly not where its nose pointed. Heading is then
estimated from the wind, which is estimated from the track; what rests on an estimate is said to.
For training on the ground, not for navigation.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

import numpy as np

from vorlib.aircraft.flight import Flight
from vorlib.aircraft.ground_track import (
    GAP_S,
    IntArray,
    OverGround,
    jitter_nm,
    over_ground,
    runs,
    smoothed_deg,
    smoothing_s,
)
from vorlib.core.arguments import FloatArray
from vorlib.core.words import spoken_count, spoken_time
from vorlib.debrief.airborne import Airborne, airborne
from vorlib.debrief.analysis import debrief_history
from vorlib.debrief.findings import LIMIT_SOURCE, Phase
from vorlib.debrief.indicator_history import IndicatorHistory, indicator_history
from vorlib.debrief.navigating import navigating
from vorlib.debrief.phases import Span, phases_at, spans
from vorlib.debrief.selection_estimate import Estimate
from vorlib.debrief.summary import Debrief
from vorlib.debrief.wind.correction import HeadingSource, WindCorrection, wind_correction
from vorlib.debrief.wind.estimate import WindEstimate, air_heading_deg, estimate_wind
from vorlib.tracks.selections import Selection, check_belong, selected_at
from vorlib.vor.receiver import Flag, Reason

__all__ = ["HeadingSource", "RecordedDebrief", "WindCorrection", "debrief_recording"]

SAME_AS_TRACK = 0.5  # of the moments: a heading that is the track was not recorded
SHOWN_GAPS = 3
ON_THE_GROUND = "You did not leave the ground, where nothing is judged."


@dataclass(frozen=True, eq=False)
class RecordedDebrief:
    """Compare a recorded flight with what was selected.

    Attributes
    ----------
    flight
        The flight, its directions smoothed and its heading as `heading` says.
    start
        When it began, UTC; None where that is not known.
    selections
        What was selected when, in order of time.
    seen
        What the indicator must have shown at each moment; `judged` where it was flown by.
    selection
        Which of `selections` held at each moment; -1 where nothing was selected.
    air
        When it was in the air.
    phase
        `vorlib.debrief.phases.FlightPhase` at each moment.
    found
        The findings, those of a flight by hand.
    corrections
        The wind correction of each of `found.phases`.
    wind
        The wind estimated.
    heading
        Where the headings come from.
    groundspeed_kt
        At each moment.
    notes
        What is estimated, unknown or left out, a sentence each.
    """

    flight: Flight
    start: datetime | None
    selections: tuple[Selection, ...]
    seen: IndicatorHistory
    selection: IntArray
    air: Airborne
    phase: IntArray
    found: Debrief
    corrections: tuple[WindCorrection, ...]
    wind: WindEstimate
    heading: HeadingSource
    groundspeed_kt: FloatArray
    notes: tuple[str, ...]

    @property
    def spans(self) -> tuple[Span, ...]:
        """The flight as spans of doing one thing with one selection."""
        return spans(self.phase, self.seen)

    @property
    def sentences(self) -> tuple[str, ...]:
        """The findings in words, and what they rest on."""
        found = self.found
        if not self.air.flying.any():
            return (*self.overall, *self.notes)
        if not found.phases and not found.intercepts and not found.passages:
            return (*found.sentences, self.wind.words, *self.notes)
        tracked = {
            phase: f"{phase.measured_words} {held.words}"
            for phase, held in zip(found.phases, self.corrections, strict=True)
        }
        told = (tracked[part] if isinstance(part, Phase) else part.words for part in found.in_order)
        limit = (
            f"Three quarters of full scale is for information, not a verdict: {LIMIT_SOURCE}.",
        )
        return (
            *self.overall,
            *told,
            *(limit if tracked else ()),
            self.wind.words,
            *self.notes,
        )

    @property
    def overall(self) -> tuple[str, ...]:
        """The flight as a whole in words."""
        if not self.air.flying.any():
            return (ON_THE_GROUND,)
        circuits = sum(bool(self.air.circuit[a]) for a, _ in runs(self.air.circuit))
        if not circuits:
            return self.found.overall
        return (
            *self.found.overall,
            f"You flew {spoken_count(circuits, 'circuit')}, in which nothing is judged.",
        )

    def utc(self, time_s: float) -> datetime | None:
        """Return the day and time of a moment, UTC; None where the start is not known."""
        return None if self.start is None else self.start + timedelta(seconds=float(time_s))


def debrief_recording(
    flight: Flight,
    selections: Sequence[Selection] | Estimate,
    *,
    start: datetime | None = None,
    true_airspeed_kt: float | None = None,
    variation_deg: float | None = None,
    gap_s: float = GAP_S,
    speed_kt: FloatArray | None = None,
    notes: Sequence[str] = (),
) -> RecordedDebrief:
    """Return the debrief of a recorded flight.

    Parameters
    ----------
    flight
        The flight; a heading that is nothing but its track counts as not recorded.
    selections
        What was selected when, or an estimate of it.
    start
        When the flight began, with its zone.
    true_airspeed_kt
        The airspeed if it is known; it makes the wind surer.
    variation_deg
        Variation of the compass, positive east; the stations' declinations if none is given.
    gap_s
        Nothing is found across a silence longer than this.
    speed_kt
        Speed over the ground as it was recorded, one for each moment; from the places if not given.
    notes
        What is to be said besides, such as what was done to the recorded points.

    Raises
    ------
    ValueError
        If the flight has no moment, or nothing is selected, or all of it at another time.
    """
    if not flight.time_s.size:
        raise ValueError("flight must hold at least one moment, got none")
    said: list[str] = []
    if isinstance(selections, Estimate):
        if not selections.selections:
            raise ValueError(" ".join(selections.words))
        said += selections.words
        selections = selections.selections
    check_belong(selections, float(flight.time_s[-1]))
    ground = over_ground(flight, gap_s)
    air = airborne(flight, gap_s, speed_kt)
    wind = estimate_wind(flight, true_airspeed_kt, gap_s, air.cruise(flight.time_s))
    heading = _heading(flight, wind)
    jitter = jitter_nm(flight, gap_s)
    flown = _smoothed(flight, ground, wind, heading, gap_s, smoothing_s(jitter))
    selected = selected_at(selections, flown.time_s)
    seen = indicator_history(flown, selected.station, selected.course_deg, variation_deg, gap_s)
    judged = seen.judging(navigating(seen, selected.number, air))
    found = debrief_history(judged, jitter, flown_s=float(seen.lasting_s[air.flying].sum()))
    return RecordedDebrief(
        flight=flown,
        start=start,
        selections=tuple(sorted(selections, key=lambda one: one.time_s)),
        seen=replace(seen.judging(selected.number >= 0), judged=judged.judged),
        selection=selected.number,
        air=air,
        phase=phases_at(judged, found, air),
        found=found,
        corrections=tuple(wind_correction(phase, flown, wind, heading) for phase in found.phases),
        wind=wind,
        heading=heading,
        groundspeed_kt=ground.groundspeed_kt,
        notes=(*said, *_notes(flown, seen, selections, heading), *notes),
    )


def _heading(flight: Flight, wind: WindEstimate) -> HeadingSource:
    same = flight.true_heading_deg == flight.true_track_deg
    if np.mean(same) < SAME_AS_TRACK:
        return HeadingSource.RECORDED
    return HeadingSource.TRACK if wind.wind is None else HeadingSource.ESTIMATED


def _smoothed(
    flight: Flight,
    ground: OverGround,
    wind: WindEstimate,
    heading: HeadingSource,
    gap_s: float,
    half_s: float,
) -> Flight:
    """Return the flight with directions that a recorder's noise does not turn."""
    noses = ground.true_track_deg
    if heading is HeadingSource.RECORDED:
        noses = flight.true_heading_deg
    elif wind.wind is not None:
        noses = air_heading_deg(ground, wind.wind)
    track, nose = (
        smoothed_deg(flight.time_s, direction, gap_s, half_s)
        for direction in (ground.true_track_deg, noses)
    )
    return replace(flight, true_heading_deg=nose, true_track_deg=track)


def _notes(
    flight: Flight, seen: IndicatorHistory, selections: Sequence[Selection], heading: HeadingSource
) -> list[str]:
    notes = []
    if np.all(seen.flag == Flag.OFF):
        why = ", ".join(str(Reason(reason)) for reason in np.unique(seen.reason).tolist())
        notes.append(f"The flag was OFF all the way: {why}.")
    if heading is HeadingSource.ESTIMATED:
        notes.append(
            "Your heading was not recorded: any heading given here is estimated from the track "
            "and the wind."
        )
    elif heading is HeadingSource.TRACK:
        notes.append(
            "Your heading was not recorded and the wind is not known: any heading given here is "
            "your track, and reverse sensing is judged by it."
        )
    gaps = np.flatnonzero(np.diff(seen.segment)) + 1
    for i in gaps[:SHOWN_GAPS].tolist():
        before, after = spoken_time(seen.time_s[i - 1]), spoken_time(seen.time_s[i])
        notes.append(
            f"Nothing was recorded from {before} to {after}: nothing is judged across that gap."
        )
    if gaps.size > SHOWN_GAPS:
        notes.append(f"There are {gaps.size - SHOWN_GAPS} more such gaps.")
    late = sum(one.time_s > flight.time_s[-1] for one in selections)
    if late:
        of_all = f"{late} of {spoken_count(len(selections), 'selection')}"
        come = "comes after the flight's end and was" if late == 1 else "come after it and were"
        notes.append(f"{of_all} {come} not used: are the times UTC?")
    return notes
