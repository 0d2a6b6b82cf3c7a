"""Every figure that is promised, with its limit and how to measure it.

A measure returns the figure, and where the work can grow also the seconds for several sizes, from
which follows how it grows: 1 is in proportion, 2 with the square.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple

sys.path.append(str(Path(__file__).parent))
sys.path.append(str(Path(__file__).parents[1]))

import class_results
import fixing
import geometry
import numpy as np
import practice
import pyproj
import steps
import tracks

import vorlib as v
from vorlib.aircraft.flight import Aircraft, start
from vorlib.aircraft.wind import Wind
from vorlib.core.units import METERS_PER_NM
from vorlib.paper.worksheet import Worksheet
from vorlib.paper.worksheet_files import save_worksheet
from vorlib.practice import Record, all_kinds, draw
from vorlib.practice.classroom.folder import read_class
from vorlib.practice.classroom.results import ClassResults
from vorlib.practice.learning.topic import lessons_with_questions
from vorlib.procedures.flying import fly
from vorlib.procedures.pilots import Tracking
from vorlib.stations import listed
from vorlib.stations.archipelago import STATIONS
from vorlib.tracks import read_track
from vorlib.views.classroom.table import class_table
from vorlib.views.drawing.svg import to_svg

CENTER = v.Position(46.0, -30.0)


def seconds(work: Callable[[], object], runs: int = 5) -> float:
    """Return the median processor time of a work: what else the machine does matters little."""
    times = []
    for _ in range(runs):
        begun = time.process_time()
        work()
        times.append(time.process_time() - begun)
    return statistics.median(times)


class Measured(NamedTuple):
    """A figure, and the seconds by size where it grows."""

    value: float
    by_size: Mapping[float, float] = MappingProxyType({})

    @property
    def exponent(self) -> float | None:
        """Slope of the seconds over the size, both as logarithms; None for one size."""
        if len(self.by_size) < 2:
            return None
        sizes, times = zip(*self.by_size.items(), strict=True)
        return float(np.polyfit(np.log(sizes), np.log(times), 1)[0])


@dataclass(frozen=True)
class Figure:
    """A promise: what, the most it may be and its unit, and how it is measured."""

    what: str
    limit: float
    unit: str
    measure: Callable[[], Measured]


def grown(work: Callable[[float], object], sizes: list[float], runs: int = 3) -> dict[float, float]:
    """Return the median seconds of a work for each size."""
    return {size: seconds(lambda size=size: work(size), runs) for size in sizes}


def imported() -> Measured:
    """Return how many times the import of numpy that of vorlib takes."""
    numpy_s = geometry.import_seconds("import numpy")
    return Measured(geometry.import_seconds("import vorlib") / numpy_s)


def _million() -> tuple[np.ndarray, np.ndarray]:
    rng = np.random.default_rng(46)
    count = geometry.MILLION
    return 46.0 + rng.uniform(-4, 4, count), -30.0 + rng.uniform(-6, 6, count)


def readings() -> Measured:
    """Return a million readings as times pyproj's inverse, measured in turn."""
    lat, lon = _million()
    geod, station = pyproj.Geod(ellps="WGS84"), v.Station("QLN", CENTER, -9.0, 113.4, service="VH")
    begin, receiver = (np.full(len(lat), -30.0), np.full(len(lat), 46.0)), v.Receiver(40.0)

    def read(size: float) -> None:
        receiver.read(station, v.Position(lat[: int(size)], lon[: int(size)], 9000.0))

    ratios = [
        seconds(lambda: read(len(lat)), 1) / seconds(lambda: geod.inv(*begin, lon, lat), 1)
        for _ in range(5)
    ]
    return Measured(statistics.median(ratios), grown(read, [1e4, 1e5, 1e6]))


def places() -> Measured:
    """Return a million direct geodesics as times pyproj's, measured in turn."""
    lat, lon = _million()
    rng, geod = np.random.default_rng(47), pyproj.Geod(ellps="WGS84")
    azimuth, distance = rng.uniform(0, 360, len(lat)), rng.uniform(0, 300, len(lat))
    meters = distance * METERS_PER_NM

    def go(size: float) -> None:
        some = slice(int(size))
        v.direct(v.Position(lat[some], lon[some]), azimuth[some], distance[some])

    ratios = [
        seconds(lambda: go(len(lat)), 1) / seconds(lambda: geod.fwd(lon, lat, azimuth, meters), 1)
        for _ in range(5)
    ]
    return Measured(statistics.median(ratios), grown(go, [1e4, 1e5, 1e6]))


def hour_flown() -> Measured:
    """Return the seconds for an hour at ten looks a second by a pilot who answers each of them."""
    station, tracking = STATIONS["QLN"], Tracking()
    state = start(station.position_on(220.0, 35.0, 3500.0), 40.0 + station.declination_deg)

    def flown(hours: float) -> None:
        fly(
            lambda panel: tracking(panel),  # says of no look that it changes nothing
            *(Aircraft(), state, station, 40.0, 3600.0 * hours),
            wind=Wind(300.0, 15.0),
        )

    times = grown(flown, [0.5, 1.0, 2.0])
    return Measured(times[1.0], times)


def _two_radials() -> list[tuple[v.Station, float]]:
    stations = STATIONS["QLN"], STATIONS["PLX"]
    return [(station, station.radial_deg(fixing.THERE)) for station in stations]


def one_fix() -> Measured:
    """Return the milliseconds of a fix by two radials."""
    lines = [
        (STATIONS[ident], STATIONS[ident].radial_deg(fixing.THERE)) for ident in ("QLN", "PLX")
    ]
    return Measured(1e3 * seconds(lambda: v.fix_from_radials(lines), 200))


