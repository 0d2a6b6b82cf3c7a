"""Measure the signal: how long its making and its reading take, and the error against the bound.

python tests/bench/demodulation.py
"""

import statistics
import time
from collections.abc import Callable

import numpy as np

from vorlib.core.angles import difference_deg
from vorlib.signal import CompositeSignal, StationKind, measure_radial, radial_bound_deg

RADIAL_DEG = 118.0
LISTENINGS = 400
RUNS = 51


def milliseconds(work: Callable[[], object]) -> tuple[float, float]:
    """Return the median and the greatest time of *work*."""
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        work()
        times.append(1e3 * (time.perf_counter() - start))
    return statistics.median(times), max(times)


def rms_error_deg(kind: StationKind, level_db: float, seconds: float) -> tuple[float, int]:
    """Return the root mean square error of many listenings, and how many gave no radial."""
    signal = CompositeSignal(RADIAL_DEG, kind, level_db, "QLN")
    case = [ord(str(kind)[0]), round(level_db) + 100, round(1000 * seconds)]
    seeds = np.random.SeedSequence(case).generate_state(LISTENINGS)  # other noise in every case
    readings = [measure_radial(signal.samples(seconds, int(seed))) for seed in seeds]
    errors = [
        float(difference_deg(r.radial_deg, RADIAL_DEG))
        for r in readings
        if r.radial_deg is not None
    ]
    return float(np.sqrt(np.mean(np.square(errors)))), LISTENINGS - len(errors)


def main() -> None:
    """Print the figures."""
    signal = CompositeSignal(RADIAL_DEG, carrier_to_noise_db=20.0, ident="QLN")
    samples = signal.samples(1.0)
    for name, work in (
        ("made", lambda: signal.samples(1.0)),
        ("measured", lambda: measure_radial(samples)),
    ):
        median, greatest = milliseconds(work)
        print(f"one second of samples {name:9} median {median:5.2f} ms, most {greatest:5.2f} ms")

    print(f"\nerror of the radial over {LISTENINGS} listenings, and the least possible")
    for kind in StationKind:
        for level_db in (-10.0, 0.0, 10.0, 20.0, 30.0, 40.0):
            for seconds in (0.1, 1.0):
                error, off = rms_error_deg(kind, level_db, seconds)
                bound = radial_bound_deg(level_db, seconds)
                print(
                    f"  {kind!s:12} {level_db:3.0f} dB {seconds:3.1f} s  {error:7.4f} deg  "
                    f"bound {bound:7.4f}  ratio {error / bound:.3f}  flag OFF {off}"
                )


if __name__ == "__main__":
    main()
