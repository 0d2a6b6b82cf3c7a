"""What a fresh step of each control costs in the kernel, from the new value to the whole answer.

    python tests/bench/steps.py            # every exhibit
    python tests/bench/steps.py homing     # those whose names begin so

Every exhibit is made, and each control with a number is stepped through values it has not had, so
that nothing is remembered. All of a step is counted: the new state, the picture and its SVG, the
sentence and the controls. It is processor time, so other work on the machine matters little. Fails
when a control's median or worst step is above its limit.
"""

from __future__ import annotations

import gc
import statistics
import sys
import time
from collections.abc import Callable, Iterator

from vorlib.exhibits import (
    crossing,
    fix,
    hidden_position,
    homing,
    indicator,
    intercept,
    radials,
    receiver_check,
    sensing,
    setup,
    signal,
    timing,
    tracking,
)
from vorlib.exhibits.base.controls import Number
from vorlib.exhibits.base.exhibit import Exhibit

MEDIAN_MS, WORST_MS = 5.0, 16.0  # allowed for a step
STEPS, WARMING_STEPS = 24, 3
GOLDEN = (5.0**0.5 - 1.0) / 2.0  # its multiples fill a range without coming again

EXHIBITS: dict[str, Callable[[], Exhibit]] = {
    "crossing": crossing,
    "fix": fix,
    "fix by dme": lambda: fix(method="dme"),
    "fix by other dme": lambda: fix(method="other dme"),
    "hidden position": hidden_position,
    "homing": homing,
    "homing, later": lambda: homing(time_s=400.0),
    "homing, half a gale": lambda: homing(wind_kt=60.0),
    "indicator": indicator,
    "intercept": intercept,
    "intercept, windy": lambda: intercept(wind_kt=25.0, time_s=300.0),
    "radials": radials,
    "receiver check": receiver_check,
    "sensing": sensing,
    "sensing, later": lambda: sensing(time_s=200.0),
    "setup": setup,
    "signal": signal,
    "timing": timing,
    "timing, windy": lambda: timing(wind_kt=20.0),
    "timing, isosceles": lambda: timing(rule="isosceles", angle_deg=30.0),
    "tracking": tracking,
    "tracking, bracketing": lambda: tracking(pilot="the bracketing pilot", time_s=300.0),
    "tracking, chasing": lambda: tracking(pilot="the needle-chasing pilot", time_s=300.0),
}


def values(control: Number) -> Iterator[float]:
    """Yield values over a control's range, each of them new."""
    low, high = control.low, control.high
    for i in range(WARMING_STEPS + STEPS):
        yield low + (high - low) * ((0.37 + i * GOLDEN) % 1.0)


def step_ms(exhibit: Exhibit, control: Number) -> list[float]:
    """Return what steps of a control cost, the longest last."""
    times = []
    for value in values(control):
        begin_s = time.process_time()
        exhibit.set(**{control.field: value})
        times.append(1e3 * (time.process_time() - begin_s))
    return sorted(times[WARMING_STEPS:])


def main(begins: str) -> int:
    """Print a row for each control; return 1 if any is too slow."""
    slow = 0
    print(f"{'exhibit':22}{'control':22}{'median ms':>10}{'worst ms':>10}")
    for name, make in EXHIBITS.items():
        if not name.startswith(begins):
            continue
        for field in [c.field for c in make().controls if isinstance(c, Number)]:
            exhibit = make()
            (control,) = (c for c in exhibit.controls if isinstance(c, Number) and c.field == field)
            gc.collect()
            ms = step_ms(exhibit, control)
            median, worst = statistics.median(ms), ms[-1]
            too_slow = median > MEDIAN_MS or worst > WORST_MS
            slow += too_slow
            mark = "  TOO SLOW" if too_slow else ""
            print(f"{name:22}{field:22}{median:10.2f}{worst:10.2f}{mark}", flush=True)
    print(f"{slow} too slow: the limits are {MEDIAN_MS:g} ms median, {WORST_MS:g} ms worst")
    return int(slow > 0)


if __name__ == "__main__":
    sys.exit(main(" ".join(sys.argv[1:])))
