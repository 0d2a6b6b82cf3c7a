"""The example flight: an invented recording in the islands, with the instructor's log of it.

A learner meets a course late, brackets it, passes two stations and comes back to the second. The
library's own pilots flew it and a sensor's errors were added. Not for navigation.
"""

from __future__ import annotations

import io
from importlib.resources import files
from typing import NamedTuple

from vorlib.stations.archipelago import STATIONS
from vorlib.tracks import Recording, read_track
from vorlib.tracks.selections import Selection, read_selections

GPX, LOG = "example_flight.gpx", "example_flight_selections.csv"


class ExampleFlight(NamedTuple):
    """A recording and what was selected when."""

    recording: Recording
    selections: tuple[Selection, ...]


def example_flight() -> ExampleFlight:
    """Return the example flight, read from the files that are shipped with the library."""
    data = files("vorlib").joinpath("data")
    recording = read_track(data.joinpath(GPX).read_bytes())
    log = io.StringIO(data.joinpath(LOG).read_text(encoding="utf-8"))
    return ExampleFlight(recording, read_selections(log, STATIONS, recording.start))
