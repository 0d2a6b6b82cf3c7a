"""Measure the geometry against pyproj and geographiclib, as ratios in one run.

python tests/bench/geometry.py
"""

import statistics
import subprocess
import sys
import time
from collections.abc import Callable

import numpy as np
import pyproj
from geographiclib.geodesic import Geodesic

import vorlib as v
from vorlib.core.units import METERS_PER_NM

MILLION = 1_000_000
READ_LIMIT, DIRECT_LIMIT = 0.5, 1.5  # times pyproj's inverse, and its direct solution
RUNS = 7


def seconds(work: Callable[[], object], runs: int = RUNS) -> float:
    """Return the median time of *work*."""
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def import_seconds(statement: str) -> float:
    """Return the median processor time a fresh interpreter needs for an import, once compiled."""
    code = f"import time; t = time.process_time(); {statement}; print(time.process_time() - t)"
    runs = [
        float(subprocess.run([sys.executable, "-c", code], capture_output=True, check=True).stdout)
        for _ in range(15)
    ]
    return statistics.median(runs)


def main() -> None:
    """Print the figures."""
    rng = np.random.default_rng(46)
    lat, lon = 46.0 + rng.uniform(-4, 4, MILLION), -30.0 + rng.uniform(-6, 6, MILLION)
    station = v.Station("QLN", v.Position(46.0, -30.0), -9.0, 113.4, "Quillon", "VH")
    places, receiver = v.Position(lat, lon, 9000.0), v.Receiver(40.0)
    start = np.full(MILLION, -30.0), np.full(MILLION, 46.0)
    geod = pyproj.Geod(ellps="WGS84")

    azimuth, distance_nm = rng.uniform(0, 360, MILLION), rng.uniform(0, 300, MILLION)
    meters = distance_nm * METERS_PER_NM

    pyproj_s = seconds(lambda: geod.inv(*start, lon, lat))
    inverse_s = seconds(lambda: v.inverse(46.0, -30.0, lat, lon))
    read_s = seconds(lambda: receiver.read(station, places))
    pyproj_direct_s = seconds(lambda: geod.fwd(lon, lat, azimuth, meters))
    direct_s = seconds(lambda: v.direct(places, azimuth, distance_nm))
    sample = list(zip(lat[:5000], lon[:5000], strict=True))
    loop = seconds(lambda: [Geodesic.WGS84.Inverse(46.0, -30.0, a, o) for a, o in sample], 3)
    loop_s = loop * MILLION / len(sample)
    print(f"a million positions, median of {RUNS} runs")
    for name, ours_s, theirs_s, limit in (
        ("inverse", inverse_s, pyproj_s, READ_LIMIT),
        ("Receiver.read", read_s, pyproj_s, READ_LIMIT),
        ("direct", direct_s, pyproj_direct_s, DIRECT_LIMIT),
    ):
        ratio = f"{ours_s / theirs_s:.2f} x pyproj's {theirs_s:.3f} s"
        print(f"  vorlib {name:15} {ours_s:6.3f} s  {ratio} (limit {limit})")
    print(f"  geographiclib loop     {loop_s:6.1f} s  {loop_s / inverse_s:.0f} x vorlib.inverse")

    here, each = v.Position(46.0, -30.0), range(10_000)
    one_us = seconds(lambda: [v.direct(here, 40.0, 20.0) for _ in each]) / len(each) * 1e6
    print(f"one place: vorlib.direct {one_us:.1f} us")

    print("Receiver.read against size")
    for size in (1_000, 10_000, 100_000, MILLION):
        some = v.Position(lat[:size], lon[:size], 9000.0)
        each_us = seconds(lambda some=some: receiver.read(station, some)) / size * 1e6
        print(f"  {size:9,d} positions    {each_us:6.3f} us each")

    numpy_s, vorlib_s = import_seconds("import numpy"), import_seconds("import vorlib")
    print(f"import numpy {numpy_s * 1e3:.0f} ms, import vorlib {vorlib_s * 1e3:.0f} ms", end="")
    print(f"  {vorlib_s / numpy_s:.2f} x")


if __name__ == "__main__":
    main()