def many_fixes() -> Measured:
    """Return the seconds of a million fixes with errors."""
    lines = [
        (STATIONS[ident], STATIONS[ident].radial_deg(fixing.THERE)) for ident in ("QLN", "PLX")
    ]
    times = grown(lambda size: fixing.sample_fixes(lines, 2.0, int(size)), [1e4, 1e5, 1e6])
    return Measured(times[1e6], times)


def exhibit_steps() -> Measured:
    """Return the greatest median of milliseconds that any control of any exhibit takes."""
    steps.comm.create_comm = steps.Wire
    quiet, medians = steps.Quiet(), []
    for make in steps.EXHIBITS.values():
        for moved in steps.rows(make()):
            medians.append(statistics.median(quiet.cost_ms(steps.rows(make())[moved])))
    return Measured(max(medians))


def flight_debriefed() -> Measured:
    """Return the seconds to read and analyze four hours at a point a second."""
    rows = tracks.four_hours()

    def debriefed(hours: float) -> None:
        tracks.analyzed(read_track(tracks.gpx(rows[: int(3600 * hours)])))

    times = grown(debriefed, [1.0, 2.0, 4.0])
    return Measured(times[4.0], times)


def nearest_stations() -> Measured:
    """Return the milliseconds to find the nearest of ten thousand stations."""
    rng = np.random.default_rng(11)
    latitudes, longitudes = rng.uniform(-60, 70, 10_000), rng.uniform(-180, 180, 10_000)
    letters = tracks.LETTERS
    stations = [
        v.Station("".join(letters[i // 26**k % 26] for k in range(3)), v.Position(a, o), 0.0, 113.4)
        for i, (a, o) in enumerate(zip(latitudes, longitudes, strict=True))
    ]
    worlds = {float(size): listed(stations[:size], "made up") for size in (1000, 10_000)}
    times = grown(lambda size: worlds[size].nearest(CENTER), list(worlds), 50)
    return Measured(1e3 * times[1e4], times)


def questions() -> Measured:
    """Return the 95th percentile of milliseconds to draw a question with its pictures."""
    drawn = (practice.drawn, list(all_kinds()), range(5))
    times = [
        practice.milliseconds(lambda k=k, s=s: drawn[0](k, s)) for k in drawn[1] for s in drawn[2]
    ]
    return Measured(statistics.quantiles(times, n=20)[-1])


def markings() -> Measured:
    """Return the 95th percentile of milliseconds to mark an answer."""
    times = [
        ms for kind in all_kinds() for seed in range(3) for ms in practice.marked(draw(kind, seed))
    ]
    return Measured(statistics.quantiles(times, n=20)[-1])


def record_opened() -> Measured:
    """Return the milliseconds to open the record of a hundred thousand answers."""
    with tempfile.TemporaryDirectory() as folder:
        practice.filled(Record("Wenna", folder))
        return Measured(1e3 * seconds(lambda: Record("Wenna", folder).summary(), 9))


def sheet_printed() -> Measured:
    """Return the seconds of the slowest lesson's sheet of twenty questions with its key."""
    with tempfile.TemporaryDirectory() as folder:
        paths = Path(folder, "sheet.pdf"), Path(folder, "key.pdf")
        return Measured(
            max(
                seconds(lambda topic=topic: save_worksheet(Worksheet(topic, 20, 7), *paths), 1)
                for topic in lessons_with_questions()
            )
        )


def class_read() -> Measured:
    """Return the seconds until the table of a class of thirty is there."""
    with tempfile.TemporaryDirectory() as folder:
        class_results.write_class(Path(folder))

        def shown() -> None:
            to_svg(class_table(ClassResults(read_class(folder))))

        return Measured(seconds(shown, 3))


def hostile_file() -> Measured:
    """Return the seconds until the largest file of nothing but points without time is refused."""
    head, unit = b'<gpx xmlns="a"><trk><trkseg>', b'<trkpt lat="46" lon="-30"/>'
    times = {}
    for share in (0.25, 0.5, 1.0):
        size = int(share * tracks.LARGEST_MB * 1_000_000)
        data = head + unit * ((size - len(head)) // len(unit))
        times[share] = seconds(lambda data=data: tracks.refusal(data), 1)
    return Measured(times[1.0], times)


FIGURES = (
    Figure("import of vorlib, of numpy's", 1.5, "x", imported),
    Figure("a million readings, of pyproj's inverse", geometry.READ_LIMIT, "x", readings),
    Figure("a million direct geodesics, of pyproj's", geometry.DIRECT_LIMIT, "x", places),
    Figure("an hour flown with the receiver in the loop", 1.0, "s", hour_flown),
    Figure("a fix by two radials", 2.0, "ms", one_fix),
    Figure("a million fixes with errors", 2.0, "s", many_fixes),
    Figure("a step of an exhibit, its slowest control", steps.MEDIAN_MS, "ms", exhibit_steps),
    Figure("four hours of track read and analyzed", 1.5, "s", flight_debriefed),
    Figure("the largest hostile track refused", 5.0, "s", hostile_file),
    Figure("the nearest of 10,000 stations", 5.0, "ms", nearest_stations),
    Figure("a question with its pictures, 95 in 100", 30.0, "ms", questions),
    Figure("an answer marked, 95 in 100", 5.0, "ms", markings),
    Figure("a record of 100,000 answers opened", 100.0, "ms", record_opened),
    Figure("a sheet of 20 questions with key, PDF", 10.0, "s", sheet_printed),
    Figure("the results of a class of 30", class_results.GOAL_S, "s", class_read),
)
