"""Debrief a recorded flight from files: a track, stations, and what was selected when.

For training on the ground, not for navigation.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from vorlib.aircraft.flight import Flight
from vorlib.debrief.recorded import RecordedDebrief, debrief_recording
from vorlib.debrief.selection_estimate import Estimate, estimate_selections
from vorlib.io.text import Source
from vorlib.stations import StationList, load_stations
from vorlib.stations.archipelago import NAME, STATIONS
from vorlib.tracks import Columns, read_track
from vorlib.tracks.example import example_flight
from vorlib.tracks.reach import REACH_NM, out_of_reach, some_places
from vorlib.tracks.selections import Selection, read_selections
from vorlib.vor.station import Station

__all__ = ["DebriefedFile", "debrief_example", "debrief_from_files", "stations_near"]

MOST_NEAR = 60  # stations that a flight may have tuned from one place


@dataclass(frozen=True, eq=False)
class DebriefedFile:
    """A debrief, and the stations it was made with; None for those of the islands."""

    debrief: RecordedDebrief
    stations: StationList | None


def debrief_example() -> DebriefedFile:
    """Return the debrief of the flight that is shipped with the library."""
    recording, selections = example_flight()
    debrief = debrief_recording(
        recording.flight, selections, start=recording.start, notes=recording.notes
    )
    return DebriefedFile(debrief, None)


def debrief_from_files(
    track: Source,
    stations: Source | StationList | None = None,
    selections: Source | None = None,
    *,
    columns: Columns | None = None,
    number: int | None = None,
    altitude_ft: float | None = None,
    true_airspeed_kt: float | None = None,
    variation_deg: float | None = None,
) -> DebriefedFile:
    """Return the debrief of a recorded flight.

    Parameters
    ----------
    track, columns, number, altitude_ft
        As in `vorlib.tracks.read_track`.
    stations
        As in `vorlib.stations.load_stations`, or loaded already; those of the invented islands if
        none is given.
    selections
        As in `vorlib.tracks.selections.read_selections`; estimated from the track if none is given.
    true_airspeed_kt, variation_deg
        As in `vorlib.debrief.recorded.debrief_recording`.

    Raises
    ------
    ValueError
        If a file or an argument cannot be used, no station is near the flight, or what was
        selected can neither be read nor estimated.
    OSError
        If a file cannot be opened.
    """
    recording = read_track(track, columns, number=number, altitude_ft=altitude_ft)
    loaded = _loaded(stations)
    everywhere = (
        [*STATIONS.values()] if loaded is None else [one.station for one in loaded.stations]
    )
    far = out_of_reach(recording.flight, everywhere)
    if far:
        whose = f" No stations were given, so those of the {NAME} were used."
        raise ValueError(far + (whose if loaded is None else ""))
    near = STATIONS if loaded is None else stations_near(loaded, recording.flight)
    selected: tuple[Selection, ...] | Estimate
    if selections is None:
        selected = estimate_selections(recording.flight, near.values())
    else:
        selected = read_selections(selections, near, recording.start)
    debrief = debrief_recording(
        recording.flight,
        selected,
        start=recording.start,
        true_airspeed_kt=true_airspeed_kt,
        variation_deg=variation_deg,
        speed_kt=recording.speed_kt,
        notes=recording.notes,
    )
    return DebriefedFile(debrief, loaded)


def _loaded(stations: Source | StationList | None) -> StationList | None:
    if stations is None or isinstance(stations, StationList):
        return stations
    return load_stations(stations)


def stations_near(stations: StationList, flight: Flight) -> Mapping[str, Station]:
    """Return the stations that a flight may have tuned, nearest first; of one ident the nearest."""
    found = [
        near
        for place in some_places(flight)
        for near in stations.nearest(place, MOST_NEAR, within_nm=REACH_NM)
    ]
    nearest: dict[str, Station] = {}
    for near in sorted(found, key=lambda near: near.distance_nm):
        nearest.setdefault(near.listed.station.ident, near.listed.station)
    return nearest
