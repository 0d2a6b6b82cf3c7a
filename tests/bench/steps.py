"""What a fresh step of each control, a drag and a frame of play cost in the kernel.

    python tests/bench/steps.py            # every exhibit
    python tests/bench/steps.py homing     # those whose names begin so

Every exhibit is made, and each control with a number is stepped through values it has not had, so
that nothing is remembered; each grip is dragged, and what plays is played at 20 times. All of it is
counted: the new state, the picture and its SVG, the sentence, the controls, and the messages as
signed for the wire. It is processor time, but other work on the machine slows that too: beside each
step a fixed piece of work is timed, and times are given as if it always took as little as it ever
did. Fails when the median or the worst of a row is above its limit.
"""

from __future__ import annotations

import gc
import math
import statistics
import sys
import time
from collections.abc import Callable, Iterator
from functools import partial
from itertools import pairwise
from typing import Any

import comm
import numpy as np
from comm.base_comm import BaseComm
from jupyter_client.session import Session

from vorlib.exhibits import (
    crossing,
    drift,
    fix,
    flight,
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
from vorlib.exhibits.base.clock import TICKS_PER_S
from vorlib.exhibits.base.controls import Number
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.scene import grips

MEDIAN_MS, WORST_MS = 5.0, 16.0  # allowed for a step
STEPS, WARMING_STEPS = 24, 3
REACH, SPEED = 80.0, 20.0  # picture units of a drag; times of a play
GOLDEN = (5.0**0.5 - 1.0) / 2.0  # its multiples fill a range without coming again

EXHIBITS: dict[str, Callable[[], Exhibit]] = {
    "crossing": crossing,
    "drift": lambda: drift(time_s=300.0),
    "fix": fix,
    "fix by three": lambda: fix(third="HTX", off_deg=6.0),
    "fix by dme": lambda: fix(method="dme"),
    "fix by other dme": lambda: fix(method="other dme"),
    "flight by hand": flight,
    "hidden position": hidden_position,
    "homing": homing,
    "homing, later": lambda: homing(time_s=400.0),
    "homing, half a gale": lambda: homing(wind_kt=60.0),
    "indicator": indicator,
    "intercept": intercept,
    "intercept, enlarged": lambda: intercept(both=True, enlarged=True),
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


class Wire(BaseComm):
    """Writes messages as a kernel does, and sends them nowhere."""

    session = Session(key=b"any")

    def publish_msg(
        self,
        msg_type: str,
        data: Any = None,
        metadata: Any = None,
        buffers: Any = None,
        **keys: Any,
    ) -> None:
        """Make the bytes of a message."""
        content = {"comm_id": self.comm_id, "data": data or {}, **keys}
        self.session.serialize(self.session.msg(msg_type, content=content, metadata=metadata))


def values(control: Number) -> Iterator[float]:
    """Yield values over a control's range, each of them new."""
    low, high = control.low, control.high
    for i in range(WARMING_STEPS + STEPS):
        yield low + (high - low) * ((0.37 + i * GOLDEN) % 1.0)


def drags(exhibit: Exhibit, grab: str) -> Iterator[Callable[[], Any]]:
    """Yield drags round the place of the ring, which also move what is elsewhere."""
    x, y = grips.RING_CENTER
    places = [
        (x + REACH * math.sin(i / 4.0), y - REACH * math.cos(i / 4.0))
        for i in range(WARMING_STEPS + STEPS + 1)
    ]
    for start, place in pairwise(places):
        yield partial(exhibit.drag, grab, start, place)


def rows(exhibit: Exhibit) -> dict[str, list[Callable[[], Any]]]:
    """Return what to do to an exhibit, by what is moved."""
    found: dict[str, list[Callable[[], Any]]] = {}
    for control in exhibit.controls:
        if isinstance(control, Number):
            field = control.field
            found[field] = [partial(exhibit.set, **{field: v}) for v in values(control)]
    for grab in exhibit.grips:
        found[f"drag {grab}"] = list(drags(exhibit, grab))
    if exhibit.transport is not None:
        frame = partial(exhibit.transport.tick, SPEED / TICKS_PER_S)
        found["play"] = [frame] * (WARMING_STEPS + STEPS)
    return found


def work() -> None:
    """Do a fixed piece of work, of the same kind as steps are."""
    angles = np.linspace(0.0, 6.0, 48)
    for i in range(40):
        angles = np.hypot(np.cos(angles), 0.5) + i
        ".".join(f"{angle:.1f}" for angle in angles.tolist()[:12])


def taken_ms(step: Callable[[], Any]) -> float:
    """Return the processor time that a step takes."""
    begin_s = time.process_time()
    step()
    return 1e3 * (time.process_time() - begin_s)


class Quiet:
    """How long steps take on a machine that does nothing else."""

    def __init__(self) -> None:
        self._least_ms = min(taken_ms(work) for _ in range(400))

    def cost_ms(self, steps: list[Callable[[], Any]]) -> list[float]:
        """Return what steps cost, the longest last."""
        times, works = [], []
        for step in steps:
            works.append(taken_ms(work))
            times.append(taken_ms(step))
        self._least_ms = min(self._least_ms, *works)
        slowed = statistics.median(works) / self._least_ms
        return [ms / slowed for ms in sorted(times[WARMING_STEPS:])]


def main(begins: str) -> int:
    """Print a row for each thing moved; return 1 if any is too slow."""
    comm.create_comm = Wire
    slow, quiet = 0, Quiet()
    print(f"{'exhibit':22}{'moved':28}{'median ms':>10}{'worst ms':>10}")
    for name, make in EXHIBITS.items():
        if not name.startswith(begins):
            continue
        for moved in rows(make()):
            exhibit = make()
            gc.collect()
            ms = quiet.cost_ms(rows(exhibit)[moved])
            median, worst = statistics.median(ms), ms[-1]
            too_slow = median > MEDIAN_MS or worst > WORST_MS
            slow += too_slow
            mark = "  TOO SLOW" if too_slow else ""
            print(f"{name:22}{moved:28}{median:10.2f}{worst:10.2f}{mark}", flush=True)
    print(f"{slow} too slow: the limits are {MEDIAN_MS:g} ms median, {WORST_MS:g} ms worst")
    return int(slow > 0)


if __name__ == "__main__":
    sys.exit(main(" ".join(sys.argv[1:])))
