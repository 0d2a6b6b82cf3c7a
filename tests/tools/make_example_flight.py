"""Write the example flight as a recorder would, with the instructor's log and what is known of it.

    python tests/tools/make_example_flight.py

All is invented, seeded, and made again the same.
"""

from __future__ import annotations

import json
import math
import re
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import numpy as np

sys.path.append(str(Path(__file__).parent.parent))

from tools.example_pilots import ALTITUDE_FT, LOOKS_PER_S, Whole, fly_all
from tools.example_truth import truth

from vorlib.core.caution import CAUTION
from vorlib.core.units import METERS_PER_FOOT, METERS_PER_NM
from vorlib.earth.geodesic import Position, shifted
from vorlib.io.atomic import write_whole
from vorlib.stations.archipelago import NAME, TODAY

ROOT = Path(__file__).parent.parent.parent
GPX = ROOT / "vorlib" / "data" / "example_flight.gpx"
LOG = ROOT / "vorlib" / "data" / "example_flight_selections.csv"
TRUTH = ROOT / "tests" / "data" / "example_flight_truth.json"

SEED = 1913
BEGIN = datetime(TODAY.year, TODAY.month, TODAY.day, 9, 12, tzinfo=UTC)
CLOCK = "%Y-%m-%dT%H:%M:%SZ"

# The sensor: slow errors that hang together for a minute, a little noise, and a silence.
POSITION_M, ALTITUDE_M, TOGETHER_S, WHITE_M = 2.5, 4.0, 60.0, 0.3
SILENCE = (840, 910)  # seconds of the flight, outbound


def wandering(rng: np.random.Generator, count: int, deviation: float) -> Any:
    """Return an error that changes slowly, one value a second, and a little noise on it."""
    keeps = math.exp(-1.0 / TOGETHER_S)
    error = np.empty(count)
    error[0] = rng.normal(0.0, deviation)
    for i in range(1, count):
        error[i] = keeps * error[i - 1] + rng.normal(0.0, deviation * math.sqrt(1.0 - keeps**2))
    return error + rng.normal(0.0, WHITE_M, count)


def gpx(whole: Whole) -> str:
    """Return what a recorder with a sensor's errors writes of a flight, once a second."""
    rng = np.random.default_rng(SEED)
    place = whole.flight.position
    lat, lon = place.lat_deg[::LOOKS_PER_S], place.lon_deg[::LOOKS_PER_S]
    north, east, up = (
        wandering(rng, lat.size, deviation) for deviation in (POSITION_M, POSITION_M, ALTITUDE_M)
    )
    seen = shifted(Position(lat, lon), east / METERS_PER_NM, north / METERS_PER_NM)
    meters = ALTITUDE_FT * METERS_PER_FOOT + up
    points = [
        f'<trkpt lat="{seen.lat_deg[i]:.6f}" lon="{seen.lon_deg[i]:.6f}">'
        f"<ele>{meters[i]:.1f}</ele><time>{BEGIN + timedelta(seconds=i):{CLOCK}}</time></trkpt>"
        for i in range(lat.size)
        if not SILENCE[0] < i < SILENCE[1]
    ]
    head = (
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<gpx version="1.1" creator="vorlib" xmlns="http://www.topografix.com/GPX/1/1">',
        f"<metadata><desc>Invented, in the {NAME}. {CAUTION}</desc></metadata>",
        "<trk><name>Over Quillon and Pelladine</name><trkseg>",
    )
    return "\n".join((*head, *points, "</trkseg></trk>", "</gpx>", ""))


def log(whole: Whole) -> str:
    """Return what the instructor wrote down: when which station and course were selected."""
    rows, before = ["time,station,course"], None
    for number, leg in enumerate(whole.legs):
        selected = f"{leg.station.ident},{leg.course_deg:03.0f}"
        second = int(whole.flight.time_s[np.argmax(whole.leg == number)])
        if selected != before:
            rows.append(f"{BEGIN + timedelta(seconds=second):%H:%M:%S},{selected}")
        before = selected
    return "\n".join((*rows, ""))


def files() -> dict[Path, str]:
    """Return the text of each file that is made."""
    whole = fly_all()
    made = {
        "note": f"What is known of {GPX.name}, before the sensor's errors.",
        "start": f"{BEGIN:{CLOCK}}",
        "silence_s": SILENCE,
    }
    known = json.dumps(made | truth(whole), indent=1)
    flat = re.sub(r"\[[^\[\]{}]*\]", lambda match: " ".join(match[0].split()), known)
    return {GPX: gpx(whole), LOG: log(whole), TRUTH: flat + "\n"}


if __name__ == "__main__":
    for path, text in files().items():
        print(f"{len(text.encode()) / 1000:6.0f} kB  {write_whole(path, text.encode())}")
