"""Recorded flights and lists of stations: how long they take to read, against what they may take.

    python tests/bench/tracks.py

Run it on a quiet machine. The hostile files take 600 MB of memory.
"""

import csv
import io
import statistics
import string
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np

from vorlib.aircraft.flight import Aircraft, advance, start
from vorlib.aircraft.wind import Wind
from vorlib.debrief.recorded import debrief_recording
from vorlib.earth.geodesic import Position
from vorlib.io.text import LARGEST_MB, FileError
from vorlib.stations import listed, load_stations
from vorlib.stations.archipelago import STATIONS
from vorlib.tracks import Recording, read_track
from vorlib.tracks.selections import Selection
from vorlib.vor.station import Station

NAV_BASE = Path(__file__).parent.parent / "data" / "faa_nav_base.csv"
FOUR_HOURS_S = 4 * 3600
BEGIN = datetime(2026, 6, 1, 9, 0, tzinfo=UTC)
LETTERS = string.ascii_uppercase
LEG_S = 900  # a heading, and a selection
FIELDS = "<speed>54.0</speed><course>123.4</course><sat>11</sat><hdop>0.9</hdop>"


def seconds(work: Callable[[], object], runs: int = 5) -> float:
    """Return the median time of a call."""
    times = []
    for _ in range(runs):
        begin = time.perf_counter()
        work()
        times.append(time.perf_counter() - begin)
    return statistics.median(times)


def four_hours() -> list[tuple[str, str, str, str]]:
    """Return time, latitude, longitude and meters of each second, as written in a file."""
    aircraft, wind = Aircraft(105.0), Wind(240.0, 20.0)
    state, rng = start(Position(45.8, -30.3, 3500.0), 90.0), np.random.default_rng(7)
    rows = []
    for second in range(FOUR_HOURS_S + 1):
        noise = rng.normal(0.0, 3e-6, 2)
        rows.append(
            (
                f"{BEGIN + timedelta(seconds=second):%Y-%m-%dT%H:%M:%SZ}",
                f"{state.lat_deg + noise[0]:.6f}",
                f"{state.lon_deg + noise[1]:.6f}",
                f"{state.altitude_ft * 0.3048:.1f}",
            )
        )
        turning = second % LEG_S < 30  # at a standard rate: a right angle at each end
        state = advance(state, aircraft, 1.0, 16.0 if turning else 0.0, wind)
    return rows


def gpx(rows: list[tuple[str, str, str, str]], more: str = "") -> bytes:
    """Return points as GPX, with more elements in each."""
    points = "".join(
        f'<trkpt lat="{lat}" lon="{lon}"><ele>{meters}</ele><time>{at}</time>{more}</trkpt>\n'
        for at, lat, lon, meters in rows
    )
    version = "1.0" if more else "1.1"
    return (
        f'<gpx version="{version}" creator="a" xmlns="http://www.topografix.com/GPX/1/1">\n'
        f"<trk><trkseg>\n{points}</trkseg></trk></gpx>\n"
    ).encode()


def table(rows: list[tuple[str, str, str, str]]) -> bytes:
    """Return points as a table."""
    lines = (f"{at},{lat},{lon},{float(m) / 0.3048:.0f}" for at, lat, lon, m in rows)
    return "\n".join(("time,lat_deg,lon_deg,altitude_ft", *lines, "")).encode()


def analyzed(recording: Recording) -> object:
    """Return the debrief of a recording with a selection for each of its legs."""
    some = [(STATIONS["QLN"], 30.0), (STATIONS["PLX"], 180.0), (STATIONS["OBL"], 270.0)]
    selections = [
        Selection(float(at), *some[i % 3]) for i, at in enumerate(range(0, FOUR_HOURS_S, LEG_S))
    ]
    return debrief_recording(recording.flight, selections, start=recording.start)


def tracks() -> None:
    """Print how long a four-hour flight takes to read and to analyze."""
    rows = four_hours()
    plain, full, csv_text = gpx(rows), gpx(rows, FIELDS), table(rows)
    recording = read_track(plain)
    analysis = seconds(lambda: analyzed(recording))
    print(f"a flight of {len(rows):,} points")
    for what, data in (("GPX", plain), ("GPX with more", full), ("CSV", csv_text)):
        reading = seconds(lambda data=data: read_track(data))
        tell(f"{what}: read", reading)
        tell(f"{what}: read and analyzed", reading + analysis, 1.5)
    tell("analyzed", analysis)


def hostile() -> None:
    """Print how long files take that are as large as may be, to be refused."""
    root, point = b'<gpx xmlns="a">', b'<trk><trkseg><trkpt lat="46" lon="-30">'
    print(f"files of {LARGEST_MB} MB that are refused")
    for what, head, unit in (
        ("blank lines and nothing else", b"", b"\n"),
        ("blank lines before the root", b"\n<", b"\n"),
        ("blank lines in the root", root, b"\n"),
        ("blank lines in a comment", root + b"<!--", b"\n"),
        ("blank lines in a tag", root + b"<trk", b"\n"),
        ("blank lines in an elevation", root + point + b"<ele>", b"\n"),
        ("comments", root, b"<!-- -->"),
        ("tags of almost a megabyte", root, b"<a" + b"\n" * 990_000 + b"/>"),
        ("elements", root, b"<a/>"),
        ("elements within a point", root + point, b"<ele>1</ele>"),
        ("namespaces", root, b'<a xmlns="b"/>'),
        ("attributes", root, b'<a a="" b="" c="" d="" e="" f="" g="" h=""/>'),
        ("points", root + point, b'<trkpt lat="46" lon="-30"/>'),
    ):
        data = head + unit * ((LARGEST_MB * 1_000_000 - len(head)) // len(unit))
        tell(what, seconds(lambda data=data: refusal(data), 1), 5.0)


def refusal(data: bytes) -> FileError:
    """Return what is said of a file that is refused."""
    try:
        read_track(data)
    except FileError as error:
        return error
    raise AssertionError("a hostile file was read")


def stations() -> None:
    """Print how long lists of stations take."""
    rng = np.random.default_rng(11)
    many = [
        Station("".join(LETTERS[i // 26**k % 26] for k in range(3)), Position(lat, lon), 0.0, 113.4)
        for i, (lat, lon) in enumerate(
            zip(rng.uniform(-60.0, 70.0, 10_000), rng.uniform(-180.0, 180.0, 10_000), strict=True)
        )
    ]
    world = listed(many, "made up")
    world.nearest(Position(46.0, -30.0))  # its places are put in arrays once
    tell(
        "nearest of 10,000 stations",
        seconds(lambda: world.nearest(Position(46.0, -30.0)), 50),
        0.005,
    )
    with NAV_BASE.open(encoding="utf-8", newline="") as file:
        header, *rows = csv.reader(file)
    out = io.StringIO()
    writer = csv.writer(out, quoting=csv.QUOTE_ALL)
    writer.writerows([header, *(rows[i % len(rows)] for i in range(1700))])
    data = out.getvalue().encode()
    tell("NAV_BASE of 1,700 rows", seconds(lambda: load_stations(io.BytesIO(data))), 0.5)


def tell(what: str, took_s: float, goal_s: float | None = None) -> None:
    """Print a time and what it may be."""
    goal = "" if goal_s is None else f"   (at most {1e3 * goal_s:.0f})"
    print(f"  {what:42}{1e3 * took_s:9.1f} ms{goal}")


if __name__ == "__main__":
    tracks()
    hostile()
    stations()
