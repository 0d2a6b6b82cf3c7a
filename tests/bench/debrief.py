"""What it costs to analyze a recorded flight of four hours at one point a second.

Run it on a quiet machine with ``python tests/bench/debrief.py``.
"""

from __future__ import annotations

import io
import statistics
import sys
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np

sys.path.append(str(Path(__file__).parent.parent))

from flights import flown_with_noise

from vorlib.aircraft.flight import Flight
from vorlib.debrief.recorded import debrief_recording
from vorlib.debrief.report.seconds_table import seconds_csv
from vorlib.debrief.selection_estimate import estimate_selections
from vorlib.earth.geodesic import Position
from vorlib.paper.debrief import debrief_pdf
from vorlib.stations.archipelago import STATIONS
from vorlib.tracks import read_track
from vorlib.tracks.selections import Selection

HOURS = 4.0
START = datetime(2026, 6, 1, 9, tzinfo=UTC)


def main() -> None:
    """Measure and print."""
    once = flown_with_noise()
    flight = repeated(once.flight, HOURS)
    last = float(once.flight.time_s[-1]) + 1.0
    selections = [
        Selection(number * last + one.time_s, one.station, one.course_deg)
        for number in range(int(HOURS * 3600.0 / last) + 1)
        for one in once.selections
    ]
    text = gpx(flight)
    print(f"{flight.time_s.size:,} points, {len(text) / 1e6:.1f} MB of GPX")
    read = measured("read from GPX", lambda: read_track(io.StringIO(text)))
    analyzed = measured("analyzed", lambda: debrief_recording(flight, selections, start=START))
    print(f"read and analyzed: {read + analyzed:.2f} s, to be at most 1.5 s")
    found = debrief_recording(flight, selections, start=START)
    measured("its sentences", lambda: found.sentences)
    measured(
        "what was selected, estimated", lambda: estimate_selections(flight, [*STATIONS.values()])
    )
    measured("second by second, as a table", lambda: seconds_csv(found))
    measured("the page, as PDF", lambda: debrief_pdf(found))


def measured(what: str, run: Callable[[], object]) -> float:
    """Print and return the median of five runs, in seconds."""
    times = []
    for _ in range(5):
        begin = time.perf_counter()
        run()
        times.append(time.perf_counter() - begin)
    print(f"{what}: {statistics.median(times):.3f} s (least {min(times):.3f})")
    return statistics.median(times)


def repeated(flight: Flight, hours: float) -> Flight:
    """Return a flight flown again and again, for so many hours."""
    count = int(hours * 3600.0)
    index = np.arange(count) % flight.time_s.size
    place = flight.position
    return Flight(
        np.arange(count, dtype=float),
        Position(place.lat_deg[index], place.lon_deg[index], place.altitude_ft[index]),
        flight.true_heading_deg[index],
        flight.true_track_deg[index],
        flight.bank_deg[index],
    )


def gpx(flight: Flight) -> str:
    """Return a flight as a recorder would write it."""
    place = flight.position
    rows = zip(flight.time_s.tolist(), place.lat_deg.tolist(), place.lon_deg.tolist(), strict=True)
    points = "".join(
        f'<trkpt lat="{lat:.6f}" lon="{lon:.6f}"><ele>1066.8</ele>'
        f"<time>{START + timedelta(seconds=s):%Y-%m-%dT%H:%M:%SZ}</time></trkpt>\n"
        for s, lat, lon in rows
    )
    head = '<gpx version="1.1" creator="bench" xmlns="http://www.topografix.com/GPX/1/1">'
    return f"{head}<trk><trkseg>\n{points}</trkseg></trk></gpx>"


if __name__ == "__main__":
    main()
