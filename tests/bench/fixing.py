"""Fixes: a million with random errors, and one alone, against what they may take.

Run on a quiet machine: python tests/bench/fixing.py
"""

import statistics
import time
from collections.abc import Callable

from vorlib.earth.geodesic import Position
from vorlib.procedures.dme_error_area import dme_area
from vorlib.procedures.error_area import sample_fixes
from vorlib.procedures.fixing import fix_from_radials
from vorlib.stations.archipelago import STATIONS

THERE = Position(45.87, -30.36, 6500.0)
MILLION = 1_000_000


def seconds(work: Callable[[], object], runs: int) -> float:
    """Return the median time of a call."""
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def main() -> None:
    """Measure and print."""
    quillon, pelladine = STATIONS["QLN"], STATIONS["PLX"]
    lines = [(s, float(s.radial_deg(THERE))) for s in (quillon, pelladine)]
    one = seconds(lambda: fix_from_radials(lines), 200)
    area = seconds(lambda: dme_area(quillon, pelladine, THERE, 4.0, 0.5), 50)
    many = seconds(lambda: sample_fixes(lines, 2.0, MILLION), 3)
    print(f"a fix by two radials                        {1e3 * one:8.2f} ms   (goal 2)")
    print(f"the area of a radial and another's DME      {1e3 * area:8.2f} ms")
    print(f"a million fixes by two radials              {many:8.2f} s    (goal 2)")


if __name__ == "__main__":
    main()
